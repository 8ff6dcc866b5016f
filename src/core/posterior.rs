//! Prior × evidence, normalised once, last.
//!
//! ln P(h | evidence) = ln prior(h) + Σ_families λ Σ_clues ln P(f | h) − ln Z.
//! Worked as a product, not as a sum of logarithms: exp and ln are taken once a row of a clue's
//! table, never once a cell. The product is scaled to sum to 1 every few factors so that nothing
//! underflows that could matter. Findings are multiplied in clue order whatever the order they
//! were given in, so that the same findings give the same bits.

use super::axes::{Axes, FamilyId, KindId, PlaceId};
use super::evidence::{Entry, Evidence};
use super::model::{Clue, Model};

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
    /// This posterior after further factors.
    pub fn times(&self, axes: &Axes, factors: &[Factor]) -> Posterior {
        let mut p = self.p.clone();
        let scale = multiply_all(axes, &mut p, factors.iter());
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
pub struct Voice<'a> {
    pub entry: Entry,
    clue: &'a Clue,
    logs: Vec<f64>,
}

/// What a finding multiplies cells by: exp(power · ln P(f | row, year)), a row at a time.
pub struct Factor<'a> {
    clue: &'a Clue,
    rows: Vec<f64>,
}

impl Factor<'_> {
    fn multiply(&self, axes: &Axes, p: &mut [f64]) {
        for pair in 0..axes.pairs().len() {
            let from = self.clue.table.row(pair) * axes.years();
            let row = &self.rows[from..from + axes.years()];
            for (x, factor) in p[axes.cells_of(pair)].iter_mut().zip(row) {
                *x *= factor;
            }
        }
    }
}

/// Factors between two scalings: a factor is at least LEAST_ERROR / findings, about 1e-4, so eight
/// of them leave a cell that matters far above the smallest number.
const UNSCALED: usize = 8;

/// Multiplies cells by all factors, makes them sum to 1, and returns the logarithm of what was
/// taken out.
fn multiply_all<'f, 'm: 'f>(
    axes: &Axes,
    p: &mut [f64],
    factors: impl Iterator<Item = &'f Factor<'m>>,
) -> f64 {
    let mut log_scale = 0.0;
    for (i, factor) in factors.enumerate() {
        factor.multiply(axes, p);
        if i % UNSCALED == UNSCALED - 1 {
            log_scale += scale_to_one(p);
        }
    }
    log_scale + scale_to_one(p)
}

/// Makes cells sum to 1; returns the logarithm of their sum.
fn scale_to_one(p: &mut [f64]) -> f64 {
    let total = sum(p);
    let inverse = 1.0 / total;
    p.iter_mut().for_each(|x| *x *= inverse);
    total.ln()
}

/// Sum in eight lanes: always the same order, and quick without any special instructions.
fn sum(p: &[f64]) -> f64 {
    let chunks = p.chunks_exact(8);
    let rest: f64 = chunks.remainder().iter().sum();
    let mut lanes = [0.0; 8];
    for chunk in chunks {
        for (lane, x) in lanes.iter_mut().zip(chunk) {
            *lane += x;
        }
    }
    lanes.iter().sum::<f64>() + rest
}

impl<'a> Voice<'a> {
    /// The entry as a voice; `None` for "can't tell".
    pub fn new(model: &'a Model, entry: &Entry) -> Option<Voice<'a>> {
        let clue = model.clue(entry.clue);
        let mut logs = clue.table.likelihood(entry.seen, entry.sure)?;
        logs.iter_mut().for_each(|x| *x = x.ln());
        Some(Voice {
            entry: *entry,
            clue,
            logs,
        })
    }

    /// P(f | row, year) to a power.
    pub fn factor(&self, power: f64) -> Factor<'a> {
        Factor {
            clue: self.clue,
            rows: self.logs.iter().map(|l| (power * l).exp()).collect(),
        }
    }

    /// The family of the clue.
    pub fn family(&self) -> Option<FamilyId> {
        self.clue.family
    }
}

/// The evidence weighed once, ready for the posterior and for leaving findings out.
pub struct Weighing<'a> {
    model: &'a Model,
    /// In clue order.
    voices: Vec<Voice<'a>>,
    whole: Posterior,
}

impl<'a> Weighing<'a> {
    /// Weighs the evidence. Cost: (entries) × (cells) multiplications.
    pub fn new(model: &'a Model, prior: &Prior, evidence: &Evidence) -> Weighing<'a> {
        let mut voices: Vec<Voice> = evidence
            .entries()
            .iter()
            .filter(|e| model.speaks(e, evidence))
            .filter_map(|e| Voice::new(model, e))
            .collect();
        voices.sort_by_key(|v| v.entry.clue);
        let factors: Vec<Factor> = voices
            .iter()
            .map(|v| v.factor(model.damping(v.family(), kin(&voices, v.family()))))
            .collect();
        let mut p = prior.cells().to_vec();
        let log_evidence = multiply_all(&model.axes, &mut p, factors.iter());
        Weighing {
            model,
            voices,
            whole: Posterior { p, log_evidence },
        }
    }

    /// The findings that speak, in clue order.
    pub fn voices(&self) -> &[Voice<'a>] {
        &self.voices
    }

    /// The posterior given all findings.
    pub fn posterior(&self) -> &Posterior {
        &self.whole
    }

    /// The posterior given all findings but the `i`-th of `voices()`: the rest of its family gets
    /// back the weight that m − 1 answers have.
    pub fn without(&self, i: usize) -> Posterior {
        let axes = &self.model.axes;
        let family = self.voices[i].family();
        let m = kin(&self.voices, family);
        let (now, then) = (
            self.model.damping(family, m),
            self.model.damping(family, m - 1),
        );
        let mut factors = vec![self.voices[i].factor(-now)];
        if family.is_some() && now != then {
            let kin = self.voices.iter().enumerate();
            factors.extend(
                kin.filter(|(j, v)| *j != i && v.family() == family)
                    .map(|(_, v)| v.factor(then - now)),
            );
        }
        self.whole.times(axes, &factors)
    }
}

/// How many voices belong to a family.
fn kin(voices: &[Voice], family: Option<FamilyId>) -> usize {
    voices.iter().filter(|v| v.family() == family).count()
}

/// The posterior in one call.
pub fn posterior(model: &Model, prior: &Prior, evidence: &Evidence) -> Posterior {
    Weighing::new(model, prior, evidence).whole
}
