//! From what is written to observations: the wording of a mark, and a line of notes.

use super::expert::Expert;
use super::notation::YEARS;
use crate::core::observation::{Evidence, Observation, Observed, Origin};
use crate::hearing::mark::{Reading, Unread};
use crate::hearing::one_per_clue::{OnePerClue, Overridden};
use crate::rulebase::ids::ids;

/// What a mark says, and the findings it stands for.
#[derive(Clone, Debug)]
pub struct MarkHeard {
    pub reading: Reading,
    pub entries: Vec<Observation>,
}

/// What a line of notes says: findings with the text they were heard in, and what was not understood.
#[derive(Clone, Debug)]
pub struct NotesHeard {
    /// (text, entry), one a clue, in the order of the text.
    pub heard: Vec<(String, Observation)>,
    /// Heard, but another answer to the same clue counts.
    pub overridden: Vec<Overridden>,
    pub unread: Vec<Unread>,
}

/// Reads the wording of a mark.
///
/// `complete`: nothing else stands there, so a word that is not there speaks too.
pub fn mark(expert: &Expert, text: &str, complete: bool) -> MarkHeard {
    let base = &expert.base;
    let reading = base.wording.read(&base.registry, text);
    let mut evidence = Evidence::new();
    for found in reading.findings() {
        if let Observed::Year(year) = found.seen
            && !YEARS.contains(&year)
        {
            continue; // a year nobody could say either says nothing here
        }
        let seen = Observation::new(found.clue, found.seen).sure(found.sure);
        evidence.add(seen.from(Origin::Mark));
    }
    if complete {
        for (clue, rules) in ids(base.clues.len()).zip(&base.clues) {
            if let (None, Some(absent)) = (evidence.of(clue), rules.absent_from_whole_mark) {
                evidence.add(Observation::finding(clue, absent).from(Origin::Mark));
            }
        }
    }
    MarkHeard {
        reading,
        entries: evidence.observations().to_vec(),
    }
}

/// Reads the corners of a diamond: top, right, bottom, left, and the class; empty where nothing
/// can be read.
pub fn diamond(expert: &Expert, corners: &[String], class: &str) -> MarkHeard {
    let corner = |c: &String| match c.trim() {
        "" => "?".to_owned(),
        c => c.to_owned(),
    };
    let corners: Vec<String> = corners.iter().map(corner).collect();
    let class = match class.trim() {
        "" => String::new(),
        class => format!(" class {class}"),
    };
    let text = format!("diamond {}{class}", corners.join(","));
    mark(expert, &text, false)
}

/// Reads a line of notes in trade words.
///
/// Where two parts of the line answer the same clue, `one_per_clue` says which counts.
pub fn notes(expert: &Expert, text: &str) -> NotesHeard {
    let read = expert.base.spoken.read(text);
    let mut heard = OnePerClue::default();
    for part in read.heard {
        let (clue, finding, sure) = part.what;
        let entry = Observation::finding(clue, finding)
            .sure(part.sure.max(sure))
            .from(Origin::Notes);
        heard.hear(part.text, entry);
    }
    for (text, entry) in heard.kept.clone() {
        if let Some(entry) = implied(expert, &entry) {
            heard.imply(text, entry);
        }
    }
    NotesHeard {
        heard: heard.kept,
        overridden: heard.overridden,
        unread: read.unread,
    }
}

/// What a finding takes for granted: "dark blue" says blue, as only blue opens that clue.
fn implied(expert: &Expert, entry: &Observation) -> Option<Observation> {
    match expert.engine.model.clue(entry.clue).gate.as_slice() {
        [only] => match only.any_of.as_slice() {
            [finding] => Some(Observation {
                sure: entry.sure,
                origin: entry.origin,
                ..Observation::finding(only.clue, *finding)
            }),
            _ => None,
        },
        _ => None,
    }
}
