//! What speaks against a claim, and what contradicts it.

use super::region::Region;
use super::standing::AGAINST;
use crate::core::eras::{era, scaled};
use crate::core::grid::Year;
use crate::core::model::Model;
use crate::core::observation::Observation;
use crate::core::posterior::{Inference, Posterior};

/// A finding contradicts the claim when it is ten times commoner in its best years
/// (ENFSI: moderate support).
const CONTRADICTS: f64 = 0.1;

/// A finding that speaks against the claim.
#[derive(Clone, Debug, PartialEq)]
pub struct OpposingFinding {
    pub observation: Observation,
    /// What the claim's odds lose by it, in decibans, negative.
    pub decibans: f64,
    /// First and last year in which the finding is at least a tenth as common as at its commonest,
    /// when that leaves out all the years claimed and the finding weighs 10 decibans against them.
    pub era: Option<(Year, Year)>,
}

/// Findings without which the claim would stand better, worst first.
pub fn opposing(model: &Model, inference: &Inference, region: &Region) -> Vec<OpposingFinding> {
    let grid = &model.grid;
    let whole = region.log_odds(grid, inference.posterior().cells());
    let mut out: Vec<OpposingFinding> = (0..inference.likelihoods().len())
        .filter_map(|i| {
            let observation = inference.likelihoods()[i].observation.clone();
            let rest = inference.without(i);
            let decibans = whole - region.log_odds(grid, rest.cells());
            (decibans < -1.0).then(|| OpposingFinding {
                era: (decibans <= AGAINST)
                    .then(|| contradiction(model, &rest, &observation, region))
                    .flatten(),
                observation,
                decibans,
            })
        })
        .collect();
    out.sort_by(|a, b| {
        let by_weight = a.decibans.total_cmp(&b.decibans);
        by_weight.then(a.observation.clue.cmp(&b.observation.clue))
    });
    out
}

/// The finding's own years, if none of those claimed is among them.
fn contradiction(
    model: &Model,
    rest: &Posterior,
    entry: &Observation,
    region: &Region,
) -> Option<(Year, Year)> {
    let grid = &model.grid;
    let heights = scaled(era(model, rest.cells(), entry)?);
    let seen: Vec<Year> = heights
        .iter()
        .enumerate()
        .filter(|(_, h)| **h >= CONTRADICTS)
        .map(|(offset, _)| grid.year(offset))
        .collect();
    let apart = seen.iter().all(|y| !(region.from..=region.to).contains(y));
    let (first, last) = (*seen.first()?, *seen.last()?);
    apart.then_some((first, last))
}
