//! Words for chance and support, and decibans, against the tables of `tests/data`, each row of
//! which names its source and says whether it was seen or is from memory.

use printseam::internals::core::explanation::explain;
use printseam::internals::core::grid::{ClueId, FindingId, Grid, KindId, PlaceId, Year};
use printseam::internals::core::left_out::each_left_out;
use printseam::internals::core::likelihood::LEAST_ERROR;
use printseam::internals::core::model::{ClueModel, Model, Station};
use printseam::internals::core::observation::{Evidence, Observation, Observed};
use printseam::internals::core::posterior::Prior;
use printseam::internals::core::table::Table;
use printseam::internals::rulebase::ids::SettingId;
use printseam::internals::say::scales::{chance, percent, support};

use crate::tables::table;

/// (words, from, to) of one scale; no upper end is infinity.
fn scale(file: &str, name: &str, from: &str, to: &str) -> Vec<(String, f64, f64)> {
    let table = table(file);
    table
        .rows()
        .filter(|row| row.text("scale") == name)
        .map(|row| {
            let end = row.number(to).unwrap_or(f64::INFINITY);
            (row.text("words").to_owned(), row.number(from).unwrap(), end)
        })
        .collect()
}

/// The narrowest term that fits is used; where two bands meet either word will do.
#[test]
fn chance_follows_the_ipcc_scale() {
    let scale = scale(
        "data/chance_words.csv",
        "IPCC AR5/AR6",
        "percent_from",
        "percent_to",
    );
    assert_eq!(scale.len(), 7);
    let mut met = Vec::new();
    for step in 0..=1000 {
        let p = f64::from(step) / 1000.0;
        let at = f64::from(step) / 10.0;
        let said = chance(p);
        let fits: Vec<_> = scale.iter().filter(|s| s.1 <= at && at <= s.2).collect();
        let on_bound = scale.iter().any(|s| s.1 == at || s.2 == at) && step % 1000 != 0;
        let narrowest = fits.iter().map(|s| s.2 - s.1).fold(f64::INFINITY, f64::min);
        assert!(
            fits.iter()
                .any(|s| s.0 == said && (on_bound || s.2 - s.1 == narrowest)),
            "{at} %: {said}"
        );
        if !met.contains(&said) {
            met.push(said);
        }
    }
    assert_eq!(met.len(), scale.len(), "{met:?}");
}

/// A ratio on a bound is in two rows, and no word is given between 1 and 2: that gap is ours.
#[test]
fn support_follows_the_enfsi_scale() {
    let scale = scale(
        "data/support_words.csv",
        "ENFSI 2015",
        "ratio_from",
        "ratio_to",
    );
    assert_eq!(scale.len(), 7);
    let mut met = Vec::new();
    for step in 0..=700 {
        let decibans = f64::from(step) / 10.0;
        let ratio = 10f64.powf(decibans / 10.0);
        let said = support(decibans);
        assert_eq!(said, support(-decibans), "against {ratio}");
        // Ten to a whole power may come out a hair off the bound.
        let near = |a: f64, b: f64| (a / b - 1.0).abs() < 1e-9;
        let held = scale.iter().any(|(words, from, to)| {
            let inside = *from <= ratio && ratio <= *to;
            said == words && (inside || near(ratio, *from) || near(ratio, *to))
        });
        let gap = 1.0 < ratio && ratio < 2.0 && said == "no support";
        assert!(held || gap, "{ratio}: {said}");
        if !met.contains(&said) {
            met.push(said);
        }
    }
    assert_eq!(met.len(), scale.len(), "{met:?}");
}

