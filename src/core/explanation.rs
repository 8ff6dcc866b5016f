//! What each finding did: weight of evidence, and what it did to the years.
//!
//! Weight of finding i for the leading kind k, in decibans (Good 1985, "Weight of evidence: a
//! brief survey", from memory): 10 · log10( P(i | k, earlier) / P(i | not k, earlier) ).
//! The weights are worked from step to step; the posterior is worked in one sum over all
//! findings. `Explanation::gap` is the difference between the two routes and must be rounding.

use super::grid::{ClueId, KindId, Year};
use super::interval::{Band, quantile};
use super::left_out::{ENDS, LeftOut, log_odds, side_sum};
use super::model::Model;
use super::observation::{Evidence, Observation, Sure};
use super::posterior::{FindingLikelihood, Inference, Posterior, Prior};

/// What one finding did.
#[derive(Clone, Debug)]
pub struct Step {
    pub observation: Observation,
    /// For the leading kind against all others, in the order given.
    pub decibans: f64,
    /// How much the log odds would fall without this finding.
    pub leave_one_out: f64,
    pub median_before: Year,
    pub median_after: Year,
    /// Years in the band of the asked share.
    pub width_before: i16,
    pub width_after: i16,
}

/// A year and the finding that sets it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct End {
    pub year: Year,
    pub because: Option<ClueId>,
    /// True when the rules give the finding no frequency at all beyond this year: what is known,
    /// where anything else is only what is usual.
    pub hard: bool,
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

/// Explains the posterior for its leading kind; band widths are for `share`. `left_out` = what
/// `each_left_out` gives for the same evidence.
pub fn explain(
    model: &Model,
    prior: &Prior,
    evidence: &Evidence,
    left_out: &[LeftOut],
    share: f64,
) -> Explanation {
    let inference = Inference::new(model, prior, evidence);
    let grid = &model.grid;
    let full = inference.posterior();
    let kind = full.leading(grid).0;
    let posterior_decibans = log_odds(full, grid, kind);

    let mut before = Posterior::of_prior(prior);
    let mut years_before = before.years(grid);
    let prior_decibans = log_odds(&before, grid, kind);
    let mut steps = Vec::with_capacity(left_out.len());
    let mut earlier: Vec<&FindingLikelihood> = Vec::new();
    // What does not speak on the whole evidence is not left out, and has no step either.
    for left in left_out {
        let same = |l: &&FindingLikelihood| l.observation == left.observation;
        let Some(likelihood) = inference.likelihoods().iter().find(same) else {
            continue;
        };
        let (after, decibans) = step(model, &before, &earlier, likelihood, kind);
        let years_after = after.years(grid);
        steps.push(Step {
            observation: left.observation.clone(),
            decibans,
            leave_one_out: posterior_decibans - left.log_odds,
            median_before: quantile(&years_before, grid, 0.5),
            median_after: quantile(&years_after, grid, 0.5),
            width_before: Band::shortest(&years_before, grid, share).width(),
            width_after: Band::shortest(&years_after, grid, share).width(),
        });
        earlier.push(likelihood);
        (before, years_before) = (after, years_after);
    }
    let years = full.years(grid);
    let first = quantile(&years, grid, ENDS.0);
    let last = quantile(&years, grid, ENDS.1);
    Explanation {
        kind,
        prior_decibans,
        posterior_decibans,
        earliest: hard_floor(model, prior, left_out)
            .filter(|floor| first <= floor.year && floor.year <= quantile(&years, grid, 0.5))
            .unwrap_or_else(|| end(first, left_out.iter().map(|l| (first.0 - l.earliest.0, l)))),
        latest: end(last, left_out.iter().map(|l| (l.latest.0 - last.0, l))),
        steps,
    }
}

/// The posterior after one more finding, and the finding's weight:
/// 10 · log10( E[r | k, earlier] / E[r | not k, earlier] ), r = how much each cell's likelihood
/// grows with it: P(f | h)^λ(m), and the family's earlier findings pass from λ(m − 1) to λ(m).
fn step(
    model: &Model,
    before: &Posterior,
    said: &[&FindingLikelihood],
    likelihood: &FindingLikelihood,
    kind: KindId,
) -> (Posterior, f64) {
    let grid = &model.grid;
    let family = likelihood.family();
    let kin: Vec<&&FindingLikelihood> = said
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

/// The quantile year, and the finding without which it would lie furthest outwards.
fn end<'a>(year: Year, moves: impl Iterator<Item = (i16, &'a LeftOut)>) -> End {
    // Under three years is no more than rounding.
    let mut best = (2, None);
    for (gain, left) in moves {
        if gain > best.0 {
            best = (gain, Some(left.observation.clue));
        }
    }
    End {
        year,
        because: best.1,
        hard: false,
    }
}

/// The latest year before which a finding, surely seen, has no frequency for any kind and place
/// that was made then; the first such finding on a tie.
///
/// A misreading leaves a little chance before it, so the caller looks whether it fits the rest.
fn hard_floor(model: &Model, prior: &Prior, left_out: &[LeftOut]) -> Option<End> {
    let grid = &model.grid;
    let made = |pair: usize, offset: usize| prior.cells()[grid.cells_of(pair)][offset] > 0.0;
    let first = |keep: &dyn Fn(usize, usize) -> bool| {
        let pairs = || 0..grid.pairs().len();
        let holds = |offset: &usize| pairs().any(|pair| made(pair, *offset) && keep(pair, *offset));
        (0..grid.years()).find(holds)
    };
    let any = first(&|_, _| true)?;
    let mut best: Option<End> = None;
    let sure = |left: &&LeftOut| left.observation.sure == Sure::Sure;
    for observation in left_out.iter().filter(sure).map(|left| &left.observation) {
        let table = &model.clue(observation.clue).table;
        let allows =
            |pair: usize, offset: usize| table.allows(&observation.seen, table.row(pair), offset);
        let Some(floor) = first(&allows).filter(|floor| *floor > any) else {
            continue;
        };
        let year = grid.year(floor);
        if best.is_none_or(|b| year > b.year) {
            best = Some(End {
                year,
                because: Some(observation.clue),
                hard: true,
            });
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::{LeftOut, end};
    use crate::core::grid::{ClueId, FindingId, Year};
    use crate::core::observation::Observation;

    #[test]
    fn an_end_is_named_after_what_moves_it_by_three_years_or_more() {
        let left = |clue| LeftOut {
            observation: Observation::finding(ClueId(clue), FindingId(0)),
            log_odds: 0.0,
            earliest: Year(1800),
            latest: Year(1900),
            expected: 0.5,
            tail: 0.5,
        };
        let (one, two) = (left(1), left(2));
        let because = |moves: [i16; 2]| {
            let moves = moves.into_iter().zip([&one, &two]);
            end(Year(1850), moves).because
        };
        assert_eq!(because([2, -5]), None);
        assert_eq!(because([2, 3]), Some(ClueId(2)));
        assert_eq!(because([4, 3]), Some(ClueId(1)));
        assert_eq!(because([4, 4]), Some(ClueId(1)));
    }
}
