//! The cells a claim stands for.

use std::ops::Range;

use super::guess::Claim;
use crate::core::grid::{Grid, KindId, Year};
use crate::hearing::dates::span::Ends;

/// Years a soft end gives way (common practice, no source).
const SOFT: i16 = 5;

/// The cells of a claim.
#[derive(Clone, Debug)]
pub struct Region {
    pub kinds: Vec<KindId>,
    pub from: Year,
    pub to: Year,
}

impl Region {
    pub fn has(&self, kind: KindId) -> bool {
        self.kinds.is_empty() || self.kinds.contains(&kind)
    }

    /// Offsets of its years.
    pub fn offsets(&self, grid: &Grid) -> Range<usize> {
        let first = grid.offset(self.from).unwrap_or(0);
        first..grid.offset(self.to).map_or(first, |last| last + 1)
    }

    /// The probabilities of the claim's cells; everything else 0.
    pub fn only(&self, grid: &Grid, cells: &[f64]) -> Vec<f64> {
        let mut out = vec![0.0; cells.len()];
        let (first, last) = (grid.offset(self.from), grid.offset(self.to));
        let (Some(first), Some(last)) = (first, last) else {
            return out;
        };
        for (pair, (kind, _)) in grid.pairs().iter().enumerate() {
            if self.has(*kind) {
                let at = grid.cells_of(pair).start;
                out[at + first..=at + last].copy_from_slice(&cells[at + first..=at + last]);
            }
        }
        out
    }

    /// P(claim), and P(not claim), each summed by itself so that neither is lost to rounding.
    pub fn sides(&self, grid: &Grid, cells: &[f64]) -> (f64, f64) {
        let mut sides = (0.0, 0.0);
        for (pair, (kind, _)) in grid.pairs().iter().enumerate() {
            for (offset, p) in cells[grid.cells_of(pair)].iter().enumerate() {
                let year = grid.year(offset);
                if self.has(*kind) && (self.from..=self.to).contains(&year) {
                    sides.0 += p;
                } else {
                    sides.1 += p;
                }
            }
        }
        sides
    }

    /// 10·log10 of the odds for the claim.
    pub fn log_odds(&self, grid: &Grid, cells: &[f64]) -> f64 {
        let (for_it, against) = self.sides(grid, cells);
        10.0 * (for_it.max(f64::MIN_POSITIVE) / against.max(f64::MIN_POSITIVE)).log10()
    }
}

/// The claim's years, softened and cut to the grid.
pub fn region(grid: &Grid, claim: &Claim) -> Region {
    let soft = if claim.ends == Ends::Soft { SOFT } else { 0 };
    let (first, last) = (grid.first().0, grid.last().0);
    Region {
        kinds: claim.kinds.clone(),
        from: Year(claim.from.map_or(first, |y| y - soft).clamp(first, last)),
        to: Year(claim.to.map_or(last, |y| y + soft).clamp(first, last)),
    }
}
