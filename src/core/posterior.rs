//! Prior × evidence, normalised once, last.
//!
//! ln P(h | evidence) = ln prior(h) + Σ_families λ Σ_clues ln P(f | h) − ln Z.
//! Findings are added in clue order whatever the order they were given in, so that the same
//! findings give the same bits.

use super::axes::{Axes, KindId, PlaceId};
use super::evidence::{Entry, Evidence};
use super::model::Model;

/// Prior probability of every cell, summing to 1.
#[derive(Clone, Debug)]
pub struct Prior(Vec<f64>);

impl Prior {
    /// Normalises weights (≥ 0, not all 0) over the cells of `axes`.
    pub fn new(weights: Vec<f64>) -> Prior {
        let total: f64 = weights.iter().sum();
        Prior(weights.into_iter().map(|w| w / total).collect())
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
    /// Normalises exp(logs) safely: the largest is taken out first.
    fn from_logs(logs: &[f64]) -> Posterior {
        let top = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let mut p: Vec<f64> = logs.iter().map(|l| (l - top).exp()).collect();
        let total: f64 = p.iter().sum();
        p.iter_mut().for_each(|x| *x /= total);
        Posterior {
            p,
            log_evidence: top + total.ln(),
        }
    }

    /// Probabilities in cell order.
    pub fn cells(&self) -> &[f64] {
        &self.p
    }

    /// P(kind), by kind id.
    pub fn kinds(&self, axes: &Axes) -> Vec<f64> {
        let mut out = vec![0.0; axes.kinds()];
        for (pair, (kind, _)) in axes.pairs().iter().enumerate() {
            out[usize::from(kind.0)] += self.p[axes.cells_of(pair)].iter().sum::<f64>();
        }
        out
    }

    /// P(place), by place id.
    pub fn places(&self, axes: &Axes) -> Vec<f64> {
        let mut out = vec![0.0; axes.places()];
        for (pair, (_, place)) in axes.pairs().iter().enumerate() {
            out[usize::from(place.0)] += self.p[axes.cells_of(pair)].iter().sum::<f64>();
        }
        out
    }

    /// P(year), by year offset.
    pub fn years(&self, axes: &Axes) -> Vec<f64> {
        self.years_where(axes, |_, _| true)
    }

    /// P(year and a condition on kind and place), by year offset; not normalised.
    pub fn years_where(&self, axes: &Axes, keep: impl Fn(KindId, PlaceId) -> bool) -> Vec<f64> {
        let mut out = vec![0.0; axes.years()];
        for (pair, &(kind, place)) in axes.pairs().iter().enumerate() {
            if keep(kind, place) {
                for (sum, p) in out.iter_mut().zip(&self.p[axes.cells_of(pair)]) {
                    *sum += p;
                }
            }
        }
        out
    }

    /// The leading kind and its probability; the lower id wins a tie.
    pub fn leading(&self, axes: &Axes) -> (KindId, f64) {
        let mut best = (KindId(0), f64::NEG_INFINITY);
        for (i, p) in self.kinds(axes).into_iter().enumerate() {
            if p > best.1 {
                best = (KindId(i as u8), p);
            }
        }
        best
    }
}

/// One entry that speaks, with ln P(f | row, year).
struct Voice {
    entry: Entry,
    logs: Vec<f64>,
}

/// The evidence weighed once, ready for the posterior and for leaving findings out.
pub struct Weighing<'a> {
    model: &'a Model,
    /// In clue order.
    voices: Vec<Voice>,
    logs: Vec<f64>,
}

impl<'a> Weighing<'a> {
    /// Weighs the evidence. Cost: (entries) × (cells) additions.
    pub fn new(model: &'a Model, prior: &Prior, evidence: &Evidence) -> Weighing<'a> {
        let mut voices: Vec<Voice> = evidence
            .entries()
            .iter()
            .filter(|e| model.speaks(e, evidence))
            .filter_map(|e| {
                let table = &model.clue(e.clue).table;
                let mut logs = table.likelihood(e.seen, e.sure)?;
                logs.iter_mut().for_each(|x| *x = x.ln());
                Some(Voice { entry: *e, logs })
            })
            .collect();
        voices.sort_by_key(|v| v.entry.clue);
        let mut weighing = Weighing {
            model,
            voices,
            logs: prior.cells().iter().map(|p| p.ln()).collect(),
        };
        let mut logs = std::mem::take(&mut weighing.logs);
        for i in 0..weighing.voices.len() {
            let damping = weighing.damping(i, 0);
            weighing.add(&mut logs, i, damping);
        }
        weighing.logs = logs;
        weighing
    }

    /// The entries that speak, in clue order.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.voices.iter().map(|v| &v.entry)
    }

    /// The posterior given all findings.
    pub fn posterior(&self) -> Posterior {
        Posterior::from_logs(&self.logs)
    }

    /// The posterior given all findings but the `i`-th of `entries()`: the rest of its family
    /// gets back the weight that m − 1 answers have.
    pub fn without(&self, i: usize) -> Posterior {
        let mut logs = self.logs.clone();
        self.add(&mut logs, i, -self.damping(i, 0));
        let family = self.family(i);
        if family.is_some() {
            for j in (0..self.voices.len()).filter(|&j| j != i && self.family(j) == family) {
                self.add(&mut logs, j, self.damping(j, 1) - self.damping(j, 0));
            }
        }
        // A cell that lost everything to rounding must not come out above its prior's zero.
        Posterior::from_logs(&logs)
    }

    /// P(cell's finding i), undamped, for each (row, year) of the clue's table.
    pub fn chances(&self, i: usize) -> impl Iterator<Item = f64> + '_ {
        self.voices[i].logs.iter().map(|l| l.exp())
    }

    fn family(&self, i: usize) -> Option<super::axes::FamilyId> {
        self.model.clue(self.voices[i].entry.clue).family
    }

    /// λ of voice `i` when `fewer` of its family's answers are left out.
    fn damping(&self, i: usize, fewer: usize) -> f64 {
        let family = self.family(i);
        let m = (0..self.voices.len())
            .filter(|&j| self.family(j) == family)
            .count();
        self.model.damping(family, m - fewer)
    }

    fn add(&self, logs: &mut [f64], i: usize, factor: f64) {
        if factor == 0.0 {
            return;
        }
        let axes = &self.model.axes;
        let table = &self.model.clue(self.voices[i].entry.clue).table;
        for pair in 0..axes.pairs().len() {
            let from = table.row(pair) * axes.years();
            let row = &self.voices[i].logs[from..from + axes.years()];
            for (sum, log) in logs[axes.cells_of(pair)].iter_mut().zip(row) {
                *sum += factor * log;
            }
        }
    }
}

/// The posterior in one call.
pub fn posterior(model: &Model, prior: &Prior, evidence: &Evidence) -> Posterior {
    Weighing::new(model, prior, evidence).posterior()
}
