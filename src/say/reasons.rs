//! What a finding did, what is at odds, why to stop, what would change the answer.

use super::scales::{percent, support};
use crate::core::explanation::{AtOdds, Step};
use crate::core::grid::{ClueId, KindId};
use crate::core::model::Gate;
use crate::core::observation::{Evidence, Observation, Observed, Sure};
use crate::core::question::{Look, StopReason};
use crate::core::sensitivity::Turn;
use crate::piece::expert::Expert;
use crate::piece::verdict::Verdict;

/// What was seen, in words.
pub fn seen(expert: &Expert, entry: &Observation) -> String {
    let what = match entry.seen {
        Observed::Finding(f) => expert.base.finding(entry.clue, f).words.clone(),
        Observed::Year(y) => y.0.to_string(),
        Observed::CantTell => "can't tell".to_owned(),
    };
    match entry.sure {
        Sure::Sure => what,
        Sure::Unsure => format!("{what} (unsure)"),
        Sure::Guess => format!("{what} (a guess)"),
    }
}

/// A clue's id as plain words.
pub fn clue_name(expert: &Expert, clue: ClueId) -> String {
    expert.base.clue(clue).id.replace('-', " ")
}

/// A kind's name.
pub fn kind_name(expert: &Expert, kind: KindId) -> &str {
    &expert.base.kinds[usize::from(kind.0)].name
}

/// One finding's part in the verdict: what, how strongly for the leading kind, what it did to the
/// years, and why.
pub fn step(expert: &Expert, verdict: &Verdict, step: &Step) -> String {
    let kind = kind_name(expert, verdict.explanation.kind);
    let strength = match support(step.decibans) {
        "no support" => "hardly for or against".to_owned(),
        words if step.decibans > 0.0 => format!("{words} for"),
        words => format!("{words} against"),
    };
    format!(
        "{}: {} — {strength} {kind} ({:+.1} decibans); {}. {}",
        capital(&clue_name(expert, step.entry.clue)),
        seen(expert, &step.entry),
        step.decibans,
        years_moved(step),
        why(expert, &step.entry),
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
        Observed::Year(_) | Observed::CantTell => &clue.because,
    }
}

/// A finding the others make unlikely, and the usual reasons.
pub fn at_odds(expert: &Expert, odd: &AtOdds) -> String {
    let others: Vec<String> = odd.against.iter().map(|c| clue_name(expert, *c)).collect();
    let against = if others.is_empty() {
        "everything else".to_owned()
    } else {
        others.join(", ")
    };
    format!(
        "{}: {} is at odds with {against} ({} given the rest). Look again: misread, later reissue \
         of an old pattern, copied mark, lid and base from two pieces, or a founding date read as \
         a making date.",
        capital(&clue_name(expert, odd.entry.clue)),
        seen(expert, &odd.entry),
        percent(odd.p),
    )
}

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
    }
}

/// What would change the answer.
pub fn turn(expert: &Expert, turn: &Turn) -> String {
    let changes: Vec<String> = turn
        .changes
        .iter()
        .map(|c| match c.seen {
            Observed::CantTell => format!("without {}", clue_name(expert, c.clue)),
            _ => format!("with {}: {}", clue_name(expert, c.clue), seen(expert, c)),
        })
        .collect();
    let result = if turn.new_kind {
        format!("{} would lead", kind_name(expert, turn.kind))
    } else {
        format!("the middle year would be {}", turn.median.0)
    };
    format!("{} {result}", capital(&changes.join(" and ")))
}

/// The verdict in one sentence.
pub fn headline(expert: &Expert, verdict: &Verdict) -> String {
    let (kind, p) = verdict.leading();
    let band = verdict.band();
    format!(
        "{} ({}, {}), about {} to {} ({} band, middle year {})",
        capital(kind_name(expert, kind)),
        super::scales::chance(p),
        percent(p),
        band.from.0,
        band.to.0,
        percent(band.share),
        verdict.median.0
    )
}

/// First letter upper case.
pub fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or(String::new(), |first| {
        first.to_uppercase().chain(chars).collect()
    })
}

/// The job in one sentence, on the first screen.
pub const THE_JOB: &str = "Tells how an old printed plate was decorated, about when it was made, how \
    uncommon it is, and why: you say what you see, one look at a time.";

/// Said of a verdict on no findings.
pub fn nothing_seen(expert: &Expert, setting: usize) -> String {
    format!(
        "Nothing has been seen: this is only what turns up in this setting ({}).",
        expert.base.settings[setting].name
    )
}

/// Cautions that matter for what was seen, each once.
pub fn cautions(expert: &Expert, evidence: &Evidence) -> Vec<String> {
    let looked_at = |clue: &str| {
        let id = expert.base.clue_id(clue);
        id.is_some_and(|id| evidence.of(id).is_some())
    };
    expert
        .base
        .cautions
        .iter()
        .filter(|c| match c.when.as_str() {
            "always" | "value" | "food" => true,
            "uv" => looked_at("repairs"),
            "broken" => looked_at("body") || looked_at("repairs"),
            _ => false,
        })
        .map(|c| c.text.clone())
        .collect()
}

/// Why an answer at a clue says nothing: the earlier answer that shuts its gate. `None` while it
/// may be asked.
pub fn gate_shut(expert: &Expert, evidence: &Evidence, clue: ClueId) -> Option<String> {
    let model = &expert.engine.model;
    if model.gate(clue, evidence) != Gate::Closed {
        return None;
    }
    let shuts = |entry: &&Observation| match entry.seen {
        Observed::Finding(f) => model
            .clue(clue)
            .gate
            .iter()
            .any(|clause| clause.clue == entry.clue && !clause.any_of.contains(&f)),
        Observed::Year(_) | Observed::CantTell => false,
    };
    let because = match evidence.entries().iter().find(shuts) {
        Some(entry) => format!("{}: {}", clue_name(expert, entry.clue), seen(expert, entry)),
        None => "an earlier answer".to_owned(),
    };
    Some(format!(
        "Says nothing here: {} does not apply after {because}.",
        clue_name(expert, clue)
    ))
}

/// Why a clue is asked: what it tells, what it is worth and how long it takes.
pub fn why_asked(expert: &Expert, verdict: &Verdict, clue: ClueId) -> String {
    let rules = expert.base.clue(clue);
    let worth = verdict.looks.iter().find(|l| l.clue == clue);
    let worth = worth.map_or(String::new(), |l| {
        format!(
            " Worth {:.2} bits about kind and decade for about {:.0} seconds of looking.",
            l.bits, l.seconds
        )
    });
    format!("{}{worth}", rules.tells)
}
