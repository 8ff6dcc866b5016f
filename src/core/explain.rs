//! What each finding did: weight of evidence, what it did to the years, what is at odds.
//!
//! Weight of finding i for the leading kind k, in decibans (Good 1985, "Weight of evidence: a
//! brief survey", from memory): 10 · log10( P(i | k, earlier) / P(i | not k, earlier) ).
//! The weights are worked from step to step; the posterior is worked in one sum over all
//! findings. `Explanation::gap` is the difference between the two routes and must be rounding.

use super::axes::{Axes, ClueId, KindId, Year};
use super::band::{Band, quantile};
use super::evidence::{Entry, Evidence, Seen};
use super::model::Model;
use super::posterior::{Posterior, Prior, Weighing, posterior};
use super::table::Answers;

/// A finding is at odds below this predictive probability (design figure; common practice, no source).
pub const AT_ODDS: f64 = 0.02;

/// Shares that count as "earliest possible" and "latest likely".
pub const ENDS: (f64, f64) = (0.02, 0.98);

/// What one finding did.
#[derive(Clone, Debug)]
pub struct Step {
    pub entry: Entry,
    /// For the leading kind against all others, in the order given.
    pub decibans: f64,
    /// How much the log odds would fall without this finding.
    pub leave_one_out: f64,
    pub median_before: Year,
    pub median_after: Year,
    /// Years in the band of the asked share.
    pub width_before: i16,
    pub width_after: i16,
    /// P(this finding | all the others), by the clue's own table.
    pub expected: f64,
    /// Chance of a finding at most this likely, given all the others.
    pub tail: f64,
}

/// A finding that the others make very unlikely.
#[derive(Clone, Debug)]
pub struct AtOdds {
    pub entry: Entry,
    pub p: f64,
    /// The findings that make it unlikely, the worst first.
    pub against: Vec<ClueId>,
}

/// A year and the finding that sets it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct End {
    pub year: Year,
    pub because: Option<ClueId>,
}

/// The whole account.
#[derive(Clone, Debug)]
pub struct Explanation {
    pub kind: KindId,
    /// 10 · log10 of the odds of the leading kind, before and after.
    pub prior_decibans: f64,
    pub posterior_decibans: f64,
    /// In the order given.
    pub steps: Vec<Step>,
    pub at_odds: Vec<AtOdds>,
    pub earliest: End,
    pub latest: End,
}

impl Explanation {
    /// Prior + weights − posterior, in decibans: nothing but rounding if the account is right.
    pub fn gap(&self) -> f64 {
        self.prior_decibans + self.steps.iter().map(|s| s.decibans).sum::<f64>()
            - self.posterior_decibans
    }
}

/// Explains the posterior for its leading kind; band widths are for `share`.
pub fn explain(model: &Model, prior: &Prior, evidence: &Evidence, share: f64) -> Explanation {
    let axes = &model.axes;
    let weighing = Weighing::new(model, prior, evidence);
    let full = weighing.posterior();
    let kind = full.leading(axes).0;
    let without: Vec<(Entry, Posterior, Predictive)> = weighing
        .entries()
        .copied()
        .enumerate()
        .map(|(i, entry)| {
            let rest = weighing.without(i);
            let predictive = predictive(model, &rest, &entry);
            (entry, rest, predictive)
        })
        .collect();

    let final_odds = log_odds(&full, axes, kind);
    let mut account = Explanation {
        kind,
        prior_decibans: log_odds(&posterior(model, prior, &Evidence::new()), axes, kind),
        posterior_decibans: final_odds,
        steps: Vec::new(),
        at_odds: Vec::new(),
        earliest: end(axes, &full, &without, ENDS.0, |with, rest| with.0 - rest.0),
        latest: end(axes, &full, &without, ENDS.1, |with, rest| rest.0 - with.0),
    };
    let mut so_far = Evidence::new();
    let mut before = posterior(model, prior, &so_far);
    for entry in evidence.entries() {
        // The gates are judged on the whole evidence, as the posterior judges them.
        if !model.speaks(entry, evidence) {
            continue;
        }
        let Some((_, rest, predictive)) = without.iter().find(|(e, _, _)| e == entry) else {
            continue;
        };
        let decibans = step_weight(model, &so_far, entry, &before, kind);
        so_far.say(*entry);
        let after = posterior(model, prior, &so_far);
        let (years_before, years_after) = (before.years(axes), after.years(axes));
        account.steps.push(Step {
            entry: *entry,
            decibans,
            leave_one_out: final_odds - log_odds(rest, axes, kind),
            median_before: quantile(&years_before, axes, 0.5),
            median_after: quantile(&years_after, axes, 0.5),
            width_before: Band::shortest(&years_before, axes, share).width(),
            width_after: Band::shortest(&years_after, axes, share).width(),
            expected: predictive.p,
            tail: predictive.tail,
        });
        before = after;
    }
    account.at_odds = at_odds(model, prior, evidence, &account.steps);
    account
}

/// 10 · log10( P(k) / P(not k) ), summing the two sides apart so that neither is lost to rounding.
pub fn log_odds(posterior: &Posterior, axes: &Axes, kind: KindId) -> f64 {
    let (mut for_it, mut against) = (0.0, 0.0);
    for (pair, (k, _)) in axes.pairs().iter().enumerate() {
        let sum: f64 = posterior.cells()[axes.cells_of(pair)].iter().sum();
        *if *k == kind {
            &mut for_it
        } else {
            &mut against
        } += sum;
    }
    10.0 * (for_it.max(f64::MIN_POSITIVE) / against.max(f64::MIN_POSITIVE)).log10()
}

