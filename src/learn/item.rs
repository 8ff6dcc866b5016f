//! One question with its answers, whatever drill it is of.

use crate::core::grid::{ClueId, FindingId, KindId, Year};
use crate::core::observation::Observed;
use crate::piece::Piece;
use crate::rulebase::RuleBase;

/// Answers to choose from, at most (common practice, no source).
pub(super) const ANSWERS: usize = 4;

/// What a picture shows. The seed draws it: another seed, another example of the same finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Picture {
    pub clue: ClueId,
    pub finding: FindingId,
    pub seed: u64,
}

/// A question. Where answers are listed they stand in the order shown.
#[derive(Clone, Debug)]
pub enum Item {
    /// Name the finding that is shown.
    Which {
        picture: Picture,
        answers: Vec<FindingId>,
    },
    /// Is this piece printed or painted?
    Printed { piece: Piece, printed: bool },
    /// Which of the findings does not fit the others?
    Misfit {
        piece: Piece,
        answers: Vec<ClueId>,
        odd: ClueId,
    },
    /// What did the worn words say? Indices of phrases of the rule base.
    Worn {
        shown: String,
        answers: Vec<(usize, String)>,
        phrase: usize,
    },
    /// Which year does the diamond stand for?
    Diamond {
        corners: String,
        answers: Vec<i16>,
        year: i16,
    },
    /// A practice item of a lesson: which kind is it?
    Kind {
        at: (usize, usize),
        piece: Piece,
        mark: String,
        answers: Vec<KindId>,
        right: KindId,
    },
    /// A practice item of a lesson: when was it made?
    Made {
        at: (usize, usize),
        piece: Piece,
        mark: String,
        answers: Vec<(Year, Year)>,
        right: (Year, Year),
    },
    /// A practice item of a lesson: which is the less common?
    Rarer {
        at: (usize, usize),
        answers: [Piece; 2],
        right: usize,
    },
}

impl Item {
    /// Where the right answer stands.
    pub fn right(&self) -> usize {
        let place = |at: Option<usize>| at.unwrap_or_default();
        match self {
            Item::Which { picture, answers } => {
                place(answers.iter().position(|f| *f == picture.finding))
            }
            Item::Printed { printed, .. } => usize::from(!printed),
            Item::Misfit { answers, odd, .. } => place(answers.iter().position(|c| c == odd)),
            Item::Worn {
                answers, phrase, ..
            } => place(answers.iter().position(|(p, _)| p == phrase)),
            Item::Diamond { answers, year, .. } => place(answers.iter().position(|y| y == year)),
            Item::Kind { answers, right, .. } => place(answers.iter().position(|k| k == right)),
            Item::Made { answers, right, .. } => place(answers.iter().position(|s| s == right)),
            Item::Rarer { right, .. } => *right,
        }
    }

    /// How many answers there are to choose from.
    pub fn count(&self) -> usize {
        match self {
            Item::Printed { .. } | Item::Rarer { .. } => 2,
            Item::Which { answers, .. } => answers.len(),
            Item::Misfit { answers, .. } => answers.len(),
            Item::Worn { answers, .. } => answers.len(),
            Item::Diamond { answers, .. } => answers.len(),
            Item::Kind { answers, .. } => answers.len(),
            Item::Made { answers, .. } => answers.len(),
        }
    }

    /// By what the learner's memory of it goes: `again` makes the question from it again.
    pub fn key(&self, base: &RuleBase) -> String {
        let finding = |c: ClueId, f: FindingId| {
            format!("which:{}={}", base.clue(c).id, base.finding(c, f).id)
        };
        let of_piece = |piece: &Piece, clue: ClueId| {
            let seen = piece.evidence().of(clue).map(|o| &o.seen);
            match seen.and_then(Observed::finding) {
                Some(f) => finding(clue, f),
                None => format!("look:{}", base.clue(clue).id),
            }
        };
        match self {
            Item::Which { picture, .. } => finding(picture.clue, picture.finding),
            // The finding that told most.
            Item::Printed { piece, .. } => {
                let steps = piece.explanation().steps.iter();
                let told = steps.max_by(|a, b| a.leave_one_out.total_cmp(&b.leave_one_out));
                told.map_or("printed".to_owned(), |s| {
                    of_piece(piece, s.observation.clue)
                })
            }
            Item::Misfit { piece, odd, .. } => of_piece(piece, *odd),
            Item::Worn { phrase, .. } => format!("worn:{}", base.wording.phrases()[*phrase].id),
            Item::Diamond { .. } => "diamond".to_owned(),
            Item::Kind { at, .. } | Item::Made { at, .. } | Item::Rarer { at, .. } => {
                format!("lesson:{}:{}", base.lessons[at.0].id, at.1 + 1)
            }
        }
    }

    /// What it was about, what it was and what was said, by ids: for the matrix.
    pub fn names<'a>(
        &self,
        base: &'a RuleBase,
        said: usize,
    ) -> Option<(&'a str, &'a str, &'a str)> {
        match self {
            Item::Which { picture, answers } => {
                let id = |f: FindingId| base.finding(picture.clue, f).id.as_str();
                let about = base.clue(picture.clue).id.as_str();
                Some((about, id(picture.finding), id(*answers.get(said)?)))
            }
            Item::Kind { answers, right, .. } => {
                let id = |k: KindId| base.kinds[k].id.as_str();
                Some(("kind", id(*right), id(*answers.get(said)?)))
            }
            Item::Printed { printed, .. } => {
                let side = |first: bool| if first { "printed" } else { "painted" };
                Some(("printed or painted", side(*printed), side(said == 0)))
            }
            _ => None,
        }
    }
}
