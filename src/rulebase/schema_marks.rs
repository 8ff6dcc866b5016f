//! The rule files of marks as written: phrases, and the tables of the designs registry.

use serde::Deserialize;

use super::schema::{Names, Text, written};
use super::source::{Bare, Located};
use crate::hearing::mark::Reads;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WordingFile<'a> {
    #[serde(borrow)]
    pub format: Bare<'a>,
    #[serde(borrow)]
    pub blanked: Option<BlankedEntry<'a>>,
    #[serde(borrow)]
    pub phrases: Vec<PhraseEntry<'a>>,
}
written!(WordingFile);

/// Names that were left out of a record, as they stand within brackets.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Blanked")]
pub(super) struct BlankedEntry<'a> {
    /// What the name of a firm says: a clue and its finding.
    #[serde(borrow)]
    pub says: (Text<'a>, Text<'a>),
    #[serde(borrow)]
    pub firm: Vec<Text<'a>>,
    /// Names that may be anybody's or anything's: they say nothing.
    #[serde(borrow, default)]
    pub other: Vec<Text<'a>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Phrase")]
pub(super) struct PhraseEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    /// Clue and finding; both left out for a phrase that is only told to the user.
    #[serde(borrow)]
    pub clue: Option<Text<'a>>,
    #[serde(borrow)]
    pub finding: Option<Text<'a>>,
    #[serde(borrow, default)]
    pub forms: Vec<Text<'a>>,
    #[serde(default)]
    pub reads: Reads,
    #[serde(borrow)]
    pub from: Option<Bare<'a>>,
    #[serde(borrow)]
    pub usual_from: Option<Bare<'a>>,
    #[serde(borrow)]
    pub to: Option<Bare<'a>>,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RegistryFile<'a> {
    #[serde(borrow)]
    pub format: Bare<'a>,
    /// The class of pottery and porcelain.
    #[serde(borrow)]
    pub ceramics: Text<'a>,
    #[serde(borrow)]
    pub classes: Vec<ClassEntry<'a>>,
    #[serde(borrow)]
    pub periods: Vec<PeriodEntry<'a>>,
    #[serde(borrow)]
    pub months: Vec<MonthEntry<'a>>,
    #[serde(borrow)]
    pub odd_days: Vec<OddEntry<'a>>,
    #[serde(borrow)]
    pub numbers: Vec<ListEntry<'a>>,
    /// Sources of the letters.
    #[serde(borrow, default)]
    pub source: Names<'a>,
}
written!(RegistryFile);

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Class")]
pub(super) struct ClassEntry<'a> {
    #[serde(borrow)]
    pub numeral: Text<'a>,
    pub goods: String,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Clone, Copy, Deserialize)]
pub(super) enum LayoutWord {
    First,
    Second,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Period")]
pub(super) struct PeriodEntry<'a> {
    pub layout: LayoutWord,
    #[serde(borrow)]
    pub from: Text<'a>,
    #[serde(borrow)]
    pub to: Text<'a>,
    /// The letters of the years, in order of years.
    #[serde(borrow)]
    pub letters: Text<'a>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Month")]
pub(super) struct MonthEntry<'a> {
    #[serde(borrow)]
    pub letter: Located<'a, char>,
    #[serde(borrow)]
    pub month: Bare<'a>,
    pub note: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "OddDays")]
pub(super) struct OddEntry<'a> {
    pub layout: LayoutWord,
    pub year_letter: char,
    pub month_letter: char,
    #[serde(borrow)]
    pub from: Text<'a>,
    #[serde(borrow)]
    pub to: Text<'a>,
    #[serde(borrow, default)]
    pub disputed: Vec<Text<'a>>,
    pub note: String,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "NumberList")]
pub(super) struct ListEntry<'a> {
    #[serde(borrow)]
    pub name: Text<'a>,
    /// (year, first number)
    #[serde(borrow)]
    pub firsts: Vec<(Bare<'a>, Bare<'a>)>,
    #[serde(borrow)]
    pub open_to: Bare<'a>,
    pub note: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}
