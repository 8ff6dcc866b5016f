//! What of a piece its price depends on, with all that is not known of it: kind and age by the
//! posterior, form, size, colour and company by what was seen or else may be expected, and the
//! chance of each defect.

use std::cell::OnceCell;

use crate::core::foreseen::Bins;
use crate::core::grid::{ClueId, FindingId, Year};
use crate::core::model::{Gate, Model};
use crate::core::observation::{Evidence, Observation, Observed, Sure};
use crate::piece::Piece;
use crate::rulebase::prices::{Defect, PriceGuesses, PricedClue};

/// Years of age that are taken together (common practice, no source).
const BIN: i32 = 5;

/// Parts less likely than this are left out (common practice, no source).
const LEAST_SHARE: f64 = 1e-3;

/// A group of kinds and an age the piece may be of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    pub share: f64,
    /// `None` for kinds that are in no group of prices.
    pub group: Option<usize>,
    /// Years since it was made.
    pub years: f64,
}

/// A piece as a buyer sees it.
#[derive(Clone, Debug, PartialEq)]
pub struct Appearance {
    /// What it may be; the shares sum to 1.
    pub parts: Vec<Part>,
    /// Chance of each class of each priced clue, in the guesses' order.
    pub classes: Vec<Vec<f64>>,
    /// Chance of each defect, in the guesses' order.
    pub defects: Vec<f64>,
}

impl Appearance {
    /// The piece as it is known.
    pub fn of(piece: &Piece, guesses: &PriceGuesses) -> Appearance {
        Outset::of(piece, guesses).appearance(guesses, piece.evidence())
    }

    /// Chance that it was made more than some years ago.
    pub fn older_than(&self, years: f64) -> f64 {
        let old = self.parts.iter().filter(|p| p.years > years);
        old.map(|p| p.share).sum()
    }

    /// The same from what it may be, from evidence, and from what may be expected besides.
    pub(super) fn known(
        guesses: &PriceGuesses,
        evidence: &Evidence,
        expected: &Expected,
        parts: &[Part],
    ) -> Appearance {
        let knowledge = Knowledge { evidence, expected };
        let class_shares = |priced: &PricedClue| {
            let shares = knowledge.of_priced(priced);
            let of = |f: &FindingId| shares.get(usize::from(f.0)).copied().unwrap_or(0.0);
            let classes = priced.classes.iter();
            classes.map(|c| c.findings.iter().map(of).sum()).collect()
        };
        Appearance {
            parts: parts.to_vec(),
            classes: guesses.traits.iter().map(class_shares).collect(),
            defects: guesses
                .defects
                .iter()
                .map(|d| knowledge.defect(d))
                .collect(),
        }
    }
}

/// What a piece may be and what may be expected of it, before another look.
pub(super) struct Outset<'a> {
    pub spans: Spans,
    pub parts: Vec<Part>,
    pub expected: Expected<'a>,
}

impl<'a> Outset<'a> {
    pub(super) fn of(piece: &'a Piece, guesses: &PriceGuesses) -> Outset<'a> {
        let cells = piece.judgement().posterior.cells();
        let model = &piece.expert().engine().model;
        let spans = Spans::new(model, guesses);
        Outset {
            parts: spans.parts(&spans.bins().of(model, cells)),
            spans,
            expected: Expected::new(model, cells),
        }
    }

    /// As it is known by this evidence.
    pub(super) fn appearance(&self, guesses: &PriceGuesses, evidence: &Evidence) -> Appearance {
        Appearance::known(guesses, evidence, &self.expected, &self.parts)
    }
}

/// Groups of kinds and spans of age that prices tell apart.
pub(super) struct Spans {
    group_of_kind: Vec<usize>,
    groups: usize,
    span_of_year: Vec<usize>,
    spans: usize,
}

impl Spans {
    fn new(model: &Model, guesses: &PriceGuesses) -> Spans {
        let grid = &model.grid;
        let age = |year: Year| i32::from(grid.last().0 - year.0);
        let rest = guesses.groups.len();
        let group = |kind: usize| guesses.group_of_kind.get(kind).copied().flatten();
        Spans {
            group_of_kind: (0..grid.kinds())
                .map(|k| group(k).unwrap_or(rest))
                .collect(),
            groups: rest + 1,
            span_of_year: (0..grid.years())
                .map(|offset| (age(grid.year(offset)) / BIN) as usize)
                .collect(),
            spans: (age(grid.first()) / BIN + 1) as usize,
        }
    }

    pub(super) fn bins(&self) -> Bins<'_> {
        Bins {
            group_of_kind: &self.group_of_kind,
            groups: self.groups,
            span_of_year: &self.span_of_year,
            spans: self.spans,
        }
    }

