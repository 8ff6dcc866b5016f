//! Sentences cut at their trade words, for pages that explain them.

use serde::Serialize;

use crate::rulebase::RuleBase;
use crate::say::glossary::{self, Fragment};

/// A sentence cut at its trade words.
#[derive(Clone, Debug, Default, Serialize)]
pub struct Linked {
    pub fragments: Vec<LinkedFragment>,
}

#[derive(Clone, Debug, Serialize)]
pub struct LinkedFragment {
    pub text: String,
    /// Id of the glossary entry.
    pub term: Option<String>,
}

/// A trade word explained.
#[derive(Clone, Debug, Serialize)]
pub struct TermLine {
    pub id: String,
    pub term: String,
    pub text: String,
    pub because: String,
    pub aat: Option<String>,
}

impl Linked {
    /// A sentence without links.
    pub(super) fn of(sentence: &str) -> Linked {
        Linked {
            fragments: vec![LinkedFragment {
                text: sentence.to_owned(),
                term: None,
            }],
        }
    }

    /// The sentence again.
    pub fn plain(&self) -> String {
        self.fragments.iter().map(|p| p.text.as_str()).collect()
    }
}

/// Gathers sentences and remembers which trade words they used.
pub(super) struct Linker<'a> {
    base: &'a RuleBase,
    used: Vec<bool>,
}

impl<'a> Linker<'a> {
    pub(super) fn new(base: &'a RuleBase) -> Linker<'a> {
        Linker {
            base,
            used: vec![false; base.glossary.len()],
        }
    }

    pub(super) fn link(&mut self, sentence: &str) -> Linked {
        let fragments = glossary::fragments(self.base, sentence);
        let mut linked = |p: Fragment| {
            let term = p.term.map(|t| {
                self.used[t] = true;
                self.base.glossary[t].id.clone()
            });
            LinkedFragment { text: p.text, term }
        };
        Linked {
            fragments: fragments.into_iter().map(&mut linked).collect(),
        }
    }

    pub(super) fn all(&mut self, sentences: &[String]) -> Vec<Linked> {
        sentences.iter().map(|s| self.link(s)).collect()
    }

    /// The trade words used so far, in the glossary's order.
    pub(super) fn words(&self) -> Vec<TermLine> {
        let terms = self.base.glossary.iter().zip(&self.used);
        let used = terms.filter(|(_, used)| **used);
        used.map(|(term, _)| TermLine {
            id: term.id.clone(),
            term: term.term.clone(),
            text: term.text.clone(),
            because: term.because.clone(),
            aat: term.aat.clone(),
        })
        .collect()
    }
}
