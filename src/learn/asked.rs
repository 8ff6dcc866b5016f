//! Ask the piece: the learner chooses where to look, sees what is there, and says what it is when
//! ready. Beside it stands what the engine would have looked at, and what it would have said.

use std::sync::Arc;

use super::hidden::{Eyes, Hidden, Shown};
use super::learner::Learner;
use super::recorded::{Recorded, Truth};
use super::scoring::{Chosen, band_lost, choice_of_looks, points, years_lost};
use crate::core::grid::{ClueId, KindId, Year};
use crate::core::question::{Look, rank};
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::piece::judgement::SHARE;
use crate::rulebase::ids::SettingId;

/// Where the piece comes from.
#[derive(Clone, Debug)]
enum Source {
    Drawn(Hidden),
    Recorded(Recorded),
}

/// A drill under way.
#[derive(Clone, Debug)]
pub struct Asking {
    source: Source,
    piece: Piece,
    looks: Vec<Chosen>,
}

/// What the learner says it is: a kind with the chance that it is right, and a run of years meant to
/// hold the year of making four times in five.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Guess {
    pub kind: KindId,
    /// How sure, 0 to 100.
    pub percent: u8,
    pub years: Option<(Year, Year)>,
}

impl Guess {
    /// How sure, 0 to 1.
    pub fn confidence(&self) -> f64 {
        f64::from(self.percent) / 100.0
    }
}

/// How the guess did, beside the engine's answer to the same findings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Result {
    /// `None` where nobody knows the kind.
    pub right: Option<bool>,
    /// 0 to 100: of the guess, and of the engine.
    pub points: Option<(f64, f64)>,
    /// Years lost by the guess; `None` without years, or where nobody knows when it was made.
    pub years_lost: Option<f64>,
    pub engine_years_lost: Option<f64>,
    /// Share of the information per second that could be had; `None` without a look.
    pub looking: Option<f64>,
}

impl Asking {
    /// Draws a piece from a setting.
    pub fn new(expert: &Arc<Expert>, setting: SettingId, seed: u64) -> Option<Asking> {
        let engine = expert.engine();
        let hidden = Hidden::draw(&engine.model, &engine.priors[setting], seed, Eyes::Perfect)?;
        Some(Asking {
            source: Source::Drawn(hidden),
            piece: Piece::unseen(expert.clone(), setting),
            looks: Vec::new(),
        })
    }

    /// Of a piece somebody has written down: what is not recorded can't be looked at.
    pub fn of(expert: &Arc<Expert>, setting: SettingId, recorded: Recorded) -> Asking {
        Asking {
            source: Source::Recorded(recorded),
            piece: Piece::unseen(expert.clone(), setting),
            looks: Vec::new(),
        }
    }

    /// What has been seen so far, and what follows from it.
    pub fn piece(&self) -> &Piece {
        &self.piece
    }

    /// The looks made.
    pub fn looks(&self) -> &[Chosen] {
        &self.looks
    }

    /// What it is in truth, as far as that is known.
    pub fn truth(&self) -> Truth {
        match &self.source {
            Source::Drawn(hidden) => Truth {
                kind: Some(hidden.kind),
                place: Some(hidden.place),
                years: Some((hidden.year, hidden.year)),
            },
            Source::Recorded(recorded) => recorded.truth,
        }
    }

    /// What was written down of it, where it was not drawn.
    pub fn recorded(&self) -> Option<&Recorded> {
        match &self.source {
            Source::Drawn(_) => None,
            Source::Recorded(recorded) => Some(recorded),
        }
    }

    /// The piece with all that was written down of it; else with what has been seen.
    pub fn whole(&self) -> Piece {
        match self.recorded() {
            Some(recorded) => {
                let all = recorded.seen.observations().iter().cloned();
                self.piece.cleared().with_all(all)
            }
            None => self.piece.clone(),
        }
    }

    /// The looks that can be made now, the best by information per second first.
    pub fn choices(&self) -> Vec<Look> {
        let model = &self.piece.expert().engine().model;
        let (after, seen) = (&self.piece.judgement().posterior, self.piece.evidence());
        let mut looks = rank(model, after, seen, self.piece.station());
        if let Some(recorded) = self.recorded() {
            looks.retain(|look| recorded.seen.of(look.clue).is_some());
        }
        looks
    }

    /// Looks there. `None` when the clue can't be looked at now, or has been.
    pub fn look(&mut self, clue: ClueId) -> Option<Shown> {
        let choices = self.choices();
        let chosen = *choices.iter().find(|l| l.clue == clue)?;
        let best = *choices.first()?;
        let model = &self.piece.expert().engine().model;
        let shown = match &self.source {
            Source::Drawn(hidden) => hidden.look(model, self.piece.evidence(), clue),
            Source::Recorded(recorded) => {
                let seen = recorded.seen.of(clue).cloned();
                seen.map_or(Shown::Nothing, Shown::Seen)
            }
        };
        // What bears no year is not asked for one again.
        self.piece = self.piece.with(match &shown {
            Shown::Seen(observation) => observation.clone(),
            Shown::Nothing | Shown::NotAsked => {
                crate::core::observation::Observation::cant_tell(clue)
            }
        });
        self.looks.push(Chosen { chosen, best });
        Some(shown)
    }

    /// Takes the guess into the learner's record.
    pub fn keep(&self, guess: &Guess, learner: &mut Learner) {
        let Some(kind) = self.truth().kind else {
            return;
        };
        let kinds = &self.piece.expert().base.kinds;
        let [was, said] = [kind, guess.kind].map(|k| kinds[k].id.as_str());
        learner.named("kind", was, said);
        learner.stated(Some(guess.percent), guess.kind == kind);
    }

    /// Scores a guess.
    pub fn result(&self, guess: &Guess) -> Result {
        let judgement = self.piece.judgement();
        let (kind, p) = judgement.leading();
        let truth = self.truth();
        let band = judgement.band();
        Result {
            right: truth.kind.map(|k| guess.kind == k),
            points: truth.kind.map(|k| {
                let own = points(guess.confidence(), guess.kind == k);
                (own, points(p, kind == k))
            }),
            years_lost: guess
                .years
                .and_then(|(from, to)| Some(years_lost(from, to, truth.year_near(from)?, SHARE))),
            engine_years_lost: truth
                .year_near(band.from)
                .map(|year| band_lost(&band, year)),
            looking: choice_of_looks(&self.looks),
        }
    }
}
