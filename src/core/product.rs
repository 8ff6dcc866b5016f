//! Many factors multiplied into all cells at once.
//!
//! A pair of kind and place is a run of years, short enough to stay in the nearest cache while all
//! factors go over it. Pairs of one kind that no clue here tells apart share one product. Years
//! that no longer have any probability at either end of a run are passed over.

use std::ops::Range;
use std::sync::Arc;

use super::grid::Grid;
use super::kept_powers::Power;
use super::scaling::scale_to_one;
use super::table::Table;

/// What a finding multiplies cells by: P(f | row, year)^power, a row at a time.
pub struct Factor<'a> {
    table: &'a Table,
    power: Arc<Power>,
}

impl<'a> Factor<'a> {
    /// A power of this table's likelihoods.
    pub fn new(table: &'a Table, power: Arc<Power>) -> Factor<'a> {
        Factor { table, power }
    }

    /// Which row of the table a pair uses.
    pub(super) fn row_of(&self, pair: usize) -> usize {
        self.table.row(pair)
    }

    /// How many rows the table has.
    pub(super) fn rows(&self) -> usize {
        self.table.rows()
    }

    /// The power.
    pub(super) fn power(&self) -> &Power {
        &self.power
    }

    /// One row, for these year offsets.
    fn row(&self, grid: &Grid, row: usize, years: &Range<usize>) -> &[f64] {
        let from = row * grid.years();
        &self.power.rows[from + years.start..from + years.end]
    }
}

/// Factors between two scalings. A factor is at least LEAST_ERROR / findings, about 1e-5 with a
/// hundred findings, so thirty-two of them leave a cell that matters far above the smallest number.
pub(super) const UNSCALED: usize = 32;

/// Multiplies cells by all factors, makes them sum to 1, and returns the logarithm of what was
/// taken out.
pub(super) fn multiply_all(grid: &Grid, p: &mut [f64], factors: &[Factor]) -> f64 {
    let mut log_scale = 0.0;
    for some in factors.chunks(UNSCALED) {
        multiply(grid, p, some);
        log_scale += scale_to_one(p);
    }
    match factors {
        [] => scale_to_one(p),
        _ => log_scale,
    }
}

fn multiply(grid: &Grid, p: &mut [f64], factors: &[Factor]) {
    let width = factors.len();
    let pairs = grid.pairs().len();
    let rows: Vec<usize> = (0..pairs)
        .flat_map(|pair| factors.iter().map(move |f| f.table.row(pair)))
        .collect();
    let rows_of = |pair: usize| &rows[pair * width..(pair + 1) * width];
    let (first_of, shared) = alike(grid, &rows_of);
    let whole = 0..grid.years();
    // The products of pairs that share, by the first of them.
    let mut products: Vec<Vec<f64>> = vec![Vec::new(); pairs];
    for pair in 0..pairs {
        let cells = &mut p[grid.cells_of(pair)];
        let within = |years: &Range<usize>| -> Vec<&[f64]> {
            let each = factors.iter().zip(rows_of(pair));
            each.map(|(f, row)| f.row(grid, *row, years)).collect()
        };
        if !shared[first_of[pair]] {
            let years = alive(cells);
            times(&mut cells[years.clone()], &within(&years));
            continue;
        }
        if first_of[pair] == pair {
            products[pair] = vec![1.0; grid.years()];
            times(&mut products[pair], &within(&whole));
        }
        times(cells, &[&products[first_of[pair]]]);
    }
}

/// For each pair the first pair of its kind with the same rows, and for each of those whether others
/// share it.
fn alike<'r>(grid: &Grid, rows_of: &impl Fn(usize) -> &'r [usize]) -> (Vec<usize>, Vec<bool>) {
    let pairs = grid.pairs();
    let mut first_of: Vec<usize> = Vec::with_capacity(pairs.len());
    let mut shared = vec![false; pairs.len()];
    for pair in 0..pairs.len() {
        let same = |other: &usize| {
            first_of[*other] == *other
                && pairs[*other].0 == pairs[pair].0
                && rows_of(*other) == rows_of(pair)
        };
        let first = (0..pair).rev().take_while(|o| pairs[*o].0 == pairs[pair].0);
        let first = first.clone().find(same).unwrap_or(pair);
        shared[first] |= first != pair;
        first_of.push(first);
    }
    (first_of, shared)
}

/// The years between the first and the last that have any probability.
fn alive(cells: &[f64]) -> Range<usize> {
    let from = cells.iter().position(|p| *p != 0.0).unwrap_or(cells.len());
    let to = cells
        .iter()
        .rposition(|p| *p != 0.0)
        .map_or(from, |i| i + 1);
    from..to
}

/// `out` times every row, four rows at a time: a cell is then read and written a quarter as often.
fn times(out: &mut [f64], rows: &[&[f64]]) {
    for some in rows.chunks(4) {
        match *some {
            [a, b, c, d] => {
                let rows = a.iter().zip(b).zip(c).zip(d);
                for (x, (((a, b), c), d)) in out.iter_mut().zip(rows) {
                    *x *= (a * b) * (c * d);
                }
            }
            [a, b, c] => {
                for (x, ((a, b), c)) in out.iter_mut().zip(a.iter().zip(b).zip(c)) {
                    *x *= (a * b) * c;
                }
            }
            [a, b] => {
                for (x, (a, b)) in out.iter_mut().zip(a.iter().zip(b)) {
                    *x *= a * b;
                }
            }
            [a] => {
                for (x, a) in out.iter_mut().zip(a) {
                    *x *= a;
                }
            }
            _ => {}
        }
    }
}
