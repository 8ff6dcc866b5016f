//! What counting known pieces would be worth: drawn frequencies updated by counts, cross-validated.
//!
//! A drawn share of findings is taken as a Dirichlet prior worth `strength` pieces, for each row of a
//! clue's table (the kinds and places it can't tell apart) and year:
//! P(f) = (strength · drawn_f + n_f) / (strength + Σ n). n counts the known pieces, each spread over
//! the rows and years it may belong to by its posterior within its catalogued years, kind and place;
//! a piece t years away counts exp(−½ (t / smoothing)²). What is drawn as impossible stays so.
//! Folds are whole collections. Counts move P(finding | kind, place, year) only, never a setting.

use super::cases::Known;
use super::fit::{FOLDS, fold_of};
use super::judge::{Judged, judge};
use super::measures::{Measures, mean};
use super::ordered::{self, Progress};
use crate::core::grid::Year;
use crate::core::likelihood::Answers;
use crate::core::model::Model;
use crate::core::observation::Observed;
use crate::core::posterior::posterior;
use crate::piece::expert::Expert;

/// Strengths tried, in pieces; with infinitely many the counts would do nothing (common practice, no
/// source).
pub const STRENGTHS: [f64; 5] = [3.0, 10.0, 30.0, 100.0, 300.0];

/// Smoothings tried, in years (common practice, no source).
pub const SMOOTHINGS: [f64; 3] = [10.0, 20.0, 40.0];

/// What every strength and smoothing is worth on collections that were not counted.
#[derive(Clone, Debug)]
pub struct CountFit {
    pub drawn: (Measures, Option<f64>),
    pub tried: Vec<(f64, f64, Measures, Option<f64>)>,
    /// What counting one clue alone changes in the held-out score: clue, pieces, change.
    pub by_clue: Vec<(usize, usize, f64)>,
}

/// Strength and smoothing at which each clue is tried alone: the middle of those tried.
const ALONE: (f64, f64) = (30.0, 20.0);

/// What one piece adds to the counts.
struct Counted {
    /// Share of the piece by pair and year: index of the cell and weight, small ones left out.
    cells: Vec<(usize, f64)>,
}

/// Shares of a piece below this are not counted (common practice, no source).
const NEGLIGIBLE: f64 = 1e-4;

/// Tries every strength and smoothing.
pub fn fit(expert: &Expert, cases: &[Known], progress: Progress) -> CountFit {
    let model = &expert.engine.model;
    let folds: Vec<usize> = cases.iter().map(|c| fold_of(c.collection())).collect();
    let counted = ordered::map(cases, "placing", progress, |c| Counted::new(expert, c));
    let judged = |models: &[Model]| -> Vec<Judged> {
        let numbered: Vec<usize> = (0..cases.len()).collect();
        ordered::map(&numbered, "counting", progress, |at| {
            let (case, model) = (&cases[*at], &models[folds[*at] % models.len()]);
            let prior = &expert.engine.priors[case.setting];
            judge(&model.grid, &posterior(model, prior, &case.evidence), case)
        })
    };
    let scored = |judged: &[Judged]| (Measures::of(judged.iter()), objective(judged));
    let drawn = judged(std::slice::from_ref(model));
    let (mut tried, mut by_clue) = (Vec::new(), Vec::new());
    for smoothing in SMOOTHINGS {
        let counts: Vec<Vec<Vec<f64>>> = (0..FOLDS)
            .map(|fold| {
                let outside = || {
                    let all = cases.iter().zip(&counted).zip(&folds);
                    all.filter(move |(_, f)| **f != fold).map(|(both, _)| both)
                };
                let clues: Vec<usize> = (0..model.clues.len()).collect();
                ordered::map(&clues, "smoothing", progress, |clue| {
                    smoothed(model, *clue, outside(), smoothing)
                })
            })
            .collect();
        let with = |strength: f64, only: Option<usize>| -> Vec<Model> {
            let of_fold = |counts: &Vec<Vec<f64>>| {
                let mut model = model.clone();
                for (clue, counts) in counts.iter().enumerate() {
                    if only.is_none_or(|o| o == clue) && !counts.is_empty() {
                        model.clues[clue].table = model.clues[clue].table.updated(counts, strength);
                    }
                }
                model
            };
            counts.iter().map(of_fold).collect()
        };
        for strength in STRENGTHS {
            let (measures, score) = scored(&judged(&with(strength, None)));
            tried.push((strength, smoothing, measures, score));
        }
        if smoothing == ALONE.1 {
            let before = objective(&drawn).unwrap_or_default();
            for clue in 0..model.clues.len() {
                let pieces = cases
                    .iter()
                    .filter(|c| finding_of(model, clue, c).is_some())
                    .count();
                if pieces > 0 {
                    let after = objective(&judged(&with(ALONE.0, Some(clue))));
                    by_clue.push((clue, pieces, after.unwrap_or_default() - before));
                }
            }
        }
    }
    CountFit {
        drawn: scored(&drawn),
        tried,
        by_clue,
    }
}

