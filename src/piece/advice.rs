//! What to look at next.

use super::expert::Expert;
use super::typed_mark::{in_words, was_typed};
use crate::core::model::Station;
use crate::core::observation::Evidence;
use crate::core::posterior::Posterior;
use crate::core::question::{Look, StopReason, lead, rank, stop};

/// A look worth fewer bits than this about (kind, decade) is not proposed
/// (common practice, no source).
pub const LEAST_BITS: f64 = 0.05;

/// The looks that are left.
#[derive(Clone, Debug)]
pub struct Advice {
    /// The most worth per second first.
    pub looks: Vec<Look>,
    /// Why no look is worth while, when none is.
    pub stop: Option<StopReason>,
}

impl Advice {
    /// Ranks the looks left; `at` = the station the piece is held at. Once a mark was typed its words
    /// are not asked for one by one.
    pub fn new(
        expert: &Expert,
        after: &Posterior,
        evidence: &Evidence,
        at: Option<Station>,
    ) -> Advice {
        let model = &expert.engine().model;
        let mut looks = rank(model, after, evidence, at);
        if was_typed(evidence) {
            looks.retain(|look| !in_words(&expert.base, look.clue));
        }
        Advice::of(looks, lead(&model.grid, after))
    }

    /// `odds` of the leading kind against the next one.
    pub fn of(looks: Vec<Look>, odds: f64) -> Advice {
        Advice {
            stop: stop(&looks, odds, LEAST_BITS),
            looks,
        }
    }

    /// The next look, unless it is time to stop.
    pub fn next(&self) -> Option<Look> {
        self.looks.first().copied().filter(|_| self.stop.is_none())
    }
}
