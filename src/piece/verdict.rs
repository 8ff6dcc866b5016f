//! Everything the engine answers about one set of findings.

use std::sync::{Arc, LazyLock};

use super::expert::Expert;
use crate::core::explanation::{Explanation, explain};
use crate::core::grid::{Grid, KindId, PlaceId, Year};
use crate::core::interval::{Band, quantile};
use crate::core::model::Station;
use crate::core::observation::{Evidence, Observed};
use crate::core::posterior::{Posterior, posterior};
use crate::core::question::{Look, StopReason, rank, stop};
use crate::core::rarity::{Rarity, rarity};
use crate::core::sensitivity::{Turn, turning_points};
use crate::rulebase::ids::SettingId;

/// Share of the band shown unless asked otherwise.
pub const SHARE: f64 = 0.8;

/// A look worth fewer bits than this about (kind, decade) is not proposed
/// (common practice, no source).
pub const LEAST_BITS: f64 = 0.05;

/// The account of reasons, worked out when first looked at: a key press needs only the verdict
/// and the next question.
pub type Account = Arc<LazyLock<Explanation, Box<dyn FnOnce() -> Explanation + Send>>>;

/// The verdict. All probabilities are 0..=1.
#[derive(Clone, Debug)]
pub struct Verdict {
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
    pub explanation: Account,
    /// Looks left, the most bits per second first.
    pub looks: Vec<Look>,
    pub stop: Option<StopReason>,
    pub posterior: Posterior,
}

impl Verdict {
    /// Works out the verdict. `at` = the station the piece is held at.
    pub fn new(
        expert: &Arc<Expert>,
        setting: SettingId,
        evidence: &Evidence,
        at: Option<Station>,
    ) -> Verdict {
        let model = &expert.engine.model;
        let prior = &expert.engine.priors[setting];
        let grid = &model.grid;
        let after = posterior(model, prior, evidence);
        let years = after.years(grid);
        let looks = rank(model, &after, evidence, at);
        Verdict {
            kinds: ranked(after.kinds(grid))
                .map(|(i, p)| (KindId(i), p))
                .collect(),
            places: ranked(after.places(grid))
                .map(|(i, p)| (PlaceId(i), p))
                .collect(),
            bands: Band::nested(&years, grid, SHARE, [0.5, SHARE, 0.95]),
            median: quantile(&years, grid, 0.5),
            rarity: score(expert, setting, evidence, &after),
            explanation: account(expert.clone(), setting, evidence.clone()),
            stop: stop(&looks, LEAST_BITS),
            looks,
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

    /// The next look, unless it is time to stop.
    pub fn next(&self) -> Option<Look> {
        self.looks.first().copied().filter(|_| self.stop.is_none())
    }

    /// The fewest changes that would change the answer. Slower than the rest: worked out when asked.
    pub fn turning_points(
        &self,
        expert: &Expert,
        setting: SettingId,
        evidence: &Evidence,
    ) -> Vec<Turn> {
        let model = &expert.engine.model;
        turning_points(model, &expert.engine.priors[setting], evidence, self.band())
    }

    /// Probability of the years `from..=to`.
    pub fn mass(&self, grid: &Grid, from: Year, to: Year) -> f64 {
        crate::core::interval::mass(&self.years, grid, from, to)
    }
}

fn account(expert: Arc<Expert>, setting: SettingId, evidence: Evidence) -> Account {
    Arc::new(LazyLock::new(Box::new(move || {
        let prior = &expert.engine.priors[setting];
        explain(&expert.engine.model, prior, &evidence, SHARE)
    })))
}

fn ranked(p: Vec<f64>) -> impl Iterator<Item = (u8, f64)> {
    let mut all: Vec<(u8, f64)> = p
        .into_iter()
        .enumerate()
        .map(|(i, p)| (i as u8, p))
        .collect();
    all.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    all.into_iter()
}

fn score(expert: &Expert, setting: SettingId, evidence: &Evidence, after: &Posterior) -> Rarity {
    let model = &expert.engine.model;
    let market = posterior(model, &expert.engine.priors[setting], &Evidence::new());
    let seen: Vec<Option<usize>> = expert
        .base
        .market
        .iter()
        .map(|feature| match evidence.of(feature.clue)?.seen {
            Observed::Finding(f) => Some(usize::from(f.0)),
            Observed::Year(_) | Observed::CantTell => None,
        })
        .collect();
    rarity(&model.grid, &market, after, &expert.engine.market, &seen)
}
