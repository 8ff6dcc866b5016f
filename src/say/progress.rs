//! How a learner stands: what is mixed up with what, how true the stated confidence is, what is due.

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

/// The whole account, a heading and its lines each.
pub fn progress(expert: &Expert, learner: &Learner, today: Day) -> Vec<(String, Vec<String>)> {
    let mixed = learner.mixed_up();
    let mixed = mixed
        .iter()
        .take(NAMED)
        .map(|c| mixed_up(expert, learner, c));
    let parts = [
        ("Lessons", lessons(&expert.base, learner)),
        ("Taken for something else", mixed.collect()),
        ("When you say how sure you are", calibration(learner)),
        ("To repeat", due(learner, today)),
    ];
    let told = parts.into_iter().filter(|(_, lines)| !lines.is_empty());
    told.map(|(heading, lines)| (heading.to_owned(), lines))
        .collect()
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
fn mixed_up(expert: &Expert, learner: &Learner, c: &Confusion) -> String {
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

/// "said 80 to 99 %: right 3 of 5 (60 %)": too sure, or too modest.
fn calibration(learner: &Learner) -> Vec<String> {
    let mut out = Vec::new();
    for from in (0..100).step_by(usize::from(STEP)) {
        let from = from as u8;
        let to = if from + STEP >= 100 {
            100
        } else {
            from + STEP - 1
        };
        let mut sum = (Stated::default(), 0);
        for (percent, stated) in learner.stated.range(from..=to) {
            sum.0.answers += stated.answers;
            sum.0.right += stated.right;
            sum.1 += u32::from(*percent) * stated.answers;
        }
        if sum.0.answers > 0 {
            let Stated { answers, right } = sum.0;
            out.push(format!(
                "said {} % on average: right {right} of {answers} ({} %)",
                sum.1 / answers,
                100 * right / answers
            ));
        }
    }
    out
}

fn due(learner: &Learner, today: Day) -> Vec<String> {
    let count = learner.due(today).len();
    match (count, learner.next_due()) {
        (0, None) => Vec::new(),
        (0, Some(day)) => vec![format!("nothing today; the next on {day}")],
        (1, _) => vec!["1 question today".to_owned()],
        (n, _) => vec![format!("{n} questions today")],
    }
}
