//! Trade words within a sentence, found so that a screen or a page can link them.

use super::names;
use crate::rulebase::RuleBase;

/// A stretch of a sentence, and the index of the glossary entry it is a word of.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fragment {
    pub text: String,
    pub term: Option<usize>,
}

/// Cuts a sentence at the trade words in it: the longest word at a place, each entry once.
/// The fragments put together are the sentence.
pub fn fragments(base: &RuleBase, sentence: &str) -> Vec<Fragment> {
    let mut out = Vec::new();
    let mut linked = vec![false; base.glossary.len()];
    let (mut plain_from, mut at) = (0, 0);
    let mut before: Option<char> = None;
    while let Some(c) = sentence[at..].chars().next() {
        let starts = !before.is_some_and(char::is_alphanumeric);
        let found = starts
            .then(|| longest(base, &sentence[at..], &linked))
            .flatten();
        match found {
            Some((term, length)) => {
                push(&mut out, &sentence[plain_from..at], None);
                push(&mut out, &sentence[at..at + length], Some(term));
                linked[term] = true;
                before = sentence[..at + length].chars().next_back();
                at += length;
                plain_from = at;
            }
            None => {
                before = Some(c);
                at += c.len_utf8();
            }
        }
    }
    push(&mut out, &sentence[plain_from..], None);
    out
}

fn push(out: &mut Vec<Fragment>, text: &str, term: Option<usize>) {
    if !text.is_empty() {
        out.push(Fragment {
            text: text.to_owned(),
            term,
        });
    }
}

/// The entry whose longest writing begins this text, and that writing's length in bytes.
fn longest(base: &RuleBase, text: &str, linked: &[bool]) -> Option<(usize, usize)> {
    let mut best: Option<(usize, usize)> = None;
    for (i, term) in base
        .glossary
        .iter()
        .enumerate()
        .filter(|(i, _)| !linked[*i])
    {
        for word in term.written() {
            let longer = best.is_none_or(|(_, length)| word.len() > length);
            if longer && begins(text, word) {
                best = Some((i, word.len()));
            }
        }
    }
    best
}

/// True when the text begins with this word, whatever its case, and the word ends there.
fn begins(text: &str, word: &str) -> bool {
    let Some(head) = text.get(..word.len()) else {
        return false;
    };
    let ends = !text[word.len()..]
        .chars()
        .next()
        .is_some_and(char::is_alphanumeric);
    ends && head.eq_ignore_ascii_case(word)
}

/// Entries with a word in any of the sentences, in the glossary's order.
pub fn used<'a>(base: &RuleBase, sentences: impl IntoIterator<Item = &'a str>) -> Vec<usize> {
    let mut used = vec![false; base.glossary.len()];
    for sentence in sentences {
        let found = fragments(base, sentence);
        found
            .iter()
            .filter_map(|p| p.term)
            .for_each(|t| used[t] = true);
    }
    (0..used.len()).filter(|i| used[*i]).collect()
}

/// An entry as one line: the word, what it means, what it is good for.
pub fn line(base: &RuleBase, term: usize) -> String {
    let t = &base.glossary[term];
    format!("{}: {} {}", names::capital(&t.term), t.text, t.because)
}
