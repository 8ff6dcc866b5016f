//! What was seen, in words.

use crate::core::observation::{Observation, Observed, Sure, Weights};
use crate::piece::expert::Expert;
use crate::rulebase::definitions::Clue;

/// What was seen, in words.
pub fn seen(expert: &Expert, entry: &Observation) -> String {
    let what = match &entry.seen {
        Observed::Finding(f) => expert.base.finding(entry.clue, *f).words.clone(),
        Observed::Year(y) => y.0.to_string(),
        Observed::Soft(weights) => soft(expert.base.clue(entry.clue), weights),
        Observed::CantTell => "can't tell".to_owned(),
    };
    match entry.sure {
        Sure::Sure => what,
        Sure::Unsure => format!("{what} (unsure)"),
        Sure::Guess => format!("{what} (a guess)"),
    }
}

/// What a soft observation leaves open: "blue or black"; where most are left, "not blue".
fn soft(clue: &Clue, weights: &Weights) -> String {
    let named = |keep: fn(f64) -> bool| {
        let all = clue.findings.iter().zip(weights.by_finding());
        let kept = all.filter(move |(_, w)| keep(**w));
        kept.map(|(f, _)| f.words.as_str()).collect::<Vec<_>>()
    };
    let (open, shut) = (named(|w| w > 0.0), named(|w| w <= 0.0));
    match shut.is_empty() || open.len() <= shut.len() {
        true => open.join(" or "),
        false => format!("not {}", shut.join(", nor ")),
    }
}
