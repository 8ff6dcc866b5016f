//! A finding that the others make unlikely.

use super::names::{capital, clue_name};
use super::observation::seen;
use super::scales::percent;
use crate::core::at_odds::AtOdds;
use crate::piece::expert::Expert;

/// The usual reasons (common practice, no source).
const REASONS: &str = "Look again: misread, later reissue of an old pattern, copied mark, lid and \
    base from two pieces, or a founding date read as a making date.";

/// A finding the others make unlikely, and the usual reasons.
pub fn at_odds(expert: &Expert, odd: &AtOdds) -> String {
    let p = percent(odd.p);
    format!("{} ({p} given the rest). {REASONS}", fights(expert, odd))
}

/// The same without the figure.
pub fn plain(expert: &Expert, odd: &AtOdds) -> String {
    format!("{}. {REASONS}", fights(expert, odd))
}

/// The finding and what it fights with.
fn fights(expert: &Expert, odd: &AtOdds) -> String {
    let others: Vec<String> = odd.against.iter().map(|c| clue_name(expert, *c)).collect();
    let against = if others.is_empty() {
        "everything else".to_owned()
    } else {
        others.join(", ")
    };
    format!(
        "{}: {} is at odds with {against}",
        capital(&clue_name(expert, odd.observation.clue)),
        seen(expert, &odd.observation),
    )
}
