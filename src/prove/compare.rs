//! The same known pieces by two rule bases: which verdicts moved, and what that was worth.

use super::cases::Known;
use super::judge::{Judged, judge};
use super::measures::Measures;
use super::ordered::{self, Progress};
use super::text::side_by_side;
use crate::core::posterior::posterior;
use crate::piece::expert::Expert;
use crate::rulebase::ids::Id;
use crate::say::scales::percent;

/// A verdict has moved when its leading kind changed, or an end of its band by so many years
/// (common practice, no source).
const MOVED_YEARS: i16 = 5;

/// Verdicts listed at most, those first whose score changed most (common practice, no source).
const LISTED: usize = 30;

/// Both rule bases' answers, case by case.
#[derive(Clone, Debug)]
pub struct Comparison {
    /// By case, in the order of the table: its id, and the answers before and after.
    cases: Vec<(String, Judged, Judged)>,
    /// (Before, after): names of the leading kinds are those of each rule base itself.
    kinds: (Vec<String>, Vec<String>),
}

/// Judges the cases, read by each rule base for itself, since ids may differ.
///
/// Both lists are of the same table, so their rows go together.
pub fn compare(
    before: (&Expert, &[Known]),
    after: (&Expert, &[Known]),
    progress: Progress,
) -> Comparison {
    let judged = |(expert, cases): (&Expert, &[Known])| {
        let engine = expert.engine();
        ordered::map(cases, "judging", progress, |case| {
            let prior = &engine.priors[case.setting];
            let after = posterior(&engine.model, prior, &case.evidence);
            judge(&engine.model.grid, &after, case)
        })
    };
    let kinds = |expert: &Expert| expert.base.kinds.iter().map(|k| k.id.clone()).collect();
    let both = judged(before).into_iter().zip(judged(after));
    let ids = before.1.iter().map(|case| case.id.clone());
    Comparison {
        cases: ids.zip(both).map(|(id, (was, is))| (id, was, is)).collect(),
        kinds: (kinds(before.0), kinds(after.0)),
    }
}

impl Comparison {
    /// The cases whose verdict moved.
    fn moved(&self) -> Vec<&(String, Judged, Judged)> {
        let far = |a: i16, b: i16| a.abs_diff(b) >= MOVED_YEARS.unsigned_abs();
        let moved = |(_, was, is): &&(String, Judged, Judged)| {
            self.kinds.0[was.leader.index()] != self.kinds.1[is.leader.index()]
                || far(was.band.from.0, is.band.from.0)
                || far(was.band.to.0, is.band.to.0)
        };
        self.cases.iter().filter(moved).collect()
    }

    /// The verdicts that moved, and the measures before and after.
    pub fn text(&self) -> String {
        let mut moved = self.moved();
        let mut out = format!(
            "{} of {} verdicts moved: another kind leads, or an end of the 80 % band is {MOVED_YEARS} years off or more\n",
            moved.len(),
            self.cases.len()
        );
        let change = |(_, was, is): &(String, Judged, Judged)| is.log() - was.log();
        moved.sort_by(|a, b| change(b).abs().total_cmp(&change(a).abs()));
        for case in moved.iter().take(LISTED) {
            let (id, was, is) = case;
            out += &format!(
                "  {id}: {} -> {}{}\n",
                verdict(&self.kinds.0, was),
                verdict(&self.kinds.1, is),
                match was.counts() {
                    true => format!("; score {:+.2}", change(case)),
                    false => String::new(),
                }
            );
        }
        if moved.len() > LISTED {
            out += &format!("  and {} more\n", moved.len() - LISTED);
        }
        let before = Measures::of(self.cases.iter().map(|(_, was, _)| was));
        let after = Measures::of(self.cases.iter().map(|(_, _, is)| is));
        out + "\n" + &side_by_side([("before", &before), ("after", &after)])
    }
}

fn verdict(kinds: &[String], judged: &Judged) -> String {
    format!(
        "{} {}, {} to {}",
        kinds[judged.leader.index()],
        percent(judged.p),
        judged.band.from.0,
        judged.band.to.0
    )
}
