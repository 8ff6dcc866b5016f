//! Which look to make next, and when enough is seen.
//!
//! Looks are ranked by worth per second; what each is worth is worked out in `told`. A clue whose family
//! has already been answered m times counts only with λ = (m + 1)^(−δ), as its finding will; λ ≤ 1 keeps
//! 0 ≤ information ≤ H(A).

use super::grid::{ClueId, Grid};
use super::model::{ClueModel, Gate, Model, Station};
use super::observation::{Evidence, Observed};
use super::posterior::Posterior;
use super::told::{present, told};

/// Seconds to turn the piece over, take out the loupe, hold it to the light
/// (common practice, no source).
const MOVE_SECONDS: f64 = 6.0;

/// Part of a move that will be made again because of it: half of all moves are there and back
/// (common practice, no source). Ranking counts it; the seconds of a look don't.
const WAY_BACK: f64 = 0.5;

/// From these odds of the leading kind against the next one a picker acts on it: right four times in
/// five when there are two to choose from (common practice, no source).
pub const ENOUGH_ODDS: f64 = 4.0;

/// A look is worth while that is expected to make the answer right more often by 1 in 100 for every
/// seven seconds it takes, the mean of the shipped clues (common practice, no source). Of 400 drawn
/// pieces nine in ten are then done within two minutes, what somebody at a shelf has:
/// `tests/it/stopping.rs`.
pub const LEAST_GAIN: f64 = 0.01;
pub const GAIN_SECONDS: f64 = 7.0;

/// One possible next look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    pub clue: ClueId,
    /// Expected information about (kind, decade).
    pub bits: f64,
    /// Expected gain in the chance of naming kind and years right, see `told::Told::gain`.
    pub gain: f64,
    /// Seconds the look takes, change of station included.
    pub seconds: f64,
    /// What the ranking goes by: worth per second, with part of the way back.
    pub rate: f64,
}

impl Look {
    /// A look that is not ranked.
    pub fn unranked(clue: ClueId, bits: f64, seconds: f64) -> Look {
        Look {
            clue,
            bits,
            gain: 0.0,
            seconds,
            rate: 0.0,
        }
    }

    /// Information per second.
    pub fn bits_per_second(&self) -> f64 {
        self.bits / self.seconds
    }
}

/// Why no more looks are worth it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StopReason {
    /// Every clue that can be asked has been.
    AllAsked,
    /// The best look left is worth fewer bits than asked for.
    LittleLeft { best: f64, least: f64 },
    /// The leading kind stands at these odds or more against the next one, and no look left is
    /// expected to make the answer right more often by `least` in `seconds`.
    Decided { odds: f64, least: f64, seconds: f64 },
    /// Nor is it then, but the leading kind is not clear: it hangs between what leads.
    Undecided { least: f64, seconds: f64 },
}

/// All clues that can still be asked, the most worth per second first (lower id on a tie). Mute
/// clues tell nothing of kind or year and are left out.
///
/// `at` is the station the piece is held at now.
pub fn rank(
    model: &Model,
    posterior: &Posterior,
    evidence: &Evidence,
    at: Option<Station>,
) -> Vec<Look> {
    let left: Vec<ClueId> = model
        .clue_ids()
        .filter(|&id| evidence.of(id).is_none() && model.gate(id, evidence) == Gate::Open)
        .filter(|&id| !follows_cant_tell(model.clue(id), evidence))
        .filter(|&id| !model.clue(id).is_mute())
        .collect();
    if left.is_empty() {
        return Vec::new();
    }
    let present = present(&model.grid, posterior);
    let look = |id| {
        let clue = model.clue(id);
        let told = told(&present, &clue.table);
        let counts =
            clue.present * model.damping(clue.family, answered_kin(model, clue, evidence) + 1);
        let seconds = seconds(clue, at);
        let back = WAY_BACK * move_seconds(clue, at);
        Look {
            clue: id,
            bits: counts * told.bits,
            gain: counts * told.gain,
            seconds,
            rate: counts * told.worth / (seconds + back),
        }
    };
    let mut looks: Vec<Look> = left.into_iter().map(look).collect();
    looks.sort_by(|a, b| b.rate.total_cmp(&a.rate).then(a.clue.cmp(&b.clue)));
    looks
}

/// Why to stop, if it is time to: no look is worth its time, or the best is worth less than `least`
/// bits.
///
/// A single look may change nothing although two together would: who hangs between two kinds can go
/// on, and is told so.
pub fn stop(looks: &[Look], odds: f64, least: f64) -> Option<StopReason> {
    let best = |of: fn(&Look) -> f64| looks.iter().map(of).fold(0.0, f64::max);
    let bits = best(|look| look.bits);
    if looks.is_empty() {
        Some(StopReason::AllAsked)
    } else if bits < least {
        Some(StopReason::LittleLeft { best: bits, least })
    } else if best(|look| look.gain / look.seconds) >= LEAST_GAIN / GAIN_SECONDS {
        None
    } else if odds >= ENOUGH_ODDS {
        Some(StopReason::Decided {
            odds: ENOUGH_ODDS,
            least: LEAST_GAIN,
            seconds: GAIN_SECONDS,
        })
    } else {
        Some(StopReason::Undecided {
            least: LEAST_GAIN,
            seconds: GAIN_SECONDS,
        })
    }
}

/// Odds of the leading kind against the next one; infinite when there is no other.
pub fn lead(grid: &Grid, posterior: &Posterior) -> f64 {
    let mut kinds = posterior.kinds(grid);
    kinds.sort_by(|a, b| b.total_cmp(a));
    kinds.first().unwrap_or(&0.0) / kinds.get(1).unwrap_or(&0.0)
}

/// Seconds a look takes, with the move from the station the piece is held at.
pub fn seconds(clue: &ClueModel, at: Option<Station>) -> f64 {
    clue.seconds + move_seconds(clue, at)
}

fn move_seconds(clue: &ClueModel, at: Option<Station>) -> f64 {
    match at.is_some_and(|s| s != clue.station) {
        true => MOVE_SECONDS,
        false => 0.0,
    }
}

/// True when a clue goes on from a look that could not tell: it could tell even less.
pub fn follows_cant_tell(clue: &ClueModel, evidence: &Evidence) -> bool {
    let unseen = |clue| {
        evidence
            .of(clue)
            .is_some_and(|o| o.seen == Observed::CantTell)
    };
    clue.gate.iter().any(|clause| unseen(clause.clue))
}

/// Members of the clue's family that count in the posterior: those behind a closed gate don't.
fn answered_kin(model: &Model, clue: &ClueModel, evidence: &Evidence) -> usize {
    if clue.family.is_none() {
        return 0;
    }
    evidence
        .observations()
        .iter()
        .filter(|e| model.speaks(e, evidence) && model.clue(e.clue).family == clue.family)
        .count()
}
