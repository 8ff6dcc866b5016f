//! How often each finding of a clue is seen at each hypothesis.
//!
//! P(f | h) = (1 − ε) · w_f(h) / Σ_g w_g(h) + ε / n, with ε = slip + doubt, at least 0.002.
//! Most clues do not tell every (kind, place) pair apart, so pairs share rows.

use std::sync::Arc;

use super::curve::Curve;
use super::grid::{Grid, KindId, Year};
use super::kept_powers::{Answer, KeptPowers, Power};
use super::observation::{Observed, Sure};
use super::scaling::sum;

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
    groups: Vec<Group>,
    rows: usize,
    years: usize,
    first: Year,
    answers: Answers,
    slip: f64,
    kept: KeptPowers,
    flat: bool,
}

/// The pairs of one kind that share a row: the clue can't tell them apart.
#[derive(Clone, Debug)]
pub struct Group {
    pub kind: KindId,
    pub row: usize,
    pub pairs: Vec<usize>,
}

fn groups(grid: &Grid, row_of_pair: &[u16]) -> Vec<Group> {
    let mut out: Vec<Group> = Vec::new();
    for (pair, ((kind, _), row)) in grid.pairs().iter().zip(row_of_pair).enumerate() {
        let row = usize::from(*row);
        match out.iter_mut().find(|g| g.kind == *kind && g.row == row) {
            Some(group) => group.pairs.push(pair),
            None => out.push(Group {
                kind: *kind,
                row,
                pairs: vec![pair],
            }),
        }
    }
    out
}

impl Table {
    /// Builds a listed clue from weights: `weights[row][year · n + finding]`, any scale, ≥ 0.
    pub fn listed(
        grid: &Grid,
        row_of_pair: Vec<u16>,
        weights: &[Vec<f64>],
        n: usize,
        slip: f64,
    ) -> Table {
        let mut share = Vec::with_capacity(weights.len() * grid.years() * n);
        for cell in weights.iter().flat_map(|row| row.chunks(n)) {
            let total: f64 = cell.iter().sum();
            if total > 0.0 {
                share.extend(cell.iter().map(|w| w / total));
            } else {
                share.extend(std::iter::repeat_n(1.0 / n as f64, n));
            }
        }
        let first = share.get(..n).unwrap_or_default();
        let flat = share.chunks(n).all(|cell| cell == first);
        Table {
            flat,
            groups: groups(grid, &row_of_pair),
            row_of_pair,
            rows: weights.len(),
            years: grid.years(),
            first: grid.first(),
            answers: Answers::Listed { n, share },
            slip,
            kept: KeptPowers::default(),
        }
    }

    /// Builds a dated clue from a kernel over lag = year made − year read.
    pub fn dated(grid: &Grid, kernel: &Curve, slip: f64) -> Table {
        let years = grid.years() as i32;
        let heights: Vec<f64> = (-years..=years)
            .map(|lag| kernel.height(f64::from(lag)).max(0.0))
            .collect();
        let total: f64 = heights.iter().sum();
        let even = 1.0 / heights.len() as f64;
        let density = heights
            .iter()
            .map(|h| if total > 0.0 { h / total } else { even })
            .collect();
        let row_of_pair = vec![0; grid.pairs().len()];
        Table {
            flat: false,
            groups: groups(grid, &row_of_pair),
            row_of_pair,
            rows: 1,
            years: grid.years(),
            first: grid.first(),
            answers: Answers::Dated { density },
            slip,
            kept: KeptPowers::default(),
        }
    }

    /// True when every finding is as frequent everywhere: it says nothing of kind, place or year.
    pub fn is_flat(&self) -> bool {
        self.flat
    }

    /// The table of a listed clue with its shares taken as a Dirichlet prior worth `strength` pieces
    /// and updated by counts in the same layout. What has no share keeps none, and the finding `kept`
    /// keeps its share: the counts divide the rest.
    pub fn updated(&self, counts: &[f64], strength: f64, kept: Option<usize>) -> Table {
        let mut out = self.clone();
        if let Answers::Listed { n, share } = &mut out.answers {
            for (cell, counts) in share.chunks_mut(*n).zip(counts.chunks(*n)) {
                // Most cells, and quicker seen than summed.
                if counts.iter().all(|c| *c == 0.0) {
                    continue;
                }
                let moves = |f: usize, s: f64| Some(f) != kept && s > 0.0;
                let (mut drawn, mut counted) = (0.0, 0.0);
                for (f, (s, c)) in cell.iter().zip(counts).enumerate() {
                    if moves(f, *s) {
                        drawn += s;
                        counted += c;
                    }
                }
                if counted <= 0.0 {
                    continue;
                }
                for (f, (s, c)) in cell.iter_mut().zip(counts).enumerate() {
                    if moves(f, *s) {
                        *s = drawn * (strength * *s / drawn + c) / (strength + counted);
                    }
                }
            }
        }
        out
    }

    /// Which row of the table a (kind, place) pair uses.
    pub fn row(&self, pair: usize) -> usize {
        usize::from(self.row_of_pair[pair])
    }

    /// Number of rows.
    pub fn rows(&self) -> usize {
        self.rows
    }