/// Two kinds, one year, one clue of two findings: what the first finding weighs for the first kind
/// when it is seen with these chances on either, and the prior odds stand at `odds`.
fn weigh(odds: f64, seen: [f64; 2]) -> (f64, f64) {
    let pairs = vec![(KindId(0), PlaceId(0)), (KindId(1), PlaceId(0))];
    let grid = Grid::new(pairs, 2, 1, Year(1850), Year(1850));
    // P = (1 − ε) · w + ε / 2, turned round.
    let weight = |p: f64| (p - LEAST_ERROR / 2.0) / (1.0 - LEAST_ERROR);
    let rows: Vec<Vec<f64>> = seen
        .iter()
        .map(|p| vec![weight(*p), 1.0 - weight(*p)])
        .collect();
    let clue = ClueModel {
        table: Table::listed(&grid, vec![0, 1], &rows, 2, 0.0),
        family: None,
        gate: Vec::new(),
        station: Station::Front,
        seconds: 5.0,
        present: 1.0,
    };
    let model = Model {
        grid,
        clues: vec![clue],
        families: Vec::new(),
    };
    let mut evidence = Evidence::new();
    evidence.add(Observation::new(ClueId(0), Observed::Finding(FindingId(0))));
    let account = explain(
        &model,
        &Prior::new(vec![odds, 1.0]),
        &evidence,
        &each_left_out(&model, &Prior::new(vec![odds, 1.0]), &evidence),
        0.8,
    );
    // The account speaks of the leading kind.
    let sign = if account.kind == KindId(0) { 1.0 } else { -1.0 };
    (
        sign * account.prior_decibans,
        sign * account.steps[0].decibans,
    )
}

/// The engine's own prior odds and weights, against the decibans the sources state.
#[test]
fn decibans_are_those_of_the_sources() {
    let table = table("data/decibans.csv");
    let (mut odds, mut weights) = (0, 0);
    for row in table.rows() {
        let ratio = row.number("ratio").unwrap();
        let expected = row.number("decibans").unwrap();
        let stated = row.number("stated").unwrap();
        assert!((expected - stated).abs() < 0.05, "{ratio}: {stated}");
        let (prior, none) = weigh(ratio, [0.5, 0.5]);
        assert!((prior - expected).abs() < 1e-9, "odds of {ratio}: {prior}");
        assert!(none.abs() < 1e-9, "{none}");
        odds += 1;
        // The error of every look keeps a single finding under a ratio of a thousand.
        let seen = if ratio < 1.0 {
            [0.5 * ratio, 0.5]
        } else {
            [0.5, 0.5 / ratio]
        };
        if seen.iter().all(|p| *p > LEAST_ERROR / 2.0) {
            let (_, weight) = weigh(1.0, seen);
            assert!((weight - expected).abs() < 1e-9, "ratio {ratio}: {weight}");
            weights += 1;
        }
    }
    assert!(odds >= 14 && weights >= 10, "{odds} {weights}");
}

#[test]
fn a_percentage_never_claims_certainty() {
    assert_eq!(percent(0.0), "under 1 %");
    assert_eq!(percent(1.0), "over 99 %");
    assert_eq!(percent(0.425), "42 %");
}

/// "About 1750 to 1750" is no way to say one year.
#[test]
fn a_band_of_one_year_is_said_as_one_year() {
    let first = printseam::internals::core::grid::FIRST_YEAR;
    let expert = printseam::internals::piece::expert::Expert::shipped(first).unwrap();
    let piece =
        printseam::internals::piece::Piece::unseen(std::sync::Arc::new(expert), SettingId(0));
    let band = piece.judgement().band();
    assert_eq!((band.from, band.to), (first, first));
    let sheet = printseam::internals::report::sheet::Sheet::new(&piece, "", None);
    for said in [
        printseam::internals::report::text::details(&piece),
        printseam::internals::report::markdown::page(&sheet),
        sheet.picture,
        sheet.picture_alt,
    ] {
        let bands = said.matches("1750 to 1750").count();
        // The axis of the picture is one year as well here, and is told as an axis.
        let axis = said.matches("Timeline from 1750 to 1750").count();
        assert_eq!(bands, axis, "{said}");
    }
}
