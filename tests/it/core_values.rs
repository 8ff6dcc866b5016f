//! Small answers of the engine, counted out by hand.

use printseam::internals::core::curve::Curve;
use printseam::internals::core::grid::{ClueId, FindingId, Grid, KindId, PlaceId, Year};
use printseam::internals::core::interval::{Band, quantile};
use printseam::internals::core::leaning::Leaning;
use printseam::internals::core::market::{Market, Trait};
use printseam::internals::core::observation::{Observation, Observed, Weights};
use printseam::internals::core::posterior::{Posterior, Prior};
use printseam::internals::core::question::lead;
use printseam::internals::core::rarity::{of_its_kind, rarity};
use printseam::internals::core::table::{Answers, Group, Table};
use printseam::internals::core::told::information;

/// So many kinds of one place.
fn kinds(n: usize, first: i16, last: i16) -> Grid {
    let pairs = (0..n as u8).map(|k| (KindId(k), PlaceId(0))).collect();
    Grid::new(pairs, n, 1, Year(first), Year(last))
}

/// A kind made in two places, and one made in the first of them.
fn one_kind_of_two_places(first: i16, last: i16) -> Grid {
    let pairs = vec![
        (KindId(0), PlaceId(0)),
        (KindId(0), PlaceId(1)),
        (KindId(1), PlaceId(0)),
    ];
    Grid::new(pairs, 2, 2, Year(first), Year(last))
}

fn posterior(weights: &[f64]) -> Posterior {
    Posterior::of_prior(&Prior::new(weights.to_vec()))
}

fn near(got: f64, wanted: f64) {
    assert!((got - wanted).abs() < 1e-9, "{got}, not {wanted}");
}

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
    let of = |weights: &[f64]| lead(&kinds(weights.len(), 1800, 1800), &posterior(weights));
    assert!((of(&[1.0, 6.0, 2.0]) - 3.0).abs() < 1e-12);
    assert!((of(&[5.0, 5.0]) - 1.0).abs() < 1e-12);
    assert_eq!(of(&[1.0]), f64::INFINITY);
}

/// One kind of the first decade and one of the second, each with a finding of its own. An error of 0.002 is spread over
/// both findings: 0.999 and 0.001, so that one look tells 1 − H(0.001) bits. Nothing is told by what cannot be.
#[test]
fn a_look_at_what_parts_two_kinds_tells_a_bit_less_its_errors() {
    let grid = kinds(2, 1800, 1819);
    let weights = |finding: usize| {
        let of = |f: usize| vec![f64::from(u8::from(f == finding)); grid.years()];
        [of(0), of(1)].concat()
    };
    let table = Table::listed(&grid, vec![0, 1], &[weights(0), weights(1)], 2, 0.0);
    let early = |year: usize| f64::from(u8::from(year < 10));
    let p: Vec<f64> = (0..20)
        .map(early)
        .chain((0..20).map(|y| 1.0 - early(y)))
        .collect();
    let entropy = |q: f64| -q * q.log2() - (1.0 - q) * (1.0 - q).log2();
    near(
        information(&grid, &table, &posterior(&p)).bits,
        1.0 - entropy(0.001),
    );
    // Nor does anything that is alike everywhere.
    let alike = Table::listed(
        &grid,
        vec![0, 0],
        &[[[3.0; 20], [1.0; 20]].concat()],
        2,
        0.0,
    );
    near(information(&grid, &alike, &posterior(&p)).bits, 0.0);
    assert!(alike.is_flat() && !table.is_flat());
}

#[test]
fn a_clue_has_answers_of_its_own_sort_only() {
    let grid = kinds(1, 1800, 1810);
    let listed = Table::listed(&grid, vec![0], &[[1.0, 1.0].repeat(11)], 2, 0.0);
    let dated = Table::dated(&grid, &Curve::new(vec![(0.0, 1.0), (5.0, 0.0)]), 0.0);
    let (year, finding) = (Observed::Year(Year(1805)), Observed::Finding(FindingId(1)));
    assert!(listed.answers_with(&finding) && !listed.answers_with(&year));
    assert!(dated.answers_with(&year) && !dated.answers_with(&finding));
    assert!(!listed.answers_with(&Observed::CantTell) && !dated.answers_with(&Observed::CantTell));
}

