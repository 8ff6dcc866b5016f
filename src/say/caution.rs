//! Cautions where they matter, each once.

use crate::core::observation::Evidence;
use crate::piece::expert::Expert;

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
