//! What was stated against what came true.

use super::judge::{Judged, SHARES};
use super::measures::{mean, truth};

/// Upper ends of the bins for the probability of the leading kind.
const BINS: [f64; 6] = [0.3, 0.5, 0.7, 0.85, 0.95, 1.0];

/// Answers whose stated probability fell in one bin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bin {
    /// Stated probability above this …
    pub from: f64,
    /// … up to and with this.
    pub to: f64,
    pub cases: usize,
    /// Mean stated probability.
    pub stated: Option<f64>,
    /// Share that came true.
    pub observed: Option<f64>,
}

/// The tables.
#[derive(Clone, Debug, PartialEq)]
pub struct Reliability {
    /// Leading kind, by its probability.
    pub kinds: Vec<Bin>,
    /// (stated share of the band, share of midpoints in it).
    pub bands: Vec<(f64, Option<f64>)>,
    /// Σ over bins of cases/all · |stated − observed|: 0 = as sure as right.
    pub kind_gap: Option<f64>,
}

impl Reliability {
    /// Tables of the cases given.
    pub fn of(judged: &[Judged]) -> Reliability {
        let answers: Vec<(f64, bool)> = judged
            .iter()
            .filter_map(|j| j.kind.map(|k| (j.p, j.leader == k.truth)))
            .collect();
        let kinds = bins(&answers);
        let gap: f64 = kinds
            .iter()
            .filter_map(|b| Some(b.cases as f64 * (b.stated? - b.observed?).abs()))
            .sum();
        let bands = SHARES
            .iter()
            .map(|&share| {
                let dated = judged.iter().filter_map(|j| j.date.as_ref());
                (share, mean(dated.map(|d| truth(d.inside(d.band(share))))))
            })
            .collect();
        Reliability {
            kinds,
            bands,
            kind_gap: (!answers.is_empty()).then(|| gap / answers.len() as f64),
        }
    }
}

/// (stated probability, came true) sorted into bins.
pub fn bins(answers: &[(f64, bool)]) -> Vec<Bin> {
    let mut from = 0.0;
    BINS.iter()
        .map(|&to| {
            // Rounding may leave a certainty a hair above 1.
            let held = |p: f64| p > from && (p <= to || to >= 1.0);
            let within: Vec<_> = answers.iter().filter(|(p, _)| held(*p)).collect();
            let bin = Bin {
                from,
                to,
                cases: within.len(),
                stated: mean(within.iter().map(|(p, _)| *p)),
                observed: mean(within.iter().map(|(_, right)| truth(*right))),
            };
            from = to;
            bin
        })
        .collect()
}
