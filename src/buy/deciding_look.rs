//! The cheap look that is worth more than it costs.
//!
//! Buying brings what the most to pay exceeds the asking price by, leaving brings nothing. A look is
//! worth what it adds to the better of the two: Σ P(f)·max(0, gain given f) − max(0, Σ P(f)·gain given f),
//! never negative. It costs the seconds it takes, at what an hour is worth.

use super::appearance::Appearance;
use super::condition;
use super::price_model::PriceModel;
use super::terms::Terms;
use crate::core::grid::{ClueId, FindingId};
use crate::core::model::Gate;
use crate::core::observation::{Observation, Sure};
use crate::core::posterior::posterior;
use crate::core::question::seconds;
use crate::piece::Piece;
use crate::rulebase::prices::PriceGuesses;

/// Looks at kind and age that are tried, the most bits a second first; more would take long and
/// tell little (common practice, no source).
const KIND_LOOKS: usize = 8;

/// Findings less likely than this are passed over (common practice, no source).
const LEAST_CHANCE: f64 = 1e-3;

/// Seconds of an hour.
const HOUR: f64 = 3600.0;

/// A look in money, in major units of the terms' currency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct PricedLook {
    pub clue: ClueId,
    pub seconds: f64,
    pub worth: f64,
    pub cost: f64,
}

/// The look that brings most beyond its cost, if any brings more than that.
pub(super) fn best(
    piece: &Piece,
    guesses: &PriceGuesses,
    terms: &Terms,
    model: &PriceModel,
    asking: f64,
) -> Option<PricedLook> {
    let mut best: Option<PricedLook> = None;
    for clue in candidates(piece, guesses) {
        let engine = &piece.expert().engine.model;
        let seconds = seconds(engine.clue(clue), piece.station());
        if seconds > guesses.longest_look {
            continue;
        }
        let look = PricedLook {
            clue,
            seconds,
            worth: worth(piece, guesses, terms, model, asking, clue),
            cost: seconds / HOUR * terms.hour,
        };
        let gain = |l: &PricedLook| l.worth - l.cost;
        if gain(&look) > best.as_ref().map_or(0.0, gain) {
            best = Some(look);
        }
    }
    best
}

/// Clues not looked at that bear on the price: those of condition, those priced by themselves, and
/// the best at kind and age.
fn candidates(piece: &Piece, guesses: &PriceGuesses) -> Vec<ClueId> {
    let expert = piece.expert();
    let model = &expert.engine.model;
    let told = |clue: ClueId| {
        guesses
            .traits
            .iter()
            .any(|t| t.clue == clue && t.unsaid.is_some())
    };
    let priced = guesses.traits.iter().map(|t| t.clue);
    let looks = piece.advice().looks.iter().take(KIND_LOOKS).map(|l| l.clue);
    let mut out: Vec<ClueId> = Vec::new();
    for clue in condition::clues(guesses)
        .into_iter()
        .chain(priced)
        .chain(looks)
    {
        let open = model.gate(clue, piece.evidence()) == Gate::Open;
        let unseen = piece.evidence().of(clue).is_none();
        let listed = expert.base.clue(clue).dated.is_none();
        if open && unseen && listed && !told(clue) && !out.contains(&clue) {
            out.push(clue);
        }
    }
    out
}

/// Expected value of a look, in major units.
fn worth(
    piece: &Piece,
    guesses: &PriceGuesses,
    terms: &Terms,
    model: &PriceModel,
    asking: f64,
    clue: ClueId,
) -> f64 {
    let expert = piece.expert();
    let engine = &expert.engine.model;
    let mute = engine.clue(clue).is_mute();
    let table = &engine.clue(clue).table;
    let now = piece.judgement().posterior.cells();
    let mut chances = table.predictive(&engine.grid, now, Sure::Sure);
    let total: f64 = chances.iter().sum();
    chances.iter_mut().for_each(|p| *p /= total);
    let (mut bought, mut looked) = (0.0, 0.0);
    for (finding, p) in (0..).map(FindingId).zip(chances) {
        if p < LEAST_CHANCE {
            continue;
        }
        let mut evidence = piece.evidence().clone();
        evidence.add(Observation::finding(clue, finding));
        let then =
            (!mute).then(|| posterior(engine, &expert.engine.priors[piece.setting()], &evidence));
        let cells = then.as_ref().map_or(now, |p| p.cells());
        let appearance = Appearance::known(expert, guesses, &evidence, cells);
        let most = best_channel(&appearance, terms, model).map_or(f64::NEG_INFINITY, |(_, m)| m);
        let gain = most - asking;
        bought += p * gain;
        looked += p * gain.max(0.0);
    }
    (looked - bought.max(0.0)).max(0.0)
}

/// The channel in which most can be paid, and how much in major units; may be negative. The first
/// wins a tie.
pub(super) fn best_channel(
    piece: &Appearance,
    terms: &Terms,
    model: &PriceModel,
) -> Option<(usize, f64)> {
    let mut best: Option<(usize, f64)> = None;
    for (i, channel) in terms.channels.iter().enumerate() {
        let most = model.outlook(piece, i).most_to_pay(channel);
        if best.is_none_or(|(_, b)| most > b) {
            best = Some((i, most));
        }
    }
    best
}
