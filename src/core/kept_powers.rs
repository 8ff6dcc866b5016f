//! Powers of likelihoods that were worked out before.
//!
//! A logarithm and a power for each row and year take longer than all the multiplying that follows,
//! and pieces of one shelf show the same findings again and again.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::{Arc, OnceLock, PoisonError, RwLock};

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
    power: f64,
    years: usize,
    /// Made when first asked for: only judging many pieces does.
    extremes: OnceLock<Extremes>,
}

/// The least and the greatest of a power in each row and class of age.
#[derive(Debug)]
pub(super) struct Extremes {
    pub low: Bounds,
    pub high: Bounds,
    /// 1 / `low`.
    pub inverse_low: Bounds,
    /// The least of P(seen | row, year) itself over `low`: with a power of at most 1 that is the least of the
    /// quotient too.
    pub gain_low: Bounds,
}

impl Power {
    /// `plain` is P(seen | row, year) at `row · years + year`.
    pub(super) fn new(plain: Vec<f64>, power: f64, years: usize) -> Power {
        let raised = |p: &f64| (power * p.ln()).exp();
        let rows = match power.total_cmp(&1.0).is_eq() {
            true => plain,
            false => raised_in_runs(&plain, raised),
        };
        Power {
            rows,
            power,
            years,
            extremes: OnceLock::new(),
        }
    }

    /// Of a power above 0.
    pub(super) fn extremes(&self) -> &Extremes {
        self.extremes.get_or_init(|| {
            let low = bounds(&self.rows, self.years, |some| {
                some.iter().copied().fold(f64::INFINITY, f64::min)
            });
            let high = bounds(&self.rows, self.years, |some| {
                some.iter().copied().fold(0.0, f64::max)
            });
            let of_low = |of: &dyn Fn(f64) -> f64| -> Bounds {
                let lanes = |some: &[f32; LANES]| some.map(|low| of(f64::from(low)) as f32);
                low.iter().map(lanes).collect()
            };
            Extremes {
                inverse_low: of_low(&|low| 1.0 / low),
                gain_low: of_low(&|low| low.powf(1.0 / self.power - 1.0)),
                low,
                high,
            }
        })
    }

    /// With extremes, made or not.
    fn bytes(&self) -> usize {
        let classes = self.years.div_ceil(AGE_YEARS).div_ceil(LANES);
        let extremes = self.rows.len() / self.years.max(1) * classes * size_of::<[f32; LANES]>();
        size_of_val(self.rows.as_slice()) + 4 * extremes
    }
}

/// A logarithm and a power of each; of equal ones in a row once, as most stand still for many years.
fn raised_in_runs(plain: &[f64], raised: impl Fn(&f64) -> f64) -> Vec<f64> {
    let mut out = Vec::with_capacity(plain.len());
    for run in plain.chunk_by(|a, b| a == b) {
        out.resize(out.len() + run.len(), raised(&run[0]));
    }
    out
}

/// One figure for each row and class of age.
fn bounds(rows: &[f64], years: usize, of: impl Fn(&[f64]) -> f64) -> Bounds {
    let mut out = Bounds::new();
    for row in rows.chunks(years) {
        let of_row: Vec<f32> = row.chunks(AGE_YEARS).map(|age| of(age) as f32).collect();
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
