//! Years in plain or EDTF writing, one unit or from one to another: "c. 1840-60", "before 1850",
//! "1840~/1860~".

use super::reader::Reader;
use super::span::{ABOUT_YEARS, Ends, Span};
use super::tokens::{Sort, Token};
use super::words::DateWords;

/// Reads years from token `at`; returns them and the token after.
pub fn span(words: &DateWords, tokens: &[Token], at: usize, present: i16) -> Option<(Span, usize)> {
    let reader = Reader {
        tokens,
        words,
        present,
    };
    if let Some(age) = reader.age(at) {
        return Some(age);
    }
    let (mut span, end) = reader.bounded(at).or_else(|| reader.range(at))?;
    if span.ends == Ends::Soft && span.from.is_some() && span.from == span.to {
        span.ends = Ends::Widened;
        span.from = span.from.map(|y| y - ABOUT_YEARS);
        span.to = span.to.map(|y| y + ABOUT_YEARS);
    }
    Some((span, end))
}

impl Reader<'_> {
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
        let inner = |end: usize| self.range(end);
        if let Some(end) = self.any(at, &self.words.before) {
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
        if let Some(end) = self.any(at, &self.words.up_to) {
            let (span, end) = inner(end)?;
            return Some((Span { from: None, ..span }, end));
        }
        if let Some(end) = self.any(at, &self.words.since) {
            let (span, end) = inner(end)?;
            return Some((Span { to: None, ..span }, end));
        }
        if let Some(end) = self.any(at, &self.words.after) {
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
        let opening = self.any(at, &self.words.between);
        let at = match self.period(at) {
            Some(_) => at,
            None => opening.unwrap_or(at),
        };
        let (first, end) = self.unit(at)?;
        let later = match self.sort(end) {
            Some(Sort::Later) => Some(end + 1),
            _ => self.any(end, &self.words.or_later),
        };
        if let Some(end) = later {
            return Some((Span { to: None, ..first }, end));
        }
        if let Some(end) = self.any(end, &self.words.or_earlier) {
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
        let second = match joint {
            true => Some(end + 1),
            false => self.any(end, &self.words.to),
        };
        if let Some(next) = second {
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
            ends: if about { Ends::Soft } else { first.ends },
            ..Span::new(base, to)
        })
    }
}
