//! Findings that the others make very unlikely.

use super::grid::ClueId;
use super::left_out::{LeftOut, chance};
use super::model::Model;
use super::observation::{Evidence, Observation, Sure};
use super::posterior::{Inference, Posterior, Prior};
use super::table::Table;

/// A finding is at odds below this predictive probability (design figure; common practice, no source).
pub const AT_ODDS: f64 = 0.02;

/// A finding that the others make very unlikely.
#[derive(Clone, Debug)]
pub struct AtOdds {
    pub observation: Observation,
    pub p: f64,
    /// The findings that make it unlikely, the worst first.
    pub against: Vec<ClueId>,
}

/// Findings that are unlikely given the others, and either less likely than they would be on their
/// own or explained by little but misreading: a rare finding is not at odds merely for being rare.
pub fn at_odds(
    model: &Model,
    prior: &Prior,
    evidence: &Evidence,
    left_out: &[LeftOut],
) -> Vec<AtOdds> {
    let odd = unlikely(model, prior, left_out).into_iter();
    odd.map(|s| AtOdds {
        observation: s.observation.clone(),
        p: s.expected,
        against: opponents(model, prior, evidence, s),
    })
    .collect()
}

/// The same without what makes them unlikely, which takes most of the time.
pub fn unlikely<'l>(model: &Model, prior: &Prior, left_out: &'l [LeftOut]) -> Vec<&'l LeftOut> {
    let alone = Posterior::of_prior(prior);
    left_out
        .iter()
        .filter(|s| {
            let table = &model.clue(s.observation.clue).table;
            let by_itself = || chance(model, &alone, &s.observation);
            odd(table, s.observation.sure, (s.expected, s.tail), by_itself)
        })
        .collect()
}

/// Whether a finding is at odds that is this likely given all the others, or anything at most as likely is;
/// `by_itself`: P(finding) with nothing else seen.
pub(super) fn odd(
    table: &Table,
    sure: Sure,
    (expected, tail): (f64, f64),
    by_itself: impl FnOnce() -> f64,
) -> bool {
    let misread = table.error(sure) / table.breadth() as f64;
    // With nothing else seen both are the same: the last bit must not decide.
    let less = || expected < by_itself() * (1.0 - 1e-9);
    tail < AT_ODDS && (misread > 0.5 * expected || less())
}

/// The findings whose removal makes the odd one at least half as likely again, worst first.
fn opponents(model: &Model, prior: &Prior, evidence: &Evidence, odd: &LeftOut) -> Vec<ClueId> {
    let mut fewer = evidence.clone();
    fewer.forget(odd.observation.clue);
    let inference = Inference::new(model, prior, &fewer);
    let mut found: Vec<(f64, ClueId)> = (0..inference.likelihoods().len())
        .filter_map(|i| {
            let gain = chance(model, &inference.without(i), &odd.observation) / odd.expected;
            (gain > 1.5).then(|| (gain, inference.likelihoods()[i].observation.clue))
        })
        .collect();
    found.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    found.truncate(3);
    found.into_iter().map(|(_, clue)| clue).collect()
}
