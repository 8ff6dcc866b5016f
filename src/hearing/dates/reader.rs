//! What every reader of years looks at: tokens, the words of the rule files, and the present.

use super::tokens::{Sort, Token};
use super::words::DateWords;
use crate::hearing::lexicon::{Lexicon, Phrases};

/// Looks around in the tokens of one guess.
pub(super) struct Reader<'a> {
    pub tokens: &'a [Token],
    pub words: &'a DateWords,
    pub present: i16,
}

impl<'a> Reader<'a> {
    pub(super) fn sort(&self, at: usize) -> Option<Sort> {
        self.tokens.get(at).map(|t| t.sort)
    }

    /// True for a "/".
    pub(super) fn slash(&self, at: usize) -> bool {
        self.sort(at) == Some(Sort::Joint) && self.tokens[at].text == "/"
    }

    /// The place after the longest of the phrases that stands at `at`.
    pub(super) fn any(&self, at: usize, phrases: &Phrases) -> Option<usize> {
        self.named(at, phrases).map(|(end, ())| end)
    }

    /// The same with what the phrase stands for.
    pub(super) fn named<T>(&self, at: usize, lexicon: &'a Lexicon<T>) -> Option<(usize, &'a T)> {
        lexicon.longest(at, |i| self.tokens.get(i).map(|t| t.text.as_str()))
    }
}
