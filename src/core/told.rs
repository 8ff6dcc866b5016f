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
//! The years of a dated clue are read in bins, and only as often as there is a year to read, which can
//! only lose information, never invent it. The sums over p(x, a) are made in `joint`.

use super::grid::Grid;
use super::joint::{Joint, Present};
use super::posterior::Posterior;
use super::surprisal::sum_p_log2_p;
use super::table::Table;

/// What a gain about the age counts beside one about the kind (common practice, no source). There
/// are more spans than kinds one hesitates between, so the kind comes first at even worth.
const AGE_WORTH: f64 = 1.0;

/// Decades in one of the spans that a decision about the age names: twenty years, about a generation
/// (common practice, no source).
const SPAN_DECADES: usize = 2;

/// What being right about the span counts beside being right about the kind, when it is asked
/// whether to stop (common practice, no source).
const AGE_GAIN: f64 = 0.5;

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
    told(&present(grid, posterior), table)
}

/// What is known now, ready to be asked about many looks.
pub fn present<'p>(grid: &'p Grid, posterior: &'p Posterior) -> Present<'p> {
    Present::new(grid, posterior, SPAN_DECADES)
}

/// The same as `information`, where what the looks have in common is worked out once.
pub fn told(present: &Present, table: &Table) -> Told {
    let joint = Joint::new(present, table);
    let both = |of: fn(&[f64], usize) -> f64, age: f64| {
        of(&joint.by_kind, joint.answers) + age * of(&joint.by_span, joint.answers)
    };
    Told {
        bits: mutual_bits(present, &joint),
        worth: both(quadratic_gain, AGE_WORTH),
        gain: both(right_gain, AGE_GAIN),
    }
}

/// Σ p(x,a) log p(x,a) − Σ p(x) log p(x) − Σ p(a) log p(a), as no sum is taken twice.
fn mutual_bits(present: &Present, joint: &Joint) -> f64 {
    let mut by_answer = vec![0.0; joint.answers];
    for row in joint.by_kind.chunks(joint.answers) {
        by_answer.iter_mut().zip(row).for_each(|(sum, p)| *sum += p);
    }
    (joint.p_log2_p - present.p_log2_p() - sum_p_log2_p(&by_answer)).max(0.0)
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
