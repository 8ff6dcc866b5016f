//! The verdict as a whole: what it rests on, what speaks against it, what would change it, what next.

use super::at_odds;
use super::band;
use super::look;
use super::names::{capital, clue_name, kind_name};
use super::observation::seen;
use super::scales::{percent, support};
use super::turning;
use crate::core::explanation::{Explanation, Step};
use crate::piece::Piece;
use crate::piece::expert::Expert;

/// Findings a verdict is said to rest on, at most.
const RESTS_ON: usize = 3;

/// Looks and turning points named, at most.
const NAMED: usize = 3;

/// A rival kind with at least this chance is named.
const RIVAL: f64 = 0.1;

/// Decibans below which a finding hardly counts: a ratio of 2, the foot of the ENFSI scale.
pub const COUNTS: f64 = 3.01;

/// The whole account, each part a list of sentences.
#[derive(Clone, Debug, Default)]
pub struct Account {
    pub rests_on: Vec<String>,
    pub against: Vec<String>,
    pub would_change: Vec<String>,
    pub next: Vec<String>,
    /// Says why no look is worth while, when none is.
    pub stop: Option<String>,
}

/// Heading of the findings one by one.
pub const IN_ORDER: &str = "Because, in the order seen";

impl Account {
    /// What speaks for the verdict and against it.
    pub fn sides(&self) -> [(&'static str, &[String]); 2] {
        [
            ("What the verdict rests on", &self.rests_on),
            ("What speaks against it", &self.against),
        ]
    }

    /// What would change it, and what to look at next.
    pub fn ahead(&self) -> [(&'static str, &[String]); 2] {
        [
            ("What would change it", &self.would_change),
            ("What to look at next", &self.next),
        ]
    }
}

/// The account of a case.
pub fn account(piece: &Piece) -> Account {
    let expert = piece.expert();
    let turns = piece.turning_points();
    let looks = piece.advice().looks.iter().take(NAMED);
    Account {
        rests_on: rests_on(piece),
        against: against(piece),
        would_change: turns
            .iter()
            .take(NAMED)
            .map(|t| turning::turn(expert, t))
            .collect(),
        next: match piece.advice().stop {
            Some(_) => Vec::new(),
            None => looks.map(|l| look::look(expert, l)).collect(),
        },
        stop: piece
            .advice()
            .stop
            .map(|reason| format!("No further look needed: {}.", look::stop(reason))),
    }
}

/// Findings whose loss would count, those first that would move the odds of the kind most: for it
/// (`sign` 1) or against it (−1).
fn weighty(account: &Explanation, sign: f64) -> Vec<&Step> {
    let mut steps: Vec<&Step> = account
        .steps
        .iter()
        .filter(|s| sign * s.leave_one_out >= COUNTS)
        .collect();
    steps.sort_by(|a, b| (sign * b.leave_one_out).total_cmp(&(sign * a.leave_one_out)));
    steps
}

/// What a finding is to the leading kind, and what the odds would do without it.
fn borne(expert: &Expert, account: &Explanation, step: &Step) -> String {
    let (side, moved) = if step.leave_one_out > 0.0 {
        ("for", "fall")
    } else {
        ("against", "rise")
    };
    format!(
        "{}: {} — {} {side} {}; without it the odds would {moved} by {:.1} decibans",
        capital(&clue_name(expert, step.observation.clue)),
        seen(expert, &step.observation),
        support(step.leave_one_out),
        kind_name(expert, account.kind),
        step.leave_one_out.abs()
    )
}

/// The two or three findings without which the kind would stand worst, then those that set the
/// first and last year.
fn rests_on(piece: &Piece) -> Vec<String> {
    let (expert, account) = (piece.expert(), &piece.explanation());
    let mut out: Vec<String> = weighty(account, 1.0)
        .into_iter()
        .take(RESTS_ON)
        .map(|s| borne(expert, account, s))
        .collect();
    if out.is_empty() && !account.steps.is_empty() {
        out.push("No single finding carries the kind: it rests on all of them together".to_owned());
    }
    let ends = [
        (&account.earliest, band::earliest(expert, &account.earliest)),
        (&account.latest, band::latest(expert, &account.latest)),
    ];
    let set = ends.into_iter().filter(|(end, _)| end.because.is_some());
    out.extend(set.map(|(_, words)| capital(&words)));
    out
}

/// Findings that speak against the kind, findings at odds with the rest, and the rival kinds.
fn against(piece: &Piece) -> Vec<String> {
    let (expert, judgement) = (piece.expert(), piece.judgement());
    let account = piece.explanation();
    let mut out: Vec<String> = weighty(account, -1.0)
        .into_iter()
        .map(|s| borne(expert, account, s))
        .collect();
    out.extend(piece.at_odds().iter().map(|o| at_odds::at_odds(expert, o)));
    let rivals = judgement.kinds.iter().skip(1).filter(|(_, p)| *p >= RIVAL);
    out.extend(rivals.map(|(k, p)| {
        format!(
            "{} remains possible ({})",
            capital(kind_name(expert, *k)),
            percent(*p)
        )
    }));
    out
}