/// Six, three and one of ten pieces of a kind: nine are commoner than the rarest, six than the next.
#[test]
fn within_its_kind_a_piece_is_as_rare_as_others_are_commoner() {
    let grid = kinds(1, 1800, 1800);
    let by = vec![vec![0.6, 0.3, 0.1]];
    let market = Market::new(&grid, &[1.0], vec![Trait { given: None, by }]);
    let of =
        |finding: usize| of_its_kind(&grid, &market, &posterior(&[1.0]), &[vec![(finding, 1.0)]]);
    near(of(0), 0.0);
    near(of(1), 60.0);
    near(of(2), 90.0);
}

/// What the market never has counts as met as seldom as a look is misread, 0.002 over two findings; a kind that is a
/// quarter of the market is two bits rare, one that is three quarters log2(4/3).
#[test]
fn what_the_market_never_has_is_as_rare_as_a_misread_look() {
    let grid = kinds(2, 1800, 1800);
    let by = vec![vec![1.0, 0.0]; 2];
    let market = Market::new(&grid, &[0.25, 0.75], vec![Trait { given: None, by }]);
    let found = rarity(&grid, &market, &posterior(&[0.5, 0.5]), &[vec![(1, 1.0)]]);
    near(found.score, 100.0);
    near(found.kind_and_age, 0.5 * 2.0 + 0.5 * (4.0_f64 / 3.0).log2());
    near(found.traits[0].unwrap(), 1000_f64.log2());
}

/// Places of one kind that share a row can't be told apart, kinds can.
#[test]
fn pairs_that_share_a_row_are_grouped_kind_by_kind() {
    let grid = one_kind_of_two_places(1800, 1800);
    let groups = |rows: Vec<u16>| -> Vec<(u8, usize, Vec<usize>)> {
        let weights = vec![vec![1.0, 1.0]; 2];
        let table = Table::listed(&grid, rows, &weights, 2, 0.0);
        let of = |g: &Group| (g.kind.0, g.row, g.pairs.clone());
        table.groups().iter().map(of).collect()
    };
    assert_eq!(groups(vec![0, 0, 0]), [(0, 0, vec![0, 1]), (1, 0, vec![2])]);
    assert_eq!(
        groups(vec![0, 1, 1]),
        [(0, 0, vec![0]), (0, 1, vec![1]), (1, 1, vec![2])]
    );
}

/// Shares ½, 0.3 and 0.2 worth four pieces; the last keeps its share. One piece of the first: of the 0.8 left it has
/// (4 · ½/0.8 + 1)/5, the second (4 · 0.3/0.8)/5.
#[test]
fn counts_divide_what_is_not_kept() {
    let grid = kinds(1, 1800, 1800);
    let table = Table::listed(&grid, vec![0], &[vec![5.0, 3.0, 2.0]], 3, 0.0);
    let shares = |counts: &[f64], kept| match table.updated(counts, 4.0, kept).answers() {
        Answers::Listed { share, .. } => share.clone(),
        Answers::Dated { .. } => panic!("listed"),
    };
    for (got, wanted) in [
        (shares(&[1.0, 0.0, 9.0], Some(2)), [0.56, 0.24, 0.2]),
        (
            shares(&[0.5, 0.5, 0.0], None),
            [2.5 / 5.0, 1.7 / 5.0, 0.8 / 5.0],
        ),
        (shares(&[0.0, 0.0, 9.0], Some(2)), [0.5, 0.3, 0.2]),
    ] {
        got.iter()
            .zip(wanted)
            .for_each(|(got, wanted)| near(*got, wanted));
    }
}

