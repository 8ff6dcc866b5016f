//! Questions of drills, their answers, and why: in the reasons the rules give and the words the
//! verdict uses.

use std::sync::Arc;

use super::at_odds;
use super::band::years;
use super::leaning::leanings_of;
use super::names::{capital, clue_name, kind_name};
use super::observation::seen;
use super::plain::{self, first_sentence};
use super::registration;
use crate::core::observation::{Observation, Origin};
use crate::learn::item::{Item, Picture};
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::registry::corners::NAMES;
use crate::registry::diamond;
use crate::registry::tables::Layout;

/// The questions of practice items: the drill puts them, the handout prints them.
pub const WHICH_KIND: &str = "What is it?";
pub const WHEN_MADE: &str = "When was it made?";
pub const WHICH_IS_RARER: &str = "Which of the two turns up less often?";

/// What stands with every picture of a finding.
pub const DRAWN: &str = "Drawn by the program, not a photograph.";

/// What stands on the back in its own words.
pub fn on_the_back(mark: &str) -> String {
    format!("On the back: {mark}")
}

/// A question as it is put.
#[derive(Clone, Debug)]
pub struct Question {
    /// What there is to go by.
    pub given: Vec<String>,
    pub question: String,
    pub answers: Vec<String>,
}

/// The question.
pub fn question(expert: &Arc<Expert>, item: &Item) -> Question {
    let base = &expert.base;
    let kinds = |answers: &[_]| {
        answers
            .iter()
            .map(|k| capital(kind_name(expert, *k)))
            .collect()
    };
    let (given, question, answers) = match item {
        Item::Which { picture, answers } => {
            let words = |f: &_| base.finding(picture.clue, *f).words.clone();
            let question = base.clue(picture.clue).question.clone();
            (
                described(expert, picture),
                question,
                answers.iter().map(words).collect(),
            )
        }
        Item::Printed { piece, .. } => (
            seen_of(piece),
            "Printed or painted?".to_owned(),
            vec!["printed".to_owned(), "painted".to_owned()],
        ),
        Item::Misfit { piece, answers, .. } => {
            let one = |c: &_| {
                piece
                    .evidence()
                    .of(*c)
                    .map_or(String::new(), |o| line(expert, o))
            };
            let question = "One of these does not fit the others. Which?".to_owned();
            (Vec::new(), question, answers.iter().map(one).collect())
        }
        Item::Worn { shown, answers, .. } => (
            vec![shown.clone()],
            "A worn mark, ? for each letter that is gone. What did it say?".to_owned(),
            answers.iter().map(|(_, form)| form.clone()).collect(),
        ),
        Item::Diamond {
            corners, answers, ..
        } => (
            corners_of(corners),
            "A registration diamond. Which year?".to_owned(),
            answers.iter().map(ToString::to_string).collect(),
        ),
        Item::Kind {
            piece,
            mark,
            answers,
            ..
        } => (
            with_mark(piece, mark),
            WHICH_KIND.to_owned(),
            kinds(answers),
        ),
        Item::Made {
            piece,
            mark,
            answers,
            ..
        } => (
            with_mark(piece, mark),
            WHEN_MADE.to_owned(),
            answers.iter().map(|(from, to)| years(*from, *to)).collect(),
        ),
        Item::Rarer { answers, .. } => (
            Vec::new(),
            WHICH_IS_RARER.to_owned(),
            answers.iter().map(|p| seen_of(p).join("; ")).collect(),
        ),
    };
    Question {
        given,
        question,
        answers,
    }
}

/// What the finding tells: its reason, which does not name it. Beside a picture it is a help, without
/// one all there is.
fn described(expert: &Expert, picture: &Picture) -> Vec<String> {
    let finding = expert.base.finding(picture.clue, picture.finding);
    vec![first_sentence(&finding.because).to_owned()]
}

/// Findings a line each.
fn seen_of(piece: &Piece) -> Vec<String> {
    let all = piece.evidence().observations().iter();
    all.map(|o| line(piece.expert(), o)).collect()
}

