//! What a command needs to weigh a piece against a price: the user's terms, and prices learnt from
//! the sales of the stock book. Made once, however many pieces are weighed.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use anyhow::{Result, anyhow};
use clap::Args;

use crate::buy::{Currency, Gist, Money, PriceModel, ShelfAnswer, Terms, condition, gist, shelf};
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::piece::notation::printable;
use crate::registry::calendar::Date;
use crate::rulebase::prices::PriceGuesses;
use crate::setup::{settings, surroundings};
use crate::stock::entry::Entry;
use crate::stock::sales::own_sales;

/// Terms of selling, and the book whose sales teach prices.
#[derive(Debug, Default, Args)]
pub(super) struct PricesArgs {
    /// ISO 4217 code [default: that of the settings, else of the starting guesses]
    #[arg(long, value_name = "CODE")]
    pub currency: Option<String>,
    /// A settings file [default: settings.ron in the configuration folder]
    #[arg(long, value_name = "FILE")]
    pub settings: Option<PathBuf>,
    /// The stock book whose sales teach prices [default: stock.db in the program's folder of data]
    #[cfg(feature = "stock")]
    #[arg(
        long,
        value_name = "FILE",
        env = "PRINTSEAM_STOCK",
        hide_env_values = true
    )]
    pub stock: Option<PathBuf>,
    /// Take this day for today
    #[cfg(feature = "stock")]
    #[arg(long, value_name = "DATE", env = "PRINTSEAM_TODAY", hide = true, value_parser = super::stock::args::day)]
    pub today: Option<Date>,
}

/// Where the rules name none.
const NO_CHANNEL: &str = "the rules name no channel to sell in";

/// Everything a price is weighed by.
pub(super) struct Prices<'e> {
    guesses: &'e PriceGuesses,
    pub terms: Terms,
    model: PriceModel,
}

impl<'e> Prices<'e> {
    /// As the arguments say; without a book there are no sales.
    pub(super) fn open(expert: &'e Arc<Expert>, args: &PricesArgs) -> Result<Prices<'e>> {
        let (entries, today) = book(args)?;
        let code = args.currency.as_deref();
        let currency = code.map(currency).transpose()?;
        Prices::taught(
            expert,
            (args.settings.as_deref(), currency),
            &entries,
            today,
        )
    }

    /// By these terms (settings file, currency), taught by the sales of these entries.
    pub(super) fn taught(
        expert: &'e Arc<Expert>,
        (file, currency): (Option<&Path>, Option<Currency>),
        entries: &[Entry],
        today: Date,
    ) -> Result<Prices<'e>> {
        let Some(guesses) = &expert.base.prices else {
            return Err(anyhow!(
                "these rules have no market.ron: without it nothing can be priced"
            ));
        };
        let terms = settings::terms(guesses, file, currency)?;
        if terms.channels.is_empty() {
            return Err(anyhow!(NO_CHANNEL));
        }
        let own = own_sales(expert, guesses, &terms, entries);
        let mut model = PriceModel::new(guesses, &terms, &own.sales, today);
        model.left_out += own.left_out;
        Ok(Prices {
            guesses,
            terms,
            model,
        })
    }

    /// A piece in this condition against what is asked.
    ///
    /// # Errors
    /// A word of the condition that is no defect.
    pub(super) fn weigh(
        &self,
        piece: &Piece,
        listed: &str,
        asking: Money,
    ) -> Result<(Piece, ShelfAnswer), String> {
        let piece = self.in_condition(piece, listed)?;
        let answer = shelf(&piece, self.guesses, &self.terms, &self.model, asking);
        let answer = answer.ok_or(NO_CHANNEL)?;
        Ok((piece, answer))
    }

    /// The same advice alone, for many pieces.
    ///
    /// # Errors
    /// A word of the condition that is no defect.
    pub(super) fn gist(&self, piece: &Piece, listed: &str, asking: Money) -> Result<Gist, String> {
        let piece = self.in_condition(piece, listed)?;
        let gist = gist(&piece, self.guesses, &self.terms, &self.model, asking);
        gist.ok_or_else(|| NO_CHANNEL.to_owned())
    }

    fn in_condition(&self, piece: &Piece, listed: &str) -> Result<Piece, String> {
        let saw = piece.evidence().observations();
        let base = &piece.expert().base;
        let defects =
            condition::read(base, self.guesses, listed, saw).map_err(|e| e.to_string())?;
        Ok(piece.with_all(defects))
    }
}

fn currency(code: &str) -> Result<Currency> {
    Currency::new(code).ok_or_else(|| {
        let code = printable(code);
        anyhow!("--currency '{code}': write the three letters of ISO 4217, such as USD or GBP")
    })
}

/// What the book holds, and the day. A book that is not there yet has no sales.
#[cfg(feature = "stock")]
fn book(args: &PricesArgs) -> Result<(Vec<Entry>, Date)> {
    use crate::stock::sqlite::Sqlite;
    use crate::stock::store::Store;
    let today = args.today.unwrap_or_else(surroundings::today);
    let Some(file) = surroundings::stock_file_there(args.stock.as_deref()) else {
        return Ok((Vec::new(), today));
    };
    let held = Sqlite::open(&file)?.all()?.into_iter();
    let there = held.filter(|h| h.removed_on.is_none());
    Ok((there.map(|h| h.entry).collect(), today))
}

#[cfg(not(feature = "stock"))]
fn book(_: &PricesArgs) -> Result<(Vec<Entry>, Date)> {
    Ok((Vec::new(), surroundings::today()))
}
