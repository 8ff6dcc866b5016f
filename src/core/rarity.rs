//! Rarity: how much of the market is commoner than this piece, by exact enumeration.
//!
//! 0 = as common as can be, 100 = nothing is rarer. The score is averaged over what kind and age the
//! piece may be, and over what was not looked at, so that it does not grow by looking alone.
//!
//! A kind of which the market has no piece with the findings seen stays out of that average: the
//! posterior keeps it a little probable only because something may have been misread, and then the
//! piece is not what is being scored. Only when no kind is left is the piece scored as never met.

use super::grid::Grid;
use super::likelihood::LEAST_ERROR;
use super::market::{Market, kind_ages};
use super::posterior::Posterior;

/// (kind, age) cells of the piece below this posterior probability are left out of the average (common
/// practice, no source).
const NEGLIGIBLE: f64 = 0.005;

/// What was seen of one trait: any of these findings, each with how well it agrees (0..=1); empty
/// when it was not looked at.
pub type Seen = Vec<(usize, f64)>;

/// The answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Rarity {
    /// 0–100, in the whole market.
    pub score: f64,
    /// Bits for kind and age together.
    pub kind_and_age: f64,
    /// Bits each trait adds, in the order of the market's traits; `None` where it was not seen.
    pub traits: Vec<Option<f64>>,
}

/// One way of what was seen, with its weight.
struct Way {
    seen: Vec<Option<usize>>,
    weight: f64,
}

/// Scores a piece: `piece` is its posterior, `seen` what was seen of each trait of the market.
pub fn rarity(grid: &Grid, market: &Market, piece: &Posterior, seen: &[Seen]) -> Rarity {
    let ways = ways(seen);
    let (mut score, mut base_bits, mut weight) = (0.0, 0.0, 0.0);
    let mut bits = vec![0.0; seen.len()];
    let likely = likely(kind_ages(grid, piece.cells()));
    for &(kind_age, p) in &likely {
        for (way, share) in met(market, kind_age, &ways) {
            let p = p * share;
            score += p * market.of(kind_age, &way.seen).1;
            base_bits -= p * market.base()[kind_age].log2();
            weight += p;
            for (i, sum) in bits.iter_mut().enumerate() {
                *sum += p * trait_bits(market, kind_age, way, i);
            }
        }
    }
    if weight <= 0.0 {
        return never_met(market, likely, seen);
    }
    let told = |i: usize| (!seen[i].is_empty()).then(|| bits[i] / weight);
    Rarity {
        score: 100.0 * score / weight,
        kind_and_age: base_bits / weight,
        traits: (0..seen.len()).map(told).collect(),
    }
}

/// The score alone of a piece that is of each kind and age with these probabilities.
pub fn score(market: &Market, kind_ages: Vec<f64>, seen: &[Seen]) -> f64 {
    let commoner = |kind_age: usize, way: &Way| market.of(kind_age, &way.seen).1;
    averaged(market, kind_ages, seen, commoner)
}

/// The score among pieces of the same kind and age, 0–100.
pub fn of_its_kind(grid: &Grid, market: &Market, piece: &Posterior, seen: &[Seen]) -> f64 {
    let commoner = |kind_age: usize, way: &Way| market.commoner_within(kind_age, &way.seen);
    averaged(market, kind_ages(grid, piece.cells()), seen, commoner)
}

/// A share that is commoner, averaged over all that the piece may be, 0–100; 100 where the market has
/// nothing like it.
fn averaged(
    market: &Market,
    kind_ages: Vec<f64>,
    seen: &[Seen],
    commoner: impl Fn(usize, &Way) -> f64,
) -> f64 {
    let ways = ways(seen);
    let (mut score, mut weight) = (0.0, 0.0);
    for (kind_age, p) in likely(kind_ages) {
        for (way, share) in met(market, kind_age, &ways) {
            score += p * share * commoner(kind_age, way);
            weight += p * share;
        }
    }
    match weight > 0.0 {
        true => 100.0 * score / weight,
        false => 100.0,
    }
}

/// The kinds and ages that the piece may be, with their probabilities.
fn likely(kind_ages: Vec<f64>) -> Vec<(usize, f64)> {
    let all = kind_ages.into_iter().enumerate();
    all.filter(|(_, p)| *p > NEGLIGIBLE).collect()
}

/// The ways that the market has at this kind and age, with their shares of all of them.
fn met<'w>(market: &Market, kind_age: usize, ways: &'w [Way]) -> Vec<(&'w Way, f64)> {
    let each = ways
        .iter()
        .map(|w| (w, w.weight * market.of(kind_age, &w.seen).0));
    let all: Vec<(&Way, f64)> = each.filter(|(_, p)| *p > 0.0).collect();
    let total: f64 = all.iter().map(|(_, p)| p).sum();
    all.into_iter().map(|(w, p)| (w, p / total)).collect()
}

/// Bits that the finding of trait `i` adds to all that was seen before it.
fn trait_bits(market: &Market, kind_age: usize, way: &Way, i: usize) -> f64 {
    if way.seen[i].is_none() {
        return 0.0;
    }
    let up_to = |n: usize| {
        let before = way.seen.iter().enumerate();
        let seen: Vec<Option<usize>> = before.map(|(j, s)| s.filter(|_| j < n)).collect();
        market.of(kind_age, &seen).0
    };
    (up_to(i) / up_to(i + 1)).log2()
}

/// Every choice of one finding a trait among those seen.
fn ways(seen: &[Seen]) -> Vec<Way> {
    let mut out = vec![Way {
        seen: Vec::new(),
        weight: 1.0,
    }];
    for of_trait in seen {
        let choices: Vec<(Option<usize>, f64)> = match of_trait.as_slice() {
            [] => vec![(None, 1.0)],
            some => some.iter().map(|(f, w)| (Some(*f), *w)).collect(),
        };
        out = out
            .iter()
            .flat_map(|way| {
                choices.iter().map(|(finding, weight)| Way {
                    seen: way.seen.iter().copied().chain([*finding]).collect(),
                    weight: way.weight * weight,
                })
            })
            .collect();
    }
    out
}

/// The market has nothing like it. A finding it never has counts as met as seldom as a look is
/// misread: the least error of a look, spread over the findings, as in a clue's table.
fn never_met(market: &Market, likely: Vec<(usize, f64)>, seen: &[Seen]) -> Rarity {
    let weight: f64 = likely.iter().map(|(_, p)| p).sum();
    let bits = |(kind_age, p): &(usize, f64)| -p * market.base()[*kind_age].max(1e-12).log2();
    let bits: f64 = likely.iter().map(bits).sum();
    let never = |(i, s): (usize, &Seen)| {
        let findings = market.traits()[i].findings().max(1) as f64;
        (!s.is_empty()).then(|| -(LEAST_ERROR / findings).log2())
    };
    Rarity {
        score: 100.0,
        kind_and_age: if weight > 0.0 { bits / weight } else { 0.0 },
        traits: seen.iter().enumerate().map(never).collect(),
    }
}
