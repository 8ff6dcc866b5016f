//! The rule files of marks, and the spoken forms of findings, made ready to read with.

use super::RuleBase;
use super::definitions::Status;
use super::load::parse;
use super::resolve::Resolver;
use super::source::SourceFile;
use crate::core::grid::{ClueId, FindingId};
use crate::core::observation::Sure;
use crate::hearing::notes::Spoken;
use crate::registry::tables::{Origin, Standing};
use crate::rulebase::compile_marks;
use crate::rulebase::schema_marks::{RegistryFile, WordingFile};

/// Loads `marks/wording.ron` and `marks/registry.ron`.
pub fn load(r: &mut Resolver, base: &mut RuleBase, files: &[&SourceFile]) {
    for file in files {
        if file.name.ends_with("wording.ron") {
            wording(r, base, file);
        } else if file.name.ends_with("registry.ron") {
            registry(r, base, file);
        } else {
            let message = "not a file of marks".to_owned();
            let help = "known: marks/wording.ron, marks/registry.ron".to_owned();
            r.problem(file, &file.text, "unknown-file", message, help);
        }
    }
}

/// The origin of a source id, as marks want it.
fn origin(base: &RuleBase, id: &str) -> Option<Origin> {
    let source = base.sources.iter().find(|s| s.id == id)?;
    Some(Origin {
        text: source.line(),
        standing: match source.status {
            Status::Published => Standing::Published,
            Status::CommonPractice => Standing::CommonPractice,
            Status::FromMemory => Standing::FromMemory,
        },
    })
}

fn wording(r: &mut Resolver, base: &mut RuleBase, file: &SourceFile) {
    let Some(written) = parse::<WordingFile>(r, file) else {
        return;
    };
    match compile_marks::phrasebook(&written, &|id| origin(base, id)) {
        Err(problems) => mark_problems(r, file, problems),
        Ok(book) => {
            for phrase in book.phrases() {
                if let Some(problem) = unknown_finding(base, phrase) {
                    mark_problems(r, file, vec![format!("{}: {problem}", phrase.id)]);
                }
            }
            base.wording = book.with_negations(&base.vocabulary.negations);
        }
    }
}

fn registry(r: &mut Resolver, base: &mut RuleBase, file: &SourceFile) {
    let Some(written) = parse::<RegistryFile>(r, file) else {
        return;
    };
    match compile_marks::registry(&written, &|id| origin(base, id)) {
        Err(problems) => mark_problems(r, file, problems),
        Ok(registry) => base.registry = registry,
    }
}

/// A phrase must stand for a clue and finding of the rule base.
fn unknown_finding(base: &RuleBase, phrase: &crate::hearing::mark::Phrase) -> Option<String> {
    let clue = phrase.clue.as_ref()?;
    let Some(id) = base.clue_id(clue) else {
        return Some(format!("unknown clue '{clue}'"));
    };
    let finding = phrase.finding.as_ref()?;
    let known = base.clue(id).finding(finding).is_some();
    (!known).then(|| format!("unknown finding '{finding}' of {clue}"))
}

/// Problems of marks begin with the id of their entry, which gives the place.
fn mark_problems(r: &mut Resolver, file: &SourceFile, problems: Vec<String>) {
    for problem in problems {
        let id = problem.split(':').next().unwrap_or_default();
        let quoted = format!("\"{id}\"");
        let at = file.text.find(&quoted).unwrap_or(0);
        r.problem(file, &file.text[at..], "bad-mark", problem, String::new());
    }
}

/// All spoken forms of all findings. A form that ends in `?` (or `??`) is a word people use for what
/// they take the piece to be rather than for what they saw: it is heard as unsure (or a guess).
pub fn spoken(base: &RuleBase) -> Spoken<(ClueId, FindingId, Sure)> {
    let mut out = Vec::new();
    for (c, clue) in base.clues.iter().enumerate() {
        for (f, finding) in clue.findings.iter().enumerate() {
            for (end, sure) in [("", Sure::Sure), ("?", Sure::Unsure), ("??", Sure::Guess)] {
                let forms = finding.spoken.iter().filter_map(|form| {
                    let words = form.trim_end_matches('?');
                    (&form[words.len()..] == end).then(|| words.to_owned())
                });
                let forms: Vec<String> = forms.collect();
                if !forms.is_empty() {
                    out.push((forms, (ClueId(c as u16), FindingId(f as u16), sure)));
                }
            }
        }
    }
    Spoken::new(out, &base.vocabulary)
}
