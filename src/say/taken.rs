//! What was made of all that was told of a piece: understood, overridden, not understood.
use super::names::clue_name;
use super::observation::seen;
use crate::core::observation::{Observation, Origin};
use crate::piece::expert::Expert;
use crate::piece::intake::{Hearing, Taken};
use crate::piece::notation::{printable, write};

/// "words -> clue=finding" of everything heard in notes and marks.
pub fn heard(expert: &Expert, taken: &Taken) -> Vec<String> {
    let line = |h: &Hearing| format!("{} -> {}", h.text, write(&expert.base, &h.observation));
    let written = taken.hearings.iter().filter(|h| !h.text.is_empty());
    written.map(line).collect()
}

/// The words that say nothing the rules know.
pub fn not_understood(taken: &Taken) -> Vec<&str> {
    let words = taken.not_understood.iter();
    words.map(|u| u.text.as_str()).collect()
}

/// All of it, a line each.
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
    let words = not_understood(taken).into_iter();
    out.extend(words.map(|t| format!("Not understood: '{}'", printable(t))));
    out
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
