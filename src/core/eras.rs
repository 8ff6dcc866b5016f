//! When a finding is seen: its likelihood over years.
//!
//! L(y) = Σ_{k,l} P(k, l | y) · P(f | k, l, y), with P(k, l | y) taken from any distribution over
//! the cells. With the prior this is what the finding says of the year by itself.

use super::model::Model;
use super::observation::Observation;

/// P(finding | year) by year offset, averaged over kinds and places as `cells` has them.
///
/// `None` when the observation says nothing ("can't tell"). A year without probability gets 0.
pub fn era(model: &Model, cells: &[f64], observation: &Observation) -> Option<Vec<f64>> {
    let grid = &model.grid;
    let table = &model.clue(observation.clue).table;
    let likelihood = table.likelihood(&observation.seen, observation.sure)?;
    let (mut seen, mut all) = (vec![0.0; grid.years()], vec![0.0; grid.years()]);
    for pair in 0..grid.pairs().len() {
        let from = table.row(pair) * grid.years();
        let row = &likelihood[from..from + grid.years()];
        for (offset, (p, l)) in cells[grid.cells_of(pair)].iter().zip(row).enumerate() {
            seen[offset] += p * l;
            all[offset] += p;
        }
    }
    let era = seen
        .iter()
        .zip(&all)
        .map(|(s, a)| if *a > 0.0 { s / a } else { 0.0 });
    Some(era.collect())
}

/// The same scaled so that the highest year is 1; all zeros stay so.
pub fn scaled(mut heights: Vec<f64>) -> Vec<f64> {
    let top = heights.iter().copied().fold(0.0, f64::max);
    if top > 0.0 {
        heights.iter_mut().for_each(|h| *h /= top);
    }
    heights
}

#[cfg(test)]
mod tests {
    use super::{era, scaled};
    use crate::core::grid::{ClueId, FindingId, Grid, KindId, PlaceId, Year};
    use crate::core::model::Model;
    use crate::core::observation::{Observation, Observed};
    use crate::core::table::Table;

    /// Two kinds over two years; kind 0 always shows finding 0, kind 1 never.
    fn model() -> Model {
        let pairs = vec![(KindId(0), PlaceId(0)), (KindId(1), PlaceId(0))];
        let grid = Grid::new(pairs, 2, 1, Year(1800), Year(1801));
        let weights = [vec![1.0, 1.0, 0.0, 0.0], vec![0.0, 0.0, 1.0, 1.0]];
        let table = Table::listed(&grid, vec![0, 1], &weights, 2, 0.1);
        Model::of_one_clue(grid, table)
    }

    fn entry(seen: Observed) -> Observation {
        Observation::new(ClueId(0), seen)
    }

    #[test]
    fn follows_the_kinds_of_each_year() {
        // 1800: all kind 0; 1801: a quarter kind 0.
        let cells = [0.4, 0.1, 0.0, 0.3];
        let era = era(&model(), &cells, &entry(Observed::Finding(FindingId(0)))).unwrap();
        assert!((era[0] - 0.95).abs() < 1e-12, "{era:?}");
        assert!((era[1] - (0.25 * 0.95 + 0.75 * 0.05)).abs() < 1e-12);
    }

    #[test]
    fn nothing_said_has_no_era_and_empty_years_are_zero() {
        assert!(era(&model(), &[0.25; 4], &entry(Observed::CantTell)).is_none());
        let seen = entry(Observed::Finding(FindingId(1)));
        assert_eq!(era(&model(), &[0.5, 0.0, 0.5, 0.0], &seen).unwrap()[1], 0.0);
        assert_eq!(scaled(vec![0.0, 2.0, 1.0]), vec![0.0, 1.0, 0.5]);
        assert_eq!(scaled(vec![0.0; 2]), vec![0.0; 2]);
    }
}
