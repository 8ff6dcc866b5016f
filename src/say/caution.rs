//! Cautions where they matter, each once.

use crate::core::grid::ClueId;
use crate::core::observation::Evidence;
use crate::piece::expert::Expert;
use crate::rulebase::definitions::Occasion;

/// Cautions that matter for what was seen, each once.
pub fn cautions(expert: &Expert, evidence: &Evidence) -> Vec<String> {
    let looked_at = |clue: &ClueId| evidence.of(*clue).is_some();
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
