//! `stock`: the stock book from the command line.
//!
//! | file | what |
//! |---|---|
//! | `args` | the arguments as clap reads them |
//! | `desk` | the book opened, entries named by a person, changes written |
//! | `decide` | a piece against its price, as `shelf` does |
//! | `facts` | what a person says of a piece beside what is seen |
//! | `add`, `edit`, `sell`, `look`, `offer`, `again`, `transfer` | the commands |

mod add;
mod again;
pub(super) mod args;
mod decide;
mod desk;
mod edit;
mod facts;
mod look;
mod offer;
mod sell;
mod transfer;

use std::io::Write;
use std::path::{Path, PathBuf};

use anyhow::{Result, bail};

use self::args::{StockArgs, StockCommand};
use self::desk::Desk;
use super::outcome::Outcome;
use crate::setup::Setup;
use crate::stock::cases;

/// Carries out what was asked of the stock book.
pub(super) fn run(setup: &Setup, args: &StockArgs, out: &mut dyn Write) -> Result<Outcome> {
    use StockCommand as C;
    let mut desk = Desk::open(setup, args.stock.as_deref(), args.today)?;
    let desk = &mut desk;
    match &args.command {
        C::Add(a) => add::run(desk, a, out),
        C::List(a) => look::list(desk, a, out),
        C::Today { budget } => look::today(desk, budget.as_deref(), out),
        C::Show { id, json } => look::show(desk, id, *json, out),
        C::Ticket { id, card, force } => {
            let card = card.as_ref().map(Option::as_deref);
            offer::ticket(desk, id, (card, *force), out)
        }
        C::Listing { id, json } => offer::listing(desk, id, *json, out),
        C::Sold {
            id,
            price,
            on,
            channel,
            quantity,
        } => {
            let sale = sell::Sale {
                price,
                on: on.unwrap_or(desk.today),
                channel: channel.as_deref().unwrap_or_default(),
                quantity: *quantity,
            };
            sell::sold(desk, id, &sale, out)
        }
        C::Unsold { id } => sell::unsold(desk, id, out),
        C::Returned { id, on } => sell::returned(desk, id, on.unwrap_or(desk.today), out),
        C::Price { id, asking } => sell::price(desk, id, asking, out),
        C::Split {
            paid,
            ids,
            by_asking,
        } => sell::split(desk, paid, ids, *by_asking, out),
        C::Edit(a) => edit::run(desk, a, out),
        C::Remove { id, undo } => edit::remove(desk, id, *undo, out),
        C::Again { id, keep } => again::run(desk, id.as_deref(), *keep, out),
        C::Export { file, cases, force } => transfer::export(desk, file, *cases, *force, out),
        C::Import {
            file,
            skip_bad,
            replace,
        } => transfer::import(desk, file, (*skip_bad, *replace), out),
        C::Backup { file, force } => transfer::backup(desk, file, *force, out),
    }
}

/// Pieces whose date has become known, as a table for `prove`.
pub(super) fn known_pieces(setup: &Setup, file: Option<&Path>) -> Result<String> {
    let named = std::env::var_os("PRINTSEAM_STOCK").map(PathBuf::from);
    let mut desk = Desk::open(setup, file.or(named.as_deref()), None)?;
    let entries = transfer::there(&mut desk)?;
    let (table, count) = cases::write(&desk.expert.base, &entries);
    if count == 0 {
        bail!(
            "no piece of the stock book tells when it was made; \
             printseam stock edit ID --turned-out \"1905\" --by WHO does"
        );
    }
    Ok(table)
}
