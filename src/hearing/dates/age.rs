//! Years told as an age: "over a hundred years old", "about 150 years old", "the last ten years".

use super::reader::Reader;
use super::span::{ABOUT_YEARS, Ends, Span};
use super::tokens::Token;

/// Oldest age read, so that no year falls out of the calendar. What is older than the years judged
/// is still read: "2000 years old" is an age that can't be, and not the year 2000.
const MOST: i16 = 20_000;

/// An age is told in round numbers: a tenth of it either way (common practice, no source).
const ROUND: i16 = 10;

/// Where the years of an age come from, as shown beside them.
const ORIGIN: &str =
    "counted back from today, round numbers a tenth either way; common practice, no source";

impl Reader<'_> {
    /// An age from token `at`, counted back from the present, and the token after it.
    pub(super) fn age(&self, at: usize) -> Option<(Span, usize)> {
        let words = &self.words.age;
        let over = self.any(at, &words.over);
        let under = self.any(at, &words.under);
        let within = self.any(at, &words.within);
        let start = over.or(under).or(within).unwrap_or(at);
        let start = self.any(start, &self.words.about).unwrap_or(start);
        let (number, unit) = self.number(start)?;
        let (after, each) = self.named(unit, &words.units)?;
        let years = number
            .checked_mul(*each)
            .filter(|n| (1..=MOST).contains(n))?;
        // "The last decade of the 19th century" is no age, and "last century" means the 1900s.
        if self.any(after, &words.of).is_some() || (within == Some(unit) && *each == 100) {
            return None;
        }
        let old = self.any(after, &words.old);
        let then = self.present - years;
        let mut ends = Ends::Soft;
        let (from, to, end) = match (over, under.or(within), old) {
            (Some(_), _, Some(end)) => (None, Some(then), end),
            (_, Some(_), Some(end)) => (Some(then), Some(self.present), end),
            (None, Some(end), None) if within == Some(end) => {
                (Some(then), Some(self.present), after)
            }
            (None, None, Some(end)) => {
                ends = Ends::Widened;
                let round = (years / ROUND).max(ABOUT_YEARS);
                (Some(then - round), Some(then + round), end)
            }
            _ => return None,
        };
        let span = Span {
            from,
            to: to.map(|to| to.min(self.present)),
            ends,
            origin: Some(ORIGIN.into()),
        };
        Some((span, end))
    }

    /// A number in figures or in words, and the token after; "the last decade" is one.
    fn number(&self, at: usize) -> Option<(i16, usize)> {
        if let Some((end, number)) = self.named(at, &self.words.age.numbers) {
            return Some((*number, end));
        }
        let token = self.tokens.get(at)?;
        if let Ok(number) = token.text.parse() {
            return Some((number, at + 1));
        }
        // Of a number too long to be read nothing is left over: "99999 years old" is not one year old.
        let figures = |t: &Token| t.text.starts_with(|c: char| c.is_ascii_digit());
        let before = at.checked_sub(1).and_then(|i| self.tokens.get(i));
        let unit = self.named(at, &self.words.age.units);
        unit.filter(|_| !before.is_some_and(figures))
            .map(|_| (1, at))
    }
}
