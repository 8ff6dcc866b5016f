//! How a claim stands, and the nearest one that does.

use super::region::Region;
use crate::core::grid::{Grid, KindId, Year};
use crate::core::posterior::Posterior;

/// How a claim stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ClaimAnswer {
    Supported,
    Possible,
    HardToSupport,
    RuledOut,
}

/// Supported: at least half as probable as the best claim of its make, which is no support against
/// it on the ENFSI scale (a ratio under 2).
pub const SUPPORTED: f64 = 0.5;

/// Possible: within a ratio of 10 of the best, so weak support against it at most on the ENFSI
/// scale. Dates have to hold out against `RIVALS` as well.
pub const POSSIBLE: f64 = 0.1;

/// Years a wrong date is off, one to three generations. The same claim moved by each of these, earlier
/// and later, stands for what a wrong ticket should have said. Chosen among a few windows on the
/// known pieces of `tests/data`, moved by 60 years; no other source.
const APART: (usize, usize) = (30, 90);

/// Dates are hard to support when the claim has less than this times the mean chance of the same
/// claim moved by `APART`: P(claim) / P(claim moved) are the odds of a right ticket to a wrong one.
/// A little under 1, so that a toss-up still counts as possible; chosen so that nine in ten catalogued
/// dates of the same pieces stand.
pub const RIVALS: f64 = 0.8;

/// Ruled out: a hundred times less probable than the best, moderately strong support against it,
/// and the findings themselves weigh at least 10 decibans against it.
pub const RULED_OUT: f64 = 0.01;

/// Decibans the findings must weigh against a claim before it is ruled out: a ratio of 10, where
/// moderate support begins on the ENFSI scale.
pub const AGAINST: f64 = -10.0;

/// The claim nearest to the guess that stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    pub kind: KindId,
    /// False when the guess names no kind: then any kind counts.
    pub of_kind: bool,
    pub from: Year,
    pub to: Year,
    pub p: f64,
}

/// The numbers an answer is read from.
pub struct ClaimOdds {
    pub p: f64,
    pub share: f64,
    pub weight: f64,
    /// Mean chance of the same claim a generation or more off; `None` when no dates are claimed.
    pub elsewhere: Option<f64>,
}

impl ClaimOdds {
    pub fn new(grid: &Grid, prior: &[f64], after: &Posterior, cells: &Region) -> ClaimOdds {
        let width = usize::try_from(cells.to.0 - cells.from.0).unwrap_or(0) + 1;
        let p = cells.sides(grid, after.cells()).0;
        let best = if cells.kinds.is_empty() {
            best_run(&after.years(grid), width)
        } else {
            (0..grid.kinds() as u8)
                .map(|k| best_run(&after.years_where(grid, |kind, _| kind == KindId(k)), width))
                .fold(p, f64::max)
        };
        let years = after.years_where(grid, |kind, _| cells.has(kind));
        let start = grid.offset(cells.from).unwrap_or(0);
        ClaimOdds {
            p,
            share: if best > 0.0 { p / best } else { 1.0 },
            weight: cells.log_odds(grid, after.cells()) - cells.log_odds(grid, prior),
            elsewhere: (width < grid.years()).then(|| elsewhere(&years, start, width)),
        }
    }

    /// True when other dates, a generation or more off, are clearly likelier on average.
    pub fn outdone(&self) -> bool {
        self.elsewhere.is_some_and(|other| self.p < RIVALS * other)
    }

    /// With no finding that speaks there is nothing for or against.
    pub fn answer(&self, findings: usize) -> ClaimAnswer {
        if findings == 0 {
            ClaimAnswer::Possible
        } else if self.share < RULED_OUT && self.weight <= AGAINST {
            ClaimAnswer::RuledOut
        } else if self.share < POSSIBLE || self.outdone() {
            ClaimAnswer::HardToSupport
        } else if self.share < SUPPORTED {
            ClaimAnswer::Possible
        } else {
            ClaimAnswer::Supported
        }
    }
}

