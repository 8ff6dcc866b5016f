//! Years told as an age: "over a hundred years old", "about 150 years old", "the last ten years".

use super::span::Span;
use super::unit::ABOUT;
use super::years::{ABOUT_YEARS, Reader};

const OVER: [&str; 6] = [
    "over",
    "more than",
    "at least",
    "older than",
    "upwards of",
    "a good",
];
const UNDER: [&str; 5] = [
    "under",
    "less than",
    "at most",
    "not more than",
    "no more than",
];
const WITHIN: [&str; 6] = [
    "the last",
    "last",
    "the past",
    "past",
    "in the last",
    "within the last",
];
const UNITS: [(&str, i16); 7] = [
    ("years", 1),
    ("year", 1),
    ("yrs", 1),
    ("decades", 10),
    ("decade", 10),
    ("centuries", 100),
    ("century", 100),
];

/// Oldest age read, so that no year falls out of the calendar.
const MOST: i16 = 1000;

/// An age is told in round numbers: a tenth of it either way (common practice, no source).
const ROUND: i16 = 10;

impl Reader<'_> {
    /// An age from token `at`, counted back from the present, and the token after it.
    pub(super) fn age(&self, at: usize) -> Option<(Span, usize)> {
        let bound = |words: &[&str]| self.any(at, words);
        let (over, under, within) = (bound(&OVER), bound(&UNDER), bound(&WITHIN));
        let start = over.or(under).or(within).unwrap_or(at);
        let start = self.any(start, &ABOUT).unwrap_or(start);
        let (number, unit) = self.number(start)?;
        let (_, each) = *UNITS.iter().find(|(word, _)| *word == self.word(unit))?;
        let years = number
            .checked_mul(each)
            .filter(|n| (1..=MOST).contains(n))?;
        // "The last decade of the 19th century" is no age, and "last century" means the 1900s.
        if self.word(unit + 1) == "of" || (within == Some(unit) && each == 100) {
            return None;
        }
        let old = self.any(unit + 1, &["old", "ago", "of age"]);
        let then = self.present - years;
        let (from, to, end) = match (over, under.or(within), old) {
            (Some(_), _, Some(end)) => (None, Some(then), end),
            (_, Some(_), Some(end)) => (Some(then), Some(self.present), end),
            (None, Some(end), None) if within == Some(end) => {
                (Some(then), Some(self.present), unit + 1)
            }
            (None, None, Some(end)) => {
                let round = (years / ROUND).max(ABOUT_YEARS);
                (Some(then - round), Some(then + round), end)
            }
            _ => return None,
        };
        let span = Span {
            from,
            to: to.map(|to| to.min(self.present)),
            about: true,
            origin: Some(
                "counted back from today, round numbers a tenth either way; common practice, no source",
            ),
        };
        Some((span, end))
    }

    /// A number in figures or in words, and the token after; "the last decade" is one.
    fn number(&self, at: usize) -> Option<(i16, usize)> {
        let words = [
            ("a hundred", 100),
            ("one hundred", 100),
            ("two hundred", 200),
            ("a", 1),
            ("one", 1),
            ("a couple of", 2),
            ("ten", 10),
            ("twenty", 20),
            ("fifty", 50),
        ];
        let named = words
            .iter()
            .filter_map(|(word, n)| Some((self.phrase(at, word)?, *n)))
            .max_by_key(|(end, _)| *end);
        if let Some((end, n)) = named {
            return Some((n, end));
        }
        let token = self.tokens.get(at)?;
        let figures = token.text.trim_end_matches('+');
        if let Ok(n) = figures.parse() {
            return Some((n, at + 1));
        }
        let unit = UNITS.iter().any(|(word, _)| *word == self.word(at));
        unit.then_some((1, at))
    }
}
