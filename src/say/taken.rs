//! What was made of all that was told of a piece: understood, overridden, not understood.

use super::names::clue_name;
use super::observation::seen;
use crate::core::observation::{Observation, Origin};
use crate::hearing::notes::{NotCounted, WhyNot};
use crate::hearing::opinion::Opinion;
use crate::piece::expert::Expert;
use crate::piece::intake::{Hearing, Taken};
use crate::piece::notation::{printable, write};

/// "words -> clue=finding" of everything heard in notes and marks.
fn heard(expert: &Expert, taken: &Taken) -> Vec<String> {
    let line = |h: &Hearing| {
        let words = match h.observation.origin {
            Origin::Mark => "mark",
            _ => &h.text,
        };
        format!("{words} -> {}", write(&expert.base, &h.observation))
    };
    let written = taken.hearings.iter().filter(|h| !h.text.is_empty());
    written.map(line).collect()
}

/// The words that say nothing the rules know.
pub fn not_understood(taken: &Taken) -> Vec<&str> {
    let words = taken.not_understood.iter();
    words.map(|u| u.text.as_str()).collect()
}

/// All of it but the opinion, a line each: that stands beside the verdict.
pub fn lines(expert: &Expert, taken: &Taken) -> Vec<String> {
    let heard = heard(expert, taken).into_iter();
    let mut out: Vec<String> = heard
        .map(|h| format!("Understood: {}", printable(&h)))
        .collect();
    let lost = taken.overridden();
    out.extend(lost.filter_map(|h| {
        Some(overridden(
            expert,
            &h.observation,
            h.overridden_by.as_ref()?,
        ))
    }));
    out.extend(taken.not_counted.iter().map(not_counted));
    let words = not_understood(taken).into_iter();
    out.extend(words.map(|t| format!("Not understood: '{}'", printable(t))));
    out
}

/// The same, and the opinion: for where no verdict follows to set it beside.
pub fn lines_with_opinion(expert: &Expert, taken: &Taken) -> Vec<String> {
    let mut out = lines(expert, taken);
    out.extend(taken.opinion.as_ref().map(opinion));
    out
}

/// What was heard and is no finding, with the reason.
pub fn not_counted(heard: &NotCounted) -> String {
    format!(
        "Heard, not counted: '{}', because {}",
        printable(&heard.text),
        printable(&why_not(&heard.why))
    )
}

/// The reason, to follow "because".
pub fn why_not(why: &WhyNot) -> String {
    match why {
        WhyNot::Of(thing) => format!("it belongs to {thing}"),
        WhyNot::Denied => "it is only said not to be so".to_owned(),
        WhyNot::Except => "an exception follows it".to_owned(),
        WhyNot::CantTell => "you can't tell".to_owned(),
        WhyNot::NoClue(reason) => reason.clone(),
    }
}

/// What the notes take the piece to be. The findings alone decide.
pub fn opinion(opinion: &Opinion) -> String {
    format!("You say: {}", printable(&opinion.text))
}

/// What does not count, and what counts in its place.
pub fn overridden(expert: &Expert, lost: &Observation, by: &Observation) -> String {
    format!(
        "Not counted: {}: {} ({}), because {} says: {}",
        clue_name(expert, lost.clue),
        seen(expert, lost),
        source(lost.origin),
        source(by.origin),
        seen(expert, by)
    )
}

/// Where an observation came from.
pub fn source(origin: Origin) -> &'static str {
    match origin {
        Origin::Hand => "what was said outright",
        Origin::Notes => "the notes",
        Origin::Mark => "the mark",
        Origin::Registration => "the registration",
        Origin::Ticket => "the ticket",
        Origin::File => "the table",
    }
}
