//! One account of a piece: what is known of it, and everything that follows.

use std::sync::{Arc, OnceLock};

use super::advice::Advice;
use super::expert::Expert;
use super::judgement::{self, Judgement, SHARE};
use crate::core::at_odds::{AtOdds, at_odds};
use crate::core::eras::{era, scaled};
use crate::core::explanation::{Explanation, explain};
use crate::core::grid::ClueId;
use crate::core::leaning::{Leaning, leanings};
use crate::core::left_out::{LeftOut, each_left_out};
use crate::core::model::Station;
use crate::core::observation::{Evidence, Observation};
use crate::core::posterior::Prior;
use crate::core::rarity::{self, Rarity};
use crate::core::sensitivity::{Turn, turning_points};
use crate::rulebase::ids::{Id, SettingId};

/// A piece as it stands: the setting, what was observed, and what follows from it.
///
/// A value, never changed: another finding gives another piece. So nothing that follows can be out
/// of step with the findings, going back is keeping the piece from before, and a clone is cheap.
/// What follows is worked out when it is first asked for, and then kept.
#[derive(Clone, Debug)]
pub struct Piece(Arc<Account>);

#[derive(Debug)]
struct Account {
    expert: Arc<Expert>,
    setting: SettingId,
    evidence: Evidence,
    judgement: OnceLock<Judgement>,
    alone: OnceLock<Piece>,
    rarity: OnceLock<Rarity>,
    rarity_of_its_kind: OnceLock<f64>,
    advice: OnceLock<Advice>,
    left_out: OnceLock<Vec<LeftOut>>,
    at_odds: OnceLock<Vec<AtOdds>>,
    explanation: OnceLock<Explanation>,
    turning_points: OnceLock<Vec<Turn>>,
    leanings: OnceLock<Vec<Leaning>>,
    eras: OnceLock<Vec<(Observation, Vec<f64>)>>,
}

impl Piece {
    /// A piece of which this is known. `setting` is an index into the rule base's list; one beyond
    /// it counts as the first.
    pub fn new(expert: Arc<Expert>, setting: SettingId, evidence: Evidence) -> Piece {
        let known = setting.index() < expert.base.settings.len();
        let setting = if known { setting } else { SettingId::default() };
        Piece(Arc::new(Account {
            expert,
            setting,
            evidence,
            judgement: OnceLock::new(),
            alone: OnceLock::new(),
            rarity: OnceLock::new(),
            rarity_of_its_kind: OnceLock::new(),
            advice: OnceLock::new(),
            left_out: OnceLock::new(),
            at_odds: OnceLock::new(),
            explanation: OnceLock::new(),
            turning_points: OnceLock::new(),
            leanings: OnceLock::new(),
            eras: OnceLock::new(),
        }))
    }

    /// A piece of which nothing has been seen.
    pub fn unseen(expert: Arc<Expert>, setting: SettingId) -> Piece {
        Piece::new(expert, setting, Evidence::new())
    }

    /// The rule base and engine.
    pub fn expert(&self) -> &Arc<Expert> {
        &self.0.expert
    }

    /// Index of the setting.
    pub fn setting(&self) -> SettingId {
        self.0.setting
    }

    /// What is known.
    pub fn evidence(&self) -> &Evidence {
        &self.0.evidence
    }

    /// The piece with one more observation, or another one of the same clue.
    pub fn with(&self, observation: Observation) -> Piece {
        self.with_all([observation])
    }

    /// The piece with these observations as well.
    pub fn with_all(&self, observations: impl IntoIterator<Item = Observation>) -> Piece {
        let mut evidence = self.evidence().clone();
        observations.into_iter().for_each(|o| evidence.add(o));
        self.of(self.setting(), evidence)
    }

    /// The piece as if nothing had been said of a clue.
    pub fn without(&self, clue: ClueId) -> Piece {
        let mut evidence = self.evidence().clone();
        evidence.forget(clue);
        self.of(self.setting(), evidence)
    }

    /// The piece found elsewhere.
    pub fn in_setting(&self, setting: SettingId) -> Piece {
        self.of(setting, self.evidence().clone())
    }

    /// A fresh piece in the same setting.
    pub fn cleared(&self) -> Piece {
        self.of(self.setting(), Evidence::new())
    }