#[test]
fn what_no_rule_gives_any_frequency_is_not_allowed() {
    let grid = kinds(1, 1800, 1804);
    let table = Table::listed(
        &grid,
        vec![0],
        &[[[1.0; 5], [0.0; 5], [0.0; 5]].concat()],
        3,
        0.0,
    );
    let soft = |weights: &[f64]| Observed::Soft(Weights::new(weights).unwrap());
    assert!(table.allows(&soft(&[0.5, 1.0, 0.0]), 0, 2));
    assert!(!table.allows(&soft(&[0.0, 1.0, 0.5]), 0, 2));
    let dated = Table::dated(
        &grid,
        &Curve::new(vec![(-1.0, 0.0), (0.0, 1.0), (2.0, 0.0)]),
        0.0,
    );
    assert!(dated.allows(&Observed::Year(Year(1802)), 0, 2));
    // Read years beyond what a year of the grid can be off.
    assert!(!dated.allows(&Observed::Year(Year(1700)), 0, 2));
    assert!(!dated.allows(&Observed::Year(Year(1900)), 0, 2));
    // Only the shape of a kernel counts, not how high it is.
    let low = Table::dated(
        &grid,
        &Curve::new(vec![(-1.0, 0.0), (0.0, 0.1), (2.0, 0.0)]),
        0.0,
    );
    assert!(low.allows(&Observed::Year(Year(1800)), 0, 1));
    assert!(!low.allows(&Observed::Year(Year(1800)), 0, 4));
    // Rows by findings by years: the second row has its finding from the fourth year on.
    let rows = [
        [[1.0; 5], [0.0; 5]].concat(),
        [[1.0, 1.0, 1.0, 0.0, 0.0], [0.0, 0.0, 0.0, 1.0, 1.0]].concat(),
    ];
    let two = Table::listed(&kinds(2, 1800, 1804), vec![0, 1], &rows, 2, 0.0);
    let allowed = |row, year| two.allows(&Observed::Finding(FindingId(1)), row, year);
    assert_eq!([0, 1, 2, 3, 4].map(|year| allowed(0, year)), [false; 5]);
    assert_eq!(
        [0, 1, 2, 3, 4].map(|year| allowed(1, year)),
        [false, false, false, true, true]
    );
    // A kernel without heights says nothing.
    let mute = Table::dated(&grid, &Curve::new(vec![(0.0, 0.0)]), 0.0);
    match mute.answers() {
        Answers::Dated { density } => density.iter().for_each(|d| near(*d, 1.0 / 11.0)),
        Answers::Listed { .. } => panic!("dated"),
    }
}

#[test]
fn kinds_places_and_years_are_sums_of_cells() {
    let grid = one_kind_of_two_places(1800, 1801);
    let posterior = posterior(&[1.0, 2.0, 3.0, 4.0, 5.0, 5.0]);
    let shares = |got: Vec<f64>, wanted: [f64; 2]| {
        assert_eq!(got.len(), 2);
        got.iter()
            .zip(wanted)
            .for_each(|(got, wanted)| near(*got, wanted / 20.0));
    };
    shares(posterior.kinds(&grid), [10.0, 10.0]);
    shares(posterior.places(&grid), [13.0, 7.0]);
    shares(posterior.years(&grid), [9.0, 11.0]);
}

#[test]
fn a_band_may_be_the_first_year_alone() {
    let grid = kinds(1, 1800, 1803);
    let p = [0.6, 0.2, 0.1, 0.1];
    let years = |band: &Band| (band.from.0, band.to.0);
    assert_eq!(years(&Band::shortest(&p, &grid, 0.5)), (1800, 1800));
    let nested = Band::nested(&p, &grid, 0.5, [0.4, 0.5, 0.8]);
    assert_eq!(
        [0, 1, 2].map(|i| years(&nested[i])),
        [(1800, 1800), (1800, 1800), (1800, 1801)]
    );
    // Years without probability are never the middle, not even of no share at all.
    assert_eq!(quantile(&[0.0, 0.0, 1.0, 0.0], &grid, 0.0), Year(1802));
}
