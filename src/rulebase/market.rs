//! From rules to the market of a setting: how often each finding of a trait is met.

use super::base::RuleBase;
use super::definitions::{RarityFeature, Setting, ShareCase};
use super::ids::{Id, KindId};
use super::priors::Made;
use crate::core::grid::Grid;
use crate::core::market::{AGE_YEARS, Market, Trait, ages};
use crate::core::model::Model;
use crate::core::table::{Answers, Table};

/// What a setting is itself thought to hold, without the doubt of it.
pub fn market(base: &RuleBase, model: &Model, setting: &Setting) -> Market {
    let grid = &model.grid;
    let cells = &Made::new(base, grid).own(grid, setting);
    let mut traits: Vec<Trait> = Vec::new();
    for feature in &base.market {
        let table = &model.clue(feature.clue).table;
        let by = match feature.cases.as_slice() {
            [] => from_clue(grid, table, cells),
            cases => from_cases(base, grid, feature, cases),
        };
        traits.push(Trait {
            given: feature.given,
            by,
        });
    }
    Market::new(grid, cells, traits)
}

/// The clue's own figures, averaged over the places and years that make up each kind and age:
/// Σ P(h) · P(finding | h) / Σ P(h), without misreading.
fn from_clue(grid: &Grid, table: &Table, market: &[f64]) -> Vec<Vec<f64>> {
    let Answers::Listed { n, .. } = table.answers() else {
        return vec![Vec::new(); grid.kinds() * ages(grid)];
    };
    let mut by = vec![vec![0.0; *n]; grid.kinds() * ages(grid)];
    for (pair, (kind, _)) in grid.pairs().iter().enumerate() {
        let of_kind = &mut by[usize::from(kind.0) * ages(grid)..];
        let cells = market[grid.cells_of(pair)].chunks(AGE_YEARS);
        for (age, cells) in cells.enumerate() {
            for (finding, sum) in of_kind[age].iter_mut().enumerate() {
                let shares = &table.shares(table.row(pair), finding)[age * AGE_YEARS..];
                let met = cells.iter().zip(shares).filter(|(p, _)| **p > 0.0);
                *sum += met.map(|(p, share)| p * share).sum::<f64>();
            }
        }
    }
    by.iter_mut().for_each(|row| to_one(row));
    by
}

/// The first case that fits the kind and the finding of the given trait; else every finding alike.
fn from_cases(
    base: &RuleBase,
    grid: &Grid,
    feature: &RarityFeature,
    cases: &[ShareCase],
) -> Vec<Vec<f64>> {
    let n = base.clue(feature.clue).findings.len().max(1);
    let given = feature.given.map(|i| base.market[i].clue);
    let givens = given.map_or(1, |clue| base.clue(clue).findings.len());
    let mut by = Vec::new();
    for kind in 0..grid.kinds() {
        let kind = KindId::at(kind).unwrap_or(KindId(0));
        for _ in 0..ages(grid) {
            for finding in 0..givens {
                let fits = |case: &&ShareCase| {
                    let given = case.given.as_ref();
                    case.kinds.as_ref().is_none_or(|ks| ks.contains(&kind))
                        && given.is_none_or(|fs| fs.iter().any(|f| f.index() == finding))
                };
                let mut row = match cases.iter().find(fits) {
                    Some(case) => case.weights.clone(),
                    None => vec![1.0; n],
                };
                to_one(&mut row);
                by.push(row);
            }
        }
    }
    by
}

/// Makes a row sum to 1; a row of nothing stays nothing.
fn to_one(row: &mut [f64]) {
    let total: f64 = row.iter().sum();
    if total > 0.0 {
        row.iter_mut().for_each(|x| *x /= total);
    }
}
