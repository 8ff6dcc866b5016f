//! Our engine against a general-purpose Bayesian library: see `tests/reference/README.md`.

use std::fs;
use std::path::Path;

use printseam::internals::core::grid::{ClueId, FindingId, Grid, KindId, PlaceId, Year};
use printseam::internals::core::model::{ClueModel, Model, Station};
use printseam::internals::core::observation::{Evidence, Observation, Observed, Sure};
use printseam::internals::core::posterior::{Prior, posterior};
use printseam::internals::core::table::Table;
use printseam::internals::core::told::information;
use serde_json::Value;

fn numbers(value: &Value) -> Vec<f64> {
    value
        .as_array()
        .unwrap()
        .iter()
        .map(|x| x.as_f64().unwrap())
        .collect()
}

fn index(value: &Value) -> usize {
    usize::try_from(value.as_u64().unwrap()).unwrap()
}

fn network() -> (Value, Model, Prior) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/small_network.json");
    let file: Value = serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap();
    let (kinds, places, years) = (
        index(&file["kinds"]),
        index(&file["places"]),
        index(&file["years"]),
    );
    let first = Year(index(&file["first_year"]) as i16);
    let pairs = (0..kinds as u8)
        .flat_map(|k| (0..places as u8).map(move |l| (KindId(k), PlaceId(l))))
        .collect();
    let grid = Grid::new(
        pairs,
        kinds,
        places,
        first,
        Year(first.0 + years as i16 - 1),
    );
    let clues = file["clues"]
        .as_array()
        .unwrap()
        .iter()
        .map(|c| {
            let n = index(&c["n"]);
            let weights = numbers(&c["weights"]);
            // The file has a year's findings together, a table a finding's years.
            let by_finding = |row: &[f64]| {
                (0..years * n)
                    .map(|i| row[i % years * n + i / years])
                    .collect()
            };
            let rows: Vec<Vec<f64>> = weights.chunks(years * n).map(by_finding).collect();
            let row_of_pair = (0..rows.len() as u16).collect();
            ClueModel {
                table: Table::listed(&grid, row_of_pair, &rows, n, c["slip"].as_f64().unwrap()),
                family: None,
                gate: Vec::new(),
                station: Station::Front,
                seconds: 5.0,
                present: 1.0,
            }
        })
        .collect();
    let prior = Prior::new(numbers(&file["prior"]));
    let model = Model {
        grid,
        clues,
        families: Vec::new(),
    };
    (file, model, prior)
}

fn evidence(case: &Value) -> Evidence {
    let mut evidence = Evidence::new();
    for said in case["said"].as_array().unwrap() {
        let sure = match said["sure"].as_str().unwrap() {
            "sure" => Sure::Sure,
            "unsure" => Sure::Unsure,
            _ => Sure::Guess,
        };
        let seen = Observed::Finding(FindingId(index(&said["finding"]) as u16));
        evidence.add(Observation::new(ClueId(index(&said["clue"]) as u16), seen).sure(sure));
    }
    evidence
}

#[test]
fn posteriors_agree_with_a_bayesian_library() {
    let (file, model, prior) = network();
    let cases = file["cases"].as_array().unwrap();
    assert!(cases.len() >= 12);
    for (i, case) in cases.iter().enumerate() {
        let ours = posterior(&model, &prior, &evidence(case));
        for (a, b) in ours.cells().iter().zip(numbers(&case["posterior"])) {
            assert!((a - b).abs() < 1e-9, "case {i}: {a} {b}");
        }
        let theirs = case["log_probability"].as_f64().unwrap();
        assert!(
            (ours.log_evidence - theirs).abs() < 1e-9,
            "case {i}: {} {theirs}",
            ours.log_evidence
        );
    }
}

#[test]
fn expected_information_agrees_with_a_bayesian_library() {
    let (file, model, prior) = network();
    let mut compared = 0;
    for (i, case) in file["cases"].as_array().unwrap().iter().enumerate() {
        let ours = posterior(&model, &prior, &evidence(case));
        for open in case["information"].as_array().unwrap() {
            let clue = index(&open["clue"]);
            let bits = information(&model.grid, &model.clues[clue].table, &ours).bits;
            let theirs = open["bits"].as_f64().unwrap();
            assert!(
                (bits - theirs).abs() < 1e-6,
                "case {i}, clue {clue}: {bits} {theirs}"
            );
            compared += 1;
        }
    }
    assert!(compared > 40, "{compared}");
}
