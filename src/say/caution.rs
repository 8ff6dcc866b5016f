//! Cautions where they matter, each once: those of the rules, and years that are still to come.

use super::names::{capital, clue_name};
use crate::core::grid::{ClueId, FindingId};
use crate::core::observation::{Evidence, Observation, Observed};
use crate::piece::expert::Expert;
use crate::rulebase::definitions::Occasion;

/// Cautions that matter for what was seen, each once.
pub fn cautions(expert: &Expert, evidence: &Evidence) -> Vec<String> {
    let looked_at = |(clue, finding): &(ClueId, Option<FindingId>)| {
        let known = evidence.of(*clue);
        known.is_some_and(|e| finding.is_none() || e.seen.finding() == *finding)
    };
    let mut out = years_to_come(expert, evidence);
    let of_the_rules = expert.base.cautions.iter();
    let matter = of_the_rules
        .filter(|c| match &c.occasion {
            Occasion::Always | Occasion::Value | Occasion::Food => true,
            Occasion::Looking(clues) => clues.iter().any(looked_at),
        })
        .map(|c| c.text.clone());
    out.extend(matter);
    out
}

/// A year that nothing can be from yet was misread, or the calendar of this machine is wrong.
fn years_to_come(expert: &Expert, evidence: &Evidence) -> Vec<String> {
    let present = expert.present();
    let remark = |entry: &Observation| match entry.seen {
        Observed::Year(year) if year > present => Some(format!(
            "{}: {} is still to come, now it is {}. Read the year again.",
            capital(&clue_name(expert, entry.clue)),
            year.0,
            present.0
        )),
        _ => None,
    };
    evidence.observations().iter().filter_map(remark).collect()
}
