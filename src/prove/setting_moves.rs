//! How far the answer hangs on where a piece is said to have been found.

use super::cases::Known;
use super::measures::median;
use super::ordered::{self, Progress};
use crate::core::interval::quantile;
use crate::core::posterior::posterior;
use crate::piece::expert::Expert;
use crate::rulebase::ids::{Id, SettingId};

/// A piece with so many findings that speak is well described (design figure; common practice, no
/// source).
pub const WELL_DESCRIBED: usize = 10;

/// Years by which the middle year moves from one setting to another.
#[derive(Clone, Debug, PartialEq)]
pub struct SettingMoves {
    /// Well-described pieces.
    pub pieces: usize,
    /// Median over them for each two kinds of place.
    pub pairs: Vec<(SettingId, SettingId, Option<f64>)>,
    /// Median over all pieces and pairs.
    pub median: Option<f64>,
}

/// Judges every well-described piece in every kind of place but the neutral one.
pub fn setting_moves(expert: &Expert, cases: &[Known], progress: Progress) -> SettingMoves {
    let (base, model) = (&expert.base, &expert.engine().model);
    let places: Vec<SettingId> = (0..base.kinds_of_place().len())
        .filter_map(SettingId::at)
        .filter(|s| !base.settings[*s].neutral)
        .collect();
    let speaking = |case: &Known| {
        let all = case.evidence.observations().iter();
        all.filter(|o| model.speaks(o, &case.evidence)).count()
    };
    let well: Vec<&Known> = cases
        .iter()
        .filter(|c| speaking(c) >= WELL_DESCRIBED)
        .collect();
    let middles: Vec<Vec<f64>> = ordered::map(&well, "moving", progress, |case| {
        let middle = |setting: &SettingId| {
            let after = posterior(model, &expert.engine().priors[*setting], &case.evidence);
            let year = quantile(&after.years(&model.grid), &model.grid, 0.5);
            f64::from(year.0)
        };
        places.iter().map(middle).collect()
    });
    let (mut pairs, mut all) = (Vec::new(), Vec::new());
    for (i, a) in places.iter().enumerate() {
        for (j, b) in places.iter().enumerate().skip(i + 1) {
            let moved: Vec<f64> = middles.iter().map(|m| (m[i] - m[j]).abs()).collect();
            pairs.push((*a, *b, median(&moved)));
            all.extend(moved);
        }
    }
    SettingMoves {
        pieces: well.len(),
        pairs,
        median: median(&all),
    }
}
