//! What the piece is taken to be: all that judging many pieces needs, and nothing that only a
//! person who asks on wants to know.

use super::expert::Expert;
use crate::core::grid::{KindId, PlaceId, Year};
use crate::core::interval::{Band, quantile};
use crate::core::observation::{Evidence, Observed};
use crate::core::posterior::{Posterior, posterior};
use crate::core::rarity::{Rarity, rarity};
use crate::rulebase::ids::{Id, SettingId};

/// Share of the band shown unless asked otherwise.
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
    pub rarity: Rarity,
    pub posterior: Posterior,
}

impl Judgement {
    /// Works the judgement out.
    pub fn new(expert: &Expert, setting: SettingId, evidence: &Evidence) -> Judgement {
        let model = &expert.engine.model;
        let grid = &model.grid;
        let after = posterior(model, &expert.engine.priors[setting], evidence);
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
            rarity: score(expert, setting, evidence, &after),
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

fn score(expert: &Expert, setting: SettingId, evidence: &Evidence, after: &Posterior) -> Rarity {
    let engine = &expert.engine;
    let features = expert.base.market.iter();
    let seen: Vec<Option<usize>> = features
        .map(|feature| match &evidence.of(feature.clue)?.seen {
            Observed::Finding(f) => Some(usize::from(f.0)),
            Observed::Year(_) | Observed::Soft(_) | Observed::CantTell => None,
        })
        .collect();
    let market = &engine.shelves[setting.index()];
    rarity(&engine.model.grid, market, after, &engine.market, &seen)
}
