//! How likely an observation is at each hypothesis.
//!
//! P(f | h) = (1 − ε) · w_f(h) / Σ_g w_g(h) + ε / n, with ε = slip + doubt, at least 0.002.

use std::sync::Arc;

use super::grid::Year;
use super::kept_powers::{Answer, Power};
use super::observation::{Observed, Sure};
use super::table::{Answers, Table};

/// No answer can forbid anything for ever: ε never falls below this
/// (design figure; common practice, no source).
pub const LEAST_ERROR: f64 = 0.002;

/// Largest ε that makes sense: beyond it a finding would say nothing.
pub const MOST_ERROR: f64 = 0.95;

impl Table {
    /// ε for a finding said with this sureness.
    pub fn error(&self, sure: Sure) -> f64 {
        (self.slip + sure.doubt()).clamp(LEAST_ERROR, MOST_ERROR)
    }

    /// Number of answers ε is spread over: findings, or years that can be read.
    pub fn breadth(&self) -> usize {
        match self.answers() {
            Answers::Listed { n, .. } => *n,
            Answers::Dated { .. } => self.years,
        }
    }

    /// P(seen | row, year) for all rows and years, `row · years + year`; `None` for "can't tell".
    ///
    /// Of a soft observation Σ_f w_f · P(f | row, year).
    pub fn likelihood(&self, seen: &Observed, sure: Sure) -> Option<Vec<f64>> {
        let e = self.error(sure);
        let floor = e / self.breadth() as f64;
        match (seen, self.answers()) {
            (Observed::Finding(f), Answers::Listed { .. }) => {
                let shares = (0..self.rows()).flat_map(|row| self.shares(row, usize::from(f.0)));
                Some(shares.map(|share| (1.0 - e) * share + floor).collect())
            }
            (Observed::Soft(weights), Answers::Listed { .. }) => {
                let weights = weights.by_finding();
                let floor = floor * weights.iter().sum::<f64>();
                let mut out = vec![0.0; self.rows() * self.years];
                for (row, out) in out.chunks_mut(self.years).enumerate() {
                    for (f, weight) in weights.iter().enumerate() {
                        let shares = self.shares(row, f);
                        out.iter_mut()
                            .zip(shares)
                            .for_each(|(p, s)| *p += weight * s);
                    }
                    out.iter_mut().for_each(|p| *p = (1.0 - e) * *p + floor);
                }
                Some(out)
            }
            (Observed::Year(read), Answers::Dated { density }) => Some(
                (0..self.years)
                    .map(|offset| (1.0 - e) * self.dated_at(density, offset, *read) + floor)
                    .collect(),
            ),
            _ => None,
        }
    }

    /// True when the clue can have this answer; "can't tell" is none.
    pub fn answers_with(&self, seen: &Observed) -> bool {
        matches!(
            (seen, self.answers()),
            (
                Observed::Finding(_) | Observed::Soft(_),
                Answers::Listed { .. }
            ) | (Observed::Year(_), Answers::Dated { .. })
        )
    }

    /// P(seen | row, year) to a power; 1 everywhere for an answer the clue can't have. Worked out once for
    /// each finding or year, sureness and power.
    pub fn power(&self, seen: &Observed, sure: Sure, power: f64) -> Arc<Power> {
        let work_out = || {
            let plain = self.likelihood(seen, sure);
            let plain = plain.unwrap_or_else(|| vec![1.0; self.rows() * self.years]);
            Power::new(plain, power, self.years)
        };
        let answer = match seen {
            Observed::Finding(f) => Answer::Finding(*f),
            Observed::Year(y) => Answer::Year(*y),
            Observed::Soft(_) | Observed::CantTell => return Arc::new(work_out()),
        };
        let key = (answer, sure, power.to_bits());
        self.kept.get(key, self.breadth(), work_out)
    }

    /// True when the rules give this answer any frequency at all in this row and year. False is a
    /// hard limit: only a misreading explains the answer there.
    pub fn allows(&self, seen: &Observed, row: usize, offset: usize) -> bool {
        match (seen, self.answers()) {
            (Observed::Year(read), Answers::Dated { density }) => {
                self.dated_at(density, offset, *read) > 0.0
            }
            (Observed::Finding(f), Answers::Listed { .. }) => {
                self.shares(row, usize::from(f.0))[offset] > 0.0
            }
            (Observed::Soft(weights), Answers::Listed { .. }) => {
                let mut weights = weights.by_finding().iter().enumerate();
                weights.any(|(f, w)| *w > 0.0 && self.shares(row, f)[offset] > 0.0)
            }
            _ => true,
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

#[cfg(test)]
mod tests {
    use super::Table;
    use crate::core::curve::Curve;
    use crate::core::grid::{FindingId, Year};
    use crate::core::observation::Observed;

    #[test]
    fn a_finding_without_frequency_is_not_allowed() {
        let (grid, table) = Table::of_four_years();
        let allows = |f, offset| table.allows(&Observed::Finding(FindingId(f)), 0, offset);
        assert!(allows(0, 0) && !allows(0, 1) && allows(0, 2));
        assert!(allows(1, 0) && allows(1, 1));
        let floor = Curve::new(vec![(-1.0, 0.0), (0.0, 1.0)]);
        let dated = Table::dated(&grid, &floor, 0.1);
        let made = |offset| dated.allows(&Observed::Year(Year(1802)), 0, offset);
        assert_eq!([0, 1, 2, 3].map(made), [false, false, true, true]);
    }
}