fn line(expert: &Expert, observation: &Observation) -> String {
    let name = capital(&clue_name(expert, observation.clue));
    format!("{name}: {}", seen(expert, observation))
}

/// What was seen, and what stands on the back in its own words.
fn with_mark(piece: &Piece, mark: &str) -> Vec<String> {
    if mark.is_empty() {
        return seen_of(piece);
    }
    let said = piece.evidence().observations().iter();
    let said = said.filter(|o| o.origin == Origin::Hand);
    let mut out: Vec<String> = said.map(|o| line(piece.expert(), o)).collect();
    out.push(on_the_back(mark));
    out
}

fn corners_of(corners: &str) -> Vec<String> {
    let each = NAMES.iter().zip(corners.split(','));
    vec![
        each.map(|(name, held)| format!("{name} {held}"))
            .collect::<Vec<_>>()
            .join(", "),
    ]
}

/// Why the right answer is right.
pub fn why(expert: &Arc<Expert>, item: &Item) -> Vec<String> {
    match item {
        Item::Which { picture, .. } => of_finding(expert, picture),
        Item::Printed { piece, .. } => findings(piece),
        Item::Misfit { piece, .. } => {
            let odd = piece.at_odds().iter();
            odd.map(|o| format!("{}.", at_odds::plain(expert, o).trim_end_matches('.')))
                .collect()
        }
        Item::Worn { phrase, .. } => {
            let phrase = &expert.base.wording.phrases()[*phrase];
            let mut out = vec![phrase.because.clone()];
            match (phrase.from.or(phrase.usual_from), phrase.to) {
                (Some(from), Some(to)) => out.push(format!("Usual from {from} to {to}.")),
                (Some(from), None) => out.push(format!("Not usual before {from}.")),
                (None, Some(to)) => out.push(format!("Not usual after {to}.")),
                (None, None) => {}
            }
            out
        }
        Item::Diamond { corners, .. } => {
            let decoded = diamond::decode(&expert.base.registry, corners, None);
            let mut out: Vec<String> = decoded.why.iter().map(registration::why).collect();
            out.extend(
                decoded
                    .dates
                    .iter()
                    .map(|d| format!("{}.", capital(&registration::registered(d)))),
            );
            if let Some(layout) = decoded.layout {
                out.push(corner_rule(layout).to_owned());
            }
            out.push(registration::REGISTRATION_IS_A_FLOOR.to_owned());
            out
        }
        Item::Kind { piece, .. } | Item::Made { piece, .. } => {
            let mut out = findings(piece);
            out.extend(plain::answer(piece).into_iter().take(2));
            out
        }
        Item::Rarer { answers, .. } => {
            let score = |n: usize, piece: &Piece| {
                format!(
                    "{}: {:.0} of 100 pieces that turn up in such a place are commoner.",
                    n + 1,
                    piece.rarity().score
                )
            };
            let mut out: Vec<String> = answers
                .iter()
                .enumerate()
                .map(|(n, p)| score(n, p))
                .collect();
            out.push("Rare is not dear.".to_owned());
            out
        }
    }
}

/// What a finding tells, and what it speaks for by itself.
fn of_finding(expert: &Arc<Expert>, picture: &Picture) -> Vec<String> {
    let piece = Piece::unseen(expert.clone(), expert.base.neutral())
        .with(Observation::finding(picture.clue, picture.finding));
    let mut out = vec![
        expert
            .base
            .finding(picture.clue, picture.finding)
            .because
            .clone(),
    ];
    out.extend(leanings_of(&piece).into_iter().map(|(_, words)| words));
    out
}

/// Each finding with its reason and what it did.
pub fn findings(piece: &Piece) -> Vec<String> {
    let steps = piece.explanation().steps.iter();
    steps.map(|s| plain::finding(piece, s)).collect()
}

/// How the layouts are told apart.
fn corner_rule(layout: Layout) -> &'static str {
    match layout {
        Layout::First => "A letter at the top: the first layout, and that letter is the year.",
        Layout::Second => "A number at the top: the second layout, and the year is at the right.",
        Layout::Number => "",
    }
}
