//! A claim against the findings.
//!
//! A claim is a set of cells: its kinds × its years. Four numbers decide:
//! * p = P(claim | findings);
//! * share = p / greatest P of any claim of the same make: one kind if kinds are named, and the same
//!   number of years. Dates are claimed narrowly or widely; the share is fair to both.
//! * elsewhere = mean P of the same claim moved by one to three generations either way: what a wrong
//!   ticket should have said.
//! * weight = 10·log10 of the odds for the claim, after − before the findings (decibans): what the
//!   findings alone say, so that nothing is ruled out for merely being rare.

use super::cells::cells;
use super::claim::Claim;
use super::hurts::{Hurt, hurts};
use super::settle;
use super::standing::{AGAINST, Answer, Nearest, Standing, nearest};
use crate::case::Case;
use crate::core::axes::{PlaceId, Year};
use crate::core::evidence::{Entry, Evidence};
use crate::core::explain::End;
use crate::core::posterior::Weighing;

/// Less of everything made than this is nothing.
const NEVER_MADE: f64 = 1e-12;

/// A finding that the guess takes for granted, beside what was seen.
#[derive(Clone, Debug, PartialEq)]
pub struct Granted {
    pub words: String,
    pub entry: Entry,
    pub seen: Option<Entry>,
}

/// How the claim stands against the findings.
#[derive(Clone, Debug, PartialEq)]
pub struct Challenge {
    pub claim: Claim,
    pub answer: Answer,
    /// Years judged: the claim's, softened and widened.
    pub from: Year,
    pub to: Year,
    /// More years are judged than were claimed.
    pub widened: bool,
    pub p: f64,
    pub share: f64,
    /// Mean chance of the same claim a generation or more off, when that is clearly higher.
    pub outdone: Option<f64>,
    /// Decibans; 0 without findings.
    pub weight: f64,
    /// Worst first.
    pub hurts: Vec<Hurt>,
    /// What in the guess contradicts the guess itself.
    pub own: Vec<Hurt>,
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
        self.answer == Answer::RuledOut
    }
}

/// Puts a claim to the findings.
pub fn challenge(case: &Case, claim: Claim) -> Challenge {
    let (expert, evidence) = (case.expert(), case.evidence());
    let model = &expert.engine.model;
    let axes = &model.axes;
    let prior = &expert.engine.priors[case.setting()];
    let cells = cells(axes, &claim);
    let weighing = Weighing::new(model, prior, evidence);
    let after = weighing.posterior();
    let stands = Standing::new(axes, prior.cells(), after, &cells);

    let mut own_words = Evidence::new();
    claim.findings.iter().for_each(|(_, e)| own_words.say(*e));
    let own_weighing = Weighing::new(model, prior, &own_words);
    let own_stands = Standing::new(axes, prior.cells(), own_weighing.posterior(), &cells);
    let nothing_seen = weighing.voices().is_empty();
    let never_made = cells.sides(axes, prior.cells()).0 < NEVER_MADE;
    let seen_says = stands.answer(weighing.voices().len());
    // A guess contradicts itself by what it takes for granted, not by being rare.
    let own_says = match own_weighing.voices().len() {
        n if n > 0 && own_stands.weight <= AGAINST => own_stands.answer(n),
        _ => Answer::Supported,
    };
    let answer = match never_made {
        true => seen_says.max(own_says).max(Answer::HardToSupport),
        false => seen_says.max(own_says),
    };

    let account = &case.verdict().explanation;
    let nearest = nearest(axes, after, &cells, seen_says);
    let place_p = claim
        .place
        .map(|l| (l, after.places(axes)[usize::from(l.0)]));
    Challenge {
        answer,
        never_made,
        from: cells.from,
        to: cells.to,
        widened: cells.widened,
        p: stands.p,
        share: stands.share,
        outdone: stands.elsewhere.filter(|_| stands.outdone()),
        weight: stands.weight,
        hurts: hurts(model, &weighing, &cells),
        own: if own_says > Answer::Possible {
            hurts(model, &own_weighing, &cells)
        } else {
            Vec::new()
        },
        granted: claim
            .findings
            .iter()
            .map(|(words, entry)| Granted {
                words: words.clone(),
                entry: *entry,
                seen: evidence.of(entry.clue).copied(),
            })
            .collect(),
        place_p,
        earliest: account.earliest,
        latest: account.latest,
        look: settle::look(model, evidence, after, &cells, &nearest),
        nearest,
        nothing_seen,
        claim,
    }
}
