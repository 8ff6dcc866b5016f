//! Tables of the British designs registry.
//!
//! Plain data: `rulebase` fills it from `rules/marks/registry.ron`, where every figure has its
//! origin beside it.

use serde::{Deserialize, Serialize};

use super::calendar::Date;

/// Where things stand in a diamond. The two layouts follow one another in time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Layout {
    /// Year letter on top.
    First,
    /// Day on top.
    Second,
    /// A running number, no diamond.
    Number,
}

/// How well a figure is founded.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize, Serialize,
)]
#[serde(rename_all(serialize = "kebab-case"))]
pub enum Standing {
    Published,
    #[default]
    CommonPractice,
    FromMemory,
}

/// The work a figure comes from, in words, and its standing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Origin {
    pub text: String,
    pub standing: Standing,
}

/// The letters of one layout and the days it was used.
#[derive(Clone, Debug)]
pub struct Period {
    pub layout: Layout,
    pub from: Date,
    pub to: Date,
    /// (letter, year)
    pub years: Vec<(char, i16)>,
}

/// A letter that stands for a month in both layouts.
#[derive(Clone, Debug)]
pub struct MonthLetter {
    pub letter: char,
    /// 1–12
    pub month: u8,
    /// Said beside a date that rests on this letter.
    pub note: Option<String>,
}

/// Days whose marks carried other letters than the tables say.
#[derive(Clone, Debug)]
pub struct OddDays {
    pub layout: Layout,
    pub year_letter: char,
    pub month_letter: char,
    pub from: Date,
    pub to: Date,
    /// Days that only some lists count in.
    pub disputed: Vec<Date>,
    pub note: String,
}

/// A class of goods.
#[derive(Clone, Debug)]
pub struct Class {
    pub numeral: String,
    pub goods: String,
}

/// A published list of the first number of each year.
#[derive(Clone, Debug)]
pub struct NumberList {
    pub name: String,
    /// (year, first number), both rising.
    pub firsts: Vec<(i16, u32)>,
    /// The last number that can count as the list's last year.
    pub open_to: u32,
    /// Said beside every year read from this list.
    pub note: Option<String>,
    pub origin: Origin,
}

impl NumberList {
    /// (year, first number, last number) of each year of the list.
    pub fn spans(&self) -> impl Iterator<Item = (i16, u32, u32)> + '_ {
        self.firsts.iter().enumerate().map(|(i, &(year, first))| {
            let last = match self.firsts.get(i + 1) {
                Some(&(_, next)) => next.saturating_sub(1),
                None => self.open_to,
            };
            (year, first, last)
        })
    }
}

/// All tables; empty ones for a rule base without marks.
#[derive(Clone, Debug, Default)]
pub struct Registry {
    pub periods: Vec<Period>,
    pub months: Vec<MonthLetter>,
    pub odd_days: Vec<OddDays>,
    pub classes: Vec<Class>,
    /// The class of pottery and porcelain.
    pub ceramics: String,
    /// The list to believe first stands first.
    pub lists: Vec<NumberList>,
    pub diamond_origin: Origin,
}

impl Registry {
    /// The period of a layout.
    pub fn period(&self, layout: Layout) -> Option<&Period> {
        self.periods.iter().find(|p| p.layout == layout)
    }

    /// The odd days of a layout whose marks carried this year letter.
    pub fn odd_year(&self, layout: Layout, letter: char) -> Option<&OddDays> {
        let mut odd = self.odd_days.iter();
        odd.find(|o| o.layout == layout && o.year_letter == letter)
    }
}
