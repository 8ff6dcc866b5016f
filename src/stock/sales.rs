//! The book's own sales as the price model takes them: what was sold teaches prices, what waits
//! teaches how long pieces wait.

use std::sync::Arc;

use super::again;
use super::entry::{Entry, Stage};
use crate::buy::appearance::Appearance;
use crate::buy::{Money, Sale, Terms, condition};
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::rulebase::prices::PriceGuesses;

/// The newest sales and waiting pieces that are judged, of each: more would make the answer wait, and
/// old sales fade (common practice, no source).
const MOST: usize = 500;

/// Sales of a book, and how many of what was sold could not be used.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OwnSales {
    pub sales: Vec<Sale>,
    /// Sold, but of no use: nothing was seen of it, or no day is known.
    pub left_out: usize,
}

/// What a book's entries teach. A piece is known by its findings as today's rules read them and by the
/// condition noted; one of which nothing was seen teaches nothing. Several alike that went together
/// count as one sale at the price of one.
pub fn own_sales(
    expert: &Arc<Expert>,
    guesses: &PriceGuesses,
    terms: &Terms,
    entries: &[Entry],
) -> OwnSales {
    let mut out = OwnSales::default();
    let of = |stage| entries.iter().filter(move |e| e.stage() == stage);
    let mut sold: Vec<&Entry> = of(Stage::Sold).collect();
    sold.sort_by_key(|e| e.sale.as_ref().map(|s| s.on));
    let newest = sold.iter().rev().copied().take(MOST);
    let waiting = of(Stage::Held).rev().take(MOST);
    for entry in newest.chain(waiting) {
        let sold = entry.stage() == Stage::Sold;
        match one(expert, guesses, terms, entry) {
            Some(sale) => out.sales.push(sale),
            None if sold => out.left_out += 1,
            None => {}
        }
    }
    out
}

fn one(expert: &Arc<Expert>, guesses: &PriceGuesses, terms: &Terms, entry: &Entry) -> Option<Sale> {
    let piece = again::judge(expert, entry).ok()?.piece;
    if piece.evidence().says_nothing() {
        return None;
    }
    let piece = in_condition(&piece, guesses, &entry.condition);
    let sold = entry.sale.as_ref().map(|sale| {
        let each = sale.price / i64::from(entry.count());
        let price = Money {
            minor: each,
            currency: entry.currency,
        };
        (sale.on, price)
    });
    let at = entry.sale.as_ref().map(|s| s.channel.as_str());
    let channel = at.filter(|c| !c.is_empty()).unwrap_or(&entry.channel);
    let since = entry.since().or(sold.map(|(on, _)| on))?;
    Some(Sale {
        appearance: Appearance::of(&piece, guesses),
        channel: channel_id(terms, channel),
        listed: since,
        sold,
    })
}

/// The id of the channel a person named, by its id or its name; as named where the terms know none.
fn channel_id(terms: &Terms, named: &str) -> String {
    let named = named.trim();
    let known = terms
        .channels
        .iter()
        .find(|c| c.id.eq_ignore_ascii_case(named) || c.name.eq_ignore_ascii_case(named));
    known.map_or(named, |c| &c.id).to_owned()
}

/// The piece with the condition noted beside it; words the rules don't know say nothing.
pub fn in_condition(piece: &Piece, guesses: &PriceGuesses, words: &[String]) -> Piece {
    let base = &piece.expert().base;
    let known =
        |word: &&String| word.as_str() == condition::SOUND || guesses.defect(word).is_some();
    let known: Vec<&str> = words.iter().filter(known).map(String::as_str).collect();
    let saw = piece.evidence().observations();
    match condition::read(base, guesses, &known.join(","), saw) {
        Ok(defects) => piece.with_all(defects),
        Err(_) => piece.clone(),
    }
}
