//! Which clues are counted: chosen clue by clue on collections that were not counted.
//!
//! A clue is chosen when its counts, all other clues as drawn, raise the mean ln P of the date and do
//! not lower that of the kind on pieces whose collections were left out of the counts. Strength and
//! smoothing are those under which the chosen clues gain most together. What such a choice is worth is
//! scored in a second, outer cross-validation: each outer fold is judged by the clues that were chosen
//! without it, so that no piece has a say in the choice it is scored by.

use std::collections::BTreeSet;

use super::cases::Known;
use super::fit::{FOLDS, LEAST_CASES};
use super::judge::{Judged, judge};
use super::measures::{Measures, mean};
use super::ordered::{self, Progress};
use crate::core::model::Model;
use crate::core::posterior::posterior;
use crate::core::table::Table;
use crate::piece::expert::Expert;
use crate::rulebase::counted::Spread;
use crate::rulebase::definitions::CountedPiece;
use crate::rulebase::ids::ClueId;

/// Strengths and smoothings among which is chosen (common practice, no source).
const TRIED: [(f64, f64); 6] = [
    (10.0, 5.0),
    (10.0, 20.0),
    (30.0, 5.0),
    (30.0, 20.0),
    (100.0, 5.0),
    (100.0, 20.0),
];

/// What counting one clue did to the pieces on which it was scored: sums over pieces.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ClueGain {
    pub cases: usize,
    pub date: f64,
    pub kind: f64,
}

impl ClueGain {
    fn add(&mut self, other: ClueGain) {
        self.cases += other.cases;
        self.date += other.date;
        self.kind += other.kind;
    }

    fn chosen(&self) -> bool {
        self.cases >= LEAST_CASES && self.date > 0.0 && self.kind >= 0.0
    }
}

/// What was chosen.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Choice {
    /// Pieces a drawn share is worth, and the smoothing in years.
    pub how: (f64, f64),
    /// Each clue that was chosen, with what it gained.
    pub clues: Vec<(ClueId, ClueGain)>,
}

impl Choice {
    /// The best choice, given the gains of each clue under each of `TRIED`.
    fn of(gains: &[Vec<ClueGain>; TRIED.len()]) -> Choice {
        let mut best = (f64::NEG_INFINITY, Choice::default());
        for (how, gains) in TRIED.iter().zip(gains) {
            let numbered = (0..).map(ClueId).zip(gains.iter().copied());
            let clues: Vec<(ClueId, ClueGain)> = numbered.filter(|(_, g)| g.chosen()).collect();
            let sum: f64 = clues.iter().map(|(_, g)| g.date + g.kind).sum();
            if sum > best.0 {
                best = (sum, Choice { how: *how, clues });
            }
        }
        best.1
    }

    fn ids(&self) -> BTreeSet<ClueId> {
        self.clues.iter().map(|(id, _)| *id).collect()
    }
}

/// The choice, and what choosing so is worth.
#[derive(Clone, Debug)]
pub struct Chosen {
    /// On all collections.
    pub choice: Choice,
    /// Without each outer fold.
    pub without: Vec<Choice>,
    /// Each piece judged by what was chosen without its collection.
    pub held_out: (Measures, Option<f64>),
    /// Score of each outer fold: as drawn, and held out.
    pub folds: Vec<(Option<f64>, Option<f64>)>,
}

/// Cases with what is counted of them, and the fold of each.
pub(super) struct Counting<'a> {
    pub drawn: &'a Expert,
    pub cases: &'a [Known],
    pub pieces: &'a [Option<CountedPiece>],
    pub folds: &'a [usize],
}

