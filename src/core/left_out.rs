//! The evidence without one finding: what each finding carries, and how expected it was.

use super::grid::{Grid, KindId, Year};
use super::interval::quantile;
use super::model::Model;
use super::observation::{Evidence, Observation, Observed};
use super::posterior::{Inference, Posterior, Prior};
use super::scaling::{dot, sum};
use super::table::Table;

/// Shares that count as "earliest possible" and "latest likely": wide enough to lie outside the
/// bands shown (common practice, no source).
pub const ENDS: (f64, f64) = (0.005, 0.995);

/// What is known without one finding.
#[derive(Clone, Debug)]
pub struct LeftOut {
    /// The finding left out.
    pub observation: Observation,
    /// 10 · log10 of the odds of the leading kind without it.
    pub log_odds: f64,
    /// Quantiles of the year at `ENDS` without it.
    pub earliest: Year,
    pub latest: Year,
    /// P(this finding | all the others), by the clue's own table.
    pub expected: f64,
    /// Chance of a finding at most this likely, given all the others.
    pub tail: f64,
}

/// Every finding that speaks left out in turn, in the order given.
pub fn each_left_out(model: &Model, prior: &Prior, evidence: &Evidence) -> Vec<LeftOut> {
    let grid = &model.grid;
    let inference = Inference::new(model, prior, evidence);
    let kind = inference.posterior().leading(grid).0;
    let likelihoods = inference.likelihoods();
    let of = |given: &Observation| {
        let i = likelihoods.iter().position(|l| l.observation == *given)?;
        let rest = inference.without(i);
        let years = rest.years(grid);
        let (expected, tail) = expected(model, &rest, given);
        Some(LeftOut {
            observation: given.clone(),
            log_odds: log_odds(&rest, grid, kind),
            earliest: quantile(&years, grid, ENDS.0),
            latest: quantile(&years, grid, ENDS.1),
            expected,
            tail,
        })
    };
    evidence.observations().iter().filter_map(of).collect()
}

/// 10 · log10( P(k) / P(not k) ), summing the two sides apart so that neither is lost to rounding.
pub fn log_odds(posterior: &Posterior, grid: &Grid, kind: KindId) -> f64 {
    let for_it = side_sum(posterior, grid, kind, true);
    let against = side_sum(posterior, grid, kind, false);
    10.0 * (for_it / against).log10()
}

/// P(kind) or P(not kind), never quite 0.
pub fn side_sum(posterior: &Posterior, grid: &Grid, kind: KindId, side: bool) -> f64 {
    let mut total = 0.0;
    for (pair, (k, _)) in grid.pairs().iter().enumerate() {
        if (*k == kind) == side {
            total += sum(&posterior.cells()[grid.cells_of(pair)]);
        }
    }
    f64::max(total, f64::MIN_POSITIVE)
}

/// P(what was observed | posterior of the rest).
pub fn chance(model: &Model, rest: &Posterior, observation: &Observation) -> f64 {
    let (grid, table) = (&model.grid, &model.clue(observation.clue).table);
    let likelihood = table.power(&observation.seen, observation.sure, 1.0);
    let of_pair = |pair| {
        let row = &likelihood.rows[table.row(pair) * grid.years()..][..grid.years()];
        dot(&rest.cells()[grid.cells_of(pair)], row)
    };
    (0..grid.pairs().len()).map(of_pair).sum()
}

/// P(finding | posterior of the rest) and the chance of anything at most that likely.
pub fn expected(model: &Model, rest: &Posterior, observation: &Observation) -> (f64, f64) {
    let table = &model.clue(observation.clue).table;
    let chances = table.predictive(&model.grid, rest.cells(), observation.sure);
    among(table, &model.grid, &chances, observation)
}

/// The same where the chance of every answer is known.
pub(super) fn among(
    table: &Table,
    grid: &Grid,
    chances: &[f64],
    observation: &Observation,
) -> (f64, f64) {
    let at = match &observation.seen {
        Observed::Finding(f) => Some(usize::from(f.0)),
        Observed::Year(y) => grid.offset(*y),
        // Nothing is "at most as likely" as a soft observation but itself.
        Observed::Soft(weights) => {
            let p = weights.mean_of(chances);
            return (p, p);
        }
        Observed::CantTell => None,
    };
    // A year outside the grid is as unlikely as the floor of error makes it.
    let floor = table.error(observation.sure) / table.breadth() as f64;
    let p = at.and_then(|i| chances.get(i)).copied().unwrap_or(floor);
    let tail = chances.iter().filter(|q| **q <= p * (1.0 + 1e-9)).sum();
    (p, tail)
}

#[cfg(test)]
mod tests {
    use super::expected;
    use crate::core::grid::{ClueId, FindingId, Grid, KindId, PlaceId, Year};
    use crate::core::model::Model;
    use crate::core::observation::Observation;
    use crate::core::posterior::{Posterior, Prior};
    use crate::core::table::Table;

    /// The chance of anything at most that likely has what is just as likely in it.
    #[test]
    fn a_finding_as_likely_as_another_is_no_surprise() {
        let pairs = vec![(KindId(0), PlaceId(0))];
        let grid = Grid::new(pairs, 1, 1, Year(1800), Year(1800));
        let table = Table::listed(&grid, vec![0], &[vec![1.0, 2.0, 2.0]], 3, 0.1);
        let model = Model::of_one_clue(grid, table);
        let rest = Posterior::of_prior(&Prior::new(vec![1.0]));
        let tail = |f| {
            let seen = Observation::finding(ClueId(0), FindingId(f));
            expected(&model, &rest, &seen)
        };
        let close = |(p, tail): (f64, f64), wanted: (f64, f64)| {
            assert!((p - wanted.0).abs() < 1e-12 && (tail - wanted.1).abs() < 1e-12);
        };
        let (rare, common) = (0.9 * 0.2 + 0.1 / 3.0, 0.9 * 0.4 + 0.1 / 3.0);
        close(tail(0), (rare, rare));
        close(tail(1), (common, 1.0));
        close(tail(2), (common, 1.0));
    }
}
