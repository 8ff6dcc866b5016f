//! The glossary file: trade words, one meaning for each way to write one.

use std::collections::BTreeMap;

use super::base::RuleBase;
use super::definitions::Term;
use super::ids::Sort;
use super::parse::{Files, each};
use super::problem::Check;
use super::resolve::Resolver;
use super::schema::GlossaryFile;

/// Loads `glossary.ron`.
pub(super) fn glossary<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, GlossaryFile<'a>>,
) {
    let mut explained: BTreeMap<String, String> = BTreeMap::new();
    for (file, t) in each(files, |f| f.terms) {
        let fresh = r.define(Sort::Term, file, &t.id);
        let because = r.because(file, t.because, t.id.src);
        let sources = r.sources(file, &t.source, Some(t.id.src));
        for also in &t.also {
            let spoken = also.value.to_lowercase();
            if let Some(have) = explained.get(&spoken) {
                let message = format!("'{}' is already explained by '{have}'", also.value);
                r.problem(file, also.src, Check::DuplicateWord, message, "");
            }
        }
        if fresh {
            let term = Term {
                id: t.id.value,
                term: t.term,
                also: t.also.into_iter().map(|a| a.value).collect(),
                aat: t.aat.map(|a| a.value),
                text: t.text,
                because,
                sources,
            };
            for written in term.written() {
                let spoken = written.to_lowercase();
                explained.entry(spoken).or_insert_with(|| term.id.clone());
            }
            base.glossary.push(term);
        }
    }
}