    /// The same account when nothing is different, else a new one.
    fn of(&self, setting: SettingId, evidence: Evidence) -> Piece {
        if setting == self.setting() && evidence == *self.evidence() {
            return self.clone();
        }
        Piece::new(self.expert().clone(), setting, evidence)
    }

    /// True when the same is known of both, in the same setting.
    pub fn same_as(&self, other: &Piece) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
            || (self.setting() == other.setting() && self.evidence() == other.evidence())
    }

    /// The station the last look was made at.
    pub fn station(&self) -> Option<Station> {
        let last = self.evidence().observations().last()?;
        Some(self.expert().engine().model.clue(last.clue).station)
    }

    /// Kinds, places and years.
    pub fn judgement(&self) -> &Judgement {
        let work = || Judgement::new(self.expert(), self.setting(), self.evidence());
        self.0.judgement.get_or_init(work)
    }

    /// The same findings where every year counts alike.
    pub fn alone(&self) -> &Piece {
        let (expert, evidence) = (self.expert().clone(), self.evidence().clone());
        let neutral = expert.base.neutral();
        let work = || Piece::new(expert, neutral, evidence);
        self.0.alone.get_or_init(work)
    }

    /// How uncommon it is in its setting.
    pub fn rarity(&self) -> &Rarity {
        let after = &self.judgement().posterior;
        let work = || judgement::rarity(self.expert(), self.setting(), self.evidence(), after);
        self.0.rarity.get_or_init(work)
    }

    /// How uncommon it is among pieces of its kind and age, 0–100.
    pub fn rarity_of_its_kind(&self) -> f64 {
        let (expert, after) = (self.expert(), &self.judgement().posterior);
        let seen = judgement::traits(expert, self.evidence());
        let (grid, market) = (&expert.engine().model.grid, expert.market(self.setting()));
        let work = || rarity::of_its_kind(grid, market, after, &seen);
        *self.0.rarity_of_its_kind.get_or_init(work)
    }

    /// The looks that are left.
    pub fn advice(&self) -> &Advice {
        let after = &self.judgement().posterior;
        let work = || Advice::new(self.expert(), after, self.evidence(), self.station());
        self.0.advice.get_or_init(work)
    }

    /// Findings the others make very unlikely.
    pub fn at_odds(&self) -> &[AtOdds] {
        let model = &self.expert().engine().model;
        let work = || at_odds(model, self.prior(), self.evidence(), self.left_out());
        self.0.at_odds.get_or_init(work)
    }

    /// What each finding did.
    pub fn explanation(&self) -> &Explanation {
        let (model, prior) = (&self.expert().engine().model, self.prior());
        let work = || explain(model, prior, self.evidence(), self.left_out(), SHARE);
        self.0.explanation.get_or_init(work)
    }

    /// The fewest changes that would change the answer.
    pub fn turning_points(&self) -> &[Turn] {
        let judgement = self.judgement();
        let answer = (judgement.leading().0, judgement.band());
        let model = &self.expert().engine().model;
        let work = || turning_points(model, self.prior(), self.evidence(), answer);
        self.0.turning_points.get_or_init(work)
    }

    /// What each finding that speaks says of kinds and years, given all the others.
    pub fn leanings(&self) -> &[Leaning] {
        let model = &self.expert().engine().model;
        let work = || leanings(model, self.prior(), self.evidence());
        self.0.leanings.get_or_init(work)
    }

    /// Every finding that speaks, with its likelihood over the years by itself, the highest being 1.
    pub fn eras(&self) -> &[(Observation, Vec<f64>)] {
        let (model, evidence) = (&self.expert().engine().model, self.evidence());
        let of = |o: &Observation| {
            let heights = scaled(era(model, self.prior().cells(), o)?);
            Some((o.clone(), heights))
        };
        let speaking = || {
            let all = evidence.observations().iter();
            all.filter(|o| model.speaks(o, evidence))
                .filter_map(of)
                .collect()
        };
        self.0.eras.get_or_init(speaking)
    }

    fn prior(&self) -> &Prior {
        &self.expert().engine().priors[self.setting()]
    }

    fn left_out(&self) -> &[LeftOut] {
        let model = &self.expert().engine().model;
        let work = || each_left_out(model, self.prior(), self.evidence());
        self.0.left_out.get_or_init(work)
    }
}
