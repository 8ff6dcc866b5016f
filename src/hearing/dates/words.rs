//! The words in which people tell years, as the rule files have them.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::hearing::lexicon::{Lexicon, Phrases};

/// Words of dates, each list folded when the rules load. Empty lists leave figures alone:
/// "1840-60", "1880s", "../1860".
#[derive(Clone, Debug, Default)]
pub struct DateWords {
    /// Before a date: the ends are soft.
    pub about: Phrases,
    /// After a date: the ends are soft.
    pub about_after: Phrases,
    /// Of the words for about those written together with the figures after them: "c1850".
    pub run_on: Vec<String>,
    /// Passed over before a date.
    pub article: Phrases,
    /// From the first date to the second.
    pub to: Phrases,
    /// Before the first of two dates.
    pub between: Phrases,
    /// Words that begin a second date after a dash that stands close.
    pub after_dash: BTreeSet<String>,
    pub before: Phrases,
    pub up_to: Phrases,
    pub since: Phrases,
    pub after: Phrases,
    /// After a date: that year and later.
    pub or_later: Phrases,
    /// After a date: that year and earlier.
    pub or_earlier: Phrases,
    /// After an ordinal: "19th century".
    pub century: Phrases,
    /// After the name of a period: "Georgian era".
    pub era: Phrases,
    /// "nineteenth", one word each.
    pub ordinals: BTreeMap<String, i16>,
    /// "eighties", one word each.
    pub decades: BTreeMap<String, i16>,
    /// Early, mid, late, halves, quarters.
    pub parts: Lexicon<Part>,
    /// Between a part and what it is a part of: "early in the 1880s".
    pub part_of: Phrases,
    pub age: AgeWords,
    pub periods: Lexicon<Period>,
    /// Names for an age: antique, vintage, modern.
    pub age_names: Lexicon<AgeName>,
}

/// Words of an age: "over a hundred years old".
#[derive(Clone, Debug, Default)]
pub struct AgeWords {
    pub over: Phrases,
    pub under: Phrases,
    /// "The last ten years", which needs no "old".
    pub within: Phrases,
    /// After the number of years: old, ago.
    pub old: Phrases,
    /// After a unit it is no age: "the last decade of the 19th century".
    pub of: Phrases,
    pub numbers: Lexicon<i16>,
    /// Years each.
    pub units: Lexicon<i16>,
}

/// A share of a stretch of years: from `from`/`of` of it to `to`/`of`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part {
    pub from: i32,
    pub to: i32,
    pub of: i32,
}

/// Years a name stands for; `None` = open on that side.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Period {
    pub from: Option<i16>,
    pub to: Option<i16>,
    /// Where the years come from, as shown beside them.
    pub origin: Arc<str>,
}

/// An age a name stands for, in years back from the present; `None` = open on that side.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AgeName {
    pub least: Option<i16>,
    pub most: Option<i16>,
    /// Where the years come from, as shown beside them.
    pub origin: Arc<str>,
}

impl DateWords {
    /// What follows a word for about that runs on into figures.
    pub fn run_on<'t>(&self, run: &'t str) -> Option<&'t str> {
        let mut rests = self
            .run_on
            .iter()
            .filter_map(|word| run.strip_prefix(word.as_str()));
        rests.find(|rest| rest.starts_with(|c: char| c.is_ascii_digit()))
    }
}