    /// Pairs by (kind, row).
    pub fn groups(&self) -> &[Group] {
        &self.groups
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

    /// P(seen | row, year) for all rows and years, `row · years + year`; `None` for "can't tell".
    ///
    /// Of a soft observation Σ_f w_f · P(f | row, year).
    pub fn likelihood(&self, seen: &Observed, sure: Sure) -> Option<Vec<f64>> {
        let e = self.error(sure);
        let floor = e / self.breadth() as f64;
        match (seen, &self.answers) {
            (Observed::Finding(f), Answers::Listed { n, share }) => {
                let f = usize::from(f.0);
                Some(
                    share
                        .chunks(*n)
                        .map(|cell| (1.0 - e) * cell[f] + floor)
                        .collect(),
                )
            }
            (Observed::Soft(weights), Answers::Listed { n, share }) => {
                let floor = floor * weights.by_finding().iter().sum::<f64>();
                let cells = share.chunks(*n);
                Some(
                    cells
                        .map(|cell| (1.0 - e) * weights.mean_of(cell) + floor)
                        .collect(),
                )
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
            (seen, &self.answers),
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
            let plain = plain.unwrap_or_else(|| vec![1.0; self.rows * self.years]);
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
        match (seen, &self.answers) {
            (Observed::Year(read), Answers::Dated { density }) => {
                self.dated_at(density, offset, *read) > 0.0
            }
            (_, Answers::Listed { n, share }) => {
                let from = (row * self.years + offset) * n;
                let cell = &share[from..from + n];
                match seen {
                    Observed::Finding(f) => cell[usize::from(f.0)] > 0.0,
                    Observed::Soft(weights) => weights.mean_of(cell) > 0.0,
                    Observed::Year(_) | Observed::CantTell => true,
                }
            }
            _ => true,
        }
    }

    /// Probability of each row and year, `row · years + year`, when cells have these probabilities.
    fn by_row(&self, grid: &Grid, cells: &[f64]) -> Vec<f64> {
        let mut weights = vec![0.0; self.rows * self.years];
        for group in &self.groups {
            let row = &mut weights[group.row * self.years..(group.row + 1) * self.years];
            for &pair in &group.pairs {
                for (sum, p) in row.iter_mut().zip(&cells[grid.cells_of(pair)]) {
                    *sum += p;
                }
            }
        }
        weights
    }

    /// P(answer) for every answer the clue can have, when cells have these probabilities.
    ///
    /// Answers of a listed clue are its findings; of a dated clue, the years of the axis.
    pub fn predictive(&self, grid: &Grid, cells: &[f64], sure: Sure) -> Vec<f64> {
        // Cells the clue can't tell apart are summed first: of a flat one, all of them.
        let weights = match self.flat {
            true => vec![sum(cells)],
            false => self.by_row(grid, cells),
        };
        self.predictive_by_row(&weights, sure)
    }

    /// The same when rows and years have these probabilities, `row · years + year`.
    pub fn predictive_by_row(&self, weights: &[f64], sure: Sure) -> Vec<f64> {
        let e = self.error(sure);
        let floor = e / self.breadth() as f64;
        let total: f64 = weights.iter().sum();
        let mut out = vec![0.0; self.breadth()];
        match &self.answers {
            Answers::Listed { n, share } => {
                for (weight, shares) in weights.iter().zip(share.chunks(*n)) {
                    if *weight > 0.0 {
                        for (sum, s) in out.iter_mut().zip(shares) {
                            *sum += weight * s;
                        }
                    }
                }
            }
            Answers::Dated { density } => {
                for (made, weight) in weights.iter().enumerate() {
                    for (read, sum) in out.iter_mut().enumerate() {
                        *sum += weight * density[made + self.years - read];
                    }
                }
            }
        }
        out.iter_mut()
            .for_each(|p| *p = (1.0 - e) * *p + floor * total);
        out
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
    use super::{Answers, Table};
    use crate::core::curve::Curve;
    use crate::core::grid::{FindingId, Grid, KindId, PlaceId, Year};
    use crate::core::observation::Observed;

    fn grid() -> Grid {
        let pairs = vec![(KindId(0), PlaceId(0))];
        Grid::new(pairs, 1, 1, Year(1800), Year(1803))
    }

    fn listed() -> Table {
        let weights = [vec![1.0, 3.0, 0.0, 4.0, 1.0, 3.0, 2.0, 2.0]];
        Table::listed(&grid(), vec![0], &weights, 2, 0.1)
    }

    #[test]
    fn a_finding_without_frequency_is_not_allowed() {
        let allows = |f, offset| listed().allows(&Observed::Finding(FindingId(f)), 0, offset);
        assert!(allows(0, 0) && !allows(0, 1) && allows(0, 2));
        assert!(allows(1, 0) && allows(1, 1));
        let floor = Curve::new(vec![(-1.0, 0.0), (0.0, 1.0)]);
        let dated = Table::dated(&grid(), &floor, 0.1);
        let made = |offset| dated.allows(&Observed::Year(Year(1802)), 0, offset);
        assert_eq!([0, 1, 2, 3].map(made), [false, false, true, true]);
    }

    /// The mean of a Dirichlet prior worth four pieces after four counted ones.
    #[test]
    fn counts_move_shares_as_a_dirichlet_prior_has_it() {
        let counted = listed().updated(&[3.0, 1.0, 2.0, 2.0, 0.0, 0.0, 0.0, 4.0], 4.0, None);
        let Answers::Listed { share, .. } = counted.answers() else {
            panic!("a listed clue");
        };
        // (4 · 0.25 + 3) / 8; what has no share keeps none; nothing counted moves nothing.
        let wanted = [0.5, 0.5, 0.0, 1.0, 0.25, 0.75, 0.25, 0.75];
        for (got, wanted) in share.iter().zip(wanted) {
            assert!((got - wanted).abs() < 1e-12, "{share:?}");
        }
    }
}
