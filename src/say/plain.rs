//! The verdict in three lines for a picker: what it is, when it was made, what to look at next.

use super::band::firmness;
use super::headline;
use super::names::{capital, clue_name, kind_name};
use super::observation::seen;
use super::odds::{odds, strength};
use super::setting_effect::{setting_effect, years_effect};
use super::weight::why;
use crate::core::explanation::{End, Step};
use crate::core::grid::KindId;
use crate::core::question::{Look, StopReason};
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::rulebase::definitions::Tool;

/// A kind at least this likely is the answer; below it the answer lies between several
/// (common practice, no source).
pub(super) const ANSWERS: f64 = 0.6;

/// Two chances this near to each other are said to be even (common practice, no source).
const EVEN: f64 = 1.5;

/// A kind less likely than this is not named beside others (common practice, no source).
const NAMED: f64 = 0.1;

/// Kinds a report lists at most, and the least chance worth a line (common practice, no source).
const SHOWN: (usize, f64) = (5, 0.01);

/// What it is, when it was made, and the look that would decide.
pub fn answer(piece: &Piece) -> [String; 3] {
    [what(piece), when(piece), next(piece)]
}

/// The answer with what the setting adds, and a word before it when nothing has been seen.
pub fn lines(piece: &Piece) -> Vec<String> {
    let [what, when, next] = answer(piece);
    let unseen = piece.evidence().says_nothing();
    let unseen = unseen.then(|| headline::nothing_seen(piece.expert(), piece.setting()));
    let mut out: Vec<String> = unseen.into_iter().collect();
    out.push(what);
    out.extend(setting_effect(piece));
    out.push(when);
    out.extend(years_effect(piece));
    out.push(next);
    out
}

/// "Flow blue, about 4 in 5.", "Between flow blue and blue print under the glaze: about even."
fn what(piece: &Piece) -> String {
    let expert = piece.expert();
    let named: Vec<(&str, f64)> = piece
        .judgement()
        .kinds
        .iter()
        .filter(|(_, p)| *p >= NAMED)
        .take(3)
        .map(|(k, p)| (kind_name(expert, *k), *p))
        .collect();
    match named[..] {
        [(first, p), ..] if p >= ANSWERS => format!("{}, {}.", capital(first), odds(p)),
        [(first, p), (second, q)] if p < EVEN * q => {
            format!("Between {first} and {second}: about even.")
        }
        [(first, p), (second, q)] => format!(
            "Perhaps {first}, {}; or else {second}, {}.",
            odds(p),
            odds(q)
        ),
        [(first, p), (second, q), (third, r)] if p < EVEN * r => format!(
            "Between {first} ({}), {second} ({}) and {third} ({}): not settled.",
            odds(p),
            odds(q),
            odds(r)
        ),
        [(first, p), (second, q), (third, r)] => format!(
            "Perhaps {first}, {}; or else {second}, {}, or {third}, {}.",
            odds(p),
            odds(q),
            odds(r)
        ),
        _ => {
            let (kind, p) = piece.judgement().leading();
            format!("Perhaps {}, {}.", kind_name(expert, kind), odds(p))
        }
    }
}

/// The kinds worth a line of a report, likeliest first.
pub fn kinds(piece: &Piece) -> impl Iterator<Item = &(KindId, f64)> {
    let kinds = piece.judgement().kinds.iter();
    kinds.filter(|(_, p)| *p >= SHOWN.1).take(SHOWN.0)
}

/// "Made between about 1890 and 1920; hardly before 1888 (country word: England)."
fn when(piece: &Piece) -> String {
    let band = piece.judgement().band();
    let made = match band.from == band.to {
        true => format!("Made about {}", band.from.0),
        false => format!("Made between about {} and {}", band.from.0, band.to.0),
    };
    let earliest = piece.explanation().earliest;
    match earliest.hard || earliest.year < band.from {
        true => format!("{made}; {}.", floor(piece, &earliest)),
        false => format!("{made}."),
    }
}

