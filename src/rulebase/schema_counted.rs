//! The file of counted pieces as written, one struct a record, no logic.

use serde::Deserialize;

use super::schema::{Names, RuleFile, Text};
use super::source::{Bare, Located};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CountedFile<'a> {
    #[serde(borrow)]
    pub format: Bare<'a>,
    /// Pieces that a drawn frequency is worth.
    #[serde(borrow)]
    pub strength: Located<'a, f64>,
    /// Years.
    #[serde(borrow)]
    pub smoothing: Located<'a, f64>,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
    #[serde(borrow)]
    pub pieces: Vec<PieceEntry<'a>>,
}

impl<'a> RuleFile<'a> for CountedFile<'a> {
    fn format(&self) -> Bare<'a> {
        self.format
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Piece")]
pub(super) struct PieceEntry<'a> {
    /// Kind, place and share.
    #[serde(borrow)]
    pub made: Vec<(Text<'a>, Text<'a>, Located<'a, f64>)>,
    #[serde(borrow)]
    pub from: Bare<'a>,
    #[serde(borrow)]
    pub to: Bare<'a>,
    /// Clue and finding.
    #[serde(borrow)]
    pub saw: Vec<(Text<'a>, Text<'a>)>,
}
