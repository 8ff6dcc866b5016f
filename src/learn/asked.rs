//! Ask the piece: the learner chooses where to look, sees what is there, and says what it is when
//! ready. Beside it stands what the engine would have looked at, and what it would have said.

use std::sync::Arc;

use super::hidden::{Eyes, Hidden, Shown};
use super::scoring::{Chosen, band_lost, choice_of_looks, points, years_lost};
use crate::core::grid::{ClueId, KindId, Year};
use crate::core::question::{Look, rank};
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::piece::judgement::SHARE;
use crate::rulebase::ids::SettingId;

/// A drill under way.
#[derive(Clone, Debug)]
pub struct Asking {
    hidden: Hidden,
    piece: Piece,
    looks: Vec<Chosen>,
}

/// What the learner says it is: a kind with the chance that it is right, and a run of years meant to
/// hold the year of making four times in five.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Guess {
    pub kind: KindId,
    /// 0 to 1.
    pub confidence: f64,
    pub years: Option<(Year, Year)>,
}

/// How the guess did, beside the engine's answer to the same findings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Result {
    pub right: bool,
    /// 0 to 100.
    pub points: f64,
    pub engine_points: f64,
    /// Years lost; `None` without years.
    pub years_lost: Option<f64>,
    pub engine_years_lost: f64,
    /// Share of the information per second that could be had; `None` without a look.
    pub looking: Option<f64>,
}

impl Asking {
    /// Draws a piece from a setting.
    pub fn new(expert: &Arc<Expert>, setting: SettingId, seed: u64) -> Option<Asking> {
        let engine = &expert.engine;
        let hidden = Hidden::draw(&engine.model, &engine.priors[setting], seed, Eyes::Perfect)?;
        Some(Asking {
            hidden,
            piece: Piece::unseen(expert.clone(), setting),
            looks: Vec::new(),
        })
    }

    /// What has been seen so far, and what follows from it.
    pub fn piece(&self) -> &Piece {
        &self.piece
    }

    /// The looks made.
    pub fn looks(&self) -> &[Chosen] {
        &self.looks
    }

    /// What it is in truth.
    pub fn truth(&self) -> &Hidden {
        &self.hidden
    }

    /// The looks that can be made now, the best by information per second first.
    pub fn choices(&self) -> Vec<Look> {
        let model = &self.piece.expert().engine.model;
        let (after, seen) = (&self.piece.judgement().posterior, self.piece.evidence());
        rank(model, after, seen, self.piece.station())
    }

    /// Looks there. `None` when the clue can't be looked at now, or has been.
    pub fn look(&mut self, clue: ClueId) -> Option<Shown> {
        let choices = self.choices();
        let chosen = *choices.iter().find(|l| l.clue == clue)?;
        let best = *choices.first()?;
        let model = &self.piece.expert().engine.model;
        let shown = self.hidden.look(model, self.piece.evidence(), clue);
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

    /// Scores a guess.
    pub fn result(&self, guess: &Guess) -> Result {
        let judgement = self.piece.judgement();
        let (kind, p) = judgement.leading();
        let truth = self.hidden.year;
        Result {
            right: guess.kind == self.hidden.kind,
            points: points(guess.confidence, guess.kind == self.hidden.kind),
            engine_points: points(p, kind == self.hidden.kind),
            years_lost: guess
                .years
                .map(|(from, to)| years_lost(from, to, truth, SHARE)),
            engine_years_lost: band_lost(&judgement.band(), truth),
            looking: choice_of_looks(&self.looks),
        }
    }
}
