//! The questions a learner's memory goes by, made afresh.

use std::sync::Arc;

use super::backs::{diamond, worn_of};
use super::drills::{practice, printed, which_of};
use super::item::Item;
use crate::piece::expert::Expert;

/// The question that a learner's memory goes by (`Item::key`), made afresh. `None` of a key that the
/// rules no longer know.
pub fn again(expert: &Arc<Expert>, key: &str, seed: u64) -> Option<Item> {
    let base = &expert.base;
    let (sort, rest) = key.split_once(':').unwrap_or((key, ""));
    match sort {
        "which" => {
            let (clue, finding) = rest.split_once('=')?;
            let clue = base.clue_id(clue)?;
            which_of(expert, clue, base.clue(clue).finding(finding)?, seed)
        }
        "worn" => worn_of(expert, rest, seed),
        "diamond" => diamond(expert, seed),
        "printed" => printed(expert, seed),
        "lesson" => {
            let (lesson, item) = rest.split_once(':')?;
            let lesson = base.lessons.iter().position(|l| l.id == lesson)?;
            practice(
                expert,
                lesson,
                item.parse::<usize>().ok()?.checked_sub(1)?,
                seed,
            )
        }
        _ => None,
    }
}
