//! Reports to take away: the same verdict and sentences as text and JSON.

pub mod challenge;
pub mod html;
pub mod json;
pub mod markdown;
pub mod sheet;
pub mod svg;
pub mod text;

use crate::core::observation::Observed;
use crate::piece::Piece;

/// True when no clue says anything: none was looked at, or none could be told.
fn nothing_seen(piece: &Piece) -> bool {
    let mut entries = piece.evidence().entries().iter();
    entries.all(|e| e.seen == Observed::CantTell)
}
