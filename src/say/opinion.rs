//! What somebody takes a piece to be, set beside what is seen of it.

use super::names::clue_name;
use super::observation::seen;
use super::odds::odds;
use super::plain::{ANSWERS, asked};
use super::taken;
use crate::claim::{Challenge, Claim, ClaimAnswer, challenge};
use crate::hearing::opinion::Opinion;
use crate::piece::Piece;
use crate::piece::notation::printable;

/// The opinion and what is seen side by side, and the look that settles it.
pub fn lines(piece: &Piece, opinion: &Opinion) -> Vec<String> {
    let Some(claim) = Claim::of_opinion(opinion, piece.expert().base.kinds.len()) else {
        return vec![format!("{}.", taken::opinion(opinion))];
    };
    let (kinds, dated) = (!claim.kinds.is_empty(), claim.dated());
    let put = challenge(piece, claim);
    let said = printable(&opinion.text);
    let mut beside = Vec::new();
    if kinds {
        beside.push(about_kind(piece, &put));
    }
    if dated {
        beside.push(about_years(piece, &put.claim));
    }
    let mut out = vec![format!("You say {said}; {}.", beside.join("; "))];
    let settled = put.answer == ClaimAnswer::Supported && put.p >= ANSWERS;
    let look = put.look.filter(|_| !settled);
    out.extend(
        look.map(|look| format!("The look that settles it: {}", asked(piece.expert(), &look))),
    );
    out
}

/// "what is seen gives that about 1 in 10, above all because of the subject (…)".
fn about_kind(piece: &Piece, put: &Challenge) -> String {
    let kinds = piece.judgement().kinds.iter();
    let held = kinds.filter(|(k, _)| put.claim.kinds.contains(k));
    let p: f64 = held.map(|(_, p)| p).sum();
    if p >= ANSWERS {
        return format!("what is seen agrees on the kind, {}", odds(p));
    }
    let gives = match odds(p) {
        "about even" => "an even chance",
        said => said,
    };
    let of_kind = Claim {
        from: None,
        to: None,
        ..put.claim.clone()
    };
    let against = challenge(piece, of_kind).opposing.into_iter().next();
    let why = match against {
        Some(against) => format!(
            ", above all because of the {} ({})",
            clue_name(piece.expert(), against.observation.clue),
            seen(piece.expert(), &against.observation)
        ),
        None => ", though nothing seen speaks against it".to_owned(),
    };
    format!("what is seen gives that kind {gives}{why}")
}

/// Where the years named lie beside those found.
fn about_years(piece: &Piece, claim: &Claim) -> String {
    let band = piece.judgement().band();
    let found = format!("about {} to {}", band.from.0, band.to.0);
    if claim.to.is_some_and(|to| to < band.from.0) {
        format!("what is seen is more often later, {found}")
    } else if claim.from.is_some_and(|from| from > band.to.0) {
        format!("what is seen is more often earlier, {found}")
    } else {
        format!("the years named touch those found, {found}")
    }
}
