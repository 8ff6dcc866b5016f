//! What the piece is taken to be: all that judging many pieces needs, and nothing that only a
//! person who asks on wants to know.

use super::expert::Expert;
use crate::core::grid::{KindId, PlaceId, Year};
use crate::core::interval::{Band, quantile};
use crate::core::observation::{Evidence, Observed};
use crate::core::posterior::{Posterior, posterior};
use crate::core::rarity::{self, Rarity, Seen};
use crate::rulebase::ids::SettingId;

/// Share of the band shown unless asked otherwise (common practice, no source).
pub const SHARE: f64 = 0.8;

/// All probabilities are 0..=1.
#[derive(Clone, Debug)]
pub struct Judgement {
    /// Every kind with its probability, the likeliest first.
    pub kinds: Vec<(KindId, f64)>,
    /// Every place, the likeliest first.
    pub places: Vec<(PlaceId, f64)>,
    /// P(year), by year offset.
    pub years: Vec<f64>,
    /// Bands at 50, 80 and 95 %, each inside the next: the 80 % one is the shortest run.
    pub bands: [Band; 3],
    pub median: Year,
    pub posterior: Posterior,
}

impl Judgement {
    /// Works the judgement out.
    pub fn new(expert: &Expert, setting: SettingId, evidence: &Evidence) -> Judgement {
        let model = &expert.engine().model;
        let grid = &model.grid;
        let after = posterior(model, &expert.engine().priors[setting], evidence);
        let years = after.years(grid);
        Judgement {
            kinds: ranked(after.kinds(grid))
                .map(|(i, p)| (KindId(i), p))
                .collect(),
            places: ranked(after.places(grid))
                .map(|(i, p)| (PlaceId(i), p))
                .collect(),
            bands: Band::nested(&years, grid, SHARE, [0.5, SHARE, 0.95]),
            median: quantile(&years, grid, 0.5),
            years,
            posterior: after,
        }
    }

    /// The band of the usual share.
    pub fn band(&self) -> Band {
        self.bands[1]
    }

    /// The leading kind and its probability.
    pub fn leading(&self) -> (KindId, f64) {
        self.kinds[0]
    }
}

/// The most probable first; the lower id on a tie.
fn ranked(p: Vec<f64>) -> impl Iterator<Item = (u8, f64)> {
    let mut all: Vec<(u8, f64)> = (0..=u8::MAX).zip(p).collect();
    all.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    all.into_iter()
}

/// How uncommon the piece is in a setting.
pub fn rarity(expert: &Expert, setting: SettingId, seen: &Evidence, after: &Posterior) -> Rarity {
    let market = expert.market(setting);
    rarity::rarity(
        &expert.engine().model.grid,
        market,
        after,
        &traits(expert, seen),
    )
}

/// What was seen of the traits that the market is told by.
pub fn traits(expert: &Expert, evidence: &Evidence) -> Vec<Seen> {
    let of = |clue| match evidence.of(clue).map(|o| &o.seen) {
        Some(Observed::Finding(f)) => vec![(usize::from(f.0), 1.0)],
        Some(Observed::Soft(weights)) => {
            let all = weights.by_finding().iter().copied().enumerate();
            all.filter(|(_, w)| *w > 0.0).collect()
        }
        Some(Observed::Year(_) | Observed::CantTell) | None => Seen::new(),
    };
    expert.base.market.iter().map(|m| of(m.clue)).collect()
}
