//! Years as understood, and parts of them: early, mid, late, halves, quarters.

use std::sync::Arc;

use super::words::{Part, Period};

/// Years "about" a bare year reaches either way (common practice, no source).
pub const ABOUT_YEARS: i16 = 5;

/// How sharp the ends of a span are.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ends {
    /// As said.
    #[default]
    Sharp,
    /// Said of one year or a round age: the years about it are in the span already.
    Widened,
    /// Said of a run of years: the ends give way.
    Soft,
}

impl Ends {
    /// True when the years are about right only.
    pub fn about(self) -> bool {
        self != Ends::Sharp
    }
}

/// Years as understood; `None` = open on that side.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Span {
    pub from: Option<i16>,
    pub to: Option<i16>,
    pub ends: Ends,
    /// Where a period word's years come from.
    pub origin: Option<Arc<str>>,
}

impl Span {
    pub fn new(from: i16, to: i16) -> Span {
        Span {
            from: Some(from),
            to: Some(to),
            ends: Ends::Sharp,
            origin: None,
        }
    }

    /// The years of a period, as its name says them.
    pub fn of(period: &Period) -> Span {
        Span {
            from: period.from,
            to: period.to,
            ends: Ends::Sharp,
            origin: Some(Arc::clone(&period.origin)),
        }
    }

    /// Everything from the start of one to the end of the other.
    pub fn hull(&self, other: &Span) -> Span {
        Span {
            from: self.from.and_then(|a| other.from.map(|b| a.min(b))),
            to: self.to.and_then(|a| other.to.map(|b| a.max(b))),
            ends: self.ends.max(other.ends),
            origin: self.origin.clone().or_else(|| other.origin.clone()),
        }
    }

    /// The years both allow, if any.
    pub fn both(&self, other: &Span) -> Option<Span> {
        let later = |a: Option<i16>, b: Option<i16>| a.max(b);
        let earlier = |a: Option<i16>, b: Option<i16>| match (a, b) {
            (Some(a), Some(b)) => Some(a.min(b)),
            (one, None) | (None, one) => one,
        };
        let (from, to) = (later(self.from, other.from), earlier(self.to, other.to));
        let some = from.is_none_or(|f| to.is_none_or(|t| f <= t));
        some.then_some(Span {
            from,
            to,
            ends: self.ends.min(other.ends),
            origin: self.origin.clone().or_else(|| other.origin.clone()),
        })
    }

    /// Number of years, an open span counting as very long.
    pub fn width(&self) -> i32 {
        match (self.from, self.to) {
            (Some(f), Some(t)) => i32::from(t) - i32::from(f) + 1,
            _ => i32::MAX,
        }
    }
}

/// The part of a span that is meant, from the first part named to the last. An early third of a
/// decade is four years; of a bare year nothing is cut.
pub fn cut(whole: &Span, parts: &[Part]) -> Span {
    let (Some(from), Some(to)) = (whole.from, whole.to) else {
        return whole.clone();
    };
    let years = i32::from(to) - i32::from(from) + 1;
    if parts.is_empty() || years < 3 {
        return whole.clone();
    }
    let piece = |&Part { from, to, of }: &Part| {
        // The first year at or after the fraction, so that thirds share no year.
        let start = (years * from + of - 1) / of;
        let end = (years * to + of - 1) / of - 1;
        (start as i16, end.min(years - 1) as i16)
    };
    let pieces: Vec<(i16, i16)> = parts.iter().map(piece).collect();
    let first = pieces.iter().map(|p| p.0).min().unwrap_or(0);
    let last = pieces.iter().map(|p| p.1).max().unwrap_or(0);
    Span {
        from: Some(from + first),
        to: Some(from + last),
        ..whole.clone()
    }
}
