//! A shelf card for buyers: what a piece is, about when, and why, in plain words.

use serde::Serialize;

use crate::piece::Piece;
use crate::piece::notation::printable;
use crate::say::card::{self, Reason};

/// What the seller adds. Empty texts add nothing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Seller {
    pub condition: String,
    pub price: String,
}

/// One card.
#[derive(Clone, Debug, Serialize)]
pub struct Card {
    /// The seller's own name for it; may be empty.
    pub title: String,
    pub what: String,
    pub about: String,
    pub when: String,
    pub reasons: Vec<Reason>,
    /// Empty: a line to write on.
    pub condition: String,
    /// Empty: no price shows.
    pub price: String,
    pub cautions: Vec<String>,
}

impl Card {
    /// The card of a piece; `title` may be empty.
    pub fn new(piece: &Piece, title: &str, seller: &Seller) -> Card {
        let written = |text: &str, most: usize| shortened(&printable(text.trim()), most);
        Card {
            title: written(title, TITLE),
            what: card::what(piece),
            about: card::about(piece),
            when: card::when(piece),
            reasons: card::reasons(piece),
            condition: written(&seller.condition, CONDITION),
            price: written(&seller.price, PRICE),
            cautions: card::cautions(piece, !seller.price.trim().is_empty()),
        }
    }
}

impl Card {
    /// The card as text, line by line.
    pub fn lines(&self) -> Vec<String> {
        let mut out = Vec::new();
        if !self.title.is_empty() {
            out.push(self.title.clone());
        }
        out.extend([self.what.clone(), self.when.clone(), self.about.clone()]);
        let reasons = self.reasons.iter();
        out.extend(reasons.map(|r| format!("  {}. {}", r.seen, r.tells)));
        if !self.condition.is_empty() {
            out.push(format!("Condition: {}", self.condition));
        }
        if !self.price.is_empty() {
            out.push(format!("Price: {}", self.price));
        }
        out.extend(self.cautions.iter().map(|c| format!("! {c}")));
        out
    }
}

/// Characters of the seller's own texts that the card has room for: two lines of the title, three of the
/// condition, one of the price (measured on the printed card).
const TITLE: usize = 60;
const CONDITION: usize = 130;
const PRICE: usize = 24;

fn shortened(text: &str, most: usize) -> String {
    if text.chars().count() <= most {
        return text.to_owned();
    }
    let short: String = text.chars().take(most - 1).collect();
    format!("{}…", short.trim_end())
}
