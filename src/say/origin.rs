//! Where the figures come from, each source with its standing.

use crate::core::observation::{Observation, Observed};
use crate::piece::expert::Expert;
use crate::rulebase::ids::SourceId;

/// Where a rule comes from, each source with its standing.
pub fn sources(expert: &Expert, sources: &[SourceId]) -> String {
    let lines: Vec<String> = sources
        .iter()
        .map(|s| expert.base.sources[*s].line())
        .collect();
    lines.join("; ")
}

/// Where what is said of a finding comes from, each source with its standing.
pub fn sources_of(expert: &Expert, entry: &Observation) -> String {
    sources(expert, named(expert, entry))
}

/// The finding's own sources, else the clue's.
pub fn named<'a>(expert: &'a Expert, entry: &Observation) -> &'a [SourceId] {
    let clue = expert.base.clue(entry.clue);
    let own = match entry.seen {
        Observed::Finding(f) => &expert.base.finding(entry.clue, f).sources,
        Observed::Year(_) | Observed::Soft(_) | Observed::CantTell => &clue.sources,
    };
    if own.is_empty() { &clue.sources } else { own }
}
