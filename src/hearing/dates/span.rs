//! Years as understood, and parts of them: early, mid, late, halves, quarters.

/// Years as understood; `None` = open on that side.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Span {
    pub from: Option<i16>,
    pub to: Option<i16>,
    /// The ends are soft.
    pub about: bool,
    /// Where a period word's years come from.
    pub origin: Option<&'static str>,
}

impl Span {
    pub fn new(from: i16, to: i16) -> Span {
        Span {
            from: Some(from),
            to: Some(to),
            about: false,
            origin: None,
        }
    }

    /// Everything from the start of one to the end of the other.
    pub fn hull(&self, other: &Span) -> Span {
        Span {
            from: self.from.and_then(|a| other.from.map(|b| a.min(b))),
            to: self.to.and_then(|a| other.to.map(|b| a.max(b))),
            about: self.about || other.about,
            origin: self.origin.or(other.origin),
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
            about: self.about && other.about,
            origin: self.origin.or(other.origin),
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

/// What part of a unit is meant.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum CornerMeaning {
    /// Third 0, 1 or 2, counted in tenths of the whole: early, mid, late.
    Third(i32),
    /// (numerator from, to, denominator)
    Share(i32, i32, i32),
}

/// Words for parts.
pub const PARTS: [(&str, CornerMeaning); 18] = [
    ("very early", CornerMeaning::Third(0)),
    ("early", CornerMeaning::Third(0)),
    ("beginning", CornerMeaning::Third(0)),
    ("start", CornerMeaning::Third(0)),
    ("mid", CornerMeaning::Third(1)),
    ("middle", CornerMeaning::Third(1)),
    ("late", CornerMeaning::Third(2)),
    ("later", CornerMeaning::Third(2)),
    ("end", CornerMeaning::Third(2)),
    ("very late", CornerMeaning::Third(2)),
    ("first half", CornerMeaning::Share(0, 2, 4)),
    ("1st half", CornerMeaning::Share(0, 2, 4)),
    ("second half", CornerMeaning::Share(2, 4, 4)),
    ("2nd half", CornerMeaning::Share(2, 4, 4)),
    ("first quarter", CornerMeaning::Share(0, 1, 4)),
    ("second quarter", CornerMeaning::Share(1, 2, 4)),
    ("third quarter", CornerMeaning::Share(2, 3, 4)),
    ("last quarter", CornerMeaning::Share(3, 4, 4)),
];

/// The part of a span that is meant. "Early", "mid", "late" are thirds; of a decade four years,
/// of a bare year nothing is cut.
pub fn cut(whole: &Span, parts: &[CornerMeaning]) -> Span {
    let (Some(from), Some(to)) = (whole.from, whole.to) else {
        return whole.clone();
    };
    let years = i32::from(to) - i32::from(from) + 1;
    if parts.is_empty() || years < 3 {
        return whole.clone();
    }
    let piece = |part: &CornerMeaning| {
        let (a, b, of) = match part {
            CornerMeaning::Third(n) => (*n, n + 1, 3),
            CornerMeaning::Share(a, b, of) => (*a, *b, *of),
        };
        // The first year at or after the fraction, so that thirds share no year.
        let start = (years * a + of - 1) / of;
        let end = (years * b + of - 1) / of - 1;
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
