//! A sheet for a class: the eras picture, each finding with what it tells, and the words explained.

use serde::Serialize;

use super::linked::{Linked, Linker, TermLine};
use super::{sheet, svg};
use crate::hearing::opinion::Opinion;
use crate::piece::Piece;
use crate::piece::notation::printable;
use crate::say::names::{capital, clue_name, kind_name};
use crate::say::observation::seen;
use crate::say::{at_odds, caution, leaning, odds, opinion, plain, weight};

/// One sheet.
#[derive(Clone, Debug, Serialize)]
pub struct Lesson {
    /// May be empty.
    pub title: String,
    pub plain: Vec<Linked>,
    pub opinion: Vec<Linked>,
    pub findings: Vec<Told>,
    /// What does not fit the rest.
    pub odd: Vec<Linked>,
    pub glossary: Vec<TermLine>,
    pub cautions: Vec<String>,
    pub sources: Vec<String>,
    /// The eras picture.
    #[serde(skip)]
    pub picture: String,
    pub picture_alt: String,
}

/// A finding and what it tells.
#[derive(Clone, Debug, Serialize)]
pub struct Told {
    pub seen: Linked,
    pub because: Linked,
    /// What it speaks for and against.
    pub leaning: Linked,
    /// What it did to the answer here.
    pub here: Linked,
}

impl Lesson {
    /// The sheet of a piece; `title` may be empty.
    pub fn new(piece: &Piece, title: &str, opinion: Option<&Opinion>) -> Lesson {
        let expert = piece.expert();
        let kind = kind_name(expert, piece.judgement().leading().0);
        let leanings = leaning::leanings_of(piece);
        let mut linker = Linker::new(&expert.base);
        let plain = linker.all(&plain::lines(piece));
        let opinion = opinion.map_or(Vec::new(), |o| opinion::lines(piece, o));
        let opinion = linker.all(&opinion);
        let findings = piece.explanation().steps.iter().map(|step| {
            let observation = &step.observation;
            let name = capital(&clue_name(expert, observation.clue));
            let here = odds::strength(step.leave_one_out, kind);
            Told {
                seen: linker.link(&format!("{name}: {}", seen(expert, observation))),
                because: linker.link(weight::why(expert, observation)),
                leaning: linker.link(leaning::leaning_of(&leanings, observation)),
                here: linker.link(&format!("Here it {here}.")),
            }
        });
        let findings = findings.collect();
        let odd = piece.at_odds().iter();
        let odd: Vec<String> = odd.map(|o| at_odds::plain(expert, o)).collect();
        Lesson {
            title: printable(title.trim()),
            plain,
            opinion,
            findings,
            odd: linker.all(&odd),
            cautions: caution::cautions(expert, piece.evidence()),
            sources: sheet::sources(piece),
            picture: svg::eras(piece, None),
            picture_alt: svg::alt(piece),
            glossary: linker.words(),
        }
    }
}
