//! `stock ticket` and `stock listing`: a piece of the book for who may buy it.

use std::io::Write;
use std::path::Path;

use anyhow::{Context, Result, bail};

use super::desk::Desk;
use crate::cli::outcome::Outcome;
use crate::cli::page_file::{PageKind, put};
use crate::report::card::{Card, Seller};
use crate::report::html;
use crate::stock::advert::Advert;
use crate::stock::again;
use crate::stock::store::Held;

/// The piece judged with today's rules; refused where nothing was seen of it.
fn judged(desk: &mut Desk, id: &str) -> Result<(Held, again::Again)> {
    let held = desk.piece(id)?;
    let again = again::judge(&desk.expert, &held.entry)?;
    if again.piece.evidence().says_nothing() {
        let id = &held.entry.id;
        bail!(
            "nothing has been seen of {id}, so a buyer could be told nothing; printseam stock edit {id} --saw … adds what is seen"
        );
    }
    Ok((held, again))
}

/// A ticket for the shelf, as text or as a card to print.
pub(super) fn ticket(
    desk: &mut Desk,
    id: &str,
    (card, force): (Option<Option<&Path>>, bool),
    out: &mut dyn Write,
) -> Result<Outcome> {
    let (held, again) = judged(desk, id)?;
    let entry = &held.entry;
    let seller = Seller {
        condition: entry.condition.join(", ").replace('-', " "),
        price: entry
            .asking
            .map_or(String::new(), |a| entry.money(a).to_string()),
    };
    let ticket = Card::new(&again.piece, &entry.title, &seller);
    if let Some(file) = card {
        let page = html::cards(&[ticket]).context("card")?;
        put(PageKind::Card, &page, file, force, out)?;
        return Ok(Outcome::Yes);
    }
    for line in ticket.lines() {
        writeln!(out, "{line}")?;
    }
    Ok(Outcome::Yes)
}

/// An offer for an online sale.
pub(super) fn listing(
    desk: &mut Desk,
    id: &str,
    json: bool,
    out: &mut dyn Write,
) -> Result<Outcome> {
    let (held, again) = judged(desk, id)?;
    let advert = Advert::new(&again.piece, &held.entry, desk.today.year());
    if json {
        writeln!(out, "{}", advert.object(&held.entry))?;
        return Ok(Outcome::Yes);
    }
    for line in advert.lines() {
        writeln!(out, "{line}")?;
    }
    Ok(Outcome::Yes)
}
