//! The plan carried out, fifty years at a time: the rows of one tile and their products stay in the second
//! cache, and what no live pair of the tile needs is not made.

use std::ops::Range;

use super::plan::RowId;
use super::{AGE_YEARS, Ground, Scratch};
use crate::core::market::ages;
use crate::core::product::Factor;

/// Years of a tile: two classes of age.
const TILE: usize = 2 * AGE_YEARS;

/// One tile of what is multiplied.
struct Rows<'t> {
    factors: &'t [Factor<'t>],
    leaves: &'t [(usize, usize)],
    years_of_grid: usize,
    years: Range<usize>,
}

impl Rows<'_> {
    /// A row over the years of the tile; `products` are those made so far.
    fn get<'r>(&'r self, id: RowId, products: &'r [f64]) -> &'r [f64] {
        let id = id as usize;
        match id.checked_sub(self.leaves.len()) {
            Some(product) => &products[product * TILE..][..self.years.len()],
            None => {
                let (factor, row) = self.leaves[id];
                let from = row * self.years_of_grid + self.years.start;
                &self.factors[factor].power().rows[from..from + self.years.len()]
            }
        }
    }
}

impl Ground<'_> {
    /// Prior × likelihoods into `cells`, with their sums in `mass` and `years`.
    pub(super) fn multiply(&self, factors: &[Factor], scratch: &mut Scratch) {
        let grid = &self.model.grid;
        let (count, ages) = (grid.years(), ages(grid));
        scratch.cells.resize(self.pairs.len() * count, 0.0);
        scratch.mass.clear();
        scratch.mass.resize(self.pairs.len() * ages, 0.0);
        scratch.years.clear();
        scratch.years.resize(count, 0.0);
        let products = scratch.plan.products.len();
        scratch.products.resize(products * TILE, 0.0);
        for from in (0..count).step_by(TILE) {
            let rows = Rows {
                factors,
                leaves: &scratch.plan.leaves,
                years_of_grid: count,
                years: from..(from + TILE).min(count),
            };
            self.mark(&rows.years, &scratch.plan, &mut scratch.needed);
            make(
                &rows,
                &scratch.plan.products,
                &scratch.needed,
                &mut scratch.products,
            );
            let roots = scratch.plan.roots;
            for (at, alive) in self.alive.iter().enumerate() {
                let cells = &mut scratch.cells[at * count..][rows.years.clone()];
                if !meets(alive, &rows.years) {
                    cells.fill(0.0);
                    continue;
                }
                let prior = &self.prior.cells()[grid.cells_of(self.pairs[at])][rows.years.clone()];
                let root =
                    |r: usize| rows.get(scratch.plan.roots_of[at * roots + r], &scratch.products);
                match roots {
                    0 => cells.copy_from_slice(prior),
                    1 => product(cells, prior, root(0)),
                    _ => product_of_three(cells, prior, root(0), root(1)),
                }
                add(&mut scratch.years[rows.years.clone()], cells);
                let mass = &mut scratch.mass[at * ages + from / AGE_YEARS..];
                for (mass, cells) in mass.iter_mut().zip(cells.chunks(AGE_YEARS)) {
                    *mass = sum_of_age(cells);
                }
            }
        }
    }

    /// Which products some pair needs that lives in these years.
    fn mark(&self, years: &Range<usize>, plan: &super::Plan, needed: &mut Vec<bool>) {
        needed.clear();
        needed.resize(plan.products.len(), false);
        let leaves = plan.leaves.len();
        let need = |needed: &mut Vec<bool>, id: RowId| {
            if let Some(product) = (id as usize).checked_sub(leaves) {
                needed[product] = true;
            }
        };
        for (at, alive) in self.alive.iter().enumerate() {
            if meets(alive, years) {
                for root in &plan.roots_of[at * plan.roots..(at + 1) * plan.roots] {
                    need(needed, *root);
                }
            }
        }
        for (product, (a, b)) in plan.products.iter().enumerate().rev() {
            if needed[product] {
                need(needed, *a);
                need(needed, *b);
            }
        }
    }
}

fn meets(a: &Range<usize>, b: &Range<usize>) -> bool {
    a.start < b.end && b.start < a.end
}

/// The products that are needed.
fn make(rows: &Rows, of: &[(RowId, RowId)], needed: &[bool], products: &mut [f64]) {
    for (at, ((a, b), needed)) in of.iter().zip(needed).enumerate() {
        if *needed {
            let (made, rest) = products.split_at_mut(at * TILE);
            let (a, b) = (rows.get(*a, made), rows.get(*b, made));
            product(&mut rest[..a.len()], a, b);
        }
    }
}

/// Years that are gone through at once: a tile is five times ten.
const STEP: usize = 10;

/// a · b.
fn product(out: &mut [f64], a: &[f64], b: &[f64]) {
    let ((a, rest_a), (b, rest_b)) = (a.as_chunks::<STEP>(), b.as_chunks::<STEP>());
    let (out, rest) = out.as_chunks_mut::<STEP>();
    for (x, (a, b)) in out.iter_mut().zip(a.iter().zip(b)) {
        for i in 0..STEP {
            x[i] = a[i] * b[i];
        }
    }
    for (x, (a, b)) in rest.iter_mut().zip(rest_a.iter().zip(rest_b)) {
        *x = a * b;
    }
}

/// a · b · c.
fn product_of_three(out: &mut [f64], a: &[f64], b: &[f64], c: &[f64]) {
    let (a, rest_a) = a.as_chunks::<STEP>();
    let ((b, rest_b), (c, rest_c)) = (b.as_chunks::<STEP>(), c.as_chunks::<STEP>());
    let (out, rest) = out.as_chunks_mut::<STEP>();
    for (x, (a, (b, c))) in out.iter_mut().zip(a.iter().zip(b.iter().zip(c))) {
        for i in 0..STEP {
            x[i] = a[i] * (b[i] * c[i]);
        }
    }
    for (x, (a, (b, c))) in rest
        .iter_mut()
        .zip(rest_a.iter().zip(rest_b.iter().zip(rest_c)))
    {
        *x = a * (b * c);
    }
}

/// sums + cells.
fn add(sums: &mut [f64], cells: &[f64]) {
    let (cells, rest_cells) = cells.as_chunks::<STEP>();
    let (sums, rest) = sums.as_chunks_mut::<STEP>();
    for (sums, cells) in sums.iter_mut().zip(cells) {
        for i in 0..STEP {
            sums[i] += cells[i];
        }
    }
    for (sum, cell) in rest.iter_mut().zip(rest_cells) {
        *sum += cell;
    }
}

/// The sum of one class of age: twenty-five years, or what is left at the end.
fn sum_of_age(cells: &[f64]) -> f64 {
    let (eights, rest) = cells.as_chunks::<8>();
    let mut lanes = [0.0; 8];
    for eight in eights {
        for i in 0..8 {
            lanes[i] += eight[i];
        }
    }
    let four = |i: usize| (lanes[i] + lanes[i + 4]) + (lanes[i + 2] + lanes[i + 6]);
    four(0) + four(1) + rest.iter().sum::<f64>()
}
