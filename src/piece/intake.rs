//! From what is written to findings: the wording of a mark, and a line of notes.

use super::expert::Expert;
use super::notation;
use crate::core::observation::{Evidence, Observation, Observed, Sure};
use crate::hearing::mark::{Reading, Unread};
use crate::hearing::one_per_clue::{OnePerClue, Overridden};

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

/// Clues of the mark whose words have a "none" that a whole, readable mark answers.
const SILENT: [&str; 12] = [
    "country-word",
    "company-word",
    "trade-word",
    "ware-word",
    "care-word",
    "process-word",
    "edition-word",
    "royal-arms",
    "royal-word",
    "old-date",
    "registration",
    "date-code",
];

/// Reads the wording of a mark.
///
/// `complete`: nothing else stands there, so a word that is not there speaks too.
pub fn mark(expert: &Expert, text: &str, complete: bool) -> MarkHeard {
    let base = &expert.base;
    let reading = base.wording.read(&base.registry, text);
    let mut evidence = Evidence::new();
    for found in reading.findings() {
        let written = format!("{}={}", found.clue, found.finding);
        // The loader has checked the ids; a year outside the grid says nothing here.
        if let Ok(entry) = notation::parse(base, &written) {
            evidence.say(Observation {
                sure: found.sure,
                ..entry
            });
        }
    }
    if complete {
        for name in SILENT {
            let Some(clue) = base.clue_id(name) else {
                continue;
            };
            if let (None, Some(none)) = (evidence.of(clue), base.clue(clue).finding("none")) {
                evidence.say(Observation {
                    clue,
                    seen: Observed::Finding(none),
                    sure: Sure::Sure,
                });
            }
        }
    }
    MarkHeard {
        reading,
        entries: evidence.entries().to_vec(),
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
        let entry = Observation {
            clue,
            seen: Observed::Finding(finding),
            sure: part.sure.max(sure),
        };
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
                clue: only.clue,
                seen: Observed::Finding(*finding),
                sure: entry.sure,
            }),
            _ => None,
        },
        _ => None,
    }
}
