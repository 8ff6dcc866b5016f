//! What a look is expected to tell.
//!
//! What a picker decides on is the kind, and about when. A look's worth is the expected gain in the
//! quadratic score (Brier 1950, from memory) of the kind, and `AGE_WORTH` of that of the span of
//! `SPAN_DECADES` the piece was made in:
//!
//!   Σ_{a,x} p(x, a)² / p(a) − Σ_x p(x)²,  x = kind, or span.
//!
//! Unlike bits it has little use for telling unlikely kinds apart. What a look tells of (kind, decade)
//! is said in bits all the same:
//!
//!   I(X; A) = Σ_{x,a} p(x, a) · log2( p(x, a) / (p(x) · p(a)) ), x = (kind, decade).
//!
//! The years of a dated clue are read in bins of five, and only as often as there is a year to read,
//! which can only lose information, never invent it.

use super::grid::Grid;
use super::likelihood::{Answers, Table};
use super::observation::{Observed, Sure};
use super::posterior::Posterior;

/// What a gain about the age counts beside one about the kind (common practice, no source). There
/// are more spans than kinds one hesitates between, so the kind comes first at even worth.
const AGE_WORTH: f64 = 1.0;

/// Decades in one of the spans that a decision about the age names: twenty years, about a generation
/// (common practice, no source).
const SPAN_DECADES: usize = 2;

/// What being right about the span counts beside being right about the kind, when it is asked
/// whether to stop (common practice, no source).
const AGE_GAIN: f64 = 0.5;

/// Bin width for years read at dated clues (common practice, no source).
const READ_BIN: usize = 5;

/// Cells below this probability are passed over: all of them together weigh less than 1e-12 bits.
const NEGLIGIBLE: f64 = 1e-18;

/// What a clue's answer is expected to tell, undamped.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Told {
    /// Mutual information with (kind, decade).
    pub bits: f64,
    /// Expected gain in quadratic score, see above.
    pub worth: f64,
    /// Expected gain in the chance that the likeliest kind is the right one, and half of that for the
    /// likeliest span: Σ_a max_x p(x, a) − max_x p(x), the value of information to somebody who has
    /// to name one x (Raiffa and Schlaifer 1961, from memory).
    pub gain: f64,
}

/// What a clue's answer is expected to tell of kind and decade.
pub fn information(grid: &Grid, table: &Table, posterior: &Posterior) -> Told {
    let joint = match table.answers() {
        Answers::Listed { n, share } => listed_joint(grid, table, posterior, *n, share),
        Answers::Dated { .. } => dated_joint(grid, table, posterior),
    };
    let (decades, spans) = (grid.decades(), grid.decades().div_ceil(SPAN_DECADES));
    let by_kind = joint.sums(grid.kinds(), |row| row / decades);
    let by_span = joint.sums(spans, |row| row % decades / SPAN_DECADES);
    let both = |of: fn(&[f64], usize) -> f64, age: f64| {
        of(&by_kind, joint.answers) + age * of(&by_span, joint.answers)
    };
    Told {
        bits: mutual_bits(&joint.p, joint.answers),
        worth: both(quadratic_gain, AGE_WORTH),
        gain: both(right_gain, AGE_GAIN),
    }
}

/// p(x, a) at `x · answers + a`.
struct Joint {
    p: Vec<f64>,
    answers: usize,
}

impl Joint {
    /// p(group, a) when rows x are summed into groups.
    fn sums(&self, groups: usize, group: impl Fn(usize) -> usize) -> Vec<f64> {
        let mut out = vec![0.0; groups * self.answers];
        for (x, row) in self.p.chunks(self.answers).enumerate() {
            let to = group(x) * self.answers;
            for (sum, p) in out[to..to + self.answers].iter_mut().zip(row) {
                *sum += p;
            }
        }
        out
    }
}

fn listed_joint(
    grid: &Grid,
    table: &Table,
    posterior: &Posterior,
    n: usize,
    share: &[f64],
) -> Joint {
    let error = table.error(Sure::Sure);
    let floor = error / n as f64;
    let (years, decades) = (grid.years(), grid.decades());
    let mut p = vec![0.0; grid.kinds() * decades * n];
    let mut weights = vec![0.0; years];
    for group in table.groups() {
        weights.fill(0.0);
        for &pair in &group.pairs {
            for (sum, q) in weights
                .iter_mut()
                .zip(&posterior.cells()[grid.cells_of(pair)])
            {
                *sum += q;
            }
        }
        let (kind, row) = (usize::from(group.kind.0), group.row);
        let to = &mut p[kind * decades * n..(kind + 1) * decades * n];
        let from = &share[row * years * n..(row + 1) * years * n];
        match n {
            2 => add::<2>(grid, &weights, from, to),
            3 => add::<3>(grid, &weights, from, to),
            4 => add::<4>(grid, &weights, from, to),
            5 => add::<5>(grid, &weights, from, to),
            6 => add::<6>(grid, &weights, from, to),
            7 => add::<7>(grid, &weights, from, to),
            8 => add::<8>(grid, &weights, from, to),
            _ => add_many(grid, &weights, from, to, n),
        }
    }
    // (1 − ε) · Σ p · share + ε / n · Σ p: the shares of one cell sum to 1.
    for cell in p.chunks_mut(n) {
        let total: f64 = cell.iter().sum();
        cell.iter_mut()
            .for_each(|x| *x = (1.0 - error) * *x + floor * total);
    }
    Joint { p, answers: n }
}

