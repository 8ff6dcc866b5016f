//! The phrases of marks: forms, the clue and finding each stands for, and the years it tells.

use std::collections::BTreeMap;

use super::base::RuleBase;
use super::ids::{ClueId, FindingId, Sort};
use super::parse::Files;
use super::problem::Check;
use super::resolve::Resolver;
use super::schema::Text;
use super::schema_marks::{PhraseEntry, WordingFile};
use super::source::{Bare, SourceFile};
use crate::hearing::fold::{Word, words};
use crate::hearing::mark::{Blanked, Phrase, Phrasebook, Reads};

/// Which phrase has a form, by what it leads to and the form in folded letters.
type Forms = BTreeMap<(Reads, String), String>;

/// Loads `marks/wording.ron`.
pub(super) fn wording<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, WordingFile<'a>>,
) {
    let mut phrases = Vec::new();
    let mut blanked = Blanked::default();
    let mut seen = Forms::new();
    for (file, written) in files {
        for p in written.phrases {
            phrases.extend(phrase(r, base, file, p, &mut seen));
        }
        if let Some(names) = &written.blanked {
            let (clue, finding) = &names.says;
            let says = listed(r, base, file, clue, Some(finding));
            blanked.firm = says.and_then(|(clue, finding)| Some((clue, finding?)));
            let named = |words: &[Text], firm| {
                let folded = |w: &Text| (w.value.trim().to_lowercase(), firm);
                words.iter().map(folded).collect::<Vec<_>>()
            };
            blanked.words.extend(named(&names.other, false));
            blanked.words.extend(named(&names.firm, true));
        }
    }
    if r.problems.is_empty() {
        base.wording = Phrasebook::new(phrases, blanked).with_negations(&base.vocabulary.negations);
    }
}

/// A checked phrase. `None` for one that was defined before.
fn phrase<'a>(
    r: &mut Resolver<'a>,
    base: &RuleBase,
    file: &'a SourceFile,
    p: PhraseEntry<'a>,
    seen: &mut Forms,
) -> Option<Phrase> {
    let fresh = r.define(Sort::Phrase, file, &p.id);
    let says = says(r, base, file, &p);
    if p.forms.is_empty() && !p.reads.without_forms() {
        let message = format!("'{}' has no forms", p.id.value);
        let help = "add forms: [\"…\"]: the words as they stand in marks";
        r.problem(file, p.id.src, Check::NoForms, message, help);
    }
    for form in &p.forms {
        check_form(r, file, &p, form, seen);
    }
    let mut before = None;
    let mut year = |text: Option<Bare>| {
        let text = text?;
        let year = r.year(file, text)?;
        if before.is_some_and(|before| before > year) {
            let message = format!("years must rise from `from` to `usual_from` to `to`: {year}");
            r.problem(file, text.0, Check::YearsReversed, message, "");
        }
        before = Some(year);
        Some(year)
    };
    let (from, usual_from, to) = (year(p.from), year(p.usual_from), year(p.to));
    let because = r.because(file, p.because, p.id.src);
    let sources = r.sources(file, &p.source, Some(p.id.src));
    fresh.then(|| Phrase {
        id: p.id.value,
        says,
        forms: p.forms.into_iter().map(|f| f.value).collect(),
        reads: p.reads,
        from,
        usual_from,
        to,
        because,
        origin: base.origin(&sources),
    })
}

/// The clue a phrase speaks of, and the finding; a phrase that reads a year has no finding.
fn says(
    r: &mut Resolver,
    base: &RuleBase,
    file: &SourceFile,
    p: &PhraseEntry,
) -> Option<(ClueId, Option<FindingId>)> {
    let Some(clue) = &p.clue else {
        if let Some(finding) = &p.finding {
            let message = format!("finding '{}' without a clue", finding.value);
            let help = "add clue: \"…\", or drop the finding";
            r.problem(file, finding.src, Check::FindingWithoutClue, message, help);
        }
        return None;
    };
    let (id, finding) = listed(r, base, file, clue, p.finding.as_ref())?;
    let dated = base.clue(id).dated.is_some();
    if dated != p.reads.a_year() {
        let (is, does) = match dated {
            true => ("dated", "reads no year"),
            false => ("not dated", "reads a year"),
        };
        let message = format!("clue '{}' is {is}, but the phrase {does}", clue.value);
        r.problem(file, clue.src, Check::ReadsAnotherSort, message, "");
    } else if !dated && p.finding.is_none() {
        let clue_id = &clue.value;
        let message = format!("no finding of '{clue_id}' is named for the phrase");
        let help = "add finding: \"…\"";
        r.problem(file, clue.src, Check::ClueWithoutFinding, message, help);
    }
    Some((id, finding))
}

/// A clue and one of its findings.
fn listed(
    r: &mut Resolver,
    base: &RuleBase,
    file: &SourceFile,
    clue: &Text,
    finding: Option<&Text>,
) -> Option<(ClueId, Option<FindingId>)> {
    let id = r.lookup::<ClueId>(file, clue)?;
    let known = base.clue(id).finding_ids();
    let finding = finding.and_then(|name| r.finding(file, name, known));
    Some((id, finding))
}

/// A form has letters, and leads to one phrase only.
fn check_form(r: &mut Resolver, file: &SourceFile, p: &PhraseEntry, form: &Text, seen: &mut Forms) {
    let folded: String = words(&form.value).iter().map(Word::folded).collect();
    if folded.is_empty() {
        let message = format!("the form '{}' has no letters", form.value);
        r.problem(file, form.src, Check::EmptyForm, message, "");
    }
    let of = seen
        .entry((p.reads, folded))
        .or_insert_with(|| p.id.value.clone());
    if *of != p.id.value {
        let message = format!("'{}' is also a form of '{of}'", form.value);
        r.problem(file, form.src, Check::DuplicateForm, message, "");
    }
}
