//! What is said of a piece that a learner looks at: each look, how a guess was understood, how it did.

use super::band::years;
use super::drill::findings;
use super::headline;
use super::names::{capital, clue_name, kind_name};
use super::observation::seen;
use super::plain;
use crate::claim::Claim;
use crate::core::grid::{ClueId, Year};
use crate::learn::asked::{Asking, Guess};
use crate::learn::hidden::Shown;
use crate::learn::scoring::points;
use crate::piece::Piece;
use crate::piece::expert::Expert;

/// What is asked for at the end of a look round.
pub const WHAT_IS_IT: &str =
    "What is it, and from when to when, so that you would be right four times in five?";
pub const HOW_SURE: &str = "How sure are you of the kind, in percent?";

/// Where the piece comes from, and its photographs. What it is called is kept for later.
pub fn from_where(asking: &Asking) -> Vec<String> {
    let piece = asking.piece();
    let Some(recorded) = asking.recorded() else {
        let setting = &piece.expert().base.settings[piece.setting()].name;
        return vec![format!("A hidden piece from this place: {setting}.")];
    };
    let count = recorded.seen.observations().len();
    let mut out = vec![format!(
        "A piece of which {count} findings are written down."
    )];
    let photo = |photo: &String| format!("Photograph: {photo}");
    out.extend(recorded.photos.iter().map(photo));
    out
}

/// "flow blue, Britain, 1851", as far as it is known.
fn truth(asking: &Asking) -> String {
    let (expert, truth) = (asking.piece().expert(), asking.truth());
    let kind = truth.kind.map(|k| kind_name(expert, k).to_owned());
    let place = truth.place.map(|p| expert.base.places[p].name.clone());
    let when = truth.years.map(|(from, to)| years(from, to));
    let known: Vec<String> = [kind, place, when].into_iter().flatten().collect();
    let called = asking.recorded().map(|r| r.title.as_str());
    match called.filter(|title| !title.is_empty()) {
        Some(title) => format!("{} ({title})", known.join(", ")),
        None => known.join(", "),
    }
}

/// What a look showed; `None` where it could not be made.
pub fn look(expert: &Expert, clue: ClueId, shown: Option<&Shown>) -> String {
    let name = capital(&clue_name(expert, clue));
    match shown {
        Some(Shown::Seen(observation)) => format!("{name}: {}", seen(expert, observation)),
        Some(Shown::Nothing | Shown::NotAsked) => format!("{name}: nothing to read"),
        None => format!("{name}: seen already, or it does not apply yet"),
    }
}

/// The years a guess names, the ends of all years where it is open; `None` of one without years.
pub fn years_of(expert: &Expert, claim: &Claim) -> Option<(Year, Year)> {
    let grid = &expert.engine().model.grid;
    let from = claim.from.unwrap_or(grid.first().0);
    let to = claim.to.unwrap_or(grid.last().0);
    claim.dated().then_some((Year(from), Year(to)))
}

/// "Understood: flow blue, 1840–1870."
pub fn understood(expert: &Expert, guess: &Guess) -> String {
    let years = guess
        .years
        .map_or(String::new(), |(from, to)| format!(", {}", years(from, to)));
    format!("Understood: {}{years}.", kind_name(expert, guess.kind))
}

/// How the guess on a hidden piece did, and what each finding tells.
pub fn asked(asking: &Asking, guess: &Guess) -> Vec<String> {
    let piece = asking.piece();
    let expert = piece.expert();
    let result = asking.result(guess);
    let mut out = Vec::new();
    if asking.truth().is_unknown() {
        out.push("Nobody has written down what it is; by all that was seen of it:".to_owned());
        out.extend(own(&asking.whole(), guess));
        return out;
    }
    let verdict = match result.right {
        Some(true) => "Right. ",
        Some(false) => "No. ",
        None => "",
    };
    out.push(format!("{verdict}It was {}.", truth(asking)));
    if let Some((won, engine)) = result.points {
        out.push(format!(
            "Kind: {won:.0} points of 100 for {} %; the program, {}, {engine:.0}.",
            guess.percent,
            leading(piece)
        ));
    }
    if let (Some(lost), Some(engine)) = (result.years_lost, result.engine_years_lost) {
        out.push(format!(
            "Years lost: {lost:.0} (how wide, and ten for every year outside); the program {engine:.0}."
        ));
    }
    if let Some(share) = result.looking {
        out.push(format!(
            "Looking: {:.0} of 100 of what could be learned a second.",
            100.0 * share
        ));
    }
    if let Some(other) = asking.looks().iter().find(|l| l.chosen.clue != l.best.clue) {
        let better = expert.base.clue(other.best.clue);
        out.push(format!(
            "Instead of {} the program would have looked here: {} {}",
            clue_name(expert, other.chosen.clue),
            better.question,
            better.tells
        ));
    }
    out.extend(findings(piece));
    out
}

fn leading(piece: &Piece) -> String {
    let (kind, p) = piece.judgement().leading();
    format!("{} {:.0} %", kind_name(piece.expert(), kind), 100.0 * p)
}

/// The program's answer on a piece of one's own, and how the guess stands beside it.
pub fn own(piece: &Piece, guess: &Guess) -> Vec<String> {
    let expert = piece.expert();
    let mut out = plain::lines(piece);
    let mut kinds = piece.judgement().kinds.iter();
    let p = kinds.find(|(k, _)| *k == guess.kind).map_or(0.0, |k| k.1);
    let confidence = guess.confidence();
    // Nobody knows the truth: the points are what the guess would win on average if the program's
    // chances are right.
    let mean = p * points(confidence, true) + (1.0 - p) * points(confidence, false);
    out.push(format!(
        "You said {} and {} %; by what was seen it has {:.0} %: {mean:.0} points of 100 on average.",
        kind_name(expert, guess.kind),
        guess.percent,
        100.0 * p
    ));
    out.extend(findings(piece));
    if piece.evidence().says_nothing() {
        out.push(headline::nothing_seen(expert, piece.setting()));
    }
    out
}
