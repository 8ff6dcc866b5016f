//! A guess: what was understood of it, or why nothing was.

use super::names::{clue_name, kind_name};
use super::observation::seen;
use crate::claim::guess::{Claim, Unread};
use crate::core::grid::KindId;
use crate::piece::expert::Expert;

/// Kinds a guess names are listed up to this many.
const KINDS: usize = 3;

/// What the guess was understood to say.
pub fn understood(expert: &Expert, claim: &Claim) -> String {
    let all = claim.kinds.len() + claim.denied.len() >= expert.base.kinds.len();
    let kinds = match (claim.kinds.len(), claim.denied.len()) {
        (0, 0) => "any kind".to_owned(),
        (_, 1..) if all => format!("any kind but {}", named(expert, &claim.denied)),
        (_, 1..) => format!(
            "{}, not {}",
            named(expert, &claim.kinds),
            named(expert, &claim.denied)
        ),
        (_, 0) => named(expert, &claim.kinds),
    };
    let about = if claim.ends.about() { "about " } else { "" };
    let mut out = match (claim.from, claim.to) {
        (None, None) => format!("{kinds}, any year"),
        (Some(from), None) => format!("{kinds}, {about}{from} or later"),
        (None, Some(to)) => format!("{kinds}, {about}{to} or earlier"),
        (Some(from), Some(to)) if from == to => format!("{kinds}, {about}{from}"),
        (Some(from), Some(to)) => format!("{kinds}, {about}{from} to {to}"),
    };
    for (words, span) in &claim.periods {
        if let Some(origin) = &span.origin {
            out += &format!(
                "; '{words}' taken as {} ({origin})",
                years(span.from, span.to)
            );
        }
    }
    if claim.periods_clash {
        out += "; the dates named have no year in common, so the closest one is judged";
    }
    if let Some(place) = claim.place {
        let name = &expert.base.places[usize::from(place.0)].name;
        out += &format!("; made in {name} (not part of the answer)");
    }
    for (_, entry) in &claim.findings {
        let name = clue_name(expert, entry.clue);
        out += &format!("; takes {name} for granted: {}", seen(expert, entry));
    }
    for words in &claim.not_understood {
        out += &format!("; not understood: '{words}'");
    }
    out
}

/// Names of kinds, the first few.
fn named(expert: &Expert, kinds: &[KindId]) -> String {
    let names = kinds.iter().take(KINDS).map(|k| kind_name(expert, *k));
    let mut names = names.collect::<Vec<_>>().join(" or ");
    if kinds.len() > KINDS {
        names += &format!(" or {} more", kinds.len() - KINDS);
    }
    names
}

fn years(from: Option<i16>, to: Option<i16>) -> String {
    match (from, to) {
        (Some(from), Some(to)) if from == to => from.to_string(),
        (Some(from), Some(to)) => format!("{from} to {to}"),
        (Some(from), None) => format!("{from} or later"),
        (None, Some(to)) => format!("{to} or earlier"),
        (None, None) => "any year".to_owned(),
    }
}

/// Why a guess could not be read.
pub fn unread(expert: &Expert, problem: &Unread) -> String {
    match problem {
        Unread::Nothing => "no kind and no date understood in the guess: write for example \
            'flow blue, 1890s', 'c. 1840-60', 'Victorian' or '1840~/1860~'"
            .to_owned(),
        Unread::EveryKindDenied => {
            "the guess says what the piece is not and leaves no kind over: name \
            fewer"
                .to_owned()
        }
        Unread::Outside { from, to } => format!(
            "{} lies outside the years judged, {} to {}",
            years(*from, *to),
            expert.engine().model.grid.first().0,
            expert.present().0
        ),
    }
}
