//! One stretch of years as people name it: "about 1850", "late 19th century", "1880s or so", "Georgian".

use super::periods::{ANTIQUE, MODERN, PERIODS, VINTAGE};
use super::span::{CornerMeaning, PARTS, Span, cut};
use super::tokens::Sort;
use super::years::{Reader, TO};

pub(super) const ABOUT: [&str; 12] = [
    "c",
    "ca",
    "cca",
    "circa",
    "about",
    "around",
    "approx",
    "approximately",
    "roughly",
    "near",
    "nearly",
    "almost",
];
const SMALL: [&str; 3] = ["of", "the", "in"];

impl Reader<'_> {
    /// "[about] [early] [of the] 1880s [or so]".
    pub(super) fn unit(&self, at: usize) -> Option<(Span, usize)> {
        let (mut at, mut about) = (at, false);
        while ABOUT.contains(&self.word(at)) || self.word(at) == "the" {
            about |= self.word(at) != "the";
            at += 1;
        }
        let (mut span, mut end) = match self.period(at) {
            Some(found) => found,
            None => {
                let (parts, mut inner) = self.parts(at);
                while SMALL.contains(&self.word(inner)) && !parts.is_empty() {
                    inner += 1;
                }
                while ABOUT.contains(&self.word(inner)) {
                    about = true;
                    inner += 1;
                }
                let (whole, end) = self.period(inner).or_else(|| self.core(inner))?;
                (cut(&whole, &parts), end)
            }
        };
        about |= self.tokens[at..end].iter().any(|t| t.about);
        if let Some(after) = self.any(
            end,
            &["ish", "or so", "or thereabouts", "give or take", "approx"],
        ) {
            about = true;
            end = after;
        }
        span.about |= about;
        Some((span, end))
    }

    pub(super) fn period(&self, at: usize) -> Option<(Span, usize)> {
        let words = |p: &'static super::periods::Period| p.words.iter().map(move |w| (p, *w));
        let hit = PERIODS
            .iter()
            .flat_map(words)
            .filter_map(|(p, w)| Some((self.phrase(at, w)?, p)))
            .max_by_key(|(end, _)| *end);
        if let Some((mut end, p)) = hit {
            if ["era", "period", "times", "age"].contains(&self.word(end)) {
                end += 1;
            }
            let span = Span {
                from: p.from,
                to: p.to,
                about: false,
                origin: Some(p.origin),
            };
            return Some((span, end));
        }
        let ago = |years: i16| Some(self.present - years);
        let span = match self.word(at) {
            "antique" => (None, ago(ANTIQUE)),
            "vintage" => (ago(ANTIQUE), ago(VINTAGE)),
            "modern" | "recent" | "contemporary" => (ago(MODERN), ago(0)),
            _ => return None,
        };
        Some((
            Span {
                from: span.0,
                to: span.1,
                about: true,
                origin: Some(
                    "a hundred years and more is antique, twenty to a hundred vintage, up to thirty modern; common practice, no source",
                ),
            },
            at + 1,
        ))
    }

    /// Early, mid, late, halves and quarters; two of them may stand together ("early to mid").
    fn parts(&self, at: usize) -> (Vec<CornerMeaning>, usize) {
        let (mut out, mut at) = (Vec::new(), at);
        while let Some((part, end)) = self.part(at) {
            out.push(part);
            at = end;
            let joint = self.sort(at) == Some(Sort::Joint) || TO.contains(&self.word(at));
            if joint && self.part(at + 1).is_some() {
                at += 1;
            }
        }
        (out, at)
    }

    fn part(&self, at: usize) -> Option<(CornerMeaning, usize)> {
        let hits = PARTS
            .iter()
            .filter_map(|(w, p)| Some((self.phrase(at, w)?, *p)));
        hits.max_by_key(|(end, _)| *end).map(|(end, p)| (p, end))
    }

    fn core(&self, at: usize) -> Option<(Span, usize)> {
        let century = |n: i16| {
            (1..=30)
                .contains(&n)
                .then(|| Span::new(n * 100 - 99, n * 100))
        };
        let span = match self.sort(at)? {
            Sort::Year(y) if (1000..3000).contains(&y) => Span::new(y, y),
            Sort::Decade(y) => Span::new(y, y + 9),
            Sort::Hundred(y) => Span::new(y, y + 99),
            Sort::ShortDecade(n) if n >= 20 => Span::new(1900 + n, 1909 + n),
            Sort::Century(n) => century(n)?,
            Sort::Ordinal(n)
                if ["century", "cent", "c", "centuries"].contains(&self.word(at + 1)) =>
            {
                return Some((century(n)?, at + 2));
            }
            Sort::Ordinal(n) if (16..=21).contains(&n) => century(n)?,
            _ => return None,
        };
        Some((span, at + 1))
    }
}
