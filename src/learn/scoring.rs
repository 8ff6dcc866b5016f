//! How good an answer was, by scores that nobody can better by saying something else than they think.

use crate::core::grid::Year;
use crate::core::interval::Band;
use crate::core::question::Look;

/// Points of 0 to 100 for a stated confidence: 100 · (1 − (confidence − outcome)²), the quadratic score
/// (G. W. Brier, "Verification of forecasts expressed in terms of probability", 1950). Proper: what
/// brings most on average is to state the chance one really gives.
pub fn points(confidence: f64, right: bool) -> f64 {
    let outcome = f64::from(u8::from(right));
    100.0 * (1.0 - (confidence.clamp(0.0, 1.0) - outcome).powi(2))
}

/// Years lost by a run of years that is meant to hold the truth with the chance `share`: its width, and
/// 2 / (1 − share) for every year the truth lies outside it. The interval score (T. Gneiting,
/// A. E. Raftery, "Strictly proper scoring rules, prediction, and estimation", 2007): neither a run
/// too wide nor one too narrow pays.
pub fn years_lost(from: Year, to: Year, truth: Year, share: f64) -> f64 {
    let (from, to, truth) = (f64::from(from.0), f64::from(to.0), f64::from(truth.0));
    let outside = (from - truth).max(truth - to).max(0.0);
    (to - from) + 2.0 / (1.0 - share) * outside
}

/// The same of a band.
pub fn band_lost(band: &Band, truth: Year) -> f64 {
    years_lost(band.from, band.to, truth, band.share)
}

/// One look the learner chose, beside the best there was.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chosen {
    pub chosen: Look,
    pub best: Look,
}

/// Share of the information per second that could be had: the mean over the looks of
/// (bits a second chosen) / (bits a second of the best choice), 0 to 1. `None` without a look.
pub fn choice_of_looks(looks: &[Chosen]) -> Option<f64> {
    let share = |l: &Chosen| match l.best.bits_per_second() > 0.0 {
        true => (l.chosen.bits_per_second() / l.best.bits_per_second()).min(1.0),
        false => 1.0,
    };
    let sum: f64 = looks.iter().map(share).sum();
    (!looks.is_empty()).then(|| sum / looks.len() as f64)
}
