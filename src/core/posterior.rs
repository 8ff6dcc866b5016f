//! Prior × evidence, normalised once, last.
//!
//! ln P(h | evidence) = ln prior(h) + Σ_families λ Σ_clues ln P(f | h) − ln Z.
//! Worked as a product, not as a sum of logarithms: exp and ln are taken once a row of a clue's
//! table, never once a cell. Findings are multiplied in clue order whatever the order they were
//! given in, so that the same findings give the same bits.

use super::grid::{FamilyId, Grid, KindId, PlaceId};
use super::model::{ClueModel, Model};
use super::observation::{Evidence, Observation};
use super::product::{Factor, multiply_all};
use super::scaling::{scale_to_one, sum};
use super::table::Table;

/// Prior probability of every cell, summing to 1.
#[derive(Clone, Debug)]
pub struct Prior(Vec<f64>);

impl Prior {
    /// Normalises weights (≥ 0, not all 0) over the cells of `grid`.
    pub fn new(weights: Vec<f64>) -> Prior {
        let mut p = weights;
        scale_to_one(&mut p);
        Prior(p)
    }

    /// The probabilities, in cell order.
    pub fn cells(&self) -> &[f64] {
        &self.0
    }
}

/// Probability of every cell after the evidence.
#[derive(Clone, Debug, PartialEq)]
pub struct Posterior {
    p: Vec<f64>,
    /// Natural logarithm of the probability of the evidence.
    pub log_evidence: f64,
}

impl Posterior {
    /// The posterior with nothing seen.
    pub fn of_prior(prior: &Prior) -> Posterior {
        Posterior {
            p: prior.0.clone(),
            log_evidence: 0.0,
        }
    }

    /// This posterior after further factors.
    pub fn times(&self, grid: &Grid, factors: &[Factor]) -> Posterior {
        let mut p = self.p.clone();
        let scale = multiply_all(grid, &mut p, factors);
        Posterior {
            p,
            log_evidence: self.log_evidence + scale,
        }
    }

    /// Probabilities in cell order.
    pub fn cells(&self) -> &[f64] {
        &self.p
    }

    /// P(kind), by kind id.
    pub fn kinds(&self, grid: &Grid) -> Vec<f64> {
        let mut out = vec![0.0; grid.kinds()];
        for ((kind, _), p) in self.pairs(grid) {
            out[usize::from(kind.0)] += p;
        }
        out
    }

    /// P(place), by place id.
    pub fn places(&self, grid: &Grid) -> Vec<f64> {
        let mut out = vec![0.0; grid.places()];
        for ((_, place), p) in self.pairs(grid) {
            out[usize::from(place.0)] += p;
        }
        out
    }

    /// Every pair with its probability.
    fn pairs<'g>(&'g self, grid: &'g Grid) -> impl Iterator<Item = ((KindId, PlaceId), f64)> + 'g {
        let cells = |pair| sum(&self.p[grid.cells_of(pair)]);
        let all = grid.pairs().iter().enumerate();
        all.map(move |(pair, of)| (*of, cells(pair)))
    }

    /// P(year), by year offset.
    pub fn years(&self, grid: &Grid) -> Vec<f64> {
        self.years_where(grid, |_, _| true)
    }

    /// P(year and a condition on kind and place), by year offset; not normalised.
    pub fn years_where(&self, grid: &Grid, keep: impl Fn(KindId, PlaceId) -> bool) -> Vec<f64> {
        let mut out = vec![0.0; grid.years()];
        for (pair, &(kind, place)) in grid.pairs().iter().enumerate() {
            if keep(kind, place) {
                for (sum, p) in out.iter_mut().zip(&self.p[grid.cells_of(pair)]) {
                    *sum += p;
                }
            }
        }
        out
    }

    /// The leading kind and its probability; the lower id wins a tie.
    pub fn leading(&self, grid: &Grid) -> (KindId, f64) {
        leading(&self.kinds(grid))
    }
}

/// The leading kind of P(kind) and its probability; the lower id wins a tie.
pub fn leading(kinds: &[f64]) -> (KindId, f64) {
    let mut best = (KindId(0), f64::NEG_INFINITY);
    for (i, p) in kinds.iter().enumerate() {
        if *p > best.1 {
            best = (KindId(i as u8), *p);
        }
    }
    best
}

/// One observation that speaks, ready to be multiplied in.
pub struct FindingLikelihood<'a> {
    pub observation: Observation,
    clue: &'a ClueModel,
}

impl<'a> FindingLikelihood<'a> {
    /// The observation as a likelihood; `None` for "can't tell".
    pub fn new(model: &'a Model, observation: &Observation) -> Option<FindingLikelihood<'a>> {
        let clue = model.clue(observation.clue);
        clue.table
            .answers_with(&observation.seen)
            .then(|| FindingLikelihood {
                observation: observation.clone(),
                clue,
            })
    }

    /// P(f | row, year) to a power.
    pub fn factor(&self, power: f64) -> Factor<'a> {
        let (table, o) = (&self.clue.table, &self.observation);
        Factor::new(table, table.power(&o.seen, o.sure, power))
    }

