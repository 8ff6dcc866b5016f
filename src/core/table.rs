//! How often each finding of a clue is met at each hypothesis, misreading apart.
//!
//! Most clues do not tell every (kind, place) pair apart, so pairs share rows.

use std::ops::Range;
use std::sync::OnceLock;

use super::curve::Curve;
use super::grid::{Grid, KindId, Year};
use super::kept_powers::KeptPowers;
use super::observation::Sure;
use super::read_bins::ReadBins;

/// The answers a clue can have.
#[derive(Clone, Debug)]
pub enum Answers {
    /// `share[(row · n + finding) · years + year]`: w_f / Σ_g w_g, or 1/n where no finding has weight.
    /// The years of a finding lie together: whatever is asked of a finding is asked for many years.
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
    pub(super) years: usize,
    pub(super) first: Year,
    answers: Answers,
    /// How often the look goes wrong, however surely its finding is said.
    pub(super) slip: f64,
    pub(super) kept: KeptPowers,
    flat: bool,
    /// What a look at the clue may tell is worked out of these, made when first asked for.
    read: OnceLock<ReadBins>,
    moving: OnceLock<Vec<Moving>>,
}

/// A finding's share in a row: it stands at one height up to these decades, and at another after them.
#[derive(Clone, Debug)]
pub(super) struct Moving {
    pub before: f64,
    pub decades: Range<usize>,
    pub after: f64,
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
    out.sort_by_key(|group| group.kind);
    out
}

