//! Sales, returns, prices, and one price split over several.

use std::io::Write;

use anyhow::{Result, bail};

use super::desk::{Desk, amount};
use crate::cli::outcome::Outcome;
use crate::registry::calendar::Date;
use crate::stock::changes::{self, Split};
use crate::stock::entry::Entry;
use crate::stock::store::{Change, Held, Store};

/// A sale as told.
pub(super) struct Sale<'a> {
    pub price: &'a str,
    pub on: Date,
    pub channel: &'a str,
    pub quantity: Option<u32>,
}

pub(super) fn sold(desk: &mut Desk, id: &str, sale: &Sale, out: &mut dyn Write) -> Result<Outcome> {
    has_come(desk, sale.on)?;
    let held = desk.piece(id)?;
    let price = amount("--for", sale.price, held.entry.currency)?;
    match sale.quantity.filter(|n| *n != held.entry.count()) {
        None => {
            let sold = changes::sell(&held.entry, sale.on, price, sale.channel)?;
            desk.replace(sold, &held, "Sold", out)?;
        }
        Some(count) => {
            let id = desk.new_id()?;
            let told = (sale.on, price, sale.channel);
            let (stays, goes) = changes::sell_some(&held.entry, count, id, told)?;
            let (stays, goes) = (stays.cleaned(), goes.cleaned());
            desk.book.write(vec![
                Change::Replace(stays.clone(), held.revision),
                Change::New(goes.clone()),
            ])?;
            desk.say("Sold", &goes, out)?;
            desk.say("Left", &stays, out)?;
        }
    }
    Ok(Outcome::Yes)
}

/// A year mistyped would teach that such pieces wait for decades.
fn has_come(desk: &Desk, on: Date) -> Result<()> {
    if on > desk.today {
        bail!("--on: {on} is still to come; today is {}", desk.today);
    }
    Ok(())
}

pub(super) fn unsold(desk: &mut Desk, id: &str, out: &mut dyn Write) -> Result<Outcome> {
    let held = desk.piece(id)?;
    let back = changes::unsell(&held.entry, desk.today)?;
    desk.replace(back, &held, "Sale undone", out)?;
    Ok(Outcome::Yes)
}

pub(super) fn returned(
    desk: &mut Desk,
    id: &str,
    on: Date,
    out: &mut dyn Write,
) -> Result<Outcome> {
    has_come(desk, on)?;
    let held = desk.piece(id)?;
    let back = changes::take_back(&held.entry, on)?;
    desk.replace(back, &held, "Taken back", out)?;
    Ok(Outcome::Yes)
}

pub(super) fn price(
    desk: &mut Desk,
    id: &str,
    asking: &str,
    out: &mut dyn Write,
) -> Result<Outcome> {
    let held = desk.piece(id)?;
    let asking = amount("ASKING", asking, held.entry.currency)?;
    let priced = changes::ask_price(&held.entry, asking, desk.today)?;
    desk.replace(priced, &held, "Priced", out)?;
    Ok(Outcome::Yes)
}

pub(super) fn split(
    desk: &mut Desk,
    paid: &str,
    ids: &[String],
    by_asking: bool,
    out: &mut dyn Write,
) -> Result<Outcome> {
    let held: Vec<Held> = ids.iter().map(|id| desk.piece(id)).collect::<Result<_>>()?;
    let usual = held.first().map(|h| h.entry.currency).unwrap_or_default();
    let paid = amount("PAID", paid, usual)?;
    let how = if by_asking {
        Split::ByAsking
    } else {
        Split::Evenly
    };
    let entries: Vec<Entry> = held.iter().map(|h| h.entry.clone()).collect();
    let split = changes::split_price(&entries, paid, how, desk.today)?;
    let changed = split.iter().zip(&held);
    let changed = changed.map(|(e, h)| Change::Replace(e.clone(), h.revision));
    let changed = changed.collect();
    desk.book.write(changed)?;
    for entry in &split {
        desk.say("Paid", entry, out)?;
    }
    Ok(Outcome::Yes)
}
