//! A claim against the findings.
//!
//! A claim is a set of cells: its kinds × its years. These decide (`standing` has the limits):
//! * p = P(claim | findings);
//! * share = how probable its best part is, against the best of the same make;
//! * the odds of its dates to those of a wrong ticket;
//! * weight = how well the findings support its best part, in decibans: what they alone say, so that
//!   nothing is ruled out for merely being rare.
//!
//! A claim is weighed in the neutral setting, each year alike, unless somebody says where the piece
//! turned up: what a shelf usually holds is no evidence about the piece on it.

use super::deciding_look;
use super::guess::Claim;
use super::opposing::{OpposingFinding, opposing};
use super::region::{Region, region};
use super::standing::{AGAINST, AgainstDates, ClaimAnswer, ClaimOdds, Nearest, nearest};
use crate::core::explanation::End;
use crate::core::grid::{PlaceId, Year};
use crate::core::observation::{Evidence, Observation};
use crate::core::posterior::Inference;
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::rulebase::ids::SettingId;

/// Less of everything made than this is nothing.
const NEVER_MADE: f64 = 1e-12;

/// A finding that the guess takes for granted, beside what was seen.
#[derive(Clone, Debug, PartialEq)]
pub struct Granted {
    pub words: String,
    pub observation: Observation,
    pub seen: Option<Observation>,
}

/// How the claim stands against the findings.
#[derive(Clone, Debug, PartialEq)]
pub struct Challenge {
    pub claim: Claim,
    pub answer: ClaimAnswer,
    /// Years judged: the claim's, softened.
    pub from: Year,
    pub to: Year,
    pub p: f64,
    pub share: f64,
    /// Why the claim is hard to support though its share would let it stand.
    pub despite_share: Option<AgainstDates>,
    /// Decibans.
    pub weight: f64,
    /// Worst first.
    pub opposing: Vec<OpposingFinding>,
    /// What in the guess contradicts the guess itself.
    pub own: Vec<OpposingFinding>,
    pub granted: Vec<Granted>,
    pub place_p: Option<(PlaceId, f64)>,
    pub earliest: End,
    pub latest: End,
    pub nearest: Nearest,
    pub look: Option<crate::core::question::Look>,
    /// No finding speaks.
    pub nothing_seen: bool,
    /// As far as the rules know, nothing of the kind was made in those years.
    pub never_made: bool,
}

impl Challenge {
    /// True when the answer to the guess is no.
    pub fn refuted(&self) -> bool {
        self.answer == ClaimAnswer::RuledOut
    }
}

/// A claim weighed: the answer and what it was read from. What speaks against it, the nearest claim
/// that stands and the deciding look take many times as long, and are `challenge`'s.
pub struct WeighedClaim<'a> {
    region: Region,
    /// What was seen on the piece.
    seen: Inference<'a>,
    /// What the guess itself takes for granted, as if nothing else had been seen.
    own: Inference<'a>,
    odds: ClaimOdds,
    seen_says: ClaimAnswer,
    own_says: ClaimAnswer,
    never_made: bool,
}

impl WeighedClaim<'_> {
    /// How the claim stands.
    pub fn answer(&self) -> ClaimAnswer {
        let worse = self.seen_says.max(self.own_says);
        match self.never_made {
            true => worse.max(ClaimAnswer::HardToSupport),
            false => worse,
        }
    }
}

/// Weighs a claim against the findings. `setting` is an index into the rule base's list.
pub fn weigh<'a>(
    expert: &'a Expert,
    setting: SettingId,
    evidence: &Evidence,
    claim: &Claim,
) -> WeighedClaim<'a> {
    let model = &expert.engine().model;
    let grid = &model.grid;
    let prior = &expert.engine().priors[setting];
    let region = region(grid, claim);
    let seen = Inference::new(model, prior, evidence);
    let odds = ClaimOdds::new(grid, prior.cells(), seen.posterior(), &region);

    let mut own_words = Evidence::new();
    claim
        .findings
        .iter()
        .for_each(|(_, e)| own_words.add(e.clone()));
    let own = Inference::new(model, prior, &own_words);
    let own_odds = ClaimOdds::new(grid, prior.cells(), own.posterior(), &region);
    // A guess contradicts itself by what it takes for granted, not by being rare.
    let own_says = match own.likelihoods().len() {
        n if n > 0 && own_odds.weight <= AGAINST => own_odds.answer(n),
        _ => ClaimAnswer::Supported,
    };
    WeighedClaim {
        never_made: region.sides(grid, prior.cells()).0 < NEVER_MADE,
        seen_says: odds.answer(seen.likelihoods().len()),
        own_says,
        odds,
        own,
        seen,
        region,
    }
}

/// The piece as a claim is put to it when nobody says where it turned up.
pub fn evenly(piece: &Piece) -> Piece {
    piece.in_setting(piece.expert().base.neutral())
}

/// Puts a claim to the findings, in the setting of the piece.
pub fn challenge(piece: &Piece, claim: Claim) -> Challenge {
    let (expert, evidence) = (piece.expert(), piece.evidence());
    let model = &expert.engine().model;
    let grid = &model.grid;
    let weighed = weigh(expert, piece.setting(), evidence, &claim);
    let answer = weighed.answer();
    let WeighedClaim {
        region,
        seen,
        own,
        odds,
        seen_says,
        own_says,
        never_made,
    } = weighed;
    let after = seen.posterior();

    let account = &piece.explanation();
    let prior = expert.engine().priors[piece.setting()].cells();
    let possible = (account.earliest.year, account.latest.year);
    let nearest = nearest(grid, prior, after, &region, seen_says, possible);
    let place_p = claim
        .place
        .map(|l| (l, after.places(grid)[usize::from(l.0)]));
    Challenge {
        answer,
        never_made,
        from: region.from,
        to: region.to,
        p: odds.p,
        share: odds.share,
        despite_share: odds
            .despite_share
            .filter(|_| seen_says == ClaimAnswer::HardToSupport),
        weight: odds.weight,
        opposing: opposing(model, &seen, &region),
        own: if own_says > ClaimAnswer::Possible {
            opposing(model, &own, &region)
        } else {
            Vec::new()
        },
        granted: claim
            .findings
            .iter()
            .map(|(words, observation)| Granted {
                words: words.clone(),
                observation: observation.clone(),
                seen: evidence.of(observation.clue).cloned(),
            })
            .collect(),
        place_p,
        earliest: account.earliest,
        latest: account.latest,
        look: deciding_look::look(model, evidence, after, &region, &nearest),
        nearest,
        nothing_seen: seen.likelihoods().is_empty(),
        claim,
    }
}
