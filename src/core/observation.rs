//! The ordered list of findings for one piece.
//!
//! A list, never a set: two clues that say the same thing count twice, and the order is kept
//! because the explanation is told in it. The posterior does not depend on the order.

use super::grid::{ClueId, FindingId, Year};

/// How sure the picker is of what was seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sure {
    #[default]
    Sure,
    Unsure,
    Guess,
}

impl Sure {
    /// Sure, then unsure, then a guess, then sure again.
    pub fn next(self) -> Sure {
        match self {
            Sure::Sure => Sure::Unsure,
            Sure::Unsure => Sure::Guess,
            Sure::Guess => Sure::Sure,
        }
    }

    /// Doubt added to a clue's slip (design figures: 0, 0.15, 0.40; common practice, no source).
    pub fn doubt(self) -> f64 {
        match self {
            Sure::Sure => 0.0,
            Sure::Unsure => 0.15,
            Sure::Guess => 0.40,
        }
    }
}

/// What was seen at a clue.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Observed {
    /// One of the clue's listed findings.
    Finding(FindingId),
    /// A year read from the piece (dated clues only).
    Year(Year),
    /// Looked, and can't tell. Says nothing.
    CantTell,
}

/// One answered clue.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Observation {
    pub clue: ClueId,
    pub seen: Observed,
    pub sure: Sure,
}

/// The findings so far, one entry a clue.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Evidence {
    entries: Vec<Observation>,
}

impl Evidence {
    /// Nothing seen yet.
    pub fn new() -> Evidence {
        Evidence::default()
    }

    /// Adds a finding, or replaces the earlier one at the same clue where it stands.
    pub fn say(&mut self, entry: Observation) {
        match self.entries.iter_mut().find(|e| e.clue == entry.clue) {
            Some(old) => *old = entry,
            None => self.entries.push(entry),
        }
    }

    /// Takes back what was said of a clue; false when nothing was.
    pub fn forget(&mut self, clue: ClueId) -> bool {
        let before = self.entries.len();
        self.entries.retain(|e| e.clue != clue);
        self.entries.len() < before
    }

    /// What was said of a clue.
    pub fn of(&self, clue: ClueId) -> Option<&Observation> {
        self.entries.iter().find(|e| e.clue == clue)
    }

    /// The entries in the order given.
    pub fn entries(&self) -> &[Observation] {
        &self.entries
    }

    /// True when no clue has been answered.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }
}