/// Mean of the log scores of the cases that count.
fn objective(judged: &[Judged]) -> Option<f64> {
    mean(judged.iter().filter(|j| j.counts()).map(Judged::log))
}

/// The finding a case surely has at a listed clue.
fn finding_of(model: &Model, clue: usize, case: &Known) -> Option<usize> {
    let id = model.clue_ids().nth(clue)?;
    let seen = case.evidence.of(id)?;
    match (&seen.seen, model.speaks(seen, &case.evidence)) {
        (Observed::Finding(f), true) => Some(usize::from(f.0)),
        _ => None,
    }
}

impl Counted {
    /// The posterior within what the catalogue says of years, kind and place.
    fn new(expert: &Expert, case: &Known) -> Counted {
        let (model, prior) = (&expert.engine.model, &expert.engine.priors[case.setting]);
        let grid = &model.grid;
        let after = posterior(model, prior, &case.evidence);
        let mut cells = Vec::new();
        for (pair, (kind, place)) in grid.pairs().iter().enumerate() {
            let fits =
                case.kind.is_none_or(|k| k == *kind) && case.place.is_none_or(|l| l == *place);
            for year in case.from.0..=case.to.0 {
                if let (true, Some(offset)) = (fits, grid.offset(Year(year))) {
                    let cell = grid.cells_of(pair).start + offset;
                    cells.push((cell, after.cells()[cell]));
                }
            }
        }
        let total: f64 = cells.iter().map(|(_, p)| p).sum();
        if total <= 0.0 || !case.datable() {
            return Counted { cells: Vec::new() };
        }
        cells.iter_mut().for_each(|(_, p)| *p /= total);
        cells.retain(|(_, p)| *p > NEGLIGIBLE);
        Counted { cells }
    }
}

/// Smoothed counts of a clue, in the layout of its table; empty when nothing is counted.
fn smoothed<'a>(
    model: &Model,
    clue: usize,
    pieces: impl Iterator<Item = (&'a Known, &'a Counted)>,
    smoothing: f64,
) -> Vec<f64> {
    let (grid, table) = (&model.grid, &model.clues[clue].table);
    let Answers::Listed { n, share } = table.answers() else {
        return Vec::new();
    };
    let mut raw = vec![0.0; share.len()];
    let mut any = false;
    for (case, piece) in pieces {
        let Some(finding) = finding_of(model, clue, case) else {
            continue;
        };
        for (cell, weight) in &piece.cells {
            let (pair, offset) = (cell / grid.years(), cell % grid.years());
            raw[(table.row(pair) * grid.years() + offset) * n + finding] += weight;
            any = true;
        }
    }
    if !any {
        return Vec::new();
    }
    let reach = (3.0 * smoothing).ceil() as usize;
    let weight = |lag: usize| (-0.5 * (lag as f64 / smoothing).powi(2)).exp();
    let weights: Vec<f64> = (0..=reach).map(weight).collect();
    let mut out = vec![0.0; raw.len()];
    for (at, count) in raw.iter().enumerate().filter(|(_, c)| **c > 0.0) {
        let (row, offset, finding) = (at / n / grid.years(), at / n % grid.years(), at % n);
        for other in offset.saturating_sub(reach)..(offset + reach + 1).min(grid.years()) {
            out[(row * grid.years() + other) * n + finding] +=
                count * weights[offset.abs_diff(other)];
        }
    }
    out
}
