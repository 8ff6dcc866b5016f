//! A piece of which somebody has written down what was seen, and perhaps what it is: a case of a
//! museum, an entry of the stock book.

use crate::core::grid::{KindId, PlaceId, Year};
use crate::core::observation::Evidence;

/// A piece somebody has written down.
#[derive(Clone, Debug, PartialEq)]
pub struct Recorded {
    /// What it is called; may give away what it is.
    pub title: String,
    /// Where photographs of it are.
    pub photos: Vec<String>,
    pub seen: Evidence,
    pub truth: Truth,
}

/// What a piece is, as far as that is known.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Truth {
    pub kind: Option<KindId>,
    pub place: Option<PlaceId>,
    /// First and last year it can have been made in.
    pub years: Option<(Year, Year)>,
}

impl Truth {
    /// True when there is nothing to hold a guess against.
    pub fn is_unknown(&self) -> bool {
        self.kind.is_none() && self.years.is_none()
    }

    /// The year it may have been made in that is nearest to a run of years beginning with `from`: one
    /// within the run where there is any.
    pub(super) fn year_near(&self, from: Year) -> Option<Year> {
        let (first, last) = self.years?;
        Some(from.clamp(first, last))
    }
}
