//! Lists of words in a rule file: folded, with figures in range, no word said twice.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::RangeInclusive;
use std::sync::Arc;

use super::problem::Check;
use super::resolve::Resolver;
use super::schema::{Names, Text};
use super::schema_words::NumberWord;
use super::source::{Located, SourceFile, line_col};
use crate::hearing::fold::plain;
use crate::hearing::lexicon::{Lexicon, Phrases};

/// What a list of words says, for messages; a word stands for one thing a list.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Sort {
    /// Kinds, places, periods and ages, which are looked for in the same text.
    Name,
    Number,
    Age,
    Part,
}

/// Words taken, with the file and the slice of it where each stands first.
pub(super) type Taken<'a> = BTreeMap<(Sort, Vec<String>), (&'a SourceFile, &'a str)>;

/// Reads the lists of one file.
pub(super) struct WordLists<'a, 'r> {
    pub r: &'r mut Resolver<'a>,
    pub file: &'a SourceFile,
    pub taken: &'r mut Taken<'a>,
}

impl<'a> WordLists<'a, '_> {
    pub(super) fn bad_word(&mut self, at: &str, message: String, help: &str) {
        self.r
            .problem(self.file, at, Check::BadWord, message, help.to_owned());
    }

    /// The folded words of a phrase; one without letters is a problem.
    fn folded(&mut self, phrase: &str, at: &str) -> Option<Vec<String>> {
        let words = plain(phrase);
        if words.is_empty() {
            let message = format!("'{phrase}' has neither letters nor figures");
            self.bad_word(at, message, "write it as it is said");
        }
        Some(words).filter(|words| !words.is_empty())
    }

    /// Exactly one word.
    pub(super) fn word(&mut self, text: &Text) -> Option<String> {
        let mut words = self.folded(&text.value, text.src)?;
        if words.len() > 1 {
            let message = format!("'{}' is more than one word", text.value);
            self.bad_word(text.src, message, "this list takes single words");
        }
        words.pop().filter(|_| words.is_empty())
    }

    /// True for a phrase that stands for nothing else of its sort yet.
    pub(super) fn fresh(&mut self, sort: Sort, phrase: &str, at: &'a str) -> bool {
        let Some(words) = self.folded(phrase, at) else {
            return false;
        };
        let (file, first) = *self.taken.entry((sort, words)).or_insert((self.file, at));
        if std::ptr::eq(first, at) {
            return true;
        }
        let (line, col) = line_col(&file.text, first);
        let message = format!(
            "'{phrase}' already stands for something, at {}:{line}:{col}",
            file.name
        );
        let help = "a word means one thing: delete one of the two".to_owned();
        self.r
            .problem(self.file, at, Check::DuplicateWord, message, help);
        false
    }

    pub(super) fn single(&mut self, list: &Names, out: &mut BTreeSet<String>) {
        for text in list {
            out.extend(self.word(text));
        }
    }

    pub(super) fn phrases(&mut self, list: &Names, out: &mut Phrases) {
        for text in list {
            if self.folded(&text.value, text.src).is_some() {
                out.add(&text.value, ());
            }
        }
    }

    /// Adds each of the words with what it stands for.
    pub(super) fn add<T: Clone>(
        &mut self,
        sort: Sort,
        list: &Names<'a>,
        meaning: T,
        out: &mut Lexicon<T>,
    ) {
        for text in list {
            if self.fresh(sort, &text.value, text.src) {
                out.add(&text.value, meaning.clone());
            }
        }
    }

    /// A whole number in a range.
    pub(super) fn whole(
        &mut self,
        number: &Located<f64>,
        range: RangeInclusive<f64>,
        what: &str,
    ) -> i16 {
        // A fraction is outside every range of whole numbers.
        let whole = match number.value.fract() == 0.0 {
            true => number.value,
            false => f64::NAN,
        };
        self.r.number(self.file, whole, number.src, range, what) as i16
    }

    pub(super) fn numbers(
        &mut self,
        list: &[NumberWord<'a>],
        range: &RangeInclusive<f64>,
        out: &mut Lexicon<i16>,
    ) {
        for (text, number) in list {
            let number = self.whole(number, range.clone(), "whole number");
            if self.fresh(Sort::Age, &text.value, text.src) {
                out.add(&text.value, number);
            }
        }
    }

    pub(super) fn number_words(
        &mut self,
        list: &[NumberWord<'a>],
        range: &RangeInclusive<f64>,
        out: &mut BTreeMap<String, i16>,
    ) {
        for (text, number) in list {
            let number = self.whole(number, range.clone(), "whole number");
            let fresh = self.fresh(Sort::Number, &text.value, text.src);
            if let Some(word) = self.word(text).filter(|_| fresh) {
                out.insert(word, number);
            }
        }
    }

    /// The reason and the sources of figures, both needed; the reason is shown beside them.
    pub(super) fn origin(
        &mut self,
        because: Option<&String>,
        source: &Names,
        first: Option<&Text>,
    ) -> Arc<str> {
        let at = first.map_or(self.file.text.as_str(), |text| text.src);
        let because = self.r.because(self.file, because.cloned(), at);
        self.r.sources(self.file, source, Some(at));
        because.into()
    }

    /// First and last of two figures, of which one may be missing.
    pub(super) fn between(
        &mut self,
        first: Option<&Located<f64>>,
        last: Option<&Located<f64>>,
        range: &RangeInclusive<f64>,
        what: &str,
    ) -> (Option<i16>, Option<i16>) {
        let from = first.map(|n| self.whole(n, range.clone(), what));
        let to = last.map(|n| self.whole(n, range.clone(), what));
        if let (Some(a), Some(b), Some(last)) = (from, to, last)
            && a > b
        {
            let message = format!("{what} {b} is the last and comes before {a}, the first");
            let help = "write the smaller one first".to_owned();
            self.r
                .problem(self.file, last.src, Check::YearsReversed, message, help);
        }
        (from, to)
    }

    /// A word must stand for something; `needed` is what would do.
    pub(super) fn says_something(&mut self, something: bool, words: &Names, needed: &str) {
        if let (false, Some(first)) = (something, words.first()) {
            let message = format!("'{}' stands for nothing", first.value);
            self.bad_word(first.src, message, &format!("add {needed}"));
        }
    }
}
