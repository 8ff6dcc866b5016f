//! `shelf`: buy it, offer less, leave it, or look again.

use std::io::Write;

use anyhow::{Result, anyhow};

use super::args::ShelfArgs;
use super::outcome::{Outcome, expert};
use super::told::{Told, read_sighting};
use crate::buy::{Currency, Money, PriceModel, condition, shelf};
use crate::piece::notation::printable;
use crate::piece::sighting_file::Sighting;
use crate::registry::calendar::Date;
use crate::report;
use crate::rulebase::ids::SettingId;
use crate::setup::Setup;
use crate::setup::settings;

/// Weighs the piece against what is asked, and prints.
pub(super) fn run(setup: &Setup, args: &ShelfArgs, out: &mut dyn Write) -> Result<Outcome> {
    let expert = expert(setup)?;
    let Some(guesses) = &expert.base.prices else {
        return Err(anyhow!(
            "these rules have no market.ron: without it nothing can be priced"
        ));
    };
    let currency = match &args.currency {
        Some(code) => Some(Currency::new(code).ok_or_else(|| {
            let code = printable(code);
            anyhow!("--currency '{code}': write the three letters of ISO 4217, such as USD or GBP")
        })?),
        None => None,
    };
    let terms = settings::terms(guesses, args.settings.as_deref(), currency)?;
    let asking = Money::read(&args.asking, terms.currency).map_err(|e| anyhow!("--asking: {e}"))?;
    let sighting = match &args.file {
        Some(path) => read_sighting(&expert, path)?,
        None => Sighting::default(),
    };
    let told = Told::new(&expert, &sighting, &args.seen, SettingId::default())?;
    let saw = told.taken.evidence.observations();
    let listed = args.condition.as_deref().unwrap_or_default();
    let defects = condition::read(&expert.base, guesses, listed, saw)
        .map_err(|e| anyhow!("--condition: {e}"))?;
    let piece = told.piece.with_all(defects);
    // No sales are handed in yet, so that today's date plays no part.
    let today = Date::last_of(setup.present().0);
    let model = PriceModel::new(guesses, &terms, &[], today);
    let Some(answer) = shelf(&piece, guesses, &terms, &model, asking) else {
        return Err(anyhow!("the rules name no channel to sell in"));
    };
    if args.json {
        writeln!(out, "{}", report::shelf::json(&piece, &answer))?;
        return Ok(Outcome::Yes);
    }
    for line in told.lines() {
        writeln!(out, "{line}")?;
    }
    write!(out, "{}", report::shelf::text(&piece, &answer))?;
    Ok(Outcome::Yes)
}
