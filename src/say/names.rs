//! Names of clues and kinds as they stand in a sentence.

use crate::core::grid::{ClueId, KindId};
use crate::piece::expert::Expert;

/// A clue's id as plain words.
pub fn clue_name(expert: &Expert, clue: ClueId) -> String {
    expert.base.clue(clue).id.replace('-', " ")
}

/// A kind's name.
pub fn kind_name(expert: &Expert, kind: KindId) -> &str {
    &expert.base.kinds[usize::from(kind.0)].name
}

/// First letter upper case.
pub fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or(String::new(), |first| {
        first.to_uppercase().chain(chars).collect()
    })
}
