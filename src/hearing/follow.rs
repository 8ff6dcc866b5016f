//! Figures of a mark: what stands after a word that leads to a year or a number, and what is
//! known by its figures alone (corners of a diamond, month and year, a bare year).

use std::ops::Range;

use super::choose::Candidate;
use super::fold::{Nature, Word};
use super::matcher::Match;
use super::reads::Reads;
use crate::core::observation::Sure;
use crate::registry::decoded::Decoded;
use crate::registry::tables::Registry;
use crate::registry::{diamond, numbers};

/// What a claim stands for.
#[derive(Clone, Debug)]
pub(super) struct What {
    /// Index of the phrase.
    pub phrase: usize,
    pub sure: Sure,
    /// A year read, printed, potted or of registration.
    pub year: Option<i16>,
    /// How sure that year is.
    pub dated: Sure,
    pub decoded: Option<Decoded>,
}

/// Looks around in the words of one text.
pub(super) struct Follower<'a> {
    pub text: &'a str,
    pub words: &'a [Word],
    pub registry: &'a Registry,
}

/// Years a mark can name.
const YEARS: std::ops::RangeInclusive<i16> = 1600..=2099;
/// Words that may stand between a founding word and its year.
const FOUNDING_GAP: usize = 2;
/// Words that may stand between © and its year: a firm's name.
const PRINTED_GAP: usize = 4;
/// Ends of words that promise a number; after the others a year may stand.
const TELLS_NUMBER: [&str; 4] = ["no", "number", "nr", "nos"];
/// Years a registration may be spread over and still be given as one year.
const SPREAD: i16 = 2;

