//! Powers of likelihoods that were worked out before.
//!
//! A logarithm and a power for each row and year take longer than all the multiplying that follows,
//! and pieces of one shelf show the same findings again and again.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::{Arc, PoisonError, RwLock};

use super::grid::{FindingId, Year};
use super::market::AGE_YEARS;
use super::observation::Sure;

/// Powers of each finding that a clue has room for, with many findings in a table: its family may have any
/// number of members, and each number gives a power of its own (common practice, no source).
const POWERS_OF_A_FINDING: usize = 16;

/// Bytes a clue may keep anyway (common practice, no source).
const LEAST_BYTES: usize = 1 << 20;

/// Classes of age that are gone through at once; a row of bounds is filled up to a multiple of it.
pub(super) const LANES: usize = 4;

/// Bounds of a row, a class of age after the other.
pub(super) type Bounds = Vec<[f32; LANES]>;

/// P(seen | row, year)^power of one answer.
#[derive(Debug)]
pub struct Power {
    /// At `row · years + year`.
    pub rows: Vec<f64>,
    /// The least and the greatest of each row and class of age.
    pub(super) low: Bounds,
    pub(super) high: Bounds,
    /// 1 / `low`.
    pub(super) inverse_low: Bounds,
    /// The least of P(seen | row, year) itself over `low`: with a power of at most 1 that is the least of the
    /// quotient too.
    pub(super) gain_low: Bounds,
}

impl Power {
    /// `plain` is P(seen | row, year) at `row · years + year`.
    pub(super) fn new(plain: Vec<f64>, power: f64, years: usize) -> Power {
        let raised = |p: &f64| (power * p.ln()).exp();
        let rows: Vec<f64> = match power.total_cmp(&1.0).is_eq() {
            true => plain.clone(),
            false => plain.iter().map(raised).collect(),
        };
        let each = |of: &dyn Fn(f64, f64, f64) -> f64| bounds(&plain, &rows, years, of);
        Power {
            low: each(&|_, low, _| low),
            high: each(&|_, _, high| high),
            inverse_low: each(&|_, low, _| 1.0 / low),
            gain_low: each(&|plain, low, _| plain / low),
            rows,
        }
    }

    fn bytes(&self) -> usize {
        size_of_val(self.rows.as_slice()) + 4 * size_of_val(self.low.as_slice())
    }
}

/// One figure for each row and class of age, of the least P(seen) and the least and greatest power there.
fn bounds(plain: &[f64], rows: &[f64], years: usize, of: &dyn Fn(f64, f64, f64) -> f64) -> Bounds {
    let mut out = Bounds::new();
    for (plain, row) in plain.chunks(years).zip(rows.chunks(years)) {
        let least = |some: &[f64]| some.iter().copied().fold(f64::INFINITY, f64::min);
        let most = |some: &[f64]| some.iter().copied().fold(0.0, f64::max);
        let ages = plain.chunks(AGE_YEARS).zip(row.chunks(AGE_YEARS));
        let of_row: Vec<f32> = ages
            .map(|(plain, row)| of(least(plain), least(row), most(row)) as f32)
            .collect();
        for some in of_row.chunks(LANES) {
            let mut lanes = [1.0; LANES];
            lanes[..some.len()].copy_from_slice(some);
            out.push(lanes);
        }
    }
    out
}

/// An answer that is worth keeping.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Answer {
    Finding(FindingId),
    Year(Year),
}

/// An answer, how surely it was seen, and the bits of the power.
type Key = (Answer, Sure, u64);

/// What one clue keeps. A copy starts empty: nothing but time depends on it.
#[derive(Default)]
pub(super) struct KeptPowers(RwLock<BTreeMap<Key, Arc<Power>>>);

impl KeptPowers {
    /// What is kept under `key`, or what `work_out` makes of it, which is then kept. When there is no
    /// room left all is forgotten at once. `answers` is how many the clue can have.
    pub(super) fn get(
        &self,
        key: Key,
        answers: usize,
        work_out: impl FnOnce() -> Power,
    ) -> Arc<Power> {
        // Whoever panicked while holding the lock left a whole map behind: entries are put in whole.
        let kept = self.0.read().unwrap_or_else(PoisonError::into_inner);
        if let Some(rows) = kept.get(&key) {
            return rows.clone();
        }
        drop(kept);
        let rows = Arc::new(work_out());
        let room = (POWERS_OF_A_FINDING * answers * rows.bytes()).max(LEAST_BYTES);
        let mut kept = self.0.write().unwrap_or_else(PoisonError::into_inner);
        if (kept.len() + 1) * rows.bytes() > room {
            kept.clear();
        }
        kept.insert(key, rows.clone());
        rows
    }
}

impl fmt::Debug for KeptPowers {
    /// Says nothing of what is kept: that depends on who asked before.
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("KeptPowers")
    }
}

impl Clone for KeptPowers {
    fn clone(&self) -> KeptPowers {
        KeptPowers::default()
    }
}
