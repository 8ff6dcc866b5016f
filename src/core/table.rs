//! How often each finding of a clue is seen at each hypothesis.
//!
//! P(f | h) = (1 − ε) · w_f(h) / Σ_g w_g(h) + ε / n, with ε = slip + doubt, at least 0.002.
//! Most clues do not tell every (kind, place) pair apart, so pairs share rows.

use super::axes::{Axes, FindingId, Year};
use super::curve::Curve;
use super::evidence::{Seen, Sure};

/// No answer can forbid anything for ever: ε never falls below this
/// (design figure; common practice, no source).
pub const LEAST_ERROR: f64 = 0.002;

/// Largest ε that makes sense: beyond it a finding would say nothing.
pub const MOST_ERROR: f64 = 0.95;

/// The answers a clue can have.
#[derive(Clone, Debug)]
pub enum Answers {
    /// `share[(row · years + year) · n + finding]`: w_f / Σ_g w_g, or 1/n where no finding has weight.
    Listed { n: usize, share: Vec<f64> },
    /// `density[lag + years]` for lag = made − read in −years..=years, summing to 1.
    Dated { density: Vec<f64> },
}

/// One clue's frequencies.
#[derive(Clone, Debug)]
pub struct Table {
    row_of_pair: Vec<u16>,
    rows: usize,
    years: usize,
    first: Year,
    answers: Answers,
    slip: f64,
}

impl Table {
    /// Builds a listed clue from weights: `weights[row][year · n + finding]`, any scale, ≥ 0.
    pub fn listed(
        axes: &Axes,
        row_of_pair: Vec<u16>,
        weights: &[Vec<f64>],
        n: usize,
        slip: f64,
    ) -> Table {
        let mut share = Vec::with_capacity(weights.len() * axes.years() * n);
        for cell in weights.iter().flat_map(|row| row.chunks(n)) {
            let total: f64 = cell.iter().sum();
            if total > 0.0 {
                share.extend(cell.iter().map(|w| w / total));
            } else {
                share.extend(std::iter::repeat_n(1.0 / n as f64, n));
            }
        }
        Table {
            row_of_pair,
            rows: weights.len(),
            years: axes.years(),
            first: axes.first(),
            answers: Answers::Listed { n, share },
            slip,
        }
    }

    /// Builds a dated clue from a kernel over lag = year made − year read.
    pub fn dated(axes: &Axes, kernel: &Curve, slip: f64) -> Table {
        let years = axes.years() as i32;
        let heights: Vec<f64> = (-years..=years)
            .map(|lag| kernel.height(f64::from(lag)).max(0.0))
            .collect();
        let total: f64 = heights.iter().sum();
        let even = 1.0 / heights.len() as f64;
        let density = heights
            .iter()
            .map(|h| if total > 0.0 { h / total } else { even })
            .collect();
        Table {
            row_of_pair: vec![0; axes.pairs().len()],
            rows: 1,
            years: axes.years(),
            first: axes.first(),
            answers: Answers::Dated { density },
            slip,
        }
    }

    /// Which row of the table a (kind, place) pair uses.
    pub fn row(&self, pair: usize) -> usize {
        usize::from(self.row_of_pair[pair])
    }

    /// Number of distinct rows.
    pub fn rows(&self) -> usize {
        self.rows
    }

    /// The clue's answers.
    pub fn answers(&self) -> &Answers {
        &self.answers
    }

    /// ε for a finding said with this sureness.
    pub fn error(&self, sure: Sure) -> f64 {
        (self.slip + sure.doubt()).clamp(LEAST_ERROR, MOST_ERROR)
    }

    /// Number of answers ε is spread over: findings, or years that can be read.
    pub fn breadth(&self) -> usize {
        match &self.answers {
            Answers::Listed { n, .. } => *n,
            Answers::Dated { .. } => self.years,
        }
    }

    /// P(finding | row, year) at position `row · years + year`.
    pub fn chance(&self, at: usize, finding: FindingId, sure: Sure) -> f64 {
        let e = self.error(sure);
        let share = match &self.answers {
            Answers::Listed { n, share } => share[at * n + usize::from(finding.0)],
            Answers::Dated { .. } => 0.0,
        };
        (1.0 - e) * share + e / self.breadth() as f64
    }

    /// P(seen | row, year) for all rows and years, `row · years + year`; `None` for "can't tell".
    pub fn likelihood(&self, seen: Seen, sure: Sure) -> Option<Vec<f64>> {
        let e = self.error(sure);
        let floor = e / self.breadth() as f64;
        match (seen, &self.answers) {
            (Seen::Finding(f), Answers::Listed { n, share }) => {
                let f = usize::from(f.0);
                Some(
                    share
                        .chunks(*n)
                        .map(|cell| (1.0 - e) * cell[f] + floor)
                        .collect(),
                )
            }
            (Seen::Year(read), Answers::Dated { density }) => Some(
                (0..self.years)
                    .map(|offset| (1.0 - e) * self.dated_at(density, offset, read) + floor)
                    .collect(),
            ),
            _ => None,
        }
    }

    /// P(year read | year made) without error; 0 when the lag lies outside the grid.
    fn dated_at(&self, density: &[f64], offset: usize, read: Year) -> f64 {
        let lag = i32::from(self.first.0) + offset as i32 - i32::from(read.0);
        usize::try_from(lag + self.years as i32)
            .ok()
            .and_then(|i| density.get(i))
            .copied()
            .unwrap_or(0.0)
    }
}
