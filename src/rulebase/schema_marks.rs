//! `rules/marks/*.ron` as written. Knows serde, not RON.

use serde::Deserialize;

use crate::hearing::mark::Reads;

/// `marks/wording.ron`.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WordingFile {
    pub format: u32,
    pub phrases: Vec<PhraseEntry>,
}

/// One phrase as written.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PhraseEntry {
    pub id: String,
    /// Clue and finding; both left out for a phrase that is only told to the user.
    #[serde(default)]
    pub clue: Option<String>,
    #[serde(default)]
    pub finding: Option<String>,
    #[serde(default)]
    pub forms: Vec<String>,
    #[serde(default)]
    pub reads: Reads,
    #[serde(default)]
    pub from: Option<i16>,
    #[serde(default)]
    pub usual_from: Option<i16>,
    #[serde(default)]
    pub to: Option<i16>,
    pub because: String,
    pub source: Vec<String>,
}

/// `marks/registry.ron`.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct RegistryFile {
    pub format: u32,
    pub ceramics: String,
    pub classes: Vec<ClassEntry>,
    pub periods: Vec<PeriodEntry>,
    pub months: Vec<MonthEntry>,
    pub odd_days: Vec<OddEntry>,
    pub numbers: Vec<ListEntry>,
    /// Sources of the letters.
    pub source: Vec<String>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClassEntry {
    pub numeral: String,
    pub goods: String,
    pub source: Vec<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum LayoutWord {
    First,
    Second,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PeriodEntry {
    pub layout: LayoutWord,
    pub from: String,
    pub to: String,
    /// The letters of the years, in order of years.
    pub letters: String,
    pub source: Vec<String>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MonthEntry {
    pub letter: char,
    pub month: u8,
    #[serde(default)]
    pub note: Option<String>,
    pub source: Vec<String>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OddEntry {
    pub layout: LayoutWord,
    pub year_letter: char,
    pub month_letter: char,
    pub from: String,
    pub to: String,
    #[serde(default)]
    pub disputed: Vec<String>,
    pub note: String,
    pub source: Vec<String>,
}

#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ListEntry {
    pub name: String,
    pub firsts: Vec<(i16, u32)>,
    pub open_to: u32,
    #[serde(default)]
    pub note: Option<String>,
    pub source: Vec<String>,
}
