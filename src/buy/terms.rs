//! Where pieces are sold and what that costs: the user's own terms, or the usual ones.

use super::money::Currency;
use crate::rulebase::prices::{ChannelGuess, PriceGuesses};

/// One place to sell in. Amounts in major units of the currency of the terms.
#[derive(Clone, Debug, PartialEq)]
pub struct Channel {
    pub id: String,
    pub name: String,
    /// Which of the guesses' channels it is like.
    pub like: usize,
    /// Share of the selling price that the place keeps.
    pub commission: f64,
    /// Fixed fee a sale.
    pub fee: f64,
    /// Postage that the seller pays.
    pub postage: f64,
    pub packing: f64,
    /// Rent a week of the room one piece takes.
    pub rent: f64,
    /// Share of the selling price that must be left when all is paid.
    pub margin: f64,
}

/// Where and in what currency somebody trades.
#[derive(Clone, Debug, PartialEq)]
pub struct Terms {
    pub currency: Currency,
    /// Units of the currency that one unit of the guesses' currency is.
    pub rate: f64,
    /// False when nobody knows the rate, and the guesses are taken one for one.
    pub rate_known: bool,
    /// What an hour of one's own time is worth.
    pub hour: f64,
    pub channels: Vec<Channel>,
}

impl Terms {
    /// The guesses' own channels, in this currency or the guesses' own.
    pub fn usual(guesses: &PriceGuesses, currency: Option<Currency>) -> Terms {
        let home = Currency::new(&guesses.currency);
        let currency = currency.or(home).unwrap_or(Currency::DOLLAR);
        let rate = rate(guesses, currency);
        let factor = rate.unwrap_or(1.0);
        let channel = |(like, g): (usize, &ChannelGuess)| Channel {
            id: g.factor.id.clone(),
            name: g.factor.name.clone(),
            like,
            commission: g.commission,
            fee: g.fee * factor,
            postage: g.postage * factor,
            packing: g.packing * factor,
            rent: g.rent * factor,
            margin: g.margin,
        };
        Terms {
            currency,
            rate: factor,
            rate_known: rate.is_some(),
            hour: guesses.hour * factor,
            channels: guesses.channels.iter().enumerate().map(channel).collect(),
        }
    }
}

/// Units of a currency that one unit of the guesses' is; `None` where no rate is known.
pub fn rate(guesses: &PriceGuesses, currency: Currency) -> Option<f64> {
    if guesses.currency == currency.code() {
        return Some(1.0);
    }
    let found = guesses.rates.iter().find(|(c, _)| c == currency.code());
    found.map(|(_, rate)| *rate)
}
