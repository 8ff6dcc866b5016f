//! The glossary file: trade words, one meaning for each way to write one.

use super::RuleBase;
use super::definitions::Term;
use super::load::parse;
use super::resolve::Resolver;
use super::schema::GlossaryFile;
use super::source::SourceFile;

/// Loads `glossary.ron`.
pub fn load(r: &mut Resolver, base: &mut RuleBase, file: &SourceFile) {
    let Some(parsed) = parse::<GlossaryFile>(r, file) else {
        return;
    };
    for t in parsed.terms {
        let fresh = r.define("term", |r| &mut r.terms, file, &t.id);
        let because = r.because(file, t.because, t.id.src);
        let sources = r.sources(file, &t.source, Some(t.id.src));
        for also in &t.also {
            let spoken = also.value.to_lowercase();
            let have = base.glossary.iter().find(|have| {
                let mut written = have.written();
                written.any(|w| w.to_lowercase() == spoken)
            });
            if let Some(have) = have {
                let message = format!("'{}' is already explained by '{}'", also.value, have.id);
                r.problem(file, also.src, "duplicate-word", message, String::new());
            }
        }
        if fresh {
            base.glossary.push(Term {
                id: t.id.value,
                term: t.term,
                also: t.also.into_iter().map(|a| a.value).collect(),
                aat: t.aat.map(|a| a.value),
                text: t.text,
                because,
                sources,
            });
        }
    }
}
