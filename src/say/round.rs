//! What is said around questions: what there is to drill, how an answer did, how a round went.

use super::drill::Question;
use super::names::capital;
use crate::learn::item::Item;
use crate::learn::learner::Learner;
use crate::learn::memory::Day;
use crate::learn::round::{Drill, Outcome, ROUNDS, Round};
use crate::piece::expert::Expert;

/// What stands before the round that goes by time.
pub const TWO_MINUTES: &str = "Two minutes: printed or painted?";

/// What a drill is, after its name or as a line of a list; a lesson's title.
pub fn what(expert: &Expert, drill: Drill) -> String {
    let words = match drill {
        Drill::Due => "repeat what is due",
        Drill::Lesson(at) => {
            return expert
                .base
                .lessons
                .get(at)
                .map_or(String::new(), |l| l.title.clone());
        }
        Drill::Printed => "printed or painted? Two minutes",
        Drill::Which => "name what is shown",
        Drill::Misfit => "find the finding that does not fit",
        Drill::Back => "read worn marks and diamonds",
        Drill::Ask => "ask a hidden piece, then say what it is",
        Drill::Own => "a piece of your own: you guess before the program does",
    };
    words.to_owned()
}

/// "Lesson 1: Printed or painted?"
pub fn lesson(expert: &Expert, at: usize) -> String {
    format!("Lesson {}: {}", at + 1, what(expert, Drill::Lesson(at)))
}

/// What a lesson shows of a finding: the question that leads to it, and what is seen.
pub fn to_look_for(expert: &Expert, lesson: usize, shown: usize) -> String {
    let (clue, finding) = expert.base.lessons[lesson].shows[shown];
    let question = &expert.base.clue(clue).question;
    let words = &expert.base.finding(clue, finding).words;
    format!("{question} {}", capital(words))
}

/// How many questions wait to be repeated.
pub fn to_repeat(round: &Round) -> String {
    let count = round.count().unwrap_or_default();
    format!("First what you met before: {count} to repeat.")
}

/// "Question 2 of 3"
pub fn number(round: &Round) -> String {
    let (asked, _) = round.tally();
    let of = round
        .count()
        .map_or(String::new(), |of| format!(" of {of}"));
    format!("Question {}{of}", asked + 1)
}

/// Whether it was right, which answer is, and what the stated confidence brought.
pub fn verdict(put: &Question, item: &Item, outcome: Outcome) -> Vec<String> {
    let right = item.right();
    let mut out = vec![match outcome.right {
        true => "Right.".to_owned(),
        false => format!(
            "No: {} {}.",
            right + 1,
            put.answers[right].trim_end_matches('.')
        ),
    }];
    if let Some((percent, won)) = outcome.stated {
        out.push(format!("{won:.0} points of 100 for saying {percent} %."));
    }
    out
}

/// How a round went; nothing of one without an answer.
pub fn tally(round: &Round) -> Option<String> {
    let (asked, right) = round.tally();
    let points = round.mean_points().map_or(String::new(), |won| {
        format!("; {won:.0} points on average for how sure you were")
    });
    (asked > 0).then(|| format!("{right} of {asked} right{points}."))
}

/// When something is due again.
pub fn come_back(learner: &Learner, today: Day) -> Option<String> {
    let day = learner.next_due()?;
    Some(match day <= today {
        true => "There is more to repeat today: printseam drill".to_owned(),
        false => format!("Come back on {day} or later: printseam drill"),
    })
}

/// What there is when all lessons are done.
pub fn all_done(expert: &Expert) -> Vec<String> {
    let mut out = vec!["All lessons are done. To go on:".to_owned()];
    let line = |(name, drill): (&str, Drill)| {
        format!("  printseam drill {name:8} {}", what(expert, drill))
    };
    out.extend(ROUNDS.map(line));
    out
}
