//! Powers of likelihoods that were worked out before.
//!
//! A logarithm and a power for each row and year take longer than all the multiplying that follows,
//! and pieces of one shelf show the same findings again and again.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::{Arc, PoisonError, RwLock};

use super::grid::FindingId;
use super::observation::Sure;

/// Bytes a clue may keep. A row of 277 years takes 2 kB and a clue has some thirty rows, so this is
/// room for fifteen to thirty findings at a time (common practice, no source).
const MOST_BYTES: usize = 1 << 20;

/// A finding, how surely it was seen, and the bits of the power.
type Key = (FindingId, Sure, u64);

/// What one clue keeps. A copy starts empty: nothing but time depends on it.
#[derive(Default)]
pub(super) struct KeptPowers(RwLock<BTreeMap<Key, Arc<[f64]>>>);

impl KeptPowers {
    /// What is kept under `key`, or what `work_out` makes of it, which is then kept. When there is no
    /// room left all is forgotten at once.
    pub(super) fn get(&self, key: Key, work_out: impl FnOnce() -> Arc<[f64]>) -> Arc<[f64]> {
        // Whoever panicked while holding the lock left a whole map behind: entries are put in whole.
        let kept = self.0.read().unwrap_or_else(PoisonError::into_inner);
        if let Some(rows) = kept.get(&key) {
            return rows.clone();
        }
        drop(kept);
        let rows = work_out();
        let mut kept = self.0.write().unwrap_or_else(PoisonError::into_inner);
        if (kept.len() + 1) * size_of_val(&*rows) > MOST_BYTES {
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
