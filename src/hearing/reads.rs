//! What a phrase of a mark leads to: its words alone, or figures near them.

use serde::Deserialize;

/// What a phrase's forms lead to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
pub enum Reads {
    /// The words themselves.
    #[default]
    Words,
    /// A founding year after the words; without one the words say nothing.
    FoundingYear,
    /// A year after the words, which dates the piece; the words are another phrase.
    PrintedYear,
    /// A four-figure year with no word beside it. No forms.
    BareYear,
    /// A registered number after the words.
    RegisteredNumber,
    /// The words for a diamond; also diamonds written out as corners.
    Diamond,
    /// The year a diamond or number was registered. No forms.
    RegisteredYear,
    /// Month and year in figures. No forms.
    MonthYear,
    /// The full year beside a month in figures. No forms.
    PottedYear,
    /// A pattern number after the words.
    PatternNumber,
    /// A patent word that counts only with a year or number after it.
    Patent,
}

impl Reads {
    /// True for what is found by its figures alone.
    pub fn without_forms(self) -> bool {
        matches!(
            self,
            Reads::BareYear | Reads::RegisteredYear | Reads::MonthYear | Reads::PottedYear
        )
    }

    /// True for what gives the year of a dated clue.
    pub fn a_year(self) -> bool {
        matches!(
            self,
            Reads::PrintedYear | Reads::RegisteredYear | Reads::PottedYear
        )
    }
}
