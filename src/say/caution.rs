//! Cautions where they matter, each once.

use crate::core::grid::{ClueId, FindingId};
use crate::core::observation::Evidence;
use crate::piece::expert::Expert;
use crate::rulebase::definitions::Occasion;

/// Cautions that matter for what was seen, each once.
pub fn cautions(expert: &Expert, evidence: &Evidence) -> Vec<String> {
    let looked_at = |(clue, finding): &(ClueId, Option<FindingId>)| {
        let known = evidence.of(*clue);
        known.is_some_and(|e| finding.is_none() || e.seen.finding() == *finding)
    };
    expert
        .base
        .cautions
        .iter()
        .filter(|c| match &c.occasion {
            Occasion::Always | Occasion::Value | Occasion::Food => true,
            Occasion::Looking(clues) => clues.iter().any(looked_at),
        })
        .map(|c| c.text.clone())
        .collect()
}
