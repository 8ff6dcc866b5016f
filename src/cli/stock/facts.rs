//! What a person says of a piece beside what is seen, put into its entry.

use anyhow::{Result, anyhow};

use super::args::FactsArgs;
use super::desk::amount;
use crate::buy::Currency;
use crate::piece::notation::printable;
use crate::registry::calendar::Date;
use crate::stock::changes::{ask_price, set_currency};
use crate::stock::entry::Entry;

/// Puts into the entry whatever was said; the rest stays.
pub(super) fn put(entry: &mut Entry, facts: &FactsArgs, today: Date) -> Result<()> {
    let usual = match &facts.currency {
        None => entry.currency,
        Some(code) => Currency::new(code).ok_or_else(|| {
            anyhow!(
                "--currency: '{}' is no code of three letters, such as EUR",
                printable(code)
            )
        })?,
    };
    if let Some(text) = &facts.paid {
        entry.paid = None;
        if !text.is_empty() {
            let paid = amount("--paid", text, usual)?;
            set_currency(entry, paid)?;
            entry.paid = Some(paid.minor);
            // A day is only made up where the person was there to pay.
            entry.bought_on = entry.bought_on.or(Some(today));
        }
    }
    if let Some(text) = &facts.asking {
        match text.is_empty() {
            true => entry.asking = None,
            false => {
                let asking = amount("--asking", text, usual)?;
                let first = entry.asking.is_none();
                let history = entry.history.len();
                *entry = ask_price(entry, asking, today)?;
                // The first price is no change of one.
                if first {
                    entry.history.truncate(history);
                }
            }
        }
    }
    for (said, kept) in [
        (&facts.title, &mut entry.title),
        (&facts.place, &mut entry.place),
        (&facts.channel, &mut entry.channel),
        (&facts.remark, &mut entry.remark),
    ] {
        if let Some(said) = said {
            kept.clone_from(said);
        }
    }
    if let Some(words) = &facts.condition {
        let words = words
            .iter()
            .map(|w| w.trim().to_lowercase().replace(' ', "-"));
        entry.condition = words.filter(|w| !w.is_empty()).collect();
    }
    if let Some(on) = facts.when {
        entry.bought_on = Some(on);
    }
    if let Some(quantity) = facts.quantity {
        entry.quantity = quantity;
    }
    for photo in &facts.photo {
        if !entry.photos.contains(photo) {
            entry.photos.push(photo.clone());
        }
    }
    Ok(())
}
