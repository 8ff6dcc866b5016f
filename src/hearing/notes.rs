//! Reads a line of notes in trade words: "dark blue willow, scalloped, crazed, no mark".
//!
//! The same engine as for marks, over spoken forms. A `?` after a word is the writer's doubt
//! (`??` a guess), not an unreadable letter. What follows a "no" that belongs to no form is not
//! taken as seen.

use std::collections::BTreeSet;

use serde::Serialize;

use super::choose::{Candidate, choose, left_over};
use super::fold::{Word, words};
use super::mark::{Unread, sure_word};
use super::matcher::{Match, Matcher};
use super::vocabulary::Vocabulary;
use crate::core::observation::Sure;

/// Spoken forms with what each stands for.
#[derive(Clone, Debug)]
pub struct Spoken<P> {
    matcher: Matcher<P>,
    /// Words that say nothing by themselves.
    passed_over: BTreeSet<String>,
}

/// A spoken form found in notes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Heard<P> {
    pub text: String,
    /// Bytes of the notes, end not within.
    pub span: (usize, usize),
    pub what: P,
    #[serde(serialize_with = "sure_word")]
    pub sure: Sure,
}

/// What a line of notes says.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Notes<P> {
    pub heard: Vec<Heard<P>>,
    pub unread: Vec<Unread>,
}

/// Wrong letters from which a reading gives way to a shorter one that is read letter by letter.
const FORCED: usize = 2;

impl<P: Clone> Spoken<P> {
    /// `forms`: spoken forms and what they stand for. One form may stand for several things.
    pub fn new<S: AsRef<str>>(
        forms: impl IntoIterator<Item = (Vec<S>, P)>,
        words: &Vocabulary,
    ) -> Spoken<P> {
        Spoken {
            matcher: Matcher::new(forms).with_negations(&words.negations),
            passed_over: words.passed_over_in_notes.clone(),
        }
    }

    /// Reads notes. Never fails: what can't be read is in `unread`.
    pub fn read(&self, text: &str) -> Notes<P> {
        let (words, doubts) = doubted(text, words(text));
        let negated = |at: usize| {
            at.checked_sub(1)
                .is_some_and(|i| self.matcher.negates(&words[i]))
        };
        let hits = self.matcher.hits(&words);
        // "England on the back" is England, not a misspelt "England only".
        let forced = |hit: &Match| {
            let exact = |other: &Match| {
                other.sure() == Sure::Sure
                    && other.words.start == hit.words.start
                    && other.words.end < hit.words.end
            };
            hit.wrong >= FORCED && hits.iter().any(exact)
        };
        let claims: Vec<Candidate<_>> = hits
            .iter()
            .filter(|hit| !negated(hit.words.start) && !forced(hit))
            .cloned()
            .map(|hit| Candidate {
                words: hit.words.clone(),
                worth: hit.worth(),
                what: hit,
            })
            .collect();
        let chosen = choose(claims, words.len());
        let cut = |first: usize, end: usize| {
            let span = (words[first].span.0, words[end - 1].span.1);
            (text[span.0..span.1].to_owned(), span)
        };
        let heard = chosen
            .iter()
            .map(|(claim, _)| {
                let (text, span) = cut(claim.words.start, claim.words.end);
                let doubt = doubts[claim.words.clone()].iter().max().copied();
                Heard {
                    text,
                    span,
                    what: self.matcher.payload(claim.what.phrase).clone(),
                    sure: claim.what.sure().max(doubt.unwrap_or_default()),
                }
            })
            .collect();
        let taken: Vec<_> = chosen.iter().map(|(c, _)| c.words.clone()).collect();
        let unread = left_over(&words, &taken)
            .into_iter()
            .filter(|run| {
                words[run.clone()]
                    .iter()
                    .any(|w| !self.passed_over.contains(&w.folded()))
            })
            .map(|run| {
                let (text, span) = cut(run.start, run.end);
                Unread {
                    text,
                    span,
                    name: false,
                }
            })
            .collect();
        Notes { heard, unread }
    }
}

/// Takes trailing `?` off the words and says how much doubt they meant.
fn doubted(text: &str, found: Vec<Word>) -> (Vec<Word>, Vec<Sure>) {
    let mut out: Vec<Word> = Vec::new();
    let mut doubts: Vec<Sure> = Vec::new();
    for mut word in found {
        let marks = word.glyphs.iter().rev().take_while(|&&c| c == '?').count();
        let doubt = match marks {
            0 => Sure::Sure,
            1 => Sure::Unsure,
            _ => Sure::Guess,
        };
        if marks == word.glyphs.len() && marks > 0 {
            // A mark standing alone belongs to the word before it.
            if let Some(last) = doubts.last_mut() {
                *last = (*last).max(doubt);
            }
            continue;
        }
        word.glyphs.truncate(word.glyphs.len() - marks);
        let (start, end) = word.span;
        let kept = text[start..end].trim_end_matches(['?', '\u{fffd}', '[', ']']);
        word.span.1 = start + kept.len();
        out.push(word);
        doubts.push(doubt);
    }
    (out, doubts)
}
