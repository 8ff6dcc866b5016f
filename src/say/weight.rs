//! What a finding did: how strongly it speaks, what it did to the years, and why.

use super::names::{capital, clue_name, kind_name};
use super::observation::seen;
use super::scales::support;
use crate::core::explanation::Step;
use crate::core::observation::{Observation, Observed};
use crate::piece::Piece;
use crate::piece::expert::Expert;

/// One finding's part in the verdict: what, how strongly for the leading kind, what it did to the
/// years, and why.
pub fn step(piece: &Piece, step: &Step) -> String {
    let expert = piece.expert();
    let kind = kind_name(expert, piece.judgement().leading().0);
    let strength = match support(step.decibans) {
        "no support" => "hardly for or against".to_owned(),
        words if step.decibans > 0.0 => format!("{words} for"),
        words => format!("{words} against"),
    };
    format!(
        "{}: {} — {strength} {kind} ({:+.1} decibans); {}. {}",
        capital(&clue_name(expert, step.observation.clue)),
        seen(expert, &step.observation),
        step.decibans,
        years_moved(step),
        why(expert, &step.observation),
    )
    .trim_end()
    .to_owned()
}

/// What a finding did to the median year and the width of the band.
pub fn years_moved(step: &Step) -> String {
    let (before, after) = (step.median_before.0, step.median_after.0);
    let median = match after - before {
        0 => format!("middle year stays {after}"),
        _ => format!("middle year {before} to {after}"),
    };
    match step.width_after - step.width_before {
        0 => format!("{median}, band still {} years", step.width_after),
        _ => format!(
            "{median}, band {} to {} years",
            step.width_before, step.width_after
        ),
    }
}

/// The finding's own reason, or the clue's.
pub fn why<'a>(expert: &'a Expert, entry: &Observation) -> &'a str {
    let clue = expert.base.clue(entry.clue);
    match entry.seen {
        Observed::Finding(f) => {
            let own = expert.base.finding(entry.clue, f).because.as_str();
            if own.is_empty() { &clue.because } else { own }
        }
        Observed::Year(_) | Observed::Soft(_) | Observed::CantTell => &clue.because,
    }
}

/// What the verdict would lose without one finding.
pub fn leave_one_out(piece: &Piece, step: &Step) -> String {
    let kind = kind_name(piece.expert(), piece.judgement().leading().0);
    let moved = if step.leave_one_out < 0.0 {
        "gain"
    } else {
        "lose"
    };
    format!(
        "without it {kind} would {moved} {:.1} decibans",
        step.leave_one_out.abs()
    )
}
