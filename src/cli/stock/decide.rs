//! A piece of the book against its price, as `shelf` does.

use anyhow::Result;

use super::desk::Desk;
use crate::buy::Money;
use crate::cli::prices::Prices;
use crate::piece::Piece;
use crate::say::shelf::advice_id;
use crate::stock::entry::{Entry, KeptDecision};
use crate::stock::sales::in_condition;
use crate::stock::store::Store;

/// The decision on an entry: by what was paid, else by what is asked for it. `None` where neither is
/// told, nothing was seen, or the rules price nothing. The other pieces' sales teach the prices.
pub(super) fn decide(
    desk: &mut Desk,
    entry: &Entry,
    piece: &Piece,
) -> Result<Option<KeptDecision>> {
    let Some(guesses) = &desk.expert.base.prices else {
        return Ok(None);
    };
    let Some(price) = entry.paid.or(entry.asking) else {
        return Ok(None);
    };
    if piece.evidence().says_nothing() {
        return Ok(None);
    }
    let held = desk.book.all()?.into_iter();
    let others = held.filter(|h| h.removed_on.is_none() && h.entry.id != entry.id);
    let others: Vec<Entry> = others.map(|h| h.entry).collect();
    let terms = (None, Some(entry.currency));
    let prices = Prices::taught(&desk.expert, terms, &others, desk.today)?;
    // Amounts of the book count for all pieces of an entry together, prices for one.
    let count = i64::from(entry.count());
    let each = Money {
        minor: price / count,
        currency: entry.currency,
    };
    let piece = in_condition(piece, guesses, &entry.condition);
    let gist = prices.gist(&piece, "", each).ok();
    Ok(gist.map(|gist| KeptDecision {
        advice: advice_id(gist.advice).to_owned(),
        most_to_pay: gist.most_to_pay.minor * count,
    }))
}
