//! A lesson as one page to hand out: the text, what to look for, the practice items with room to
//! write, and the answers.

use serde::Serialize;

use super::linked::{Linked, Linker, TermLine};
use crate::core::grid::{ClueId, FindingId};
use crate::core::observation::Observation;
use crate::piece::expert::Expert;
use crate::piece::notation;
use crate::rulebase::definitions::{Asks, Practice};
use crate::say::band::years;
use crate::say::drill::{WHEN_MADE, WHICH_IS_RARER, WHICH_KIND, on_the_back};
use crate::say::names::{capital, clue_name, kind_name};
use crate::say::origin;

/// One handout.
#[derive(Clone, Debug, Serialize)]
pub struct Handout {
    pub title: String,
    pub text: Vec<Linked>,
    /// Findings to look for: what is seen, what it tells.
    pub shows: Vec<ToLookFor>,
    pub practice: Vec<Exercise>,
    pub glossary: Vec<TermLine>,
    pub because: Linked,
    pub origin: String,
}

/// A finding to look for.
#[derive(Clone, Debug, Serialize)]
pub struct ToLookFor {
    pub seen: Linked,
    pub because: Linked,
    /// Its clue and finding, by which a picture of it is known: `edge=soft`.
    pub finding: String,
}

/// A practice item.
#[derive(Clone, Debug, Serialize)]
pub struct Exercise {
    pub given: Vec<String>,
    pub question: &'static str,
    pub answers: Vec<String>,
    /// The right one, in words.
    pub right: String,
}

impl Handout {
    /// The handout of a lesson by its place in the list.
    pub fn new(expert: &Expert, lesson: usize) -> Handout {
        let base = &expert.base;
        let lesson = &base.lessons[lesson];
        let mut linker = Linker::new(base);
        let text = linker.all(&lesson.text);
        let shows = lesson.shows.iter().map(|(clue, finding)| ToLookFor {
            seen: linker.link(&seen(expert, *clue, *finding)),
            because: linker.link(&base.finding(*clue, *finding).because),
            finding: notation::write(base, &Observation::finding(*clue, *finding)),
        });
        let shows = shows.collect();
        Handout {
            title: lesson.title.clone(),
            text,
            shows,
            practice: lesson
                .practice
                .iter()
                .map(|p| exercise(expert, p))
                .collect(),
            because: linker.link(&lesson.because),
            origin: origin::sources(expert, &lesson.sources),
            glossary: linker.words(),
        }
    }
}

fn seen(expert: &Expert, clue: ClueId, finding: FindingId) -> String {
    let name = capital(&clue_name(expert, clue));
    format!("{name}: {}", expert.base.finding(clue, finding).words)
}

fn exercise(expert: &Expert, practice: &Practice) -> Exercise {
    let all = |saw: &[(ClueId, FindingId)]| {
        saw.iter()
            .map(|(c, f)| seen(expert, *c, *f))
            .collect::<Vec<_>>()
    };
    let mut given = all(&practice.saw);
    if !practice.mark.is_empty() {
        given.push(on_the_back(&practice.mark));
    }
    let (question, mut answers) = match &practice.asks {
        Asks::Kind(kinds) => {
            let names = kinds.iter().map(|k| capital(kind_name(expert, *k)));
            (WHICH_KIND, names.collect::<Vec<_>>())
        }
        Asks::Years(spans) => {
            let spans = spans.iter().map(|(from, to)| years(*from, *to));
            (WHEN_MADE, spans.collect())
        }
        Asks::RarerThan(other) => {
            let both = vec![given.join("; "), all(other).join("; ")];
            given.clear();
            (WHICH_IS_RARER, both)
        }
    };
    let right = answers[0].clone();
    // In the order of the alphabet (years: of time), so that the right one does not stand first.
    answers.sort();
    Exercise {
        given,
        question,
        answers,
        right,
    }
}
