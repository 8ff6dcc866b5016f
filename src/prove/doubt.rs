//! How far a setting may be wrong: its doubt α and the spread σ of its years by cross-validated log
//! score.
//!
//! Objective: mean over cases of ln P(catalogued span ± 5) + ln P(catalogued kind), each where it
//! counts, as for the families. The folds are whole collections: α and σ are chosen on some museums
//! and scored on others, since what is asked is how the next collection differs from those known.
//! A case's findings are weighed once, into a likelihood for each (kind, year) summed over places;
//! every (α, σ) is then a sum over a few thousand cells.

use super::cases::Known;
use super::fit::{FOLDS, fold_of};
use super::judge::{Judged, judge_years_and_kinds};
use super::measures::{Measures, mean};
use super::ordered::{self, Progress};
use crate::core::grid::Grid;
use crate::core::posterior::{Prior, posterior};
use crate::piece::expert::Expert;
use crate::rulebase::definitions::Setting;
use crate::rulebase::ids::Id;
use crate::rulebase::priors::{Made, years_of};

/// α that are tried (common practice, no source).
pub const DOUBTS: [f64; 11] = [0.0, 0.02, 0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.7, 1.0];

/// σ that are tried, in years (common practice, no source).
pub const SPREADS: [f64; 5] = [0.0, 10.0, 20.0, 30.0, 40.0];

/// All (α, σ), α running fastest.
pub fn pairs() -> impl Iterator<Item = (f64, f64)> {
    SPREADS
        .into_iter()
        .flat_map(|spread| DOUBTS.into_iter().map(move |doubt| (doubt, spread)))
}

/// What the fit is worth.
#[derive(Clone, Debug)]
pub struct DoubtFit {
    /// Every (α, σ) on all cases, in the order of `pairs`.
    pub tried: Vec<(f64, f64, Measures, Option<f64>)>,
    /// Chosen without the collections of each fold.
    pub folds: Vec<(f64, f64)>,
    /// Chosen on all.
    pub chosen: (f64, f64),
    /// Each case judged by what was chosen without its collection.
    pub held_out: (Measures, Option<f64>),
    pub collections: usize,
}

/// A case's likelihood by (kind, year), under the setting's ware and under everything made.
struct Weighed<'a> {
    case: &'a Known,
    own: Vec<f64>,
    wide: Vec<f64>,
}

/// A setting's years and the sum of its ware under them, at each σ.
struct Shelf {
    years: Vec<Vec<f64>>,
    total: Vec<f64>,
    ware: Vec<f64>,
}

impl Shelf {
    fn new(grid: &Grid, made: &Made, setting: &Setting) -> Shelf {
        let ware = made.ware(grid, setting);
        let years: Vec<Vec<f64>> = SPREADS.map(|s| years_of(grid, setting, s)).to_vec();
        let by_year: Vec<f64> = (0..grid.years())
            .map(|offset| {
                (0..grid.pairs().len())
                    .map(|pair| ware[grid.cells_of(pair).start + offset])
                    .sum()
            })
            .collect();
        let total = years
            .iter()
            .map(|heights| heights.iter().zip(&by_year).map(|(h, w)| h * w).sum())
            .collect();
        Shelf { years, total, ware }
    }
}

/// Chooses α and σ.
pub fn fit(expert: &Expert, cases: &[Known], progress: Progress) -> DoubtFit {
    let (base, model) = (&expert.base, &expert.engine().model);
    let grid = &model.grid;
    let made = Made::new(base, grid);
    let shelves: Vec<Shelf> = base
        .settings
        .iter()
        .map(|s| Shelf::new(grid, &made, s))
        .collect();
    let even = Prior::new(vec![1.0; grid.cells()]);
    let judged: Vec<Vec<Judged>> = ordered::map(cases, "doubting", progress, |case| {
        let shelf = &shelves[case.setting.index()];
        let likelihood = posterior(model, &even, &case.evidence);
        let weighed = Weighed {
            case,
            own: by_kind_and_year(grid, likelihood.cells(), &shelf.ware),
            wide: by_kind_and_year(grid, likelihood.cells(), made.wide()),
        };
        (0..SPREADS.len())
            .flat_map(|s| DOUBTS.map(|doubt| weighed.judge(grid, shelf, doubt, s)))
            .collect()
    });
    let all: Vec<(f64, f64)> = pairs().collect();
    let fold: Vec<usize> = cases.iter().map(|c| fold_of(c.collection())).collect();
    let best = |left_out: Option<usize>| -> usize {
        let score = |at: usize| {
            let within = judged
                .iter()
                .zip(&fold)
                .filter(|(_, f)| Some(**f) != left_out);
            objective(within.map(|(j, _)| &j[at])).unwrap_or(f64::NEG_INFINITY)
        };
        let scores: Vec<f64> = (0..all.len()).map(score).collect();
        (0..all.len()).fold(
            0,
            |best, at| if scores[at] > scores[best] { at } else { best },
        )
    };
    let folds: Vec<usize> = (0..FOLDS).map(|f| best(Some(f))).collect();
    let held: Vec<&Judged> = judged
        .iter()
        .zip(&fold)
        .map(|(j, f)| &j[folds[*f]])
        .collect();
    let mut names: Vec<&str> = cases.iter().map(Known::collection).collect();
    names.sort_unstable();
    names.dedup();
    DoubtFit {
        tried: all
            .iter()
            .enumerate()
            .map(|(at, (doubt, spread))| {
                let here = || judged.iter().map(|j| &j[at]);
                (*doubt, *spread, Measures::of(here()), objective(here()))
            })
            .collect(),
        folds: folds.iter().map(|at| all[*at]).collect(),
        chosen: all[best(None)],
        held_out: (
            Measures::of(held.iter().copied()),
            objective(held.iter().copied()),
        ),
        collections: names.len(),
    }
}

/// Mean of the log scores of the cases that count.
fn objective<'a>(judged: impl Iterator<Item = &'a Judged>) -> Option<f64> {
    mean(judged.filter(|j| j.counts()).map(Judged::log))
}

/// Σ over places of likelihood × weight, at kind · years + year.
fn by_kind_and_year(grid: &Grid, likelihood: &[f64], weights: &[f64]) -> Vec<f64> {
    let mut out = vec![0.0; grid.kinds() * grid.years()];
    for (pair, (kind, _)) in grid.pairs().iter().enumerate() {
        let from = usize::from(kind.0) * grid.years();
        let cells = grid.cells_of(pair);
        let both = likelihood[cells.clone()].iter().zip(&weights[cells]);
        let sums = out[from..from + grid.years()].iter_mut();
        sums.zip(both).for_each(|(sum, (l, w))| *sum += l * w);
    }
    out
}

impl Weighed<'_> {
    fn judge(&self, grid: &Grid, shelf: &Shelf, doubt: f64, spread: usize) -> Judged {
        let (mut years, mut kinds) = (vec![0.0; grid.years()], vec![0.0; grid.kinds()]);
        let heights = &shelf.years[spread];
        let share = (1.0 - doubt) / shelf.total[spread].max(f64::MIN_POSITIVE);
        for (kind, sum) in kinds.iter_mut().enumerate() {
            let from = kind * grid.years();
            for (offset, year) in years.iter_mut().enumerate() {
                let own = share * heights[offset] * self.own[from + offset];
                let p = own + doubt * self.wide[from + offset];
                *sum += p;
                *year += p;
            }
        }
        let total: f64 = years.iter().sum();
        years.iter_mut().chain(&mut kinds).for_each(|p| *p /= total);
        judge_years_and_kinds(grid, &years, &kinds, self.case)
    }
}