impl Table {
    /// Builds a listed clue from weights: `weights[row][finding · years + year]`, any scale, ≥ 0.
    pub fn listed(
        grid: &Grid,
        row_of_pair: Vec<u16>,
        weights: &[Vec<f64>],
        n: usize,
        slip: f64,
    ) -> Table {
        let years = grid.years();
        let mut share = Vec::with_capacity(weights.len() * years * n);
        let mut totals = vec![0.0; years];
        for row in weights {
            totals.fill(0.0);
            for of_finding in row.chunks(years) {
                totals.iter_mut().zip(of_finding).for_each(|(t, w)| *t += w);
            }
            for of_finding in row.chunks(years) {
                let each = of_finding.iter().zip(&totals);
                share.extend(each.map(|(w, t)| if *t > 0.0 { w / t } else { 1.0 / n as f64 }));
            }
        }
        let first = share.get(..n * years).unwrap_or_default();
        let same = |f: &[f64]| f.iter().all(|s| *s == f[0]);
        let flat = first.chunks(years).all(same) && share.chunks(n * years).all(|row| row == first);
        Table {
            flat,
            groups: groups(grid, &row_of_pair),
            row_of_pair,
            rows: weights.len(),
            years,
            first: grid.first(),
            answers: Answers::Listed { n, share },
            slip,
            kept: KeptPowers::default(),
            read: OnceLock::new(),
            moving: OnceLock::new(),
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
            read: OnceLock::new(),
            moving: OnceLock::new(),
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
        let Answers::Listed { n, share } = &mut out.answers else {
            return out;
        };
        out.moving = OnceLock::new();
        let (row, years) = (*n * self.years, self.years);
        for (share, counts) in share.chunks_mut(row).zip(counts.chunks(row)) {
            // Most rows, and quicker seen than summed.
            if counts.iter().all(|c| *c == 0.0) {
                continue;
            }
            let (mut drawn, mut counted) = (vec![0.0; years], vec![0.0; years]);
            let moving = |f: usize| Some(f) != kept;
            let findings = share.chunks(years).zip(counts.chunks(years)).enumerate();
            for (_, (share, counts)) in findings.filter(|(f, _)| moving(*f)) {
                for (year, (s, c)) in share.iter().zip(counts).enumerate() {
                    if *s > 0.0 {
                        drawn[year] += s;
                        counted[year] += c;
                    }
                }
            }
            let findings = share
                .chunks_mut(years)
                .zip(counts.chunks(years))
                .enumerate();
            for (_, (share, counts)) in findings.filter(|(f, _)| moving(*f)) {
                for (year, (s, c)) in share.iter_mut().zip(counts).enumerate() {
                    if *s > 0.0 && counted[year] > 0.0 {
                        let (drawn, counted) = (drawn[year], counted[year]);
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

    /// Pairs by (kind, row), those of a kind together.
    pub fn groups(&self) -> &[Group] {
        &self.groups
    }

    /// P(finding | row, year) without error, by year offset; nothing of a dated clue.
    pub fn shares(&self, row: usize, finding: usize) -> &[f64] {
        match &self.answers {
            Answers::Listed { n, share } => {
                &share[(row * n + finding) * self.years..][..self.years]
            }
            Answers::Dated { .. } => &[],
        }
    }

    /// The clue's answers.
    pub fn answers(&self) -> &Answers {
        &self.answers
    }

    /// The years that may be read, in bins; `None` of a listed clue.
    pub(super) fn read_bins(&self) -> Option<&ReadBins> {
        let Answers::Dated { density } = &self.answers else {
            return None;
        };
        let work_out = || ReadBins::new(density, self.years, self.error(Sure::Sure));
        Some(self.read.get_or_init(work_out))
    }

    /// When the share of each finding moves, at `row · n + finding`.
    pub(super) fn moving(&self, grid: &Grid) -> &[Moving] {
        let Answers::Listed { share, .. } = &self.answers else {
            return &[];
        };
        self.moving.get_or_init(|| {
            let of_finding = |shares: &[f64]| {
                let (before, after) = (shares[0], shares[shares.len() - 1]);
                let mut decades = grid
                    .decade_years()
                    .iter()
                    .map(|years| &shares[years.clone()]);
                let to = decades
                    .clone()
                    .rposition(|of| of.iter().any(|s| *s != after));
                let from = decades.position(|of| of.iter().any(|s| *s != before));
                Moving {
                    before,
                    decades: from.unwrap_or(0)..to.map_or(from.unwrap_or(0), |last| last + 1),
                    after,
                }
            };
            share.chunks(self.years).map(of_finding).collect()
        })
    }
}

#[cfg(test)]
impl Table {
    /// Two findings over four years, at one kind and place, and its grid.
    pub(super) fn of_four_years() -> (Grid, Table) {
        let pairs = vec![(KindId(0), super::grid::PlaceId(0))];
        let grid = Grid::new(pairs, 1, 1, Year(1800), Year(1803));
        let weights = [vec![1.0, 0.0, 1.0, 2.0, 3.0, 4.0, 3.0, 2.0]];
        let table = Table::listed(&grid, vec![0], &weights, 2, 0.1);
        (grid, table)
    }
}

#[cfg(test)]
mod tests {
    use super::{Answers, Table};
    use crate::core::grid::{Grid, KindId, PlaceId, Year};

    /// The mean of a Dirichlet prior worth four pieces after four counted ones.
    #[test]
    fn counts_move_shares_as_a_dirichlet_prior_has_it() {
        let counted =
            Table::of_four_years()
                .1
                .updated(&[3.0, 2.0, 0.0, 0.0, 1.0, 2.0, 0.0, 4.0], 4.0, None);
        let Answers::Listed { share, .. } = counted.answers() else {
            panic!("a listed clue");
        };
        // (4 · 0.25 + 3) / 8; what has no share keeps none; nothing counted moves nothing.
        let wanted = [0.5, 0.0, 0.25, 0.25, 0.5, 1.0, 0.75, 0.75];
        for (got, wanted) in share.iter().zip(wanted) {
            assert!((got - wanted).abs() < 1e-12, "{share:?}");
        }
    }

    /// What stands still outside some decades is known to, and what moves within one is not skipped.
    #[test]
    fn a_share_moves_in_the_decades_between_its_heights() {
        let pairs = vec![(KindId(0), PlaceId(0))];
        let grid = Grid::new(pairs, 1, 1, Year(1795), Year(1834));
        // Decades 1790s (five years), 1800s, 1810s, 1820s, 1830s (five).
        let moving = |weight: fn(usize) -> f64| {
            let first: Vec<f64> = (0..40).map(weight).collect();
            let rest = first.iter().map(|w| 1.0 - w);
            let row = first.iter().copied().chain(rest).collect();
            let table = Table::listed(&grid, vec![0], &[row], 2, 0.1);
            let of = &table.moving(&grid)[0];
            (of.before, of.decades.clone(), of.after)
        };
        assert_eq!(moving(|_| 0.25), (0.25, 0..0, 0.25));
        let step = |year| if year < 15 { 0.0 } else { 1.0 };
        assert_eq!(moving(step), (0.0, 2..2, 1.0));
        let bump = |year| if (17..27).contains(&year) { 0.5 } else { 0.25 };
        assert_eq!(moving(bump), (0.25, 2..4, 0.25));
        let from_the_first = |year| if year == 0 { 0.5 } else { 0.75 };
        assert_eq!(moving(from_the_first), (0.5, 0..1, 0.75));
    }
}
