//! The line mode fed by a pipe gives the same verdict as `judge` with the same findings.

use std::io::Write;
use std::process::{Command, Stdio};

fn printseam(arguments: &[&str], input: &str) -> String {
    let mut child = Command::new(env!("CARGO_BIN_EXE_printseam"))
        .args(arguments)
        .env("PRINTSEAM_NOW", "2026")
        .env("XDG_CONFIG_HOME", "/nonexistent")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    child
        .stdin
        .take()
        .unwrap()
        .write_all(input.as_bytes())
        .unwrap();
    let output = child.wait_with_output().unwrap();
    assert!(output.status.success());
    String::from_utf8(output.stdout).unwrap()
}

/// The verdict without what judge alone adds.
fn verdict(text: &str) -> serde_json::Value {
    let mut value: serde_json::Value = serde_json::from_str(text).unwrap();
    value.as_object_mut().unwrap().remove("notes");
    value
}

#[test]
fn a_pipe_gives_the_same_verdict_as_judge() {
    let judged = printseam(
        &[
            "judge",
            "--json",
            "--saw",
            "line-make=engraved",
            "--saw",
            "print-colour=blue?",
            "--saw",
            "edge=clouded",
        ],
        "",
    );
    let asked = printseam(
        &["ask", "--json"],
        "line-make=engraved\nprint-colour=blue?\nedge=clouded\n",
    );
    assert_eq!(verdict(&judged), verdict(&asked));
}

#[test]
fn back_takes_an_answer_back_and_nonsense_changes_nothing() {
    let plain = printseam(&["ask", "--json"], "line-make=engraved\n");
    let crooked = printseam(
        &["ask", "--json"],
        "line-make=engraved\nedge=flooded\nback\nfrobnicate\njump nowhere\nwhy\n999\n\ndone\n",
    );
    assert_eq!(verdict(&plain), verdict(&crooked));
}

#[test]
fn the_contract_has_all_its_fields() {
    let value = verdict(&printseam(
        &["judge", "--json", "--saw", "line-make=engraved"],
        "",
    ));
    for field in [
        "format",
        "setting",
        "kinds",
        "places",
        "band",
        "bands",
        "median",
        "earliest",
        "latest",
        "rarity",
        "because",
        "at_odds",
        "next",
        "stop",
        "turning_points",
        "cautions",
    ] {
        assert!(value.get(field).is_some(), "{field}");
    }
    assert_eq!(value["format"], 1);
    let step = &value["because"][0];
    for field in [
        "clue",
        "finding",
        "sure",
        "decibans",
        "leave_one_out",
        "median_before",
        "median_after",
        "width_before",
        "width_after",
        "words",
    ] {
        assert!(step.get(field).is_some(), "{field}");
    }
    let sum: f64 = value["kinds"]
        .as_array()
        .unwrap()
        .iter()
        .map(|k| k["p"].as_f64().unwrap())
        .sum();
    assert!((sum - 1.0).abs() < 1e-3, "{sum}");
}