/// 10 · log10( E[r | k, earlier] / E[r | not k, earlier] ), r = how much each cell's likelihood
/// grows with this finding: P(f | h)^λ(m), and the family's earlier findings pass from λ(m − 1)
/// to λ(m).
fn step_weight(
    model: &Model,
    so_far: &Evidence,
    entry: &Entry,
    before: &Posterior,
    kind: KindId,
) -> f64 {
    let axes = &model.axes;
    let clue = model.clue(entry.clue);
    let kin: Vec<&Entry> = so_far
        .entries()
        .iter()
        .filter(|e| clue.family.is_some() && model.clue(e.clue).family == clue.family)
        .filter(|e| model.speaks(e, so_far))
        .collect();
    let now = model.damping(clue.family, kin.len() + 1);
    let earlier = model.damping(clue.family, kin.len());
    let mut logs = vec![0.0; axes.cells()];
    let grows = std::iter::once((entry, now)).chain(kin.iter().map(|e| (*e, now - earlier)));
    for (said, power) in grows {
        let table = &model.clue(said.clue).table;
        let Some(row) = table.likelihood(said.seen, said.sure) else {
            continue;
        };
        for pair in 0..axes.pairs().len() {
            let from = table.row(pair) * axes.years();
            for (sum, l) in logs[axes.cells_of(pair)].iter_mut().zip(&row[from..]) {
                *sum += power * l.ln();
            }
        }
    }
    let mut sums = [(0.0, 0.0); 2];
    for (pair, (k, _)) in axes.pairs().iter().enumerate() {
        let side = &mut sums[usize::from(*k == kind)];
        for (p, log) in before.cells()[axes.cells_of(pair)]
            .iter()
            .zip(&logs[axes.cells_of(pair)])
        {
            side.0 += p * log.exp();
            side.1 += p;
        }
    }
    let mean = |(grown, was): (f64, f64)| grown.max(f64::MIN_POSITIVE) / was.max(f64::MIN_POSITIVE);
    10.0 * (mean(sums[1]) / mean(sums[0])).log10()
}

struct Predictive {
    p: f64,
    tail: f64,
}

/// P(finding | posterior of the rest) and the chance of anything at most that likely.
fn predictive(model: &Model, rest: &Posterior, entry: &Entry) -> Predictive {
    let axes = &model.axes;
    let table = &model.clue(entry.clue).table;
    let chance_of = |seen: Seen| -> f64 {
        let Some(row) = table.likelihood(seen, entry.sure) else {
            return 1.0;
        };
        (0..axes.pairs().len())
            .map(|pair| {
                let from = table.row(pair) * axes.years();
                rest.cells()[axes.cells_of(pair)]
                    .iter()
                    .zip(&row[from..from + axes.years()])
                    .map(|(p, l)| p * l)
                    .sum::<f64>()
            })
            .sum()
    };
    let p = chance_of(entry.seen);
    let tail = match table.answers() {
        Answers::Listed { n, .. } => (0..*n as u16)
            .map(|f| chance_of(Seen::Finding(super::axes::FindingId(f))))
            .filter(|q| *q <= p * (1.0 + 1e-9))
            .sum(),
        Answers::Dated { .. } => {
            let years = rest.years(axes);
            (0..axes.years())
                .map(|read| {
                    let row = table.likelihood(Seen::Year(axes.year(read)), entry.sure);
                    row.map_or(0.0, |r| r.iter().zip(&years).map(|(l, q)| l * q).sum())
                })
                .filter(|q: &f64| *q <= p * (1.0 + 1e-9))
                .sum()
        }
    };
    Predictive { p, tail }
}

/// Findings that are unlikely given the others, and less likely than they would be on their own:
/// a rare finding is not at odds merely for being rare.
fn at_odds(model: &Model, prior: &Prior, evidence: &Evidence, steps: &[Step]) -> Vec<AtOdds> {
    let alone = posterior(model, prior, &Evidence::new());
    steps
        .iter()
        .filter(|s| s.tail < AT_ODDS && s.expected < predictive(model, &alone, &s.entry).p)
        .map(|s| AtOdds {
            entry: s.entry,
            p: s.expected,
            against: opponents(model, prior, evidence, s),
        })
        .collect()
}

/// The findings whose removal makes the odd one at least half as likely again, worst first.
fn opponents(model: &Model, prior: &Prior, evidence: &Evidence, odd: &Step) -> Vec<ClueId> {
    let mut found: Vec<(f64, ClueId)> = evidence
        .entries()
        .iter()
        .filter(|e| e.clue != odd.entry.clue && model.speaks(e, evidence))
        .filter_map(|other| {
            let mut fewer = evidence.clone();
            fewer.forget(odd.entry.clue);
            fewer.forget(other.clue);
            let rest = posterior(model, prior, &fewer);
            let gain = predictive(model, &rest, &odd.entry).p / odd.expected;
            (gain > 1.5).then_some((gain, other.clue))
        })
        .collect();
    found.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    found.truncate(3);
    found.into_iter().map(|(_, clue)| clue).collect()
}

/// The quantile year, and the finding without which it would lie furthest outwards.
fn end(
    axes: &Axes,
    full: &Posterior,
    without: &[(Entry, Posterior, Predictive)],
    share: f64,
    moved: impl Fn(Year, Year) -> i16,
) -> End {
    let year = quantile(&full.years(axes), axes, share);
    let mut best = (2, None);
    for (entry, rest, _) in without {
        let gain = moved(year, quantile(&rest.years(axes), axes, share));
        if gain > best.0 {
            best = (gain, Some(entry.clue));
        }
    }
    End {
        year,
        because: best.1,
    }
}
