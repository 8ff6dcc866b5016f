//! What to look at next.

use crate::core::model::{Model, Station};
use crate::core::observation::Evidence;
use crate::core::posterior::Posterior;
use crate::core::question::{Look, StopReason, rank, stop};

/// A look worth fewer bits than this about (kind, decade) is not proposed
/// (common practice, no source).
pub const LEAST_BITS: f64 = 0.05;

/// The looks that are left.
#[derive(Clone, Debug)]
pub struct Advice {
    /// The most bits per second first.
    pub looks: Vec<Look>,
    /// Why no look is worth while, when none is.
    pub stop: Option<StopReason>,
}

impl Advice {
    /// Ranks the looks left; `at` = the station the piece is held at.
    pub fn new(
        model: &Model,
        after: &Posterior,
        evidence: &Evidence,
        at: Option<Station>,
    ) -> Advice {
        let looks = rank(model, after, evidence, at);
        Advice {
            stop: stop(&looks, LEAST_BITS),
            looks,
        }
    }

    /// The next look, unless it is time to stop.
    pub fn next(&self) -> Option<Look> {
        self.looks.first().copied().filter(|_| self.stop.is_none())
    }
}
