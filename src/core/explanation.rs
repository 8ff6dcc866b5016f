//! What each finding did: weight of evidence, what it did to the years, what is at odds.
//!
//! Weight of finding i for the leading kind k, in decibans (Good 1985, "Weight of evidence: a
//! brief survey", from memory): 10 · log10( P(i | k, earlier) / P(i | not k, earlier) ).
//! The weights are worked from step to step; the posterior is worked in one sum over all
//! findings. `Explanation::gap` is the difference between the two routes and must be rounding.

use super::grid::{ClueId, Grid, KindId, Year};
use super::interval::{Band, quantile};
use super::model::Model;
use super::observation::{Evidence, Observation, Observed};
use super::posterior::{Inference, LogLikelihood, Posterior, Prior, posterior};

/// A finding is at odds below this predictive probability (design figure; common practice, no source).
pub const AT_ODDS: f64 = 0.02;

/// Shares that count as "earliest possible" and "latest likely": wide enough to lie outside the
/// bands shown (common practice, no source).
pub const ENDS: (f64, f64) = (0.005, 0.995);

/// What one finding did.
#[derive(Clone, Debug)]
pub struct Step {
    pub entry: Observation,
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
    pub entry: Observation,
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
    let grid = &model.grid;
    let inference = Inference::new(model, prior, evidence);
    let full = inference.posterior();
    let kind = full.leading(grid).0;
    let final_odds = log_odds(full, grid, kind);
    let left_out: Vec<LeftOut> = (0..inference.likelihoods().len())
        .map(|i| {
            let entry = inference.likelihoods()[i].entry;
            let rest = inference.without(i);
            let years = rest.years(grid);
            let (expected, tail) = expected(model, &rest, &entry);
            LeftOut {
                entry,
                odds: log_odds(&rest, grid, kind),
                earliest: quantile(&years, grid, ENDS.0),
                latest: quantile(&years, grid, ENDS.1),
                expected,
                tail,
            }
        })
        .collect();

    let mut before = posterior(model, prior, &Evidence::new());
    let prior_decibans = log_odds(&before, grid, kind);
    let alone = before.clone();
    let mut steps = Vec::with_capacity(left_out.len());
    let mut said: Vec<&LogLikelihood> = Vec::new();
    for entry in evidence.entries() {
        // What does not speak on the whole evidence has no step either.
        let Some(at) = left_out.iter().position(|l| l.entry == *entry) else {
            continue;
        };
        let likelihood = &inference.likelihoods()[at];
        let (after, decibans) = step(model, &before, &said, likelihood, kind);
        let (years_before, years_after) = (before.years(grid), after.years(grid));
        steps.push(Step {
            entry: *entry,
            decibans,
            leave_one_out: final_odds - left_out[at].odds,
            median_before: quantile(&years_before, grid, 0.5),
            median_after: quantile(&years_after, grid, 0.5),
            width_before: Band::shortest(&years_before, grid, share).width(),
            width_after: Band::shortest(&years_after, grid, share).width(),
            expected: left_out[at].expected,
            tail: left_out[at].tail,
        });
        said.push(likelihood);
        before = after;
    }
    let years = full.years(grid);
    let (first, last) = (
        quantile(&years, grid, ENDS.0),
        quantile(&years, grid, ENDS.1),
    );
    Explanation {
        kind,
        prior_decibans,
        posterior_decibans: final_odds,
        at_odds: at_odds(model, prior, &alone, evidence, &steps),
        earliest: end(first, left_out.iter().map(|l| (first.0 - l.earliest.0, l))),
        latest: end(last, left_out.iter().map(|l| (l.latest.0 - last.0, l))),
        steps,
    }
}

/// What is known of the evidence without one finding.
struct LeftOut {
    entry: Observation,
    odds: f64,
    earliest: Year,
    latest: Year,
    expected: f64,
    tail: f64,
}

/// 10 · log10( P(k) / P(not k) ), summing the two sides apart so that neither is lost to rounding.
pub fn log_odds(posterior: &Posterior, grid: &Grid, kind: KindId) -> f64 {
    let for_it = side_sum(posterior, grid, kind, true);
    let against = side_sum(posterior, grid, kind, false);
    10.0 * (for_it / against).log10()
}