/// Mean chance of `width` years in a row that begin `APART` before or after `start`; beyond the grid
/// there is none. A claim wider than a generation is moved by its own width, so that it does not
/// compete with itself.
fn elsewhere(years: &[f64], start: usize, width: usize) -> f64 {
    let from = APART.0.max(width);
    let moves = from..=from + (APART.1 - APART.0);
    let run = |start: Option<usize>, cut: usize| {
        let start = start.map_or(0, |s| s.min(years.len()));
        let end = (start + width).saturating_sub(cut).min(years.len());
        years[start.min(end)..end].iter().sum::<f64>()
    };
    let count = 2 * moves.clone().count();
    let sum: f64 = moves
        .map(|by| {
            // Part of an earlier run may lie before the first year.
            let earlier = run(start.checked_sub(by), by.saturating_sub(start));
            earlier + run(Some(start + by), 0)
        })
        .sum();
    sum / count as f64
}

/// Greatest sum of any `width` years in a row.
fn best_run(p: &[f64], width: usize) -> f64 {
    p.windows(width.clamp(1, p.len()))
        .map(|w| w.iter().sum::<f64>())
        .fold(0.0, f64::max)
}

/// The claim itself if it stands, else the same number of years moved as little as need be until
/// they do: of the kinds named if those can stand at all, else of the leading kind.
pub fn nearest(grid: &Grid, after: &Posterior, cells: &Region, answer: ClaimAnswer) -> Nearest {
    let all_years = cells.from == grid.first() && cells.to == grid.last();
    let likeliest = |kinds: &[KindId]| {
        let p = after.kinds(grid);
        let all: Vec<KindId> = (0..grid.kinds() as u8).map(KindId).collect();
        let among = if kinds.is_empty() { &all } else { kinds };
        among.iter().copied().fold(among[0], |best, k| {
            if p[usize::from(k.0)] > p[usize::from(best.0)] {
                k
            } else {
                best
            }
        })
    };
    let named = !cells.kinds.is_empty();
    if answer == ClaimAnswer::Supported {
        return Nearest {
            kind: likeliest(&cells.kinds),
            of_kind: named,
            from: cells.from,
            to: cells.to,
            p: cells.sides(grid, after.cells()).0,
        };
    }
    let width = if all_years {
        30
    } else {
        usize::try_from(cells.to.0 - cells.from.0).unwrap_or(0) + 1
    };
    let width = width.min(grid.years());
    let leader = after.leading(grid).0;
    // The best any kind (or all of them, when none is named) does with so many years.
    let of =
        |kinds: &[KindId]| after.years_where(grid, |k, _| kinds.is_empty() || kinds.contains(&k));
    let best_of_leader = best_run(&of(&[leader]), width);
    // Of several kinds named the likeliest is put forward, unless the leading kind leaves it no room.
    let first = likeliest(&cells.kinds);
    let kinds = match named {
        false => Vec::new(),
        true if best_run(&of(&[first]), width) >= SUPPORTED * best_of_leader => vec![first],
        true => vec![leader],
    };
    let years = of(&kinds);
    let goal = SUPPORTED * best_run(&years, width).max(if named { best_of_leader } else { 0.0 });
    let wanted = grid.offset(cells.from).unwrap_or(0);
    let runs: Vec<f64> = years.windows(width).map(|w| w.iter().sum()).collect();
    let start = if all_years {
        (0..runs.len()).max_by(|a, b| runs[*a].total_cmp(&runs[*b]).then(b.cmp(a)))
    } else {
        (0..runs.len())
            .filter(|&i| runs[i] >= goal * (1.0 - 1e-9))
            .filter(|&i| runs[i] >= RIVALS * elsewhere(&years, i, width))
            .min_by_key(|&i| (i.abs_diff(wanted), i))
    };
    let start = start.unwrap_or(0);
    Nearest {
        kind: likeliest(&kinds),
        of_kind: named,
        from: grid.year(start),
        to: grid.year(start + width - 1),
        p: runs[start],
    }
}
