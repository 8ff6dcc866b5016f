//! What a shelf card tells a buyer: no figure of evidence, no code, a hedge where one is due.

use super::names::{capital, clue_name, kind_name};
use super::observation::seen;
use super::plain::{ANSWERS, first_sentence};
use super::weight::why;
use crate::core::explanation::Step;
use crate::piece::Piece;
use crate::rulebase::definitions::Occasion;

/// From here on a kind or place is said without a hedge (IPCC: very likely).
const SURE: f64 = 0.9;

/// A second kind is named from here on (common practice, no source).
const SECOND: f64 = 0.25;

/// Longer bands are said to be wide, in years (two generations; common practice, no source).
const WIDE: i16 = 60;

/// Reasons given (common practice, no source).
const REASONS: usize = 3;

/// A finding that changes the odds of the kind less than this gives no reason, in decibans: a ratio
/// of 1.25, as in the plain answer (common practice, no source).
const LEAST: f64 = 0.97;

/// A reason: what is seen, and what that tells.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Reason {
    pub seen: String,
    pub tells: String,
}

/// "Flow blue", "Most likely flow blue", "Flow blue or blue print under the glaze".
pub fn what(piece: &Piece) -> String {
    let expert = piece.expert();
    let kinds = &piece.judgement().kinds;
    let (kind, p) = piece.judgement().leading();
    let name = kind_name(expert, kind);
    match kinds.get(1) {
        _ if p >= SURE => capital(name),
        _ if p >= ANSWERS => format!("Most likely {name}"),
        Some((second, q)) if *q >= SECOND => {
            capital(&format!("{name} or {}", kind_name(expert, *second)))
        }
        _ => format!("Perhaps {name}"),
    }
}

/// The leading kind in a sentence.
pub fn about(piece: &Piece) -> String {
    let (kind, _) = piece.judgement().leading();
    let about = &piece.expert().base.kinds[kind].about;
    match piece.judgement().leading().1 >= ANSWERS {
        true => format!("{}.", capital(about)),
        false => format!("{}: {about}.", capital(kind_name(piece.expert(), kind))),
    }
}

/// "About 1890 to 1921, in Britain".
pub fn when(piece: &Piece) -> String {
    let band = piece.judgement().band();
    let (from, to) = (band.from.0, band.to.0);
    let years = match to - from {
        0 => format!("About {from}"),
        length if length > WIDE => format!("Some time between {from} and {to}"),
        _ => format!("About {from} to {to}"),
    };
    let (place, p) = piece.judgement().places[0];
    let place = &piece.expert().base.places[place].name;
    match p {
        p if p >= SURE => format!("{years}, {place}"),
        p if p >= ANSWERS => format!("{years}, most likely {place}"),
        _ => years,
    }
}

/// Up to three reasons: what speaks most for the kind, and what sets the first year.
pub fn reasons(piece: &Piece) -> Vec<Reason> {
    let mut steps: Vec<&Step> = piece.explanation().steps.iter().collect();
    steps.sort_by(|a, b| b.leave_one_out.total_cmp(&a.leave_one_out));
    let narrowed = |s: &Step| s.width_before - s.width_after;
    let (mut chosen, mut rest): (Vec<&Step>, Vec<&Step>) =
        steps.into_iter().partition(|s| s.leave_one_out >= LEAST);
    let most = chosen.is_empty().then(|| rest.first().copied()).flatten();
    let floor = piece.explanation().earliest.because;
    let of_floor = |s: &&Step| floor == Some(s.observation.clue);
    if let Some(sets_floor) = chosen
        .iter()
        .skip(REASONS)
        .chain(&rest)
        .copied()
        .find(of_floor)
    {
        chosen.truncate(REASONS - 1);
        rest.retain(|s| !of_floor(s));
        chosen.push(sets_floor);
    }
    // Then what tells most of the years, but nothing that speaks against the kind.
    rest.retain(|s| s.leave_one_out > -LEAST && narrowed(s) > 0);
    rest.sort_by_key(|s| -narrowed(s));
    chosen.extend(rest);
    if chosen.is_empty() {
        // Nothing says much: then what says most.
        chosen.extend(most);
    }
    chosen.truncate(REASONS);
    chosen.into_iter().map(|s| reason(piece, s)).collect()
}

fn reason(piece: &Piece, step: &Step) -> Reason {
    let expert = piece.expert();
    let name = capital(&clue_name(expert, step.observation.clue));
    Reason {
        seen: format!("{name}: {}", seen(expert, &step.observation)),
        tells: first_sentence(why(expert, &step.observation)).to_owned(),
    }
}

/// Cautions for who takes the piece home; that on value only beside a price.
pub fn cautions(piece: &Piece, priced: bool) -> Vec<String> {
    let all = piece.expert().base.cautions.iter();
    let matters = all.filter(|c| match c.occasion {
        Occasion::Always | Occasion::Food => true,
        Occasion::Value => priced,
        // These are for who looks, not for who buys.
        Occasion::Looking(_) => false,
    });
    matters.map(|c| c.text.clone()).collect()
}
