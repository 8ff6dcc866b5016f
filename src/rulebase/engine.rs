//! From checked rules to the engine's tables and priors. Cannot fail after the checks.

use std::ops::Index;

use super::base::RuleBase;
use super::definitions::{Clue, Frequency, Setting};
use super::ids::{Id, KindId, PlaceId, SettingId, ids};
use crate::core::grid::{FIRST_YEAR, Grid, Year};
use crate::core::likelihood::Table;
use crate::core::model::{self, Model};
use crate::core::posterior::Prior;

/// The compiled rule base for one present year.
#[derive(Clone, Debug)]
pub struct Engine {
    pub model: Model,
    /// One prior a setting, in the rule base's order.
    pub priors: Vec<Prior>,
}

impl Engine {
    /// `present` is the newest year a piece can have been made.
    pub fn new(base: &RuleBase, present: Year) -> Engine {
        let pairs = ids(base.kinds.len())
            .zip(&base.kinds)
            .flat_map(|(k, kind)| {
                let mut places: Vec<PlaceId> = kind.made.iter().map(|m| m.place).collect();
                places.sort_unstable();
                places.dedup();
                places.into_iter().map(move |l| (k, l))
            })
            .collect();
        let grid = Grid::new(
            pairs,
            base.kinds.len(),
            base.places.len(),
            FIRST_YEAR,
            present,
        );
        let clues = base
            .clues
            .iter()
            .map(|clue| model::ClueModel {
                table: table(base, &grid, clue),
                family: clue.family,
                gate: clue.gate.clone(),
                station: clue.station,
                seconds: clue.seconds,
                present: clue.present,
            })
            .collect();
        let priors = base
            .settings
            .iter()
            .map(|s| prior(base, &grid, s))
            .collect();
        Engine {
            model: Model {
                grid,
                clues,
                families: base.families.iter().map(|f| f.delta).collect(),
            },
            priors,
        }
    }
}

/// Priors are read by the setting they are of.
impl Index<SettingId> for Vec<Prior> {
    type Output = Prior;

    fn index(&self, setting: SettingId) -> &Prior {
        &self[setting.index()]
    }
}

/// Share of each finding of a listed clue at one hypothesis, without error.
pub fn shares(clue: &Clue, kind: KindId, place: PlaceId, year: Year) -> Vec<f64> {
    let weights: Vec<f64> = clue
        .findings
        .iter()
        .map(|f| {
            f.cases
                .iter()
                .find(|c| c.fits(kind, place))
                .map_or(0.0, |c| c.weight * c.curve.at(year))
        })
        .collect();
    let total: f64 = weights.iter().sum();
    if total > 0.0 {
        weights.into_iter().map(|w| w / total).collect()
    } else {
        vec![1.0 / weights.len() as f64; weights.len()]
    }
}

fn table(base: &RuleBase, grid: &Grid, clue: &Clue) -> Table {
    if let Some(kernel) = clue.dated {
        return Table::dated(grid, &base.kernels[kernel].lag, clue.slip);
    }
    // Pairs whose findings all use the same cases share a row.
    let mut rows: Vec<Vec<Option<usize>>> = Vec::new();
    let mut row_of_pair = Vec::with_capacity(grid.pairs().len());
    for (kind, place) in grid.pairs() {
        let signature: Vec<Option<usize>> = clue
            .findings
            .iter()
            .map(|f| f.cases.iter().position(|c| c.fits(*kind, *place)))
            .collect();
        let row = rows
            .iter()
            .position(|r| *r == signature)
            .unwrap_or_else(|| {
                rows.push(signature);
                rows.len() - 1
            });
        row_of_pair.push(row as u16);
    }
    // Each case's weights over the years once; rows are put together from them.
    let n = clue.findings.len();
    let cases: Vec<Vec<Vec<f64>>> = clue
        .findings
        .iter()
        .map(|f| f.cases.iter().map(|c| weights_of(grid, c)).collect())
        .collect();
    let weights: Vec<Vec<f64>> = rows
        .iter()
        .map(|signature| {
            let mut row = vec![0.0; grid.years() * n];
            for (f, case) in signature.iter().enumerate() {
                if let Some(case) = case {
                    for (offset, weight) in cases[f][*case].iter().enumerate() {
                        row[offset * n + f] = *weight;
                    }
                }
            }
            row
        })
        .collect();
    Table::listed(grid, row_of_pair, &weights, clue.findings.len(), clue.slip)
}

/// weight × curve, by year offset.
fn weights_of(grid: &Grid, case: &Frequency) -> Vec<f64> {
    let heights = case.curve.heights(grid.first(), grid.years());
    heights.into_iter().map(|h| case.weight * h).collect()
}

/// prior(kind, place, year) ∝ made × setting curve × Π of all factors that fit; of a neutral setting
/// the same for each year, with the curve as the chance of the years.
fn prior(base: &RuleBase, grid: &Grid, setting: &Setting) -> Prior {
    let turned_up = setting.curve.heights(grid.first(), grid.years());
    let mut weights = vec![0.0; grid.cells()];
    for (pair, (kind, place)) in grid.pairs().iter().enumerate() {
        let cells = &mut weights[grid.cells_of(pair)];
        for made in base.kinds[*kind].made.iter().filter(|m| m.place == *place) {
            let heights = made.curve.heights(grid.first(), grid.years());
            for (cell, height) in cells.iter_mut().zip(heights) {
                *cell += made.weight * height;
            }
        }
        let fit = setting.factors.iter().filter(|f| f.fits(*kind, *place));
        for factor in fit.map(|f| weights_of(grid, f)).chain([turned_up.clone()]) {
            for (cell, x) in cells.iter_mut().zip(factor) {
                *cell *= x;
            }
        }
    }
    if setting.neutral {
        level(grid, &mut weights, &turned_up);
    }
    if weights.iter().sum::<f64>() <= 0.0 {
        // A setting whose rules leave nothing possible says nothing.
        weights.fill(1.0);
    }
    Prior::new(weights)
}

/// Gives each year the weight of the curve, shared out among its cells as they stand.
fn level(grid: &Grid, weights: &mut [f64], curve: &[f64]) {
    for (offset, height) in curve.iter().enumerate() {
        let cells = (0..grid.pairs().len()).map(|pair| grid.cells_of(pair).start + offset);
        let total: f64 = cells.clone().map(|cell| weights[cell]).sum();
        if total > 0.0 {
            cells.for_each(|cell| weights[cell] *= height / total);
        }
    }
}
