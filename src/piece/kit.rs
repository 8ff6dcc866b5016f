//! Looks that can be made with what is at hand.

use super::account::Piece;
use super::advice::Advice;
use crate::core::question::{Look, lead};
use crate::rulebase::definitions::Tool;

/// The next look that can be made without these tools, unless it is time to stop.
pub fn next_without(piece: &Piece, missing: &[Tool]) -> Option<Look> {
    if missing.is_empty() {
        return piece.advice().next();
    }
    let base = &piece.expert().base;
    let can = |look: &&Look| {
        let tools = &base.clue(look.clue).tools;
        tools.is_empty() || tools.iter().any(|tool| !missing.contains(tool))
    };
    let left = piece.advice().looks.iter().filter(can).copied().collect();
    let (grid, after) = (
        &piece.expert().engine().model.grid,
        &piece.judgement().posterior,
    );
    Advice::of(left, lead(grid, after)).next()
}
