//! The cheap look that is worth more than it costs.
//!
//! Buying brings what the most to pay exceeds the asking price by, leaving brings nothing. A look is
//! worth what it adds to the better of the two: Σ P(f)·max(0, gain given f) − max(0, Σ P(f)·gain given f),
//! never negative. It costs the seconds it takes, at what an hour is worth.
//!
//! A finding changes what kind and age the piece may be, and what it says itself of form, size, colour or
//! condition. What may be expected of the other traits stays as it is: it hangs on kind and age too, but by far
//! less than the price does.

use super::appearance::{Appearance, Outset};
use super::condition;
use super::price_model::PriceModel;
use super::terms::Terms;
use crate::core::foreseen::Foreseen;
use crate::core::grid::{ClueId, FindingId};
use crate::core::model::Gate;
use crate::core::observation::{Observation, Sure};
use crate::core::posterior::Inference;
use crate::core::question::seconds;
use crate::piece::Piece;
use crate::rulebase::prices::PriceGuesses;

/// Looks at kind and age that are tried, the most bits a second first; more would take long and
/// tell little (common practice, no source).
const KIND_LOOKS: usize = 8;

/// Findings less likely than this are passed over (common practice, no source).
const LEAST_CHANCE: f64 = 1e-3;

/// What a look must bring beyond its cost, as a share of what is asked: nobody at a shelf turns a plate over
/// once more for pennies (common practice, no source).
const LEAST_GAIN: f64 = 0.01;

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

/// The look that brings most beyond its cost, if any brings enough to be worth saying.
pub(super) fn best(
    piece: &Piece,
    guesses: &PriceGuesses,
    terms: &Terms,
    model: &PriceModel,
    outset: &Outset,
    asking: f64,
) -> Option<PricedLook> {
    let engine = piece.expert().engine();
    let prior = &engine.priors[piece.setting()];
    let known = Known {
        piece,
        weighed: Inference::new(&engine.model, prior, piece.evidence()),
        guesses,
        terms,
        model,
        outset,
        asking,
    };
    let mut best: Option<PricedLook> = None;
    for clue in candidates(piece, guesses) {
        let seconds = seconds(engine.model.clue(clue), piece.station());
        if seconds > guesses.longest_look {
            continue;
        }
        let look = PricedLook {
            clue,
            seconds,
            worth: known.worth(clue),
            cost: seconds / HOUR * terms.hour,
        };
        let gain = |l: &PricedLook| l.worth - l.cost;
        if gain(&look) > best.as_ref().map_or(LEAST_GAIN * asking, gain) {
            best = Some(look);
        }
    }
    best
}

/// Clues not looked at that bear on the price: those of condition, those priced by themselves, and
/// the best at kind and age.
fn candidates(piece: &Piece, guesses: &PriceGuesses) -> Vec<ClueId> {
    let expert = piece.expert();
    let model = &expert.engine().model;
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

/// A piece before another look.
struct Known<'k> {
    piece: &'k Piece,
    weighed: Inference<'k>,
    guesses: &'k PriceGuesses,
    terms: &'k Terms,
    model: &'k PriceModel,
    outset: &'k Outset<'k>,
    asking: f64,
}

impl Known<'_> {
    /// Expected value of a look, in major units.
    fn worth(&self, clue: ClueId) -> f64 {
        let (piece, outset) = (self.piece, self.outset);
        let engine = piece.expert().engine();
        let foreseen = (!engine.model.clue(clue).is_mute())
            .then(|| Foreseen::new(&self.weighed, (clue, Sure::Sure), outset.spans.bins()));
        let (mut bought, mut looked) = (0.0, 0.0);
        for (finding, p) in (0..).map(FindingId).zip(outset.expected.of(clue)) {
            if *p < LEAST_CHANCE {
                continue;
            }
            let then = foreseen
                .as_ref()
                .map(|f| outset.spans.parts(&f.after(finding)));
            let parts = then.as_ref().unwrap_or(&outset.parts);
            let mut evidence = piece.evidence().clone();
            evidence.add(Observation::finding(clue, finding));
            let then = Appearance::known(self.guesses, &evidence, &outset.expected, parts);
            let most = best_channel(&then, self.terms, self.model);
            let gain = most.map_or(f64::NEG_INFINITY, |(_, m)| m) - self.asking;
            bought += p * gain;
            looked += p * gain.max(0.0);
        }
        (looked - bought.max(0.0)).max(0.0)
    }
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
