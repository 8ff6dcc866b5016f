//! Small answers of the engine, counted out by hand.

use printseam::internals::core::grid::{ClueId, FindingId, Grid, KindId, PlaceId, Year};
use printseam::internals::core::leaning::Leaning;
use printseam::internals::core::observation::Observation;
use printseam::internals::core::posterior::{Posterior, Prior};
use printseam::internals::core::question::lead;

#[test]
fn a_finding_spans_the_years_that_have_a_share_of_its_highest() {
    let leaning = Leaning {
        observation: Observation::finding(ClueId(0), FindingId(0)),
        years: vec![0.0, 0.1, 0.5, 1.0, 0.2, 0.6, 0.1],
        kinds: Vec::new(),
    };
    let span = |share| {
        leaning
            .span(Year(1800), share)
            .map(|(from, to)| (from.0, to.0))
    };
    assert_eq!(span(0.5), Some((1802, 1805)));
    assert_eq!(span(1.0), Some((1803, 1803)));
    assert_eq!(span(0.1), Some((1801, 1806)));
    assert_eq!(span(1.1), None);
}

#[test]
fn the_lead_is_the_odds_of_the_two_likeliest_kinds() {
    let of = |weights: &[f64]| {
        let n = weights.len();
        let pairs = (0..n as u8).map(|k| (KindId(k), PlaceId(0))).collect();
        let grid = Grid::new(pairs, n, 1, Year(1800), Year(1800));
        let posterior = Posterior::of_prior(&Prior::new(weights.to_vec()));
        lead(&grid, &posterior)
    };
    assert!((of(&[1.0, 6.0, 2.0]) - 3.0).abs() < 1e-12);
    assert!((of(&[5.0, 5.0]) - 1.0).abs() < 1e-12);
    assert_eq!(of(&[1.0]), f64::INFINITY);
}