impl Follower<'_> {
    /// The claim of a phrase that fits at `hit`, with the figures after it.
    pub(super) fn after(
        &self,
        phrase: usize,
        reads: Reads,
        hit: &Match,
    ) -> Option<Candidate<What>> {
        let end = hit.words.end;
        let plain = What {
            phrase,
            sure: hit.sure(),
            year: None,
            dated: Sure::Sure,
            decoded: None,
        };
        let claim = |words: Range<usize>, more: i32, what: What| {
            Some(Candidate {
                words,
                worth: hit.worth() + more,
                what,
            })
        };
        match reads {
            Reads::Words => claim(hit.words.clone(), 0, plain),
            Reads::FoundingYear => {
                let (at, _) = self.year_after(end, FOUNDING_GAP)?;
                claim(hit.words.start..at + 1, 40, plain)
            }
            Reads::PrintedYear => {
                let (at, year) = self.year_after(end, PRINTED_GAP)?;
                let what = What {
                    year: Some(year?),
                    ..plain
                };
                Some(Candidate {
                    words: at..at + 1,
                    worth: 40,
                    what,
                })
            }
            Reads::Patent => {
                if let Some((at, _)) = self.year_after(end, PRINTED_GAP) {
                    // Month and day between the words go with them; the year is its own phrase.
                    return claim(hit.words.start..at, 0, plain);
                }
                let after = (end..end + 2).find_map(|i| self.number(i, 4))?;
                claim(hit.words.start..after.0, 40, plain)
            }
            Reads::PatternNumber => {
                let (after, digits) = self.number(end, 1)?;
                let what = What {
                    sure: plain.sure.max(Sure::Unsure),
                    ..plain
                };
                (digits.len() <= 5)
                    .then(|| claim(hit.words.start..after, 20, what))
                    .flatten()
            }
            Reads::RegisteredNumber => {
                let head = self.words[end - 1].folded();
                let told = TELLS_NUMBER.iter().any(|w| head.ends_with(w));
                let Some((after, digits)) = self.number(end, if told { 3 } else { 4 }) else {
                    // Words for a number without one that can be used: the words still count.
                    let short = self.number(end, 1).map_or(end, |n| n.0);
                    return claim(hit.words.start..short, 20, plain).filter(|_| told);
                };
                if !told && digits.len() == 4 && self.year(end).is_some() {
                    return None;
                }
                let decoded = numbers::decode(self.registry, &digits);
                claim(hit.words.start..after, 50, self.registered(plain, decoded))
            }
            Reads::Diamond => match self.corners_after(end) {
                Some((after, class, corners)) => {
                    let decoded = diamond::decode(self.registry, &corners, class.as_deref());
                    claim(hit.words.start..after, 60, self.registered(plain, decoded))
                }
                None => claim(hit.words.clone(), 0, plain),
            },
            Reads::BareYear | Reads::RegisteredYear | Reads::MonthYear | Reads::PottedYear => None,
        }
    }

    /// Claims of what needs no word before it.
    pub(super) fn alone(&self, phrase: usize, reads: Reads) -> Vec<Candidate<What>> {
        let what = What {
            phrase,
            sure: Sure::Sure,
            year: None,
            dated: Sure::Sure,
            decoded: None,
        };
        match reads {
            Reads::Diamond => self.diamonds(&what),
            Reads::MonthYear => (1..self.words.len())
                .filter_map(|i| self.month_year(i, &what))
                .collect(),
            Reads::BareYear => (0..self.words.len())
                .filter(|&i| self.year(i).is_some())
                .map(|i| Candidate {
                    words: i..i + 1,
                    worth: 10,
                    what: what.clone(),
                })
                .collect(),
            _ => Vec::new(),
        }
    }

    /// A year at word `i`: `Some(None)` when a figure of it can't be read.
    fn year(&self, i: usize) -> Option<Option<i16>> {
        let word = self.words.get(i)?;
        let figures = word.glyphs.iter().filter(|c| c.is_ascii_digit()).count();
        let open = word.glyphs.iter().all(|&c| c.is_ascii_digit() || c == '?');
        if word.nature != Nature::Number || word.glyphs.len() != 4 || !open || figures < 2 {
            return None;
        }
        if figures == 4 {
            let year = word.folded().parse().ok()?;
            return YEARS.contains(&year).then_some(Some(year));
        }
        let begins = |a: char, b: char| {
            [a, b]
                .iter()
                .zip(&word.glyphs)
                .all(|(want, seen)| *seen == '?' || seen == want)
        };
        let possible = ['6', '7', '8', '9'].iter().any(|&c| begins('1', c)) || begins('2', '0');
        possible.then_some(None)
    }

    fn year_after(&self, from: usize, gap: usize) -> Option<(usize, Option<i16>)> {
        (from..=from + gap).find_map(|i| self.year(i).map(|year| (i, year)))
    }

    /// A number of at least `least` figures from word `i` on; groups of three are joined.
    fn number(&self, i: usize, least: usize) -> Option<(usize, String)> {
        let figures = |i: usize| {
            let word = self.words.get(i)?;
            let like = |c: &char| c.is_ascii_digit() || "?oilsb".contains(*c);
            let number = word.nature == Nature::Number || word.glyphs.iter().all(|&c| c == '?');
            (number && !word.glyphs.is_empty() && word.glyphs.iter().all(like))
                .then(|| word.folded())
        };
        let mut digits = figures(i)?;
        let mut end = i + 1;
        while digits.len() <= 4
            && let Some(more) = figures(end)
            && more.len() == 3
            && matches!(self.between(end - 1), "," | "." | " " | "'")
        {
            digits.push_str(&more);
            end += 1;
        }
        (digits.len() >= least && digits.len() <= 9).then_some((end, digits))
    }

    /// The text between word `i` and the next.
    pub(super) fn between(&self, i: usize) -> &str {
        match self.words.get(i + 1) {
            Some(next) => &self.text[self.words[i].span.1..next.span.0],
            None => "",
        }
    }

    /// A diamond or number with the year it gives, when that is one year or nearly.
    pub(super) fn registered(&self, plain: What, decoded: Decoded) -> What {
        let mut what = plain;
        if let (Some((first, last)), Some(main)) = (decoded.years(), decoded.dates.first())
            && last - first <= SPREAD
        {
            what.year = Some(main.from.year());
            what.dated = if first == last {
                Sure::Sure
            } else {
                Sure::Unsure
            };
        }
        if !decoded.problems.is_empty() {
            what.sure = what.sure.max(Sure::Unsure);
            what.dated = what.dated.max(Sure::Unsure);
        }
        what.decoded = Some(decoded);
        what
    }

    /// Month and year in figures, such as 6.81 or 10/1888, ending at word `i`.
    fn month_year(&self, i: usize, what: &What) -> Option<Candidate<What>> {
        const JOINS: [&str; 3] = [".", "/", "-"];
        let (month, year) = (&self.words[i - 1], &self.words[i]);
        let joined = JOINS.contains(&self.between(i - 1));
        let longer =
            (i >= 2 && JOINS.contains(&self.between(i - 2))) || JOINS.contains(&self.between(i));
        if !joined || longer || month.nature != Nature::Number {
            return None;
        }
        let number: u8 = month.folded().parse().ok()?;
        if !(1..=12).contains(&number) || !year.glyphs.iter().all(char::is_ascii_digit) {
            return None;
        }
        let full = match year.glyphs.len() {
            2 => None,
            4 => Some(self.year(i)??),
            _ => return None,
        };
        let what = What {
            sure: Sure::Unsure,
            dated: Sure::Unsure,
            year: full,
            ..what.clone()
        };
        Some(Candidate {
            words: i - 1..i + 1,
            worth: 45,
            what,
        })
    }
}
