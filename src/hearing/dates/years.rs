//! Years in plain or EDTF writing, one unit or from one to another: "c. 1840-60", "before 1850",
//! "1840~/1860~".

use super::span::Span;
use super::tokens::{Sort, Token};

pub(super) const TO: [&str; 8] = [
    "to", "until", "till", "through", "thru", "and", "or", "into",
];

/// Reads years from token `at`; returns them and the token after.
pub fn span(tokens: &[Token], at: usize, present: i16) -> Option<(Span, usize)> {
    let reader = Reader { tokens, present };
    if let Some(age) = reader.age(at) {
        return Some(age);
    }
    let (mut span, end) = reader.bounded(at).or_else(|| reader.range(at))?;
    if span.about && span.from == span.to {
        span.from = span.from.map(|y| y - ABOUT_YEARS);
        span.to = span.to.map(|y| y + ABOUT_YEARS);
    }
    Some((span, end))
}

pub(super) struct Reader<'a> {
    pub(super) tokens: &'a [Token],
    pub(super) present: i16,
}

impl Reader<'_> {
    pub(super) fn word(&self, at: usize) -> &str {
        match self.tokens.get(at) {
            Some(t) if t.sort == Sort::Word => &t.text,
            _ => "",
        }
    }

    pub(super) fn sort(&self, at: usize) -> Option<Sort> {
        self.tokens.get(at).map(|t| t.sort)
    }

    fn slash(&self, at: usize) -> bool {
        self.sort(at) == Some(Sort::Joint) && self.tokens[at].text == "/"
    }

    pub(super) fn phrase(&self, at: usize, words: &str) -> Option<usize> {
        let mut end = at;
        for word in words.split(' ') {
            if self.tokens.get(end)?.text != word {
                return None;
            }
            end += 1;
        }
        Some(end)
    }

    pub(super) fn any(&self, at: usize, phrases: &[&str]) -> Option<usize> {
        phrases.iter().filter_map(|p| self.phrase(at, p)).max()
    }

    /// "before 1850", "not later than …", "after …", "../1860", "/1860".
    fn bounded(&self, at: usize) -> Option<(Span, usize)> {
        if self.period(at).is_some() {
            return None;
        }
        if self.sort(at) == Some(Sort::Dots) {
            let next = at + 1 + usize::from(self.sort(at + 1) == Some(Sort::Joint));
            let (span, end) = self.unit(next)?;
            return Some((Span { from: None, ..span }, end));
        }
        // EDTF writes an end that is not known as nothing at all.
        if at == 0 && self.slash(at) {
            let (span, end) = self.unit(1)?;
            return Some((Span { from: None, ..span }, end));
        }
        let up_to = [
            "not later than",
            "no later than",
            "not after",
            "by",
            "until",
            "till",
            "up to",
        ];
        let before = ["before", "pre", "prior to", "earlier than", "older than"];
        let from = ["since", "not before", "no earlier than", "not earlier than"];
        let after = ["after", "post", "later than", "newer than"];
        let inner = |end: usize| self.range(end);
        if let Some(end) = self.any(at, &before) {
            let (span, end) = inner(end)?;
            let to = span.from.map(|y| y - 1);
            return Some((
                Span {
                    from: None,
                    to,
                    ..span
                },
                end,
            ));
        }
        if let Some(end) = self.any(at, &up_to) {
            let (span, end) = inner(end)?;
            return Some((Span { from: None, ..span }, end));
        }
        if let Some(end) = self.any(at, &from) {
            let (span, end) = inner(end)?;
            return Some((Span { to: None, ..span }, end));
        }
        if let Some(end) = self.any(at, &after) {
            let (span, end) = inner(end)?;
            // "After 1891" is said of 1891 itself; "after the 1880s" is not.
            let single = span.from == span.to;
            let from = span.to.map(|y| if single { y } else { y + 1 });
            return Some((
                Span {
                    from,
                    to: None,
                    ..span
                },
                end,
            ));
        }
        None
    }

    /// One unit, or two with a joint between them.
    fn range(&self, at: usize) -> Option<(Span, usize)> {
        // "Between the wars" is a period, "between 1830 and 1840" is not.
        let opening = self.any(at, &["between", "from", "dating from"]);
        let at = match self.period(at) {
            Some(_) => at,
            None => opening.unwrap_or(at),
        };
        let (first, end) = self.unit(at)?;
        if let Some(end) = self.any(
            end,
            &[
                "onwards",
                "onward",
                "or later",
                "and later",
                "or after",
                "and after",
                "on",
            ],
        ) {
            return Some((Span { to: None, ..first }, end));
        }
        if let Some(end) = self.any(
            end,
            &["or earlier", "and earlier", "or before", "and before"],
        ) {
            return Some((
                Span {
                    from: None,
                    ..first
                },
                end,
            ));
        }
        let joint = self.sort(end) == Some(Sort::Joint);
        if joint && self.sort(end + 1) == Some(Sort::Dots) {
            return Some((Span { to: None, ..first }, end + 2));
        }
        if self.slash(end) && end + 1 == self.tokens.len() {
            return Some((Span { to: None, ..first }, end + 1));
        }
        if joint || TO.contains(&self.word(end)) {
            let next = end + 1;
            if let Some(second) = self.short(&first, next) {
                return Some((first.hull(&second), next + 1));
            }
            if let Some((second, after)) = self.unit(next) {
                return Some((first.hull(&second), after));
            }
        }
        Some((first, end))
    }

    /// The second half of "1840-60" and "1880s-90s".
    fn short(&self, first: &Span, at: usize) -> Option<Span> {
        let base = first.from?;
        let (to, about) = match self.tokens.get(at)? {
            Token {
                sort: Sort::Short(n),
                text,
                about,
                ..
            } => {
                let ten = if text.len() == 1 { 10 } else { 100 };
                let year = base - base.rem_euclid(ten) + n;
                (if year < base { year + ten } else { year }, *about)
            }
            Token {
                sort: Sort::ShortDecade(n),
                about,
                ..
            } => {
                let start = base - base.rem_euclid(100) + n;
                (if start < base { start + 109 } else { start + 9 }, *about)
            }
            _ => return None,
        };
        Some(Span {
            about: first.about || about,
            ..Span::new(base, to)
        })
    }
}

/// Years "about" a bare year reaches either way (common practice, no source).
pub const ABOUT_YEARS: i16 = 5;
