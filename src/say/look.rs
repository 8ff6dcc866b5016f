//! A look: why it is proposed, what it is worth, where each finding would lead, why to stop.

use super::names::{clue_name, kind_name};
use super::observation::seen;
use super::scales::percent;
use crate::core::grid::ClueId;
use crate::core::model::Gate;
use crate::core::observation::{Evidence, Observation};
use crate::core::question::{Look, StopReason};
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::piece::prospect::Prospect;

/// A proposed look: the question, the tool and what it is worth.
pub fn look(expert: &Expert, look: &Look) -> String {
    format!(
        "{} ({:.2} bits, about {:.0} seconds)",
        expert.base.clue(look.clue).question,
        look.bits,
        look.seconds
    )
}

/// Why no more is asked.
pub fn stop(reason: StopReason) -> String {
    match reason {
        StopReason::AllAsked => "every look that applies has been made".to_owned(),
        StopReason::LittleLeft { best, least } => format!(
            "the best look left is worth {best:.2} bits, under the {least:.2} that would repay it"
        ),
        StopReason::Decided {
            odds,
            least,
            seconds,
        } => format!(
            "the kind stands {odds:.0} to 1 or better against any other, and {}",
            little(least, seconds)
        ),
        StopReason::Undecided { least, seconds } => format!(
            "the kind hangs between those that lead, and {}",
            little(least, seconds)
        ),
    }
}

/// No look left promises enough for its time.
fn little(least: f64, seconds: f64) -> String {
    format!(
        "no look left repays its time: each would put right fewer than 1 answer in {:.0} for every {seconds:.0} seconds",
        1.0 / least
    )
}

/// Why a clue is asked: what it tells, what it is worth and how long it takes.
pub fn why_asked(piece: &Piece, clue: ClueId) -> String {
    let rules = piece.expert().base.clue(clue);
    let worth = piece.advice().looks.iter().find(|l| l.clue == clue);
    let worth = worth.map_or(String::new(), |l| {
        format!(
            " Worth {:.2} bits about kind and decade for about {:.0} seconds of looking.",
            l.bits, l.seconds
        )
    });
    format!("{}{worth}", rules.tells)
}

/// Why an answer at a clue says nothing: the earlier answer that shuts its gate. `None` while it
/// may be asked.
pub fn gate_shut(expert: &Expert, evidence: &Evidence, clue: ClueId) -> Option<String> {
    let model = &expert.engine().model;
    if model.gate(clue, evidence) != Gate::Closed {
        return None;
    }
    let gate = &model.clue(clue).gate;
    let shuts = |entry: &&Observation| gate.iter().any(|clause| clause.shut_by(entry));
    let because = match evidence.observations().iter().find(shuts) {
        Some(entry) => format!("{}: {}", clue_name(expert, entry.clue), seen(expert, entry)),
        None => "an earlier answer".to_owned(),
    };
    Some(format!(
        "Says nothing here: {} does not apply after {because}.",
        clue_name(expert, clue)
    ))
}

/// One finding and what it would lead to.
pub fn prospect(expert: &Expert, clue: ClueId, prospect: &Prospect) -> String {
    format!(
        "{} (expected {}): then {} {}, middle year {}",
        expert.base.finding(clue, prospect.finding).words,
        percent(prospect.p),
        kind_name(expert, prospect.kind),
        percent(prospect.kind_p),
        prospect.median.0
    )
}

/// What a look is worth.
pub fn worth(look: &Look) -> String {
    format!(
        "Expected to tell {:.2} bits about kind and decade in about {:.0} seconds: {:.3} bits a second.",
        look.bits,
        look.seconds,
        look.bits_per_second()
    )
}

/// Another look and what it is worth, in short.
pub fn other(expert: &Expert, look: &Look) -> String {
    format!(
        "{}: {:.2} bits, about {:.0} seconds",
        clue_name(expert, look.clue),
        look.bits,
        look.seconds
    )
}
