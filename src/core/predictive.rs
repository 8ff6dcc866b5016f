//! How likely each answer of a clue is, whatever else is known.

use super::grid::Grid;
use super::observation::Sure;
use super::scaling::{dot, sum};
use super::table::{Answers, Table};

impl Table {
    /// P(answer) for every answer the clue can have, when cells have these probabilities.
    ///
    /// Answers of a listed clue are its findings; of a dated clue, the years of the axis.
    pub fn predictive(&self, grid: &Grid, cells: &[f64], sure: Sure) -> Vec<f64> {
        // Cells the clue can't tell apart are summed first: of a flat one, all of them.
        if self.is_flat() {
            let total = sum(cells);
            let error = self.error(sure);
            let floor = error / self.breadth() as f64;
            let chance = |f| total * ((1.0 - error) * self.shares(0, f)[0] + floor);
            return (0..self.breadth()).map(chance).collect();
        }
        self.predictive_by_row(&self.by_row(grid, cells), sure)
    }

    /// Probability of each row and year, `row · years + year`, when cells have these probabilities.
    fn by_row(&self, grid: &Grid, cells: &[f64]) -> Vec<f64> {
        let years = grid.years();
        let mut weights = vec![0.0; self.rows() * years];
        for group in self.groups() {
            let row = &mut weights[group.row * years..(group.row + 1) * years];
            for &pair in &group.pairs {
                for (sum, p) in row.iter_mut().zip(&cells[grid.cells_of(pair)]) {
                    *sum += p;
                }
            }
        }
        weights
    }

    /// The same when rows and years have these probabilities, `row · years + year`.
    pub fn predictive_by_row(&self, weights: &[f64], sure: Sure) -> Vec<f64> {
        let error = self.error(sure);
        let floor = error / self.breadth() as f64;
        let years = weights.len() / self.rows();
        let mut out = vec![0.0; self.breadth()];
        match self.answers() {
            Answers::Listed { .. } => {
                for (row, weights) in weights.chunks(years).enumerate() {
                    for (f, p) in out.iter_mut().enumerate() {
                        *p += dot(weights, self.shares(row, f));
                    }
                }
            }
            Answers::Dated { density } => {
                // lag = made − read, at `lag + years`.
                for (read, p) in out.iter_mut().enumerate() {
                    *p = dot(weights, &density[years - read..][..years]);
                }
            }
        }
        let total = sum(weights);
        let with_error = |p: &mut f64| *p = (1.0 - error) * *p + floor * total;
        out.iter_mut().for_each(with_error);
        out
    }
}