/// Adds each year's weight times its row of N shares to the row of its decade. N is known when this is
/// translated, so that a row stays in registers: most clues have few findings.
fn add<const N: usize>(grid: &Grid, weights: &[f64], from: &[f64], to: &mut [f64]) {
    let (from, _) = from.as_chunks::<N>();
    let (to, _) = to.as_chunks_mut::<N>();
    for (offset, (weight, shares)) in weights.iter().zip(from).enumerate() {
        if *weight < NEGLIGIBLE {
            continue;
        }
        let sums = &mut to[grid.decade(offset)];
        for (sum, share) in sums.iter_mut().zip(shares) {
            *sum += weight * share;
        }
    }
}

/// The same for any number of shares.
fn add_many(grid: &Grid, weights: &[f64], from: &[f64], to: &mut [f64], n: usize) {
    for (offset, (weight, shares)) in weights.iter().zip(from.chunks(n)).enumerate() {
        if *weight < NEGLIGIBLE {
            continue;
        }
        let sums = &mut to[grid.decade(offset) * n..][..n];
        for (sum, share) in sums.iter_mut().zip(shares) {
            *sum += weight * share;
        }
    }
}

fn dated_joint(grid: &Grid, table: &Table, posterior: &Posterior) -> Joint {
    let (years, decades) = (grid.years(), grid.decades());
    let bins = years.div_ceil(READ_BIN);
    // P(bin | year made); the rest of the kernel's mass falls outside the grid's years.
    let mut given = vec![0.0; years * bins];
    for read in 0..years {
        let seen = Observed::Year(grid.year(read));
        if let Some(row) = table.likelihood(&seen, Sure::Sure) {
            for (offset, chance) in row.iter().enumerate() {
                given[offset * bins + read / READ_BIN] += chance;
            }
        }
    }
    for row in given.chunks_mut(bins) {
        let total: f64 = row.iter().sum();
        row.iter_mut().for_each(|x| *x /= total);
    }
    // A year is read alike whatever the place: places are summed first.
    let mut by_kind = vec![0.0; grid.kinds() * years];
    for (pair, (kind, _)) in grid.pairs().iter().enumerate() {
        let of_kind = by_kind[usize::from(kind.0) * years..].iter_mut();
        for (sum, q) in of_kind.zip(&posterior.cells()[grid.cells_of(pair)]) {
            *sum += q;
        }
    }
    let mut p = vec![0.0; grid.kinds() * decades * bins];
    for (kind, of_kind) in by_kind.chunks(years).enumerate() {
        for (offset, q) in of_kind
            .iter()
            .enumerate()
            .filter(|(_, q)| **q >= NEGLIGIBLE)
        {
            let to = (kind * decades + grid.decade(offset)) * bins;
            let row = &given[offset * bins..(offset + 1) * bins];
            for (sum, g) in p[to..to + bins].iter_mut().zip(row) {
                *sum += q * g;
            }
        }
    }
    Joint { p, answers: bins }
}

fn mutual_bits(joint: &[f64], answers: usize) -> f64 {
    let mut by_answer = vec![0.0; answers];
    for row in joint.chunks(answers) {
        for (sum, p) in by_answer.iter_mut().zip(row) {
            *sum += p;
        }
    }
    // Σ p(x,a) log p(x,a) − Σ p(x) log p(x) − Σ p(a) log p(a), as no sum is taken twice.
    let plogp = |p: f64| if p > 0.0 { p * p.log2() } else { 0.0 };
    let mut bits = -by_answer.iter().copied().map(plogp).sum::<f64>();
    for row in joint.chunks(answers) {
        let x: f64 = row.iter().sum();
        if x > 0.0 {
            bits += row.iter().copied().map(plogp).sum::<f64>() - plogp(x);
        }
    }
    bits.max(0.0)
}

/// Σ_{a,x} p(x, a)² / p(a) − Σ_x p(x)²: never below 0, by Cauchy and Schwarz.
fn quadratic_gain(joint: &[f64], answers: usize) -> f64 {
    let mut by_answer = vec![0.0; answers];
    let mut squares = vec![0.0; answers];
    let mut now = 0.0;
    for row in joint.chunks(answers) {
        now += row.iter().sum::<f64>().powi(2);
        for ((sum, square), p) in by_answer.iter_mut().zip(&mut squares).zip(row) {
            *sum += p;
            *square += p * p;
        }
    }
    let then = by_answer.iter().zip(&squares);
    let then: f64 = then.filter(|(p, _)| **p > 0.0).map(|(p, s)| s / p).sum();
    (then - now).max(0.0)
}

/// Σ_a max_x p(x, a) − max_x p(x): never below 0, as a maximum of sums is no more than the sum of
/// maxima.
fn right_gain(joint: &[f64], answers: usize) -> f64 {
    let mut best = vec![0.0f64; answers];
    let mut now = 0.0f64;
    for row in joint.chunks(answers) {
        now = now.max(row.iter().sum());
        for (best, p) in best.iter_mut().zip(row) {
            *best = best.max(*p);
        }
    }
    (best.iter().sum::<f64>() - now).max(0.0)
}
