//! Pieces judged one after another: what a table says of each, and nothing that nobody asked for.
//!
//! The same answers as a `Piece` gives; that one is for whoever asks on.

use std::sync::OnceLock;

use super::expert::Expert;
use super::judgement::{SHARE, traits};
use crate::core::bulk::{Ground, Scratch};
use crate::core::grid::{ClueId, KindId, Year};
use crate::core::interval::{Band, quantile};
use crate::core::observation::Evidence;
use crate::core::posterior::leading;
use crate::core::rarity;
use crate::rulebase::ids::{Id, SettingId};

/// What a table says of a piece. Probabilities are 0..=1.
#[derive(Clone, Debug, PartialEq)]
pub struct Brief {
    /// The leading kind and its probability.
    pub kind: (KindId, f64),
    /// The band of the usual share.
    pub band: Band,
    pub median: Year,
    /// 0-100, as `Rarity::score`.
    pub rarity: f64,
    /// Clues whose finding the others make very unlikely, in the order given.
    pub unlikely: Vec<ClueId>,
    /// P(year), by year offset.
    pub years: Vec<f64>,
}

/// Writes briefs. Each setting is made ready when first met.
#[derive(Debug)]
pub struct Briefs<'e> {
    expert: &'e Expert,
    grounds: Vec<OnceLock<Ground<'e>>>,
}

impl<'e> Briefs<'e> {
    /// With this rule base.
    pub fn new(expert: &'e Expert) -> Briefs<'e> {
        Briefs {
            expert,
            grounds: (0..expert.base.settings.len())
                .map(|_| OnceLock::new())
                .collect(),
        }
    }

    /// The brief of one piece. `setting` is one of the rule base's.
    pub fn of(&self, setting: SettingId, evidence: &Evidence, scratch: &mut Scratch) -> Brief {
        let engine = self.expert.engine();
        let ground = || Ground::new(&engine.model, &engine.priors[setting]);
        let ground = self.grounds[setting.index()].get_or_init(ground);
        let outline = ground.outline(evidence, scratch);
        let (grid, seen) = (&engine.model.grid, traits(self.expert, evidence));
        Brief {
            kind: leading(&outline.kinds),
            band: Band::shortest(&outline.years, grid, SHARE),
            median: quantile(&outline.years, grid, 0.5),
            rarity: rarity::score(self.expert.market(setting), outline.kind_ages, &seen),
            unlikely: outline.unlikely,
            years: outline.years,
        }
    }
}
