//! Reports to take away: the same verdict and sentences as text and JSON.

pub mod challenge;
pub mod html;
pub mod json;
pub mod markdown;
pub mod sheet;
pub mod svg;
pub mod text;

use crate::case::Case;
use crate::core::evidence::Seen;

/// True when no clue says anything: none was looked at, or none could be told.
fn nothing_seen(case: &Case) -> bool {
    let mut entries = case.evidence().entries().iter();
    entries.all(|e| e.seen == Seen::CantTell)
}
