//! What is wrong with a piece: named defects to observations.

use crate::core::grid::ClueId;
use crate::core::model::Station;
use crate::core::observation::{Observation, Sure};
use crate::piece::notation::{Refused, printable};
use crate::rulebase::RuleBase;
use crate::rulebase::ids::ids;
use crate::rulebase::prices::PriceGuesses;
use crate::rulebase::problem::near;

/// Says that the piece was looked over and nothing was found.
pub const SOUND: &str = "sound";

/// Reads a list of defects, such as `chip,hairline`, or `sound`.
///
/// Each becomes the first finding that shows it and whose clue is still free. Whoever lists defects
/// has looked the piece over: the other yes-or-no clues of the condition station are taken as
/// answered no, unsure. What `saw` already tells is left as it is.
///
/// # Errors
/// A name that is no defect, with the nearest; `sound` beside a defect.
pub fn read(
    base: &RuleBase,
    guesses: &PriceGuesses,
    text: &str,
    saw: &[Observation],
) -> Result<Vec<Observation>, Refused> {
    let names: Vec<&str> = text.split(',').map(str::trim).collect();
    let names: Vec<&str> = names.into_iter().filter(|n| !n.is_empty()).collect();
    if names.contains(&SOUND) && names.len() > 1 {
        let message = format!("'{SOUND}' and a defect can't both be so");
        return Err(Refused(message));
    }
    let mut out: Vec<Observation> = Vec::new();
    for name in names.iter().filter(|n| **n != SOUND) {
        let Some(at) = guesses.defect(name) else {
            return Err(unknown(guesses, name));
        };
        let seen = &guesses.defects[at].seen;
        let told = |clue: ClueId| saw.iter().chain(&out).any(|o| o.clue == clue);
        let free = seen.iter().find(|(clue, _)| !told(*clue));
        out.extend(free.map(|(clue, finding)| Observation::finding(*clue, *finding)));
    }
    if !names.is_empty() {
        let told = |clue: ClueId| saw.iter().chain(&out).any(|o| o.clue == clue);
        let absent = absent(base).filter(|o| !told(o.clue)).collect::<Vec<_>>();
        out.extend(absent);
    }
    Ok(out)
}

/// "No, unsure" at every clue of the condition station.
fn absent(base: &RuleBase) -> impl Iterator<Item = Observation> {
    let condition = |clue: &ClueId| base.clue(*clue).station == Station::Condition;
    let clues = ids::<ClueId>(base.clues.len()).filter(condition);
    clues.filter_map(|clue| {
        let no = base.clue(clue).finding("no")?;
        Some(Observation::finding(clue, no).sure(Sure::Unsure))
    })
}

fn unknown(guesses: &PriceGuesses, name: &str) -> Refused {
    let known = guesses.defects.iter().map(|d| d.factor.id.as_str());
    let close = near(name, known.clone(), 3);
    let help = match close.as_slice() {
        [] => format!("use {SOUND}, {}", known.collect::<Vec<_>>().join(", ")),
        _ => format!("nearest: {}", close.join(", ")),
    };
    Refused(format!("unknown defect '{}'; {help}", printable(name)))
}

/// Clues whose findings show defects, in the order of the guesses.
pub fn clues(guesses: &PriceGuesses) -> Vec<ClueId> {
    let all = guesses.defects.iter().flat_map(|d| &d.seen);
    let mut out: Vec<ClueId> = Vec::new();
    for (clue, _) in all {
        if !out.contains(clue) {
            out.push(*clue);
        }
    }
    out
}