    /// The clue's frequencies.
    pub fn table(&self) -> &'a Table {
        &self.clue.table
    }

    /// The family of the clue.
    pub fn family(&self) -> Option<FamilyId> {
        self.clue.family
    }
}

/// The evidence weighed once, ready for the posterior and for evidence that differs a little.
pub struct Inference<'a> {
    model: &'a Model,
    evidence: Evidence,
    /// In clue order.
    likelihoods: Vec<FindingLikelihood<'a>>,
    whole: Posterior,
}

impl<'a> Inference<'a> {
    /// Weighs the evidence. Cost: (observations) × (cells) multiplications.
    pub fn new(model: &'a Model, prior: &Prior, evidence: &Evidence) -> Inference<'a> {
        let likelihoods = speaking(model, evidence);
        let factors = damped(model, &likelihoods);
        let mut p = prior.cells().to_vec();
        let log_evidence = multiply_all(&model.grid, &mut p, &factors);
        Inference {
            model,
            evidence: evidence.clone(),
            likelihoods,
            whole: Posterior { p, log_evidence },
        }
    }

    /// The findings that speak, in clue order.
    pub fn likelihoods(&self) -> &[FindingLikelihood<'a>] {
        &self.likelihoods
    }

    /// What it was weighed by.
    pub fn model(&self) -> &'a Model {
        self.model
    }

    /// What was weighed.
    pub fn evidence(&self) -> &Evidence {
        &self.evidence
    }

    /// The posterior given all findings.
    pub fn posterior(&self) -> &Posterior {
        &self.whole
    }

    /// The posterior given all findings, by itself.
    pub fn into_posterior(self) -> Posterior {
        self.whole
    }

    /// The posterior given all findings but the `i`-th of `likelihoods()`, as if it had never been seen:
    /// the rest of its family gets back the weight that m − 1 answers have, and what it had shut speaks.
    pub fn without(&self, i: usize) -> Posterior {
        let mut fewer = self.evidence.clone();
        fewer.forget(self.likelihoods[i].observation.clue);
        self.given(&fewer).whole
    }

    /// Other evidence weighed: what differs is multiplied in, or divided out.
    pub fn given(&self, evidence: &Evidence) -> Inference<'a> {
        let others = speaking(self.model, evidence);
        let same = |a: &FindingLikelihood, b: &FindingLikelihood| {
            let (a, b) = (&a.observation, &b.observation);
            (a.clue, &a.seen, a.sure) == (b.clue, &b.seen, b.sure)
        };
        let power_in = |all: &[FindingLikelihood], one: &FindingLikelihood| {
            let there = all.iter().find(|v| same(v, one));
            there.map_or(0.0, |v| power(self.model, all, v))
        };
        let gone = self.likelihoods.iter();
        let gone = gone.filter(|l| !others.iter().any(|v| same(l, v)));
        let changes = others.iter().chain(gone).map(|v| {
            let change = power_in(&others, v) - power_in(&self.likelihoods, v);
            (v, change)
        });
        let changes = changes.filter(|(_, change)| *change != 0.0);
        let factors: Vec<Factor> = changes.map(|(v, change)| v.factor(change)).collect();
        Inference {
            whole: self.whole.times(&self.model.grid, &factors),
            model: self.model,
            evidence: evidence.clone(),
            likelihoods: others,
        }
    }
}

/// The findings that speak, in clue order.
pub(super) fn speaking<'a>(model: &'a Model, evidence: &Evidence) -> Vec<FindingLikelihood<'a>> {
    let mut out: Vec<FindingLikelihood> = evidence
        .observations()
        .iter()
        .filter(|e| model.speaks(e, evidence))
        .filter_map(|e| FindingLikelihood::new(model, e))
        .collect();
    out.sort_by_key(|v| v.observation.clue);
    out
}

/// What each multiplies cells by, damped as its family has members.
pub(super) fn damped<'a>(model: &Model, likelihoods: &[FindingLikelihood<'a>]) -> Vec<Factor<'a>> {
    let of = |v: &FindingLikelihood<'a>| v.factor(power(model, likelihoods, v));
    likelihoods.iter().map(of).collect()
}

/// The damping of one of these, as its family has members among them.
fn power(model: &Model, among: &[FindingLikelihood], one: &FindingLikelihood) -> f64 {
    model.damping(one.family(), in_family(among, one.family()))
}

/// How many likelihoods belong to a family.
pub(super) fn in_family(likelihoods: &[FindingLikelihood], family: Option<FamilyId>) -> usize {
    likelihoods.iter().filter(|v| v.family() == family).count()
}

/// The posterior in one call.
pub fn posterior(model: &Model, prior: &Prior, evidence: &Evidence) -> Posterior {
    Inference::new(model, prior, evidence).whole
}

#[cfg(test)]
mod tests {
    use super::leading;
    use crate::core::grid::KindId;

    #[test]
    fn of_two_as_likely_the_lower_id_leads() {
        assert_eq!(leading(&[0.2, 0.4, 0.4]), (KindId(1), 0.4));
        assert_eq!(leading(&[0.1, 0.3, 0.6]), (KindId(2), 0.6));
    }
}
