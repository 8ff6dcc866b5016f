//! Each finding left out in turn: what a curve does on average, and what spoils single cases.

use std::collections::BTreeMap;

use super::cases::Known;
use super::judge::{Judged, log_date, log_kind};
use super::measures::mean;
use crate::core::grid::{ClueId, Grid, Year};
use crate::core::interval::quantile;
use crate::core::observation::{Observation, Observed};
use crate::core::posterior::Inference;

/// How many of the worst cases are shown.
const WORST: usize = 10;

/// Leaving a finding out must gain this much log score (a factor of about 1.65) before it is
/// blamed (common practice, no source).
const BLAME: f64 = 0.5;

/// The case without one finding.
#[derive(Clone, Debug, PartialEq)]
pub struct WithoutOne {
    pub observation: Observation,
    pub median: Year,
    pub log_date: Option<f64>,
    pub log_kind: Option<f64>,
}

impl WithoutOne {
    /// Sum of the log scores that count.
    fn log(&self) -> f64 {
        self.log_date.unwrap_or(0.0) + self.log_kind.unwrap_or(0.0)
    }
}

/// All findings that speak, each left out.
pub fn each_out(grid: &Grid, inference: &Inference, case: &Known) -> Vec<WithoutOne> {
    (0..inference.likelihoods().len())
        .map(|i| {
            let rest = inference.without(i);
            let years = rest.years(grid);
            WithoutOne {
                observation: inference.likelihoods()[i].observation.clone(),
                median: quantile(&years, grid, 0.5),
                log_date: case.datable().then(|| log_date(&years, grid, case)),
                log_kind: case.kind.map(|k| log_kind(&rest.kinds(grid), k)),
            }
        })
        .collect()
}

/// One finding over all cases that have it. A dated clue is one row.
#[derive(Clone, Debug, PartialEq)]
pub struct ClueRow {
    pub clue: ClueId,
    /// The finding, or `None` for the years of a dated clue.
    pub seen: Option<Observed>,
    pub cases: usize,
    pub dated: usize,
    pub kinded: usize,
    /// Mean of median − midpoint without the finding, and with it.
    pub bias_without: Option<f64>,
    pub bias_with: Option<f64>,
    /// Mean ln P(span ± 5) without and with.
    pub date_without: Option<f64>,
    pub date_with: Option<f64>,
    /// Mean ln P(kind) without and with.
    pub kind_without: Option<f64>,
    pub kind_with: Option<f64>,
}

impl ClueRow {
    /// What the finding adds to the log score of the date.
    pub fn date_gain(&self) -> Option<f64> {
        Some(self.date_with? - self.date_without?)
    }

    /// What the finding adds to the log score of the kind.
    pub fn kind_gain(&self) -> Option<f64> {
        Some(self.kind_with? - self.kind_without?)
    }
}

/// A clue and the index of the finding; `None` for a dated clue.
type RowKey = (ClueId, Option<u16>);

/// The table, in the rule base's order.
pub fn by_clue(cases: &[Known], judged: &[Judged], left: &[Vec<WithoutOne>]) -> Vec<ClueRow> {
    let mut rows: BTreeMap<RowKey, Vec<(usize, &WithoutOne)>> = BTreeMap::new();
    for (case, found) in left.iter().enumerate() {
        for one in found {
            let finding = one.observation.seen.finding().map(|f| f.0);
            let row = rows.entry((one.observation.clue, finding)).or_default();
            row.push((case, one));
        }
    }
    rows.into_iter()
        .map(|((clue, finding), found)| {
            let dated = || {
                found
                    .iter()
                    .filter_map(|(c, l)| Some((*c, *l, judged[*c].date.as_ref()?)))
            };
            let kinded = || {
                found
                    .iter()
                    .filter_map(|(c, l)| Some((*l, judged[*c].kind?)))
            };
            ClueRow {
                clue,
                seen: finding.and(found.first().map(|(_, l)| l.observation.seen.clone())),
                cases: found.len(),
                dated: dated().count(),
                kinded: kinded().count(),
                bias_without: mean(
                    dated().map(|(c, l, _)| f64::from(l.median.0) - cases[c].midpoint()),
                ),
                bias_with: mean(dated().map(|(_, _, d)| d.error())),
                date_without: mean(dated().filter_map(|(_, l, _)| l.log_date)),
                date_with: mean(dated().map(|(_, _, d)| d.log)),
                kind_without: mean(kinded().filter_map(|(l, _)| l.log_kind)),
                kind_with: mean(kinded().map(|(_, k)| k.log)),
            }
        })
        .collect()
}

/// One of the worst cases and what spoils it.
#[derive(Clone, Debug, PartialEq)]
pub struct Worst {
    /// Index of the case.
    pub case: usize,
    /// Sum of the log scores.
    pub log: f64,
    /// The same with nothing seen.
    pub nothing_seen: f64,
    /// The finding without which the score is best, and that score.
    pub blame: Option<(Observation, f64)>,
}

/// The cases with the lowest sum of log scores, the worst first.
pub fn worst(nothing: &[&Judged], judged: &[Judged], left: &[Vec<WithoutOne>]) -> Vec<Worst> {
    let mut order: Vec<usize> = (0..judged.len()).filter(|&i| judged[i].counts()).collect();
    order.sort_by(|&a, &b| judged[a].log().total_cmp(&judged[b].log()).then(a.cmp(&b)));
    order.truncate(WORST);
    order
        .into_iter()
        .map(|case| {
            let log = judged[case].log();
            let best = left[case]
                .iter()
                .max_by(|a, b| a.log().total_cmp(&b.log()))
                .filter(|best| best.log() - log >= BLAME);
            Worst {
                case,
                log,
                nothing_seen: nothing[case].log(),
                blame: best.map(|b| (b.observation.clone(), b.log())),
            }
        })
        .collect()
}
