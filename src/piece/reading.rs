//! From what is written to observations: the wording of a mark, and a line of notes.

use super::expert::Expert;
use super::notation::YEARS;
use crate::core::grid::FindingId;
use crate::core::observation::{Evidence, Observation, Observed, Origin, Weights};
use crate::hearing::mark::{Reading, Unread};
use crate::hearing::notes::{Beside, Heard, NotCounted};
use crate::hearing::one_per_clue::{OnePerClue, Overridden};
use crate::hearing::opinion::Opinion;
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
    /// One a clue, in the order of the text.
    pub heard: Vec<Heard>,
    /// Heard, but another answer to the same clue counts.
    pub overridden: Vec<Overridden>,
    /// Heard, and no finding of the piece: with the reason.
    pub not_counted: Vec<NotCounted>,
    /// What the writer takes the piece to be.
    pub opinion: Option<Opinion>,
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
        let lettered = |u: &Unread| u.name || u.text.chars().any(char::is_alphabetic);
        let open = base.wording.clue_of_firms();
        let open = open.filter(|_| reading.unread.iter().any(lettered));
        for (clue, rules) in ids(base.clues.len()).zip(&base.clues) {
            if open == Some(clue) {
                continue; // what can't be read may be the firm's name
            }
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
    let base = &expert.base;
    let beside = Beside {
        vocabulary: &base.vocabulary,
        wording: &base.wording,
        registry: &base.registry,
        present: expert.present().0,
    };
    let read = expert.spoken().read(&beside, text);
    let mut heard = OnePerClue::default();
    for said in narrowed(read.heard) {
        heard.hear(said.from(Origin::Notes));
    }
    for said in heard.kept.clone() {
        if let Some(observation) = implied(expert, &said.observation) {
            heard.imply(Heard {
                observation,
                ..said
            });
        }
    }
    NotesHeard {
        heard: heard.kept,
        overridden: heard.overridden,
        not_counted: read.not_counted,
        opinion: read.opinion,
        unread: read.unread,
    }
}

/// What leaves several findings open gives way to what says one of them, and of two such only what
/// both leave open stays.
fn narrowed(heard: Vec<Heard>) -> Vec<Heard> {
    let mut out: Vec<Heard> = Vec::new();
    for said in heard {
        let same = |o: &&mut Heard| o.clue() == said.clue();
        let Some(old) = out.iter_mut().rev().find(same) else {
            out.push(said);
            continue;
        };
        let sure = old.observation.sure.max(said.observation.sure);
        match (&old.observation.seen, &said.observation.seen) {
            (Observed::Soft(w), Observed::Finding(f)) if allows(w, *f) => *old = said,
            (Observed::Finding(f), Observed::Soft(w)) if allows(w, *f) => {}
            (Observed::Soft(a), Observed::Soft(b)) => {
                let pairs = a.by_finding().iter().zip(b.by_finding());
                let both: Vec<f64> = pairs.map(|(x, y)| x * y).collect();
                match Weights::new(&both) {
                    Some(both) => {
                        let seen = Observation::new(said.clue(), Observed::Soft(both));
                        *old = Heard {
                            text: format!("{}, {}", old.text, said.text),
                            span: (old.span.0, said.span.1.max(old.span.1)),
                            observation: seen.sure(sure),
                        };
                    }
                    None => out.push(said),
                }
            }
            _ => out.push(said),
        }
    }
    out
}

fn allows(weights: &Weights, finding: FindingId) -> bool {
    let weight = weights.by_finding().get(usize::from(finding.0));
    weight.is_some_and(|w| *w > 0.0)
}

/// What a finding takes for granted: "dark blue" says blue, as only blue opens that clue.
fn implied(expert: &Expert, entry: &Observation) -> Option<Observation> {
    match expert.engine().model.clue(entry.clue).gate.as_slice() {
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
