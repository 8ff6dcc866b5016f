//! The cells a claim stands for.

use super::guess::Claim;
use crate::core::grid::{Grid, KindId, Year};
use crate::hearing::dates::span::Ends;

/// What is seen on a piece dates it to a generation at best: fewer years are judged as twenty. Chosen
/// among 10 to 30 on the known pieces of `tests/data`, no other source.
pub const LEAST_YEARS: i16 = 20;

/// Years a soft end gives way.
const SOFT: i16 = 5;

/// The cells of a claim.
#[derive(Clone, Debug)]
pub struct Region {
    pub kinds: Vec<KindId>,
    pub from: Year,
    pub to: Year,
    /// Fewer than `LEAST_YEARS` were claimed.
    pub widened: bool,
}

impl Region {
    pub fn has(&self, kind: KindId) -> bool {
        self.kinds.is_empty() || self.kinds.contains(&kind)
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

/// The claim's years, softened, widened to `LEAST_YEARS` and cut to the grid.
pub fn region(grid: &Grid, claim: &Claim) -> Region {
    let soft = if claim.ends == Ends::Soft { SOFT } else { 0 };
    let (first, last) = (grid.first().0, grid.last().0);
    let mut from = claim.from.map_or(first, |y| y - soft).clamp(first, last);
    let mut to = claim.to.map_or(last, |y| y + soft).clamp(first, last);
    let lacking = (LEAST_YEARS - (to - from + 1)).max(0);
    from = (from - lacking / 2).max(first);
    to = (to + (lacking + 1) / 2).min(last);
    Region {
        kinds: claim.kinds.clone(),
        from: Year(from),
        to: Year(to),
        widened: lacking > 0,
    }
}
