//! From where a piece was found to the probability of each kind, place and year before any look.
//!
//! P(h) = (1 − α) · own(h) + α · wide(h).
//! own ∝ made × the setting's years × all factors that fit: what this setting is thought to hold.
//! wide: every year alike, and within a year kinds and places as they were made: what may lie in it
//! when the setting is thought of wrongly. α is the setting's `doubt`. Its years are blurred by a
//! normal curve of `spread` years, since one shelf may as a whole be older or younger than another.
//!
//! A neutral setting is wide with its curve as the chance of the years.

use std::ops::Index;
use std::sync::OnceLock;

use super::base::RuleBase;
use super::definitions::{Frequency, Setting};
use super::ids::{Id, SettingId};
use crate::core::curve::blurred;
use crate::core::grid::Grid;
use crate::core::posterior::Prior;

/// What all settings draw on: how much was made of each cell.
#[derive(Clone, Debug)]
pub struct Made {
    cells: Vec<f64>,
    wide: Vec<f64>,
}

impl Made {
    /// Sums what was made where and when.
    pub fn new(base: &RuleBase, grid: &Grid) -> Made {
        let mut cells = vec![0.0; grid.cells()];
        for (pair, (kind, place)) in grid.pairs().iter().enumerate() {
            let of_pair = &mut cells[grid.cells_of(pair)];
            for made in base.kinds[*kind].made.iter().filter(|m| m.place == *place) {
                let heights = made.curve.heights(grid.first(), grid.years());
                for (cell, height) in of_pair.iter_mut().zip(heights) {
                    *cell += made.weight * height;
                }
            }
        }
        let even = vec![1.0; grid.years()];
        let wide = level(grid, cells.clone(), &even);
        Made { cells, wide }
    }

    /// Every year alike, kinds and places as they were made; sums to 1.
    pub fn wide(&self) -> &[f64] {
        &self.wide
    }

    /// made × all factors that fit: what the setting holds but for its years. Not normalised.
    pub fn ware(&self, grid: &Grid, setting: &Setting) -> Vec<f64> {
        let mut cells = self.cells.clone();
        for factor in &setting.factors {
            let heights = weights_of(grid, factor);
            for (pair, (kind, place)) in grid.pairs().iter().enumerate() {
                if factor.fits(*kind, *place) {
                    let of_pair = cells[grid.cells_of(pair)].iter_mut();
                    of_pair.zip(&heights).for_each(|(cell, x)| *cell *= x);
                }
            }
        }
        cells
    }

    /// What the setting itself is thought to hold; sums to 1.
    pub fn own(&self, grid: &Grid, setting: &Setting) -> Vec<f64> {
        let turned_up = years_of(grid, setting, setting.spread);
        let cells = self.ware(grid, setting);
        if setting.neutral {
            level(grid, cells, &turned_up)
        } else {
            by_year(grid, cells, &turned_up)
        }
    }

    /// The setting's own share and the rest together.
    pub fn prior(&self, setting: &Setting, own: &[f64]) -> Prior {
        let doubt = if setting.neutral { 0.0 } else { setting.doubt };
        let both = own.iter().zip(&self.wide);
        Prior::new(both.map(|(o, w)| (1.0 - doubt) * o + doubt * w).collect())
    }
}

/// The prior of each setting, made when it is first asked for: a visit needs one or two of them.
#[derive(Clone, Debug)]
pub struct Priors {
    grid: Grid,
    made: Made,
    settings: Vec<Setting>,
    each: Vec<OnceLock<Prior>>,
}

impl Priors {
    /// Of the settings in the rule base's order.
    pub fn new(base: &RuleBase, grid: &Grid) -> Priors {
        Priors {
            grid: grid.clone(),
            made: Made::new(base, grid),
            settings: base.settings.to_vec(),
            each: base.settings.iter().map(|_| OnceLock::new()).collect(),
        }
    }

    /// How many settings there are.
    pub fn len(&self) -> usize {
        self.each.len()
    }

    /// True without a setting.
    pub fn is_empty(&self) -> bool {
        self.each.is_empty()
    }

    /// All of them, in the rule base's order.
    pub fn iter(&self) -> impl Iterator<Item = &Prior> {
        (0..self.len()).map(|i| &self[i])
    }

    /// What may lie in a setting that is thought of wrongly, the same for all: by cell, summing to 1.
    pub fn wide(&self) -> &[f64] {
        self.made.wide()
    }
}

impl Index<usize> for Priors {
    type Output = Prior;

    fn index(&self, setting: usize) -> &Prior {
        let of = &self.settings[setting];
        self.each[setting].get_or_init(|| self.made.prior(of, &self.made.own(&self.grid, of)))
    }
}

impl Index<SettingId> for Priors {
    type Output = Prior;

    fn index(&self, setting: SettingId) -> &Prior {
        &self[setting.index()]
    }
}

/// The setting's curve over the grid, blurred by so many years.
pub fn years_of(grid: &Grid, setting: &Setting, spread: f64) -> Vec<f64> {
    blurred(&setting.curve.heights(grid.first(), grid.years()), spread)
}

/// weight × curve, by year offset.
pub(super) fn weights_of(grid: &Grid, case: &Frequency) -> Vec<f64> {
    let heights = case.curve.heights(grid.first(), grid.years());
    heights.into_iter().map(|h| case.weight * h).collect()
}

/// Each cell times the height of its year, made to sum to 1.
fn by_year(grid: &Grid, mut cells: Vec<f64>, heights: &[f64]) -> Vec<f64> {
    for pair in 0..grid.pairs().len() {
        let of_pair = cells[grid.cells_of(pair)].iter_mut();
        of_pair.zip(heights).for_each(|(cell, x)| *cell *= x);
    }
    to_one(cells)
}

/// Gives each year the weight of the curve, shared out among its cells as they stand; sums to 1.
fn level(grid: &Grid, mut cells: Vec<f64>, curve: &[f64]) -> Vec<f64> {
    for (offset, height) in curve.iter().enumerate() {
        let year = (0..grid.pairs().len()).map(|pair| grid.cells_of(pair).start + offset);
        let total: f64 = year.clone().map(|cell| cells[cell]).sum();
        if total > 0.0 {
            year.for_each(|cell| cells[cell] *= height / total);
        }
    }
    to_one(cells)
}

/// Makes weights sum to 1. A setting whose rules leave nothing possible says nothing.
fn to_one(mut cells: Vec<f64>) -> Vec<f64> {
    let total: f64 = cells.iter().sum();
    if total > 0.0 {
        cells.iter_mut().for_each(|cell| *cell /= total);
    } else {
        let even = 1.0 / cells.len() as f64;
        cells.fill(even);
    }
    cells
}
