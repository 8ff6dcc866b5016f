//! A case with its families kept apart, so that δ can be varied cheaply.
//!
//! Only families with two or more answered clues depend on δ: everything else is multiplied into
//! `base` once, and a family's findings enter as exp(m^(−δ) · ln P).

use super::cases::Known;
use super::judge::{Judged, judge};
use crate::core::grid::{FamilyId, Grid};
use crate::core::observation::Evidence;
use crate::core::posterior::{FindingLikelihood, Posterior, posterior};
use crate::core::product::Factor;
use crate::piece::expert::Expert;

/// One case, weighed but for its families.
pub(super) struct FamilySplit<'a> {
    pub case: &'a Known,
    grid: &'a Grid,
    /// Prior times all findings that do not depend on any δ.
    base: Posterior,
    groups: Vec<Group<'a>>,
}

/// The findings of one family of a case: at least two.
struct Group<'a> {
    family: FamilyId,
    likelihoods: Vec<FindingLikelihood<'a>>,
}

impl Group<'_> {
    /// Factors at λ = m^(−δ).
    fn factors(&self, delta: f64) -> impl Iterator<Item = Factor<'_>> {
        let power = (self.likelihoods.len() as f64).powf(-delta);
        self.likelihoods.iter().map(move |v| v.factor(power))
    }
}

impl<'a> FamilySplit<'a> {
    /// Weighs a case.
    pub(super) fn new(expert: &'a Expert, case: &'a Known) -> FamilySplit<'a> {
        let model = &expert.engine().model;
        let prior = &expert.engine().priors[case.setting];
        let (mut alone, mut groups): (Vec<FindingLikelihood>, Vec<Group>) =
            (Vec::new(), Vec::new());
        let speaking = case.evidence.observations().iter();
        for likelihood in speaking
            .filter(|e| model.speaks(e, &case.evidence))
            .filter_map(|e| FindingLikelihood::new(model, e))
        {
            match likelihood.family() {
                None => alone.push(likelihood),
                Some(family) => match groups.iter_mut().find(|g| g.family == family) {
                    Some(group) => group.likelihoods.push(likelihood),
                    None => groups.push(Group {
                        family,
                        likelihoods: vec![likelihood],
                    }),
                },
            }
        }
        let (single, mut groups): (Vec<Group>, Vec<Group>) =
            groups.into_iter().partition(|g| g.likelihoods.len() < 2);
        alone.extend(single.into_iter().flat_map(|g| g.likelihoods));
        alone.sort_by_key(|v| v.observation.clue);
        groups.sort_by_key(|g| g.family);
        groups
            .iter_mut()
            .for_each(|g| g.likelihoods.sort_by_key(|v| v.observation.clue));
        let factors: Vec<Factor> = alone.iter().map(|v| v.factor(1.0)).collect();
        FamilySplit {
            case,
            grid: &model.grid,
            base: posterior(model, prior, &Evidence::new()).times(&model.grid, &factors),
            groups,
        }
    }

    /// Families with two or more findings.
    pub(super) fn families(&self) -> impl Iterator<Item = usize> {
        self.groups.iter().map(|g| usize::from(g.family.0))
    }

    /// The posterior with these δ, left without one family.
    pub(super) fn but_for(&self, family: usize, deltas: &[f64]) -> Posterior {
        let others = self
            .groups
            .iter()
            .filter(|g| usize::from(g.family.0) != family);
        let factors: Vec<Factor> = others
            .flat_map(|g| g.factors(deltas[usize::from(g.family.0)]))
            .collect();
        self.base.times(self.grid, &factors)
    }

    /// `rest` with that family at a δ put back.
    pub(super) fn with(&self, rest: &Posterior, family: usize, delta: f64) -> Posterior {
        let group = self
            .groups
            .iter()
            .filter(|g| usize::from(g.family.0) == family);
        let factors: Vec<Factor> = group.flat_map(|g| g.factors(delta)).collect();
        rest.times(self.grid, &factors)
    }

    /// The case judged with these δ, one a family.
    pub(super) fn judge(&self, deltas: &[f64]) -> Judged {
        let factors: Vec<Factor> = self
            .groups
            .iter()
            .flat_map(|g| g.factors(deltas[usize::from(g.family.0)]))
            .collect();
        judge(self.grid, &self.base.times(self.grid, &factors), self.case)
    }
}