/// "not before 1868 (registered number: 1868)".
fn floor(piece: &Piece, end: &End) -> String {
    let expert = piece.expert();
    let because = end.because.and_then(|clue| piece.evidence().of(clue));
    let because = because.map_or(String::new(), |o| {
        format!(" ({}: {})", clue_name(expert, o.clue), seen(expert, o))
    });
    format!("{} before {}{because}", firmness(end), end.year.0)
}

/// Where it was made, and how uncommon it is.
pub fn place_and_rarity(piece: &Piece) -> String {
    let judgement = piece.judgement();
    let (place, p) = judgement.places[0];
    format!(
        "Made in {}, {}. {:.0} of 100 pieces that turn up in such a place are commoner; rare is not dear.",
        piece.expert().base.places[place].name,
        odds(p),
        piece.rarity().score
    )
}

/// The look that would decide, or that enough is seen.
fn next(piece: &Piece) -> String {
    match piece.advice().next() {
        Some(look) => {
            let settled = piece.judgement().leading().1 >= ANSWERS;
            let aim = if settled { "To be surer" } else { "To decide" };
            format!("{aim}, look next: {}", asked(piece.expert(), &look))
        }
        None => match piece.advice().stop {
            Some(StopReason::Undecided { .. }) => {
                "It hangs between these: no look that is left is likely to settle it soon."
            }
            _ => "Enough seen: no look that is left would change this much.",
        }
        .to_owned(),
    }
}

/// A look's question with the tool and the time: "How is the line made? (loupe, about 15 seconds)".
pub fn asked(expert: &Expert, look: &Look) -> String {
    let clue = expert.base.clue(look.clue);
    let tools: Vec<&str> = clue.tools.iter().map(|t| tool(*t)).collect();
    let tools = match tools.is_empty() {
        true => String::new(),
        false => format!("{}, ", tools.join(" or ")),
    };
    format!(
        "{} ({tools}about {:.0} seconds)",
        clue.question, look.seconds
    )
}

/// A tool as it stands in a sentence.
pub fn tool(tool: Tool) -> &'static str {
    match tool {
        Tool::Eye => "eye",
        Tool::Loupe => "loupe",
        Tool::Torch => "torch",
        Tool::Fingernail => "fingernail",
        Tool::UvLamp => "UV lamp",
        Tool::Ruler => "ruler",
    }
}

/// A finding in one line: what it did for the leading kind, and its reason in one sentence.
pub fn finding(piece: &Piece, step: &Step) -> String {
    let expert = piece.expert();
    let kind = kind_name(expert, piece.judgement().leading().0);
    let reason = why(expert, &step.observation);
    format!(
        "{}: {} — {}. {}",
        capital(&clue_name(expert, step.observation.clue)),
        seen(expert, &step.observation),
        strength(step.leave_one_out, kind),
        first_sentence(reason)
    )
    .trim_end()
    .to_owned()
}

/// The text up to its first full stop that ends a sentence: one before a blank and a capital.
pub(super) fn first_sentence(text: &str) -> &str {
    let ends = |at: usize| {
        let mut after = text[at + 2..].chars();
        after.next().is_some_and(char::is_uppercase)
    };
    let mut stops = text.match_indices(". ").map(|(at, _)| at);
    stops.find(|at| ends(*at)).map_or(text, |at| &text[..=at])
}

#[cfg(test)]
mod tests {
    use super::first_sentence;

    #[test]
    fn a_reason_is_cut_at_the_end_of_its_first_sentence() {
        assert_eq!(first_sentence("One. Two."), "One.");
        assert_eq!(
            first_sentence("From c. 1840 on. Later."),
            "From c. 1840 on."
        );
        assert_eq!(first_sentence("No stop"), "No stop");
        assert_eq!(first_sentence(""), "");
    }
}
