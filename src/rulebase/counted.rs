//! Known pieces counted into the frequencies of findings.
//!
//! The drawn shares of a clue's findings are a Dirichlet prior worth `strength` pieces, for each row of
//! its table (kinds and places it can't tell apart) and year, updated by the pieces of that row; a
//! piece t years away counts exp(−½ (t / smoothing)²). Records tell what is there and are silent of what is
//! not: a finding `none` keeps its drawn share and is not counted. What is drawn as impossible stays so.

use super::definitions::{Clue, Counted, CountedPiece};
use super::ids::ClueId;
use crate::core::grid::{Grid, Year};
use crate::core::likelihood::{Answers, Table};

/// Standard deviations beyond which a piece does not count.
const REACH: f64 = 3.0;

/// The table of a clue after the pieces are counted; `None` when none of them speaks of it.
pub fn counted<'a>(
    grid: &Grid,
    id: ClueId,
    clue: &Clue,
    table: &Table,
    pieces: impl Iterator<Item = &'a CountedPiece>,
    (strength, smoothing): (f64, f64),
) -> Option<Table> {
    let Answers::Listed { n, share } = table.answers() else {
        return None;
    };
    if table.is_flat() {
        // Drawn as telling nothing of kind or year, as damage is: few pieces shall not make it speak.
        return None;
    }
    let none = clue.finding("none").map(|f| usize::from(f.0));
    let mut raw = vec![0.0; share.len()];
    let mut any = false;
    for piece in pieces {
        let Some((_, finding)) = piece.saw.iter().find(|(c, _)| *c == id) else {
            continue;
        };
        let finding = usize::from(finding.0);
        if Some(finding) == none {
            continue;
        }
        let years = (piece.from..=piece.to).filter_map(|year| grid.offset(Year(year)));
        let each = 1.0 / f64::from(piece.to - piece.from + 1);
        for offset in years {
            for (pair, made) in grid.pairs().iter().enumerate() {
                let share: f64 = piece.share(*made);
                if share > 0.0 {
                    raw[(table.row(pair) * grid.years() + offset) * n + finding] += share * each;
                    any = true;
                }
            }
        }
    }
    any.then(|| table.updated(&smoothed(&raw, *n, grid.years(), smoothing), strength, none))
}

/// Each count spread over the years about it.
fn smoothed(raw: &[f64], n: usize, years: usize, smoothing: f64) -> Vec<f64> {
    let reach = (REACH * smoothing).ceil() as usize;
    let weight = |lag: usize| (-0.5 * (lag as f64 / smoothing).powi(2)).exp();
    let weights: Vec<f64> = (0..=reach).map(weight).collect();
    let mut out = vec![0.0; raw.len()];
    for (at, count) in raw.iter().enumerate().filter(|(_, c)| **c > 0.0) {
        let (row, offset, finding) = (at / n / years, at / n % years, at % n);
        for other in offset.saturating_sub(reach)..(offset + reach + 1).min(years) {
            out[(row * years + other) * n + finding] += count * weights[offset.abs_diff(other)];
        }
    }
    out
}

/// Pieces with this finding, and pieces with any, of those that its case is drawn for: "3 of 41".
pub fn of_case(
    counted: &Counted,
    id: ClueId,
    clue: &Clue,
    finding: usize,
    case: usize,
) -> (f64, f64) {
    let cases = &clue.findings[finding].cases;
    let none = clue.finding("none");
    if none.map(|f| usize::from(f.0)) == Some(finding) {
        return (0.0, 0.0);
    }
    let (mut seen, mut all) = (0.0, 0.0);
    for piece in &counted.pieces {
        let Some((_, saw)) = piece.saw.iter().find(|(c, _)| *c == id) else {
            continue;
        };
        if Some(*saw) == none {
            continue;
        }
        let drawn_for = |(kind, place, _): &&(_, _, f64)| {
            cases.iter().position(|c| c.fits(*kind, *place)) == Some(case)
        };
        let share: f64 = piece.made.iter().filter(drawn_for).map(|m| m.2).sum();
        all += share;
        if usize::from(saw.0) == finding {
            seen += share;
        }
    }
    (seen, all)
}
