//! The user's own terms of selling as a text: read, and written with every line explained.

use std::fmt::Write;

use anyhow::{Result, anyhow, bail};
use serde::Deserialize;

use super::Currency;
use super::terms::{Channel, Terms, rate};
use crate::piece::notation::printable;
use crate::rulebase::prices::PriceGuesses;
use crate::rulebase::source::{FORMAT, options};

/// What a settings file is called.
pub const FILE: &str = "settings.ron";

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Settings")]
struct Written {
    format: u32,
    currency: String,
    rate: Option<f64>,
    hour: Option<f64>,
    #[serde(default)]
    channels: Vec<WrittenChannel>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Channel")]
struct WrittenChannel {
    id: String,
    name: Option<String>,
    like: String,
    #[serde(default)]
    commission: f64,
    #[serde(default)]
    fee: f64,
    #[serde(default)]
    postage: f64,
    #[serde(default)]
    packing: f64,
    #[serde(default)]
    rent: f64,
    #[serde(default)]
    margin: f64,
}

/// The terms of a settings file.
///
/// # Errors
/// One sentence, with line and column where the text can't be read.
pub fn read(guesses: &PriceGuesses, text: &str) -> Result<Terms> {
    let written: Written = options()
        .from_str(text)
        .map_err(|e| anyhow!("{}:{}: {}", e.span.start.line, e.span.start.col, e.code))?;
    if written.format != FORMAT {
        bail!(
            "format {}; this program reads format {FORMAT}",
            written.format
        );
    }
    let Some(currency) = Currency::new(&written.currency) else {
        let shown = printable(&written.currency);
        bail!("'{shown}' is no currency: write three letters, such as USD");
    };
    if let Some(rate) = written.rate.filter(|r| !(r.is_finite() && *r > 0.0)) {
        bail!("rate {rate} is not above 0");
    }
    let mut terms = Terms::usual(guesses, Some(currency));
    if let Some(own) = written.rate {
        let per_guessed = own / terms.rate;
        scale(&mut terms, per_guessed);
        terms.rate_known = true;
    }
    if let Some(hour) = written.hour {
        terms.hour = amount("hour", hour)?;
    }
    if !written.channels.is_empty() {
        let channels = written.channels.into_iter().map(|c| channel(guesses, c));
        terms.channels = channels.collect::<Result<_>>()?;
    }
    for (i, channel) in terms.channels.iter().enumerate() {
        if terms.channels[..i].iter().any(|c| c.id == channel.id) {
            bail!("channel '{}' stands there twice", printable(&channel.id));
        }
    }
    Ok(terms)
}

fn channel(guesses: &PriceGuesses, c: WrittenChannel) -> Result<Channel> {
    let known = guesses.channels.iter().map(|g| g.factor.id.as_str());
    let Some(like) = guesses.channel(&c.like) else {
        let known: Vec<&str> = known.collect();
        let shown = printable(&c.like);
        bail!("channel like '{shown}': use {}", known.join(", "));
    };
    if c.id.trim().is_empty() || c.id.chars().any(char::is_control) {
        bail!("a channel needs an id");
    }
    let share = |what: &str, x: f64| match (0.0..0.95).contains(&x) {
        true => Ok(x),
        false => Err(anyhow!("{what} {x} is no share: write 0.14 for 14 in 100")),
    };
    let name = c.name.filter(|n| !n.trim().is_empty());
    Ok(Channel {
        name: printable(&name.unwrap_or_else(|| c.id.clone())),
        like,
        commission: share("commission", c.commission)?,
        fee: amount("fee", c.fee)?,
        postage: amount("postage", c.postage)?,
        packing: amount("packing", c.packing)?,
        rent: amount("rent", c.rent)?,
        margin: share("margin", c.margin)?,
        id: c.id,
    })
}

fn amount(what: &str, x: f64) -> Result<f64> {
    if (0.0..=1e9).contains(&x) {
        return Ok(x);
    }
    bail!("{what} {x} is not an amount from 0 up")
}

/// All amounts times a factor.
fn scale(terms: &mut Terms, factor: f64) {
    terms.rate *= factor;
    terms.hour *= factor;
    for c in &mut terms.channels {
        for amount in [&mut c.fee, &mut c.postage, &mut c.packing, &mut c.rent] {
            *amount *= factor;
        }
    }
}

/// The same terms in another currency.
pub fn converted(guesses: &PriceGuesses, mut terms: Terms, to: Currency) -> Terms {
    if terms.currency != to {
        let known = rate(guesses, to);
        let factor = known.map_or(1.0, |rate| rate / terms.rate);
        scale(&mut terms, factor);
        terms.rate_known = known.is_some();
        terms.currency = to;
    }
    terms
}

/// A settings file with the usual terms in it and every line explained,
/// to be saved at `place`.
pub fn template(guesses: &PriceGuesses, place: &str) -> String {
    let mut out = String::new();
    let home = &guesses.currency;
    let _ = write!(
        out,
        "// Settings of printseam: what you trade in, and where you sell. Save as {place}\n\
         // All figures are starting guesses (common practice, no source): put in your own.\n\
         (\n    format: 1,\n\
         \x20   // ISO 4217 code; all amounts below are in it.\n    currency: \"{home}\",\n\
         \x20   // How many of your currency one {home} is; only for another currency than {home}.\n    // rate: 0.78,\n\
         \x20   // What an hour of your time is worth: what looks are weighed against.\n    hour: {},\n\
         \x20   // Where you sell. Ids are yours; `like` says which starting guesses a place begins with: {}.\n\
         \x20   // commission: share of the selling price the place keeps (0.14 = 14 in 100). fee: fixed, a sale.\n\
         \x20   // postage and packing: what you pay yourself. rent: a week, of the room one piece takes.\n\
         \x20   // margin: share of the selling price that must be left when all is paid.\n    channels: [\n",
        guesses.hour,
        guesses
            .channels
            .iter()
            .map(|c| c.factor.id.as_str())
            .collect::<Vec<_>>()
            .join(", "),
    );
    for c in &guesses.channels {
        let (id, name) = (&c.factor.id, &c.factor.name);
        let _ = writeln!(
            out,
            "        (id: \"{id}\", name: \"{name}\", like: \"{id}\", commission: {}, fee: {}, postage: {}, packing: {}, rent: {}, margin: {}),",
            c.commission, c.fee, c.postage, c.packing, c.rent, c.margin
        );
    }
    out += "    ],\n)\n";
    out
}