impl Counting<'_> {
    /// Chooses within folds, and scores the choosing.
    pub(super) fn choose(&self, as_drawn: &[Judged], progress: Progress) -> Chosen {
        let sets: Vec<(usize, usize)> = (0..FOLDS)
            .flat_map(|a| (a..FOLDS).map(move |b| (a, b)))
            .collect();
        let none = || vec![ClueGain::default(); self.drawn.base.clues.len()];
        // By the outer fold left out, the last of them none; then by what was tried.
        let mut gains: Vec<[Vec<ClueGain>; TRIED.len()]> = (0..=FOLDS)
            .map(|_| std::array::from_fn(|_| none()))
            .collect();
        for (at, how) in TRIED.iter().enumerate() {
            for (done, &(a, b)) in sets.iter().enumerate() {
                progress("choosing", at * sets.len() + done, TRIED.len() * sets.len());
                let tables = self.tables(&[a, b], *how);
                for (scored, outer) in [(a, b), (b, a)] {
                    let outer = if a == b { FOLDS } else { outer };
                    for (id, gain) in self.gains(tables.clone(), scored, as_drawn) {
                        gains[outer][at][usize::from(id.0)].add(gain);
                    }
                    if a == b {
                        break;
                    }
                }
            }
        }
        let without: Vec<Choice> = gains[..FOLDS].iter().map(Choice::of).collect();
        let mut held_out = as_drawn.to_vec();
        let mut folds = Vec::with_capacity(FOLDS);
        for (fold, choice) in without.iter().enumerate() {
            let own: Vec<usize> = (0..self.cases.len())
                .filter(|c| self.folds[*c] == fold)
                .collect();
            let ids = choice.ids();
            let mut tables = self.tables(&[fold], choice.how);
            tables.retain(|(id, _)| ids.contains(id));
            let model = with_tables(&self.drawn.engine().model, tables);
            let judged = ordered::map(&own, "chosen", progress, |c| self.judged(&model, *c));
            let before: Vec<Judged> = own.iter().map(|c| as_drawn[*c].clone()).collect();
            folds.push((objective(&before), objective(&judged)));
            own.iter().zip(judged).for_each(|(c, j)| held_out[*c] = j);
        }
        Chosen {
            choice: Choice::of(&gains[FOLDS]),
            without,
            held_out: (Measures::of(held_out.iter()), objective(&held_out)),
            folds,
        }
    }

    /// The tables that change when all pieces outside these folds are counted.
    fn tables(&self, left_out: &[usize], how: (f64, f64)) -> Vec<(ClueId, Table)> {
        let outside = self.pieces.iter().zip(self.folds);
        let outside = outside.filter(|(_, f)| !left_out.contains(f));
        let outside: Vec<&CountedPiece> = outside.filter_map(|(p, _)| p.as_ref()).collect();
        counted_tables(self.drawn, &outside, how)
    }

    /// What each of the tables, by itself, does to the pieces of a fold.
    fn gains(
        &self,
        tables: Vec<(ClueId, Table)>,
        fold: usize,
        as_drawn: &[Judged],
    ) -> Vec<(ClueId, ClueGain)> {
        let mut model = self.drawn.engine().model.clone();
        let mut out = Vec::with_capacity(tables.len());
        for (id, mut table) in tables {
            let asked = |c: &usize| {
                let case = &self.cases[*c];
                self.folds[*c] == fold && as_drawn[*c].counts() && case.evidence.of(id).is_some()
            };
            let own: Vec<usize> = (0..self.cases.len()).filter(asked).collect();
            let clue = usize::from(id.0);
            std::mem::swap(&mut model.clues[clue].table, &mut table);
            let judged = ordered::map(&own, "", &|_, _, _| {}, |c| self.judged(&model, *c));
            std::mem::swap(&mut model.clues[clue].table, &mut table);
            let mut gain = ClueGain {
                cases: own.len(),
                ..ClueGain::default()
            };
            for (c, after) in own.iter().zip(&judged) {
                let before = &as_drawn[*c];
                let date = |j: &Judged| j.date.as_ref().map_or(0.0, |d| d.log);
                let kind = |j: &Judged| j.kind.map_or(0.0, |k| k.log);
                gain.date += date(after) - date(before);
                gain.kind += kind(after) - kind(before);
            }
            out.push((id, gain));
        }
        out
    }

    fn judged(&self, model: &Model, at: usize) -> Judged {
        let case = &self.cases[at];
        let prior = &self.drawn.engine().priors[case.setting];
        judge(&model.grid, &posterior(model, prior, &case.evidence), case)
    }
}

/// The tables that change when these pieces are counted.
pub(super) fn counted_tables(
    drawn: &Expert,
    pieces: &[&CountedPiece],
    how: (f64, f64),
) -> Vec<(ClueId, Table)> {
    let model = &drawn.engine().model;
    let known = Spread::new(&model.grid, pieces.iter().copied(), how);
    let clues = model.clue_ids().zip(&drawn.base.clues);
    let table = |(id, clue): (ClueId, _)| {
        let table = &model.clues[usize::from(id.0)].table;
        known.counted(id, clue, table).map(|t| (id, t))
    };
    clues.filter_map(table).collect()
}

/// The model with these tables in place of its own.
pub(super) fn with_tables(model: &Model, tables: Vec<(ClueId, Table)>) -> Model {
    let mut model = model.clone();
    for (id, table) in tables {
        model.clues[usize::from(id.0)].table = table;
    }
    model
}

/// Mean of the log scores of the cases that count.
pub(super) fn objective(judged: &[Judged]) -> Option<f64> {
    mean(judged.iter().filter(|j| j.counts()).map(Judged::log))
}
