//! How a learner stands: what is mixed up with what, how true the stated confidence is, what is due.

use serde::Serialize;

use super::names::{capital, kind_name};
use crate::learn::learner::{Confusion, Learner, Stated};
use crate::learn::memory::Day;
use crate::piece::expert::Expert;
use crate::rulebase::RuleBase;

/// Confusions named, at most (common practice, no source).
const NAMED: usize = 8;

/// Stated confidences are put together in steps of this many percent, as few answers as there are
/// (common practice, no source).
const STEP: u8 = 20;

/// Confusions named in brief, at most (common practice, no source).
const NAMED_IN_BRIEF: usize = 3;

/// The whole account, a heading and its lines each.
pub fn progress(expert: &Expert, learner: &Learner, today: Day) -> Vec<(String, Vec<String>)> {
    let parts = [
        ("Lessons", lessons(&expert.base, learner)),
        ("Taken for something else", mixed_up(expert, learner, NAMED)),
        ("When you say how sure you are", calibration(learner)),
        ("To repeat", due(learner, today)),
    ];
    let told = parts.into_iter().filter(|(_, lines)| !lines.is_empty());
    told.map(|(heading, lines)| (heading.to_owned(), lines))
        .collect()
}

/// The account in few words, as one of a class.
#[derive(Clone, Debug, Serialize)]
pub struct InBrief {
    pub lessons: String,
    pub mixed: Vec<String>,
    pub sure: String,
    pub due: String,
}

/// The account in few words.
pub fn in_brief(expert: &Expert, learner: &Learner, today: Day) -> InBrief {
    let all = expert.base.lessons.len();
    let done = expert
        .base
        .lessons
        .iter()
        .filter_map(|l| learner.lessons.get(&l.id));
    let lessons = match (done.clone().count(), done.max()) {
        (0, _) | (_, None) => format!("none of {all}"),
        (n, Some(last)) => format!("{n} of {all}, the last on {last}"),
    };
    let stated: Vec<(u8, Stated)> = learner.stated.iter().map(|(p, s)| (*p, *s)).collect();
    InBrief {
        lessons,
        mixed: mixed_up(expert, learner, NAMED_IN_BRIEF),
        sure: said_and_right(&stated).unwrap_or_default(),
        due: match due(learner, today).join("; ") {
            nothing if nothing.is_empty() => "nothing yet".to_owned(),
            lines => lines,
        },
    }
}

/// What was taken for something else, most often first, a line each.
pub fn mixed_up(expert: &Expert, learner: &Learner, most: usize) -> Vec<String> {
    let mixed = learner.mixed_up();
    let mixed = mixed.iter().take(most);
    mixed.map(|c| confusion(expert, learner, c)).collect()
}

fn lessons(base: &RuleBase, learner: &Learner) -> Vec<String> {
    let each = base.lessons.iter().enumerate().map(|(i, lesson)| {
        let done = match learner.lessons.get(&lesson.id) {
            Some(day) => format!("done on {day}"),
            None => "still to do".to_owned(),
        };
        format!("{} {}: {done}", i + 1, lesson.title)
    });
    each.collect()
}

/// "flow blue taken for blue print under the glaze: 2 times; right 3 times of 5".
fn confusion(expert: &Expert, learner: &Learner, c: &Confusion) -> String {
    let name = |id: &str| name_of(expert, &c.about, id);
    let (hit, all) = learner.row(&c.about, &c.right);
    let times = if c.times == 1 {
        "once"
    } else {
        &format!("{} times", c.times)
    };
    format!(
        "{} taken for {}: {times} (right {hit} of {all})",
        capital(&name(&c.right)),
        name(&c.said)
    )
}

/// The name of a kind, the words of a finding, or the id itself of what the rules no longer know.
fn name_of(expert: &Expert, about: &str, id: &str) -> String {
    let base = &expert.base;
    if let Some(kind) = base.kind_id(id).filter(|_| about == "kind") {
        return kind_name(expert, kind).to_owned();
    }
    let clue = base.clue_id(about).map(|c| base.clue(c));
    let finding = clue.and_then(|c| c.findings.iter().find(|f| f.id == id));
    finding.map_or(id.to_owned(), |f| format!("\"{}\"", f.words))
}

/// How true stated confidences are, from the least sure on.
pub fn calibration(learner: &Learner) -> Vec<String> {
    let mut out = Vec::new();
    for from in (0..100).step_by(usize::from(STEP)) {
        let from = from as u8;
        let to = if from + STEP >= 100 {
            100
        } else {
            from + STEP - 1
        };
        let here = learner.stated.range(from..=to).map(|(p, s)| (*p, *s));
        out.extend(said_and_right(&here.collect::<Vec<_>>()));
    }
    out
}

/// "said 90 % on average: right 3 of 5 (60 %)": too sure, or too modest.
fn said_and_right(stated: &[(u8, Stated)]) -> Option<String> {
    let answers: u32 = stated.iter().map(|(_, s)| s.answers).sum();
    let right: u32 = stated.iter().map(|(_, s)| s.right).sum();
    let said: u32 = stated.iter().map(|(p, s)| u32::from(*p) * s.answers).sum();
    (answers > 0).then(|| {
        format!(
            "said {} % on average: right {right} of {answers} ({} %)",
            said / answers,
            100 * right / answers
        )
    })
}

/// What is to be repeated today, or when next.
pub fn due(learner: &Learner, today: Day) -> Vec<String> {
    let count = learner.due(today).len();
    match (count, learner.next_due()) {
        (0, None) => Vec::new(),
        (0, Some(day)) => vec![format!("nothing today; the next on {day}")],
        (1, _) => vec!["1 question today".to_owned()],
        (n, _) => vec![format!("{n} questions today")],
    }
}
