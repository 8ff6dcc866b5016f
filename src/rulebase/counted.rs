//! Known pieces counted into the frequencies of findings.
//!
//! The drawn shares of a clue's findings are a Dirichlet prior worth `strength` pieces, for each row of
//! its table (kinds and places it can't tell apart) and year, updated by the pieces of that row; a
//! piece t years away counts exp(−½ (t / smoothing)²). Records tell what is there and are silent of what is
//! not: a finding `none` keeps its drawn share and is not counted. What is drawn as impossible stays so.

use super::definitions::{Clue, Counted, CountedPiece};
use super::ids::{ClueId, FindingId};
use crate::core::grid::{Grid, Year};
use crate::core::table::{Answers, Table};

/// Standard deviations beyond which a piece does not count (common practice, no source).
const REACH: f64 = 3.0;

/// Pieces laid over the grid, ready to be counted into the table of any clue.
pub struct Spread<'a> {
    years: usize,
    /// Pieces that a drawn frequency is worth.
    strength: f64,
    pieces: Vec<SpreadPiece<'a>>,
}

struct SpreadPiece<'a> {
    saw: &'a [(ClueId, FindingId)],
    /// Its share in each pair of kind and place that has one.
    made: Vec<(usize, f64)>,
    /// Offset of the first year that it counts for, and how much it does for each from there on.
    from: usize,
    counts: Vec<f64>,
}

impl<'a> Spread<'a> {
    /// `strength` in pieces, `smoothing` in years.
    pub fn new(
        grid: &Grid,
        pieces: impl Iterator<Item = &'a CountedPiece>,
        (strength, smoothing): (f64, f64),
    ) -> Spread<'a> {
        Spread {
            years: grid.years(),
            strength,
            pieces: pieces.map(|p| spread(grid, p, smoothing)).collect(),
        }
    }

    /// The table of a clue after the pieces are counted; `None` when none of them speaks of it.
    pub fn counted(&self, id: ClueId, clue: &Clue, table: &Table) -> Option<Table> {
        let Answers::Listed { n, share } = table.answers() else {
            return None;
        };
        if table.is_flat() {
            // Drawn as telling nothing of kind or year, as damage is: few pieces shall not make it speak.
            return None;
        }
        let none = clue.finding("none").map(|f| usize::from(f.0));
        let mut counts = Vec::new();
        let mut of_row = vec![0.0; table.rows()];
        for piece in &self.pieces {
            let Some((_, finding)) = piece.saw.iter().find(|(c, _)| *c == id) else {
                continue;
            };
            let finding = usize::from(finding.0);
            if Some(finding) == none {
                continue;
            }
            counts.resize(share.len(), 0.0);
            of_row.fill(0.0);
            for (pair, share) in &piece.made {
                of_row[table.row(*pair)] += share;
            }
            for (row, share) in of_row.iter().enumerate().filter(|(_, s)| **s > 0.0) {
                let years = &mut counts[(row * n + finding) * self.years + piece.from..];
                for (sum, count) in years.iter_mut().zip(&piece.counts) {
                    *sum += share * count;
                }
            }
        }
        (!counts.is_empty()).then(|| table.updated(&counts, self.strength, none))
    }
}

/// A piece counts as one, divided over the years it may be of, each spread over the years about it.
fn spread<'a>(grid: &Grid, piece: &'a CountedPiece, smoothing: f64) -> SpreadPiece<'a> {
    let reach = (REACH * smoothing).ceil() as usize;
    let weight = |lag: usize| (-0.5 * (lag as f64 / smoothing).powi(2)).exp();
    let weights: Vec<f64> = (0..=reach).map(weight).collect();
    let each = 1.0 / f64::from(piece.to - piece.from + 1);
    let mut counts = vec![0.0; grid.years()];
    for offset in (piece.from..=piece.to).filter_map(|year| grid.offset(Year(year))) {
        let about = offset.saturating_sub(reach)..(offset + reach + 1).min(grid.years());
        for (count, year) in counts[about.clone()].iter_mut().zip(about) {
            *count += each * weights[offset.abs_diff(year)];
        }
    }
    let from = counts.iter().position(|c| *c > 0.0).unwrap_or(0);
    let to = counts
        .iter()
        .rposition(|c| *c > 0.0)
        .map_or(from, |l| l + 1);
    let pairs = grid.pairs().iter().enumerate();
    let made = pairs.map(|(pair, made)| (pair, piece.share(*made)));
    SpreadPiece {
        saw: &piece.saw,
        made: made.filter(|(_, share)| *share > 0.0).collect(),
        from,
        counts: counts[from..to].to_vec(),
    }
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
