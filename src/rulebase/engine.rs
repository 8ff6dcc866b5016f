//! From checked rules to the engine's tables and priors. Cannot fail after the checks.

use super::base::RuleBase;
use super::counted::Spread;
use super::definitions::Clue;
use super::ids::{KindId, PlaceId, ids};
use super::priors::{Priors, weights_of};
use crate::core::grid::{FIRST_YEAR, Grid, Year};
use crate::core::model::{self, Model};
use crate::core::table::Table;

/// The compiled rule base for one present year.
#[derive(Clone, Debug)]
pub struct Engine {
    pub model: Model,
    /// One prior a setting, in the rule base's order.
    pub priors: Priors,
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
        let how = (base.counted.strength, base.counted.smoothing);
        let known = Spread::new(&grid, base.counted.pieces.iter(), how);
        let counted = |id, clue: &Clue| {
            let drawn = table(base, &grid, clue);
            known.counted(id, clue, &drawn).unwrap_or(drawn)
        };
        let clues = ids(base.clues.len())
            .zip(&base.clues)
            .map(|(id, clue)| model::ClueModel {
                table: counted(id, clue),
                family: clue.family,
                gate: clue.gate.clone(),
                station: clue.station,
                seconds: clue.seconds,
                present: clue.present,
            })
            .collect();
        Engine {
            priors: Priors::new(base, &grid),
            model: Model {
                grid,
                clues,
                families: base.families.iter().map(|f| f.delta).collect(),
            },
        }
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
            let mut row = Vec::with_capacity(grid.years() * n);
            for (case, cases) in signature.iter().zip(&cases) {
                match case {
                    Some(case) => row.extend_from_slice(&cases[*case]),
                    None => row.resize(row.len() + grid.years(), 0.0),
                }
            }
            row
        })
        .collect();
    Table::listed(grid, row_of_pair, &weights, clue.findings.len(), clue.slip)
}
