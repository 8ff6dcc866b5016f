//! The words a line of notes is listened to with, and how a word is made comparable: one spelling,
//! the singular, no articles.

use std::collections::{BTreeMap, BTreeSet};

use super::fold::{Nature, Word, words};
use super::lexicon::{Lexicon, Phrases};
use crate::core::grid::{ClueId, FindingId};

/// A part of the piece that colours and pictures can belong to.
#[derive(Clone, Debug, Default)]
pub struct Thing {
    pub id: String,
    /// As told: "the mark".
    pub name: String,
    /// Findings of these clues are this thing as much as its words are.
    pub clues: Vec<ClueId>,
    /// What its colour says: (words, finding); no words = any other colour.
    pub colours: Vec<(BTreeSet<String>, (ClueId, FindingId))>,
}

/// What a measure says of a form.
#[derive(Clone, Debug)]
pub struct Size {
    pub of: Vec<(ClueId, FindingId)>,
    /// Millimetres; the largest that fits counts.
    pub over: f64,
    pub says: (ClueId, FindingId),
}

/// Two things by index, and what different colours of theirs say.
pub type TwoParts = (usize, usize, Vec<(ClueId, FindingId)>);

/// All words of the ear that are no findings, kinds or dates.
#[derive(Clone, Debug, Default)]
pub struct EarWords {
    pub dropped: BTreeSet<String>,
    pub spelling: Vec<(String, String)>,
    pub abbreviations: BTreeSet<String>,
    pub denials: Phrases,
    pub exceptions: Phrases,
    pub hedges: Phrases,
    pub cant_tell: Phrases,
    pub or_words: BTreeSet<String>,
    pub breaks: BTreeSet<String>,
    pub prepositions: BTreeSet<String>,
    /// The rest of the phrase is what the mark says; or all of it.
    pub says: Phrases,
    pub in_mark: Phrases,
    pub numbers: BTreeMap<String, i16>,
    /// Millimetres each.
    pub units: BTreeMap<String, i16>,
    pub colours: BTreeSet<String>,
    pub things: Vec<Thing>,
    pub thing_words: Lexicon<usize>,
    /// (reason, phrases)
    pub not_counted: Vec<(String, Vec<String>)>,
    /// Clues that a word for a kind answers only by hearsay.
    pub kind_clues: Vec<ClueId>,
    /// Words that name a kind only together with others.
    pub no_kind_alone: BTreeSet<String>,
    /// Clues whose findings can belong to another thing than the print.
    pub colour_clues: Vec<ClueId>,
    pub picture_clues: Vec<ClueId>,
    pub sizes: Vec<Size>,
    /// What two things of different colours say together.
    pub two_parts: Vec<TwoParts>,
    /// A year after one of these words, and its clue.
    pub dated: Lexicon<ClueId>,
    pub passed_over: BTreeSet<String>,
}

impl EarWords {
    /// A phrase of the rule files as the line is compared with it.
    pub fn normal(&self, phrase: &str) -> String {
        let found: Vec<String> = self
            .normal_words(words(phrase))
            .iter()
            .map(|(w, _)| w.folded())
            .collect();
        found.join(" ")
    }

    /// Words in one spelling and the singular, without articles, each with its former place.
    pub fn normal_words(&self, found: Vec<Word>) -> Vec<(Word, usize)> {
        let letters = |i: usize| found.get(i).map_or(0, |w: &Word| w.glyphs.len());
        let keep = |i: usize| {
            let beside_initial = (i > 0 && letters(i - 1) == 1) || letters(i + 1) == 1;
            let initial = letters(i) == 1 && beside_initial;
            initial || !self.dropped.contains(&found[i].folded())
        };
        let kept: Vec<bool> = (0..found.len()).map(keep).collect();
        let all = found.into_iter().enumerate().filter(|(i, _)| kept[*i]);
        all.map(|(i, mut word)| {
            if word.nature == Nature::Letters {
                word.glyphs = self.one_spelling(&word.folded()).chars().collect();
            }
            (word, i)
        })
        .collect()
    }

    fn one_spelling(&self, word: &str) -> String {
        let mut out = word.to_owned();
        for (from, to) in &self.spelling {
            // Words are too short for a search that first studies what it looks for.
            let mut places = out.as_bytes().windows(from.len().max(1));
            if places.any(|place| place == from.as_bytes()) {
                out = out.replace(from.as_str(), to);
            }
        }
        singular(&out)
    }
}

/// Takes the ending of a plural off.
fn singular(word: &str) -> String {
    let ends = |ending: &str| word.ends_with(ending);
    let cut = |n: usize| word[..word.len() - n].to_owned();
    if word.len() < 4 || !ends("s") || ends("ss") || ends("us") || ends("is") {
        return word.to_owned();
    }
    if ends("ies") && word.len() > 4 {
        return cut(3) + "y";
    }
    let long = ["ches", "shes", "xes", "sses"].iter().any(|e| ends(e));
    cut(if long { 2 } else { 1 })
}

#[cfg(test)]
mod tests {
    use super::singular;

    #[test]
    fn plurals_lose_their_ending_and_other_words_do_not() {
        let all = [
            "dishes",
            "butterflies",
            "roses",
            "glass",
            "porous",
            "this",
            "mugs",
            "gas",
        ];
        let got: Vec<String> = all.iter().map(|w| singular(w)).collect();
        assert_eq!(
            got,
            [
                "dish",
                "butterfly",
                "rose",
                "glass",
                "porous",
                "this",
                "mug",
                "gas"
            ]
        );
    }
}
