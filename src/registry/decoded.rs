//! What decoding a diamond or a number gives: dates, problems and reasons as facts. `say` puts
//! them into words.

use serde::Serialize;

use super::calendar::Date;
use super::corners::{Corner, CornerMeaning, Corners};
use super::tables::Layout;

/// What a diamond or a number says.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Decoded {
    /// `None` while the corners fit both layouts.
    pub layout: Option<Layout>,
    pub class: Option<String>,
    pub dates: Vec<DateRange>,
    /// Corners (or figures) whose reading would narrow the dates most, best first.
    pub look_again: Vec<LookAgain>,
    /// What is impossible about the mark as read.
    pub problems: Vec<Problem>,
    /// How the reading came about.
    pub why: Vec<Why>,
    /// Where the tables come from, for people.
    pub origin: String,
}

impl Decoded {
    /// Nothing decoded yet.
    pub fn new(layout: Option<Layout>, origin: String) -> Decoded {
        Decoded {
            layout,
            class: None,
            dates: Vec::new(),
            look_again: Vec::new(),
            problems: Vec::new(),
            why: Vec::new(),
            origin,
        }
    }

    /// True when no registered design can have borne the mark as read.
    pub fn impossible(&self) -> bool {
        !self.problems.is_empty() && self.dates.is_empty()
    }

    /// True when what was given is no diamond and no number at all, so that there is no answer.
    pub fn malformed(&self) -> bool {
        self.problems.iter().any(|problem| {
            matches!(
                problem,
                Problem::CornerCount(_) | Problem::NoNumber | Problem::NotAFigure(_)
            )
        })
    }

    /// The years the dates fall in: first and last. `None` when there is no date.
    pub fn years(&self) -> Option<(i16, i16)> {
        let first = self.dates.iter().map(|d| d.from.year()).min()?;
        let last = self.dates.iter().map(|d| d.to.year()).max()?;
        Some((first, last))
    }
}

/// A run of days, both ends within it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DateRange {
    pub from: Date,
    pub to: Date,
    /// What makes this run doubtful, or why it stands beside another.
    pub note: Option<DateNote>,
}

/// What is to be said beside a run of days. Notes of the tables come as the tables have them.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub enum DateNote {
    /// The tables' note on the month letter.
    MonthLetter(String),
    /// Marks of these days carried the letters read, though the tables of letters say otherwise.
    OddDays { note: String, disputed: bool },
    /// By the tables of letters; but marks of these days are said to carry others.
    ByTables {
        year_letter: char,
        month_letter: char,
        note: String,
    },
    /// A number read in full, with the month estimated.
    Estimate {
        /// 1–12
        month: u8,
        year: i16,
        lists: Lists,
        /// The list says neither where its last year ends nor anything else of it.
        open_end: bool,
        /// The list's own note.
        note: Option<String>,
    },
    /// Every year in which a number like this was given out.
    AllLike(String),
}

/// What the lists make of a number.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub enum Lists {
    Only,
    Agree,
    /// They differ, and the year is this one's.
    Differ(String),
}

/// What is worth a second look.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum LookAgain {
    /// Index of a corner: top, right, bottom, left.
    Corner(usize),
    /// A figure of a number, from 1.
    Figure { at: usize, of: usize },
}

/// How a reading came about.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub enum Why {
    /// No corner can be read.
    Blank,
    /// The corners are of this layout.
    Corners { layout: Layout, corners: Corners },
    /// Numbers of a year by a list.
    Listed {
        list: String,
        year: i16,
        first: u32,
        last: u32,
        /// The last number is a guess.
        open: bool,
    },
    /// Figures of a number that can't be read.
    Unreadable { figures: usize, of: usize },
}

/// What is impossible about a mark as read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub enum Problem {
    /// Not four corners but so many.
    CornerCount(usize),
    /// Corners (index, what belongs there, what stands there) that do not fit the layout of the rest.
    Misfits {
        corners: Vec<(usize, CornerMeaning, Corner)>,
        layout: Layout,
    },
    /// The corners fit neither layout.
    NeitherLayout,
    NotAYearLetter {
        letter: char,
        corner: usize,
        layout: Layout,
    },
    NotAMonthLetter {
        letter: char,
        corner: usize,
    },
    /// No month has such a day.
    NoSuchDay {
        day: String,
        corner: usize,
    },
    /// A year letter known only from a few days with a month letter of their own.
    OddYearLetter {
        year_letter: char,
        month_letter: char,
        layout: Layout,
        from: Date,
        to: Date,
    },
    /// The month has not so many days.
    DayNotInMonth {
        day: String,
        month: u8,
        year: Option<i16>,
        days: u8,
    },
    /// The layout was not yet, or no longer, in use on the day read.
    OutsidePeriod {
        day: Option<String>,
        month: u8,
        year: i16,
        layout: Layout,
        from: Date,
        to: Date,
    },
    NoDayFits,
    /// `shown` is no class at all.
    NoSuchClass {
        shown: String,
        ceramics: String,
    },
    /// A class of other goods; `alike` = its numeral is easily taken for that of ceramics.
    OtherClass {
        numeral: String,
        goods: String,
        ceramics: String,
        alike: bool,
    },
    /// No number is given.
    NoNumber,
    NotAFigure(char),
    /// More figures than this.
    TooLong(usize),
    /// Numbers began at 1.
    Zero,
    /// Between the end of one series and the beginning of the next.
    BetweenSeries {
        number: u32,
        below: u32,
        above: u32,
    },
    /// Beyond the lists, which end about here.
    BeyondLists {
        number: u32,
        newest: u32,
    },
    /// No number that looks like this is in the lists.
    NoneLike(String),
}
