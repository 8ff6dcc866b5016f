//! The spoken forms of all findings, ready to read notes with.

use super::base::RuleBase;
use super::ids::{ClueId, FindingId, ids};
use crate::core::observation::Sure;
use crate::hearing::notes::{Denied, Spoken, SpokenForm};

/// All spoken forms.
///
/// - One that ends in `?` (or `??`) is heard as unsure (or a guess).
/// - `[thing] words` is heard only where that thing is spoken of; `[no] words` only where denied,
///   and rules the finding out.
/// - One that begins with a denial stands for its finding after any denial.
/// - One that several findings of a clue have means any of them.
pub fn spoken(base: &RuleBase) -> Spoken {
    let mut out = Vec::new();
    for (c, clue) in ids(base.clues.len()).zip(&base.clues) {
        for (f, finding) in ids(clue.findings.len()).zip(&clue.findings) {
            out.extend(finding.spoken.iter().map(|form| form_of(base, c, f, form)));
        }
    }
    let counts = base.clues.iter().map(|c| c.findings.len()).collect();
    Spoken::new(out, counts, &base.vocabulary)
}

fn form_of(base: &RuleBase, clue: ClueId, finding: FindingId, written: &str) -> SpokenForm {
    let ear = &base.vocabulary.ear;
    let words = written.trim_end_matches('?');
    let sure = match written.len() - words.len() {
        0 => Sure::Sure,
        1 => Sure::Unsure,
        _ => Sure::Guess,
    };
    let bracket = words
        .strip_prefix('[')
        .and_then(|rest| rest.split_once(']'));
    let (thing, words) = bracket.map_or(("", words), |(thing, rest)| (thing, rest));
    let about = ear.things.iter().position(|t| t.id == thing);
    let normal = ear.normal(words);
    let split: Vec<&str> = normal.split(' ').collect();
    let denial = ear.denials.longest(0, |i| split.get(i).copied());
    let (form, denied) = match denial {
        Some((end, ())) if end < split.len() => (split[end..].join(" "), Denied::Gives),
        _ if thing == "no" => (normal, Denied::RulesOut),
        _ => (normal, Denied::Not),
    };
    SpokenForm {
        form,
        clue,
        finding,
        sure,
        about,
        denied,
    }
}
