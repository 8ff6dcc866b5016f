//! Prior × evidence, normalised once, last.
//!
//! ln P(h | evidence) = ln prior(h) + Σ_families λ Σ_clues ln P(f | h) − ln Z.
//! Worked as a product, not as a sum of logarithms: exp and ln are taken once a row of a clue's
//! table, never once a cell. The product is scaled to sum to 1 every few factors so that nothing
//! underflows that could matter. Findings are multiplied in clue order whatever the order they
//! were given in, so that the same findings give the same bits.

use super::grid::{FamilyId, Grid, KindId, PlaceId};
use super::model::{ClueModel, Model};
use super::observation::{Evidence, Observation};

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
        let scale = multiply_all(grid, &mut p, factors.iter());
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
        for (pair, (kind, _)) in grid.pairs().iter().enumerate() {
            out[usize::from(kind.0)] += self.p[grid.cells_of(pair)].iter().sum::<f64>();
        }
        out
    }

    /// P(place), by place id.
    pub fn places(&self, grid: &Grid) -> Vec<f64> {
        let mut out = vec![0.0; grid.places()];
        for (pair, (_, place)) in grid.pairs().iter().enumerate() {
            out[usize::from(place.0)] += self.p[grid.cells_of(pair)].iter().sum::<f64>();
        }
        out
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

/// One observation that speaks, with ln P(f | row, year).
pub struct LogLikelihood<'a> {
    pub observation: Observation,
    clue: &'a ClueModel,
    logs: Vec<f64>,
}

/// What a finding multiplies cells by: exp(power · ln P(f | row, year)), a row at a time.
pub struct Factor<'a> {
    clue: &'a ClueModel,
    rows: Vec<f64>,
}

impl Factor<'_> {
    fn multiply(&self, grid: &Grid, p: &mut [f64]) {
        for pair in 0..grid.pairs().len() {
            let from = self.clue.table.row(pair) * grid.years();
            let row = &self.rows[from..from + grid.years()];
            for (x, factor) in p[grid.cells_of(pair)].iter_mut().zip(row) {
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
    grid: &Grid,
    p: &mut [f64],
    factors: impl Iterator<Item = &'f Factor<'m>>,
) -> f64 {
    let mut log_scale = 0.0;
    for (i, factor) in factors.enumerate() {
        factor.multiply(grid, p);
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

impl<'a> LogLikelihood<'a> {
    /// The observation as a likelihood; `None` for "can't tell".
    pub fn new(model: &'a Model, observation: &Observation) -> Option<LogLikelihood<'a>> {
        let clue = model.clue(observation.clue);
        let mut logs = clue.table.likelihood(&observation.seen, observation.sure)?;
        logs.iter_mut().for_each(|x| *x = x.ln());
        Some(LogLikelihood {
            observation: observation.clone(),
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
pub struct Inference<'a> {
    model: &'a Model,
    /// In clue order.
    likelihoods: Vec<LogLikelihood<'a>>,
    whole: Posterior,
}

impl<'a> Inference<'a> {
    /// Weighs the evidence. Cost: (observations) × (cells) multiplications.
    pub fn new(model: &'a Model, prior: &Prior, evidence: &Evidence) -> Inference<'a> {
        let mut likelihoods: Vec<LogLikelihood> = evidence
            .observations()
            .iter()
            .filter(|e| model.speaks(e, evidence))
            .filter_map(|e| LogLikelihood::new(model, e))
            .collect();
        likelihoods.sort_by_key(|v| v.observation.clue);
        let factors: Vec<Factor> = likelihoods
            .iter()
            .map(|v| v.factor(model.damping(v.family(), in_family(&likelihoods, v.family()))))
            .collect();
        let mut p = prior.cells().to_vec();
        let log_evidence = multiply_all(&model.grid, &mut p, factors.iter());
        Inference {
            model,
            likelihoods,
            whole: Posterior { p, log_evidence },
        }
    }

    /// The findings that speak, in clue order.
    pub fn likelihoods(&self) -> &[LogLikelihood<'a>] {
        &self.likelihoods
    }

    /// The posterior given all findings.
    pub fn posterior(&self) -> &Posterior {
        &self.whole
    }

    /// The posterior given all findings but the `i`-th of `likelihoods()`: the rest of its family gets
    /// back the weight that m − 1 answers have.
    pub fn without(&self, i: usize) -> Posterior {
        let grid = &self.model.grid;
        let family = self.likelihoods[i].family();
        let m = in_family(&self.likelihoods, family);
        let (now, then) = (
            self.model.damping(family, m),
            self.model.damping(family, m - 1),
        );
        let mut factors = vec![self.likelihoods[i].factor(-now)];
        if family.is_some() && now != then {
            let kin = self.likelihoods.iter().enumerate();
            factors.extend(
                kin.filter(|(j, v)| *j != i && v.family() == family)
                    .map(|(_, v)| v.factor(then - now)),
            );
        }
        self.whole.times(grid, &factors)
    }
}

/// How many likelihoods belong to a family.
fn in_family(likelihoods: &[LogLikelihood], family: Option<FamilyId>) -> usize {
    likelihoods.iter().filter(|v| v.family() == family).count()
}

/// The posterior in one call.
pub fn posterior(model: &Model, prior: &Prior, evidence: &Evidence) -> Posterior {
    Inference::new(model, prior, evidence).whole
}