    /// The parts of a piece of which each group and span has this probability.
    pub(super) fn parts(&self, shares: &[f64]) -> Vec<Part> {
        let kept: f64 = shares.iter().filter(|s| **s >= LEAST_SHARE).sum();
        let mut out = Vec::new();
        for (at, share) in shares.iter().enumerate() {
            if *share >= LEAST_SHARE {
                let (group, bin) = (at / self.spans, at % self.spans);
                out.push(Part {
                    share: share / kept,
                    group: (group + 1 < self.groups).then_some(group),
                    years: (bin as f64 + 0.5) * f64::from(BIN) - 0.5,
                });
            }
        }
        out
    }
}

/// What may be expected of clues when cells have these probabilities; worked out once a clue.
pub(super) struct Expected<'a> {
    model: &'a Model,
    cells: &'a [f64],
    kept: Vec<OnceCell<Vec<f64>>>,
}

impl<'a> Expected<'a> {
    fn new(model: &'a Model, cells: &'a [f64]) -> Expected<'a> {
        Expected {
            model,
            cells,
            kept: model.clues.iter().map(|_| OnceCell::new()).collect(),
        }
    }

    /// Chance of each finding, summing to 1.
    pub(super) fn of(&self, clue: ClueId) -> &[f64] {
        self.kept[usize::from(clue.0)].get_or_init(|| {
            let table = &self.model.clue(clue).table;
            let mut expected = table.predictive(&self.model.grid, self.cells, Sure::Sure);
            scale_to_one(&mut expected);
            expected
        })
    }
}

struct Knowledge<'a> {
    evidence: &'a Evidence,
    expected: &'a Expected<'a>,
}

impl Knowledge<'_> {
    /// Chance of each finding of a clue: what was seen, as far as it is sure, else what may be
    /// expected. Empty where the clue does not apply.
    fn shares(&self, clue: ClueId) -> Vec<f64> {
        let model = self.expected.model;
        if model.gate(clue, self.evidence) != Gate::Open {
            return Vec::new();
        }
        let seen = self.evidence.of(clue);
        // Of what is seen for sure nothing need be expected, and that takes long.
        if let Some((Sure::Sure, Observed::Finding(finding))) = seen.map(|o| (o.sure, &o.seen)) {
            return only(*finding, model.clue(clue).table.breadth());
        }
        let expected = self.expected.of(clue).to_vec();
        match seen {
            Some(seen) => told(seen, expected),
            None => expected,
        }
    }

    /// The same of a priced clue, some of which are taken to be usual when nobody says.
    fn of_priced(&self, priced: &PricedClue) -> Vec<f64> {
        let said = self.evidence.of(priced.clue);
        let said = said.is_some_and(|o| o.seen != Observed::CantTell);
        match priced.unsaid {
            Some(usual) if !said => only(usual, usize::from(usual.0) + 1),
            _ => self.shares(priced.clue),
        }
    }

    /// Chance of a defect: of the clues that show it those looked at, else what may be expected of
    /// the first that applies.
    fn defect(&self, defect: &Defect) -> f64 {
        let chance = |clue: ClueId| {
            let shares = self.shares(clue);
            let shown = defect.seen.iter().filter(|(c, _)| *c == clue);
            shown
                .filter_map(|(_, f)| shares.get(usize::from(f.0)))
                .sum::<f64>()
        };
        let mut clues: Vec<ClueId> = defect.seen.iter().map(|(clue, _)| *clue).collect();
        clues.dedup();
        let looked = |clue: &&ClueId| {
            let seen = self.evidence.of(**clue);
            seen.is_some_and(|o| o.seen != Observed::CantTell)
        };
        let looked_at: Vec<ClueId> = clues.iter().filter(looked).copied().collect();
        if !looked_at.is_empty() {
            return looked_at.into_iter().map(chance).fold(0.0, f64::max);
        }
        let open = |clue: &ClueId| self.expected.model.gate(*clue, self.evidence) == Gate::Open;
        clues.into_iter().find(open).map_or(0.0, chance)
    }
}

/// Certainty of one of `n` findings.
fn only(finding: FindingId, n: usize) -> Vec<f64> {
    let mut out = vec![0.0; n];
    if let Some(x) = out.get_mut(usize::from(finding.0)) {
        *x = 1.0;
    }
    out
}

/// What was seen counts as far as it is sure; the rest is as expected.
fn told(seen: &Observation, expected: Vec<f64>) -> Vec<f64> {
    let mut said = match &seen.seen {
        Observed::Finding(finding) => only(*finding, expected.len()),
        Observed::Soft(weights) => {
            let both = expected.iter().zip(weights.by_finding());
            both.map(|(e, w)| e * w).collect()
        }
        Observed::Year(_) | Observed::CantTell => return expected,
    };
    scale_to_one(&mut said);
    let doubt = seen.sure.doubt();
    let pairs = said.into_iter().zip(expected);
    pairs.map(|(s, e)| (1.0 - doubt) * s + doubt * e).collect()
}

fn scale_to_one(p: &mut [f64]) {
    let total: f64 = p.iter().sum();
    if total > 0.0 {
        p.iter_mut().for_each(|x| *x /= total);
    }
}
