//! A case with its families kept apart, so that δ can be varied cheaply.
//!
//! Only families with two or more answered clues depend on δ: everything else is multiplied into
//! `base` once, and a family's findings enter as exp(m^(−δ) · ln P).

use super::cases::Known;
use super::judge::{Judged, judge};
use crate::case::expert::Expert;
use crate::core::axes::{Axes, FamilyId};
use crate::core::evidence::Evidence;
use crate::core::posterior::{Factor, Posterior, Voice, posterior};

/// One case, weighed but for its families.
pub struct Weighed<'a> {
    pub case: &'a Known,
    axes: &'a Axes,
    /// Prior times all findings that do not depend on any δ.
    base: Posterior,
    groups: Vec<Group<'a>>,
}

/// The findings of one family of a case: at least two.
struct Group<'a> {
    family: FamilyId,
    voices: Vec<Voice<'a>>,
}

impl Group<'_> {
    /// Factors at λ = m^(−δ).
    fn factors(&self, delta: f64) -> impl Iterator<Item = Factor<'_>> {
        let power = (self.voices.len() as f64).powf(-delta);
        self.voices.iter().map(move |v| v.factor(power))
    }
}

impl<'a> Weighed<'a> {
    /// Weighs a case.
    pub fn new(expert: &'a Expert, case: &'a Known) -> Weighed<'a> {
        let model = &expert.engine.model;
        let prior = &expert.engine.priors[case.setting];
        let (mut alone, mut groups): (Vec<Voice>, Vec<Group>) = (Vec::new(), Vec::new());
        let speaking = case.evidence.entries().iter();
        for voice in speaking
            .filter(|e| model.speaks(e, &case.evidence))
            .filter_map(|e| Voice::new(model, e))
        {
            match voice.family() {
                None => alone.push(voice),
                Some(family) => match groups.iter_mut().find(|g| g.family == family) {
                    Some(group) => group.voices.push(voice),
                    None => groups.push(Group {
                        family,
                        voices: vec![voice],
                    }),
                },
            }
        }
        let (single, mut groups): (Vec<Group>, Vec<Group>) =
            groups.into_iter().partition(|g| g.voices.len() < 2);
        alone.extend(single.into_iter().flat_map(|g| g.voices));
        alone.sort_by_key(|v| v.entry.clue);
        groups.sort_by_key(|g| g.family);
        groups
            .iter_mut()
            .for_each(|g| g.voices.sort_by_key(|v| v.entry.clue));
        let factors: Vec<Factor> = alone.iter().map(|v| v.factor(1.0)).collect();
        Weighed {
            case,
            axes: &model.axes,
            base: posterior(model, prior, &Evidence::new()).times(&model.axes, &factors),
            groups,
        }
    }

    /// Families with two or more findings.
    pub fn families(&self) -> impl Iterator<Item = usize> {
        self.groups.iter().map(|g| usize::from(g.family.0))
    }

    /// The posterior with these δ, left without one family.
    pub fn but_for(&self, family: usize, deltas: &[f64]) -> Posterior {
        let others = self
            .groups
            .iter()
            .filter(|g| usize::from(g.family.0) != family);
        let factors: Vec<Factor> = others
            .flat_map(|g| g.factors(deltas[usize::from(g.family.0)]))
            .collect();
        self.base.times(self.axes, &factors)
    }

    /// `rest` with that family at a δ put back.
    pub fn with(&self, rest: &Posterior, family: usize, delta: f64) -> Posterior {
        let group = self
            .groups
            .iter()
            .filter(|g| usize::from(g.family.0) == family);
        let factors: Vec<Factor> = group.flat_map(|g| g.factors(delta)).collect();
        rest.times(self.axes, &factors)
    }

    /// The case judged with these δ, one a family.
    pub fn judge(&self, deltas: &[f64]) -> Judged {
        let factors: Vec<Factor> = self
            .groups
            .iter()
            .flat_map(|g| g.factors(deltas[usize::from(g.family.0)]))
            .collect();
        judge(self.axes, &self.base.times(self.axes, &factors), self.case)
    }
}
