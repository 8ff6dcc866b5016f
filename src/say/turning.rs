//! What would change the answer.

use super::names::{capital, clue_name, kind_name};
use super::observation::seen;
use crate::core::observation::Observed;
use crate::core::sensitivity::Turn;
use crate::piece::expert::Expert;

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
