//! Rarity: how much of the market is commoner than this piece, by exact enumeration.
//!
//! The market model is P(kind, age) of what the setting is thought to hold × one share table for each feature
//! (colour, form, subject) given the kind. A piece is one cell of kind × age × the features that
//! have been seen; its score is the share of pieces whose cell is more probable than its own,
//! averaged over what kind and age it may be. 0 = as common as can be, 100 = nothing is rarer.
//!
//! A kind of which the market has no piece with the features seen stays out of that average: the
//! posterior keeps it a little probable only because something may have been misread, and then the
//! piece is not what is being scored. Only when no kind is left is the piece scored as never met.

use super::grid::Grid;
use super::likelihood::LEAST_ERROR;
use super::posterior::Posterior;

/// Years of one age class.
const AGE_YEARS: i16 = 50;

/// (kind, age) cells of the piece below this posterior probability are left out of the average.
const NEGLIGIBLE: f64 = 0.005;

/// Share taken for a finding the market never has: no answer is quite impossible, so the least
/// error of a look is spread over the findings, as in a clue's table.
fn never(findings: usize) -> f64 {
    LEAST_ERROR / findings.max(1) as f64
}

/// Shares of the findings of one feature, per kind: `share[kind][finding]`, each row summing to 1.
#[derive(Clone, Debug)]
pub struct Feature {
    pub share: Vec<Vec<f64>>,
}

/// What turns up where a piece was found: P(kind, age class).
#[derive(Clone, Debug)]
pub struct Market {
    common: Vec<f64>,
    ages: usize,
}

impl Market {
    /// Of the probabilities of cells.
    pub fn new(grid: &Grid, cells: &[f64]) -> Market {
        let (common, ages) = kind_ages(grid, cells);
        Market { common, ages }
    }
}

/// The answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Rarity {
    /// 0–100.
    pub score: f64,
    /// Bits for kind and age together.
    pub kind_and_age: f64,
    /// Bits each feature adds, in the order given; `None` where it was not seen.
    pub features: Vec<Option<f64>>,
}

/// P(kind, age class) at `kind · ages + age`.
fn kind_ages(grid: &Grid, cells: &[f64]) -> (Vec<f64>, usize) {
    let age = |offset: usize| {
        usize::try_from((grid.year(offset).0 - grid.first().0) / AGE_YEARS).unwrap_or(0)
    };
    let ages = age(grid.years() - 1) + 1;
    let mut out = vec![0.0; grid.kinds() * ages];
    for (pair, (kind, _)) in grid.pairs().iter().enumerate() {
        for (offset, p) in cells[grid.cells_of(pair)].iter().enumerate() {
            out[usize::from(kind.0) * ages + age(offset)] += p;
        }
    }
    (out, ages)
}

/// Scores a piece.
///
/// `market` is what the setting holds, `piece` the posterior of the
/// piece, `features` the share tables and `seen` the finding seen of each (`None`: not seen, and
/// then the feature is left out of the comparison).
pub fn rarity(
    grid: &Grid,
    market: &Market,
    piece: &Posterior,
    features: &[Feature],
    seen: &[Option<usize>],
) -> Rarity {
    let (common, ages) = (&market.common, market.ages);
    let (own, _) = kind_ages(grid, piece.cells());
    let known: Vec<(&Feature, usize)> = features
        .iter()
        .zip(seen)
        .filter_map(|(f, s)| s.map(|s| (f, s)))
        .collect();
    let likely = || own.iter().enumerate().filter(|(_, p)| **p > NEGLIGIBLE);
    let met = |cell: usize| known.iter().all(|(f, s)| f.share[cell / ages][*s] > 0.0);
    let none_met = !likely().any(|(cell, _)| met(cell));
    let mut score = 0.0;
    let mut weight = 0.0;
    let mut base_bits = 0.0;
    let mut bits = vec![0.0; known.len()];
    for (cell, &p) in likely().filter(|(cell, _)| none_met || met(*cell)) {
        let row = |f: &Feature, s: usize| match f.share[cell / ages][s] {
            share if share > 0.0 => share,
            _ => never(f.share[cell / ages].len()),
        };
        let shares: Vec<f64> = known.iter().map(|(f, s)| row(f, *s)).collect();
        // Multiplied in the order `commoner` walks, or the piece's own cell could pass for a commoner one.
        let mine = shares
            .iter()
            .fold(common[cell].max(1e-12), |p, share| p * share);
        score += p * commoner(common, ages, &known, mine);
        base_bits -= p * common[cell].max(1e-12).log2();
        for (sum, share) in bits.iter_mut().zip(&shares) {
            *sum -= p * share.log2();
        }
        weight += p;
    }
    let weight = if weight > 0.0 { weight } else { 1.0 };
    let mut told = bits.into_iter().map(|b| b / weight);
    Rarity {
        score: 100.0 * score / weight,
        kind_and_age: base_bits / weight,
        features: seen.iter().map(|s| s.and_then(|_| told.next())).collect(),
    }
}

/// Share of the market in cells more probable than `mine`, by going through every cell.
fn commoner(common: &[f64], ages: usize, known: &[(&Feature, usize)], mine: f64) -> f64 {
    fn walk(p: f64, kind: usize, rest: &[(&Feature, usize)], mine: f64) -> f64 {
        match rest.split_first() {
            // Every share below is at most 1: nothing further down can exceed `mine`.
            _ if p <= mine => 0.0,
            None => p,
            Some(((feature, _), rest)) => feature.share[kind]
                .iter()
                .map(|share| walk(p * share, kind, rest, mine))
                .sum(),
        }
    }
    common
        .iter()
        .enumerate()
        .map(|(cell, p)| walk(*p, cell / ages, known, mine))
        .sum()
}