/// The posterior after one more finding, and the finding's weight:
/// 10 · log10( E[r | k, earlier] / E[r | not k, earlier] ), r = how much each cell's likelihood
/// grows with it: P(f | h)^λ(m), and the family's earlier findings pass from λ(m − 1) to λ(m).
fn step(
    model: &Model,
    before: &Posterior,
    said: &[&LogLikelihood],
    likelihood: &LogLikelihood,
    kind: KindId,
) -> (Posterior, f64) {
    let grid = &model.grid;
    let family = likelihood.family();
    let kin: Vec<&&LogLikelihood> = said
        .iter()
        .filter(|v| family.is_some() && v.family() == family)
        .collect();
    let now = model.damping(family, kin.len() + 1);
    let earlier = model.damping(family, kin.len());
    let mut factors = vec![likelihood.factor(now)];
    if now != earlier {
        factors.extend(kin.iter().map(|v| v.factor(now - earlier)));
    }
    let after = before.times(grid, &factors);
    // E[r | side] = Σ_side p·r / Σ_side p up to one common scale, which the ratio cancels.
    let growth =
        |side: bool| side_sum(&after, grid, kind, side) / side_sum(before, grid, kind, side);
    let decibans = 10.0 * (growth(true) / growth(false)).log10();
    (after, if decibans.is_finite() { decibans } else { 0.0 })
}

/// P(kind) or P(not kind), never quite 0.
fn side_sum(posterior: &Posterior, grid: &Grid, kind: KindId, side: bool) -> f64 {
    let mut sum = 0.0;
    for (pair, (k, _)) in grid.pairs().iter().enumerate() {
        if (*k == kind) == side {
            sum += posterior.cells()[grid.cells_of(pair)].iter().sum::<f64>();
        }
    }
    f64::max(sum, f64::MIN_POSITIVE)
}

/// P(finding | posterior of the rest) and the chance of anything at most that likely.
fn expected(model: &Model, rest: &Posterior, entry: &Observation) -> (f64, f64) {
    let table = &model.clue(entry.clue).table;
    let chances = table.predictive(&model.grid, rest.cells(), entry.sure);
    let at = match entry.seen {
        Observed::Finding(f) => Some(usize::from(f.0)),
        Observed::Year(y) => model.grid.offset(y),
        Observed::CantTell => None,
    };
    // A year outside the grid is as unlikely as the floor of error makes it.
    let floor = table.error(entry.sure) / table.breadth() as f64;
    let p = at.and_then(|i| chances.get(i)).copied().unwrap_or(floor);
    let tail = chances.iter().filter(|q| **q <= p * (1.0 + 1e-9)).sum();
    (p, tail)
}

/// Findings that are unlikely given the others, and either less likely than they would be on their
/// own or explained by little but misreading: a rare finding is not at odds merely for being rare.
fn at_odds(
    model: &Model,
    prior: &Prior,
    alone: &Posterior,
    evidence: &Evidence,
    steps: &[Step],
) -> Vec<AtOdds> {
    steps
        .iter()
        .filter(|s| s.tail < AT_ODDS)
        .filter(|s| {
            let table = &model.clue(s.entry.clue).table;
            let misread = table.error(s.entry.sure) / table.breadth() as f64;
            misread > 0.5 * s.expected || s.expected < expected(model, alone, &s.entry).0
        })
        .map(|s| AtOdds {
            entry: s.entry,
            p: s.expected,
            against: opponents(model, prior, evidence, s),
        })
        .collect()
}

/// The findings whose removal makes the odd one at least half as likely again, worst first.
fn opponents(model: &Model, prior: &Prior, evidence: &Evidence, odd: &Step) -> Vec<ClueId> {
    let mut fewer = evidence.clone();
    fewer.forget(odd.entry.clue);
    let inference = Inference::new(model, prior, &fewer);
    let mut found: Vec<(f64, ClueId)> = (0..inference.likelihoods().len())
        .filter_map(|i| {
            let gain = expected(model, &inference.without(i), &odd.entry).0 / odd.expected;
            (gain > 1.5).then(|| (gain, inference.likelihoods()[i].entry.clue))
        })
        .collect();
    found.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    found.truncate(3);
    found.into_iter().map(|(_, clue)| clue).collect()
}

/// The quantile year, and the finding without which it would lie furthest outwards.
fn end<'a>(year: Year, moves: impl Iterator<Item = (i16, &'a LeftOut)>) -> End {
    // Under three years is no more than rounding.
    let mut best = (2, None);
    for (gain, left) in moves {
        if gain > best.0 {
            best = (gain, Some(left.entry.clue));
        }
    }
    End {
        year,
        because: best.1,
    }
}
