//! One stretch of years as people name it: "about 1850", "late 19th century", "1880s or so", "Georgian".

use std::sync::Arc;

use super::reader::Reader;
use super::span::{Ends, Span, cut};
use super::tokens::Sort;
use super::words::Part;
use crate::registry::calendar::days_in;

impl Reader<'_> {
    /// "[about] [early] [of the] 1880s [or so]".
    pub(super) fn unit(&self, at: usize) -> Option<(Span, usize)> {
        let (mut at, mut about) = (at, false);
        loop {
            if let Some(end) = self.any(at, &self.words.about) {
                (at, about) = (end, true);
            } else if let Some(end) = self.any(at, &self.words.article) {
                at = end;
            } else {
                break;
            }
        }
        let (mut span, mut end) = match self.period(at) {
            Some(found) => found,
            None => {
                let (parts, mut inner) = self.parts(at);
                while let Some(end) = self.any(inner, &self.words.part_of)
                    && !parts.is_empty()
                {
                    inner = end;
                }
                while let Some(end) = self.any(inner, &self.words.about) {
                    (inner, about) = (end, true);
                }
                let (whole, end) = self.period(inner).or_else(|| self.figures(inner))?;
                (cut(&whole, &parts), end)
            }
        };
        about |= self.tokens[at..end].iter().any(|t| t.about);
        if let Some(after) = self.any(end, &self.words.about_after) {
            (end, about) = (after, true);
        }
        if about {
            span.ends = Ends::Soft;
        }
        Some((span, end))
    }

    /// A period or an age by its name.
    pub(super) fn period(&self, at: usize) -> Option<(Span, usize)> {
        if let Some((end, period)) = self.named(at, &self.words.periods) {
            let end = self.any(end, &self.words.era).unwrap_or(end);
            return Some((Span::of(period), end));
        }
        let (end, age) = self.named(at, &self.words.age_names)?;
        let span = Span {
            from: age.most.map(|years| self.present - years),
            to: age.least.map(|years| self.present - years),
            ends: Ends::Soft,
            origin: Some(Arc::clone(&age.origin)),
        };
        Some((span, end))
    }

    /// Early, mid, late, halves and quarters; two of them may stand together ("early to mid").
    fn parts(&self, at: usize) -> (Vec<Part>, usize) {
        let (mut out, mut at) = (Vec::new(), at);
        while let Some((end, part)) = self.named(at, &self.words.parts) {
            out.push(*part);
            at = end;
            let joined = match self.sort(at) {
                Some(Sort::Joint) => Some(at + 1),
                _ => self.any(at, &self.words.to),
            };
            if let Some(next) = joined
                && self.named(next, &self.words.parts).is_some()
            {
                at = next;
            }
        }
        (out, at)
    }

    /// The token after a year with month and day as EDTF writes them: 1890-05-12, or 1890-05. A month
    /// that may as well be the end of a run of years is taken for that: 1901-05 is 1901 to 1905, but
    /// 1890-05 would have to turn the century. `None` for three numbers that are no day.
    fn day_or_month(&self, at: usize, year: i16) -> Option<usize> {
        let after = |dash: usize| match (self.tokens.get(dash), self.tokens.get(dash + 1)) {
            (Some(dash), Some(number)) if dash.text == "-" && number.text.len() == 2 => {
                match number.sort {
                    Sort::Short(n) => Some(n),
                    _ => None,
                }
            }
            _ => None,
        };
        let Some(month) = after(at + 1) else {
            return Some(at + 1);
        };
        let month_is_one = (1..=12).contains(&month);
        if let Some(day) = after(at + 3) {
            let days = u8::try_from(month).map_or(0, |month| days_in(year, month));
            let is_day = month_is_one && (1..=i16::from(days)).contains(&day);
            return is_day.then_some(at + 5);
        }
        let turns = month < year.rem_euclid(100);
        Some(at + if month_is_one && turns { 3 } else { 1 })
    }

    fn figures(&self, at: usize) -> Option<(Span, usize)> {
        let century = |n: i16| {
            (1..=30)
                .contains(&n)
                .then(|| Span::new(n * 100 - 99, n * 100))
        };
        let span = match self.sort(at)? {
            Sort::Year(y) if (1000..3000).contains(&y) => {
                return Some((Span::new(y, y), self.day_or_month(at, y)?));
            }
            Sort::Decade(y) => Span::new(y, y + 9),
            Sort::Hundred(y) => Span::new(y, y + 99),
            Sort::ShortDecade(n) if n >= 20 => Span::new(1900 + n, 1909 + n),
            Sort::Century(n) => century(n)?,
            Sort::Ordinal(n) => match self.any(at + 1, &self.words.century) {
                Some(end) => return Some((century(n)?, end)),
                None if (16..=21).contains(&n) => century(n)?,
                None => return None,
            },
            _ => return None,
        };
        Some((span, at + 1))
    }
}
