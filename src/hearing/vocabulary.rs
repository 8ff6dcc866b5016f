//! The words of the rule base, ready to listen with: folded, ids resolved.

use std::collections::BTreeSet;

use super::dates::words::{DateWords, Period};
use super::ear_words::EarWords;
use super::lexicon::Lexicon;
use crate::core::grid::{KindId, PlaceId};

/// Everything the notes, the ticket reader and the marks know as words rather than as findings.
#[derive(Clone, Debug, Default)]
pub struct Vocabulary {
    /// Single words that say nothing by themselves, in a line of notes and in a ticket.
    pub passed_over_in_notes: BTreeSet<String>,
    pub passed_over_in_tickets: BTreeSet<String>,
    /// Single words that turn the next one round. One that is missing is no slip of the pen.
    pub negations: BTreeSet<String>,
    pub dates: DateWords,
    pub ear: EarWords,
    /// Trade words for kinds, then the ids and names of the kinds themselves.
    pub kinds: Lexicon<NamedKinds>,
    pub places: Lexicon<PlaceId>,
}

/// What a trade word stands for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NamedKinds {
    /// The one the word means first stands first.
    pub kinds: Vec<KindId>,
    /// For a word that says when as well, such as "early flow blue".
    pub years: Option<Period>,
}
