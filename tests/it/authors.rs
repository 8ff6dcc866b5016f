//! The author's bench: a figure changed by another file, a skeleton to start from, two rule bases compared.

use std::fs;
use std::process::Command;

use printseam::internals::core::grid::Year;
use printseam::internals::core::observation::Observation;
use printseam::internals::piece::Piece;
use printseam::internals::piece::expert::Expert;
use printseam::internals::rulebase::shipped;
use printseam::internals::rulebase::source::SourceFile;
use std::sync::Arc;

use crate::commands::folder;
use crate::rules_corpus::{read_rules, root};

const PRESENT: Year = Year(2026);

fn small(more: &[&str]) -> Arc<Expert> {
    let mut files = read_rules(&root().join("ok/base"));
    for name in more {
        files.extend(read_rules(&root().join("ok").join(name)));
    }
    Arc::new(Expert::load(&files, PRESENT).unwrap())
}

/// P(flow) of a piece with brush strokes.
fn flow_when_brushed(expert: &Arc<Expert>) -> f64 {
    let line = expert.base.clue_id("line").unwrap();
    let brush = expert.base.clue(line).finding("brush").unwrap();
    let piece = Piece::unseen(expert.clone(), expert.base.neutral());
    let piece = piece.with_all([Observation::finding(line, brush)]);
    let flow = expert
        .base
        .kinds
        .iter()
        .position(|k| k.id == "flow")
        .unwrap();
    piece
        .judgement()
        .posterior
        .kinds(&expert.engine().model.grid)[flow]
}

#[test]
fn a_change_counts_before_what_the_clue_says_and_says_why() {
    let (plain, changed) = (small(&[]), small(&["changed"]));
    let line = changed.base.clue_id("line").unwrap();
    assert_eq!(plain.base.clue(line).seconds, 5.0);
    assert_eq!(changed.base.clue(line).seconds, 7.0);
    assert_eq!(changed.base.clue(line).slip, 0.1);
    // Ten times as often as rarely, beside a kind that stays: the odds rise.
    assert!(flow_when_brushed(&changed) > 2.0 * flow_when_brushed(&plain));
    let told: Vec<_> = changed
        .base
        .changes_of(line)
        .map(|c| c.what.as_str())
        .collect();
    let figures = "seconds 9, was 5, slip 0.1, was 0.05";
    assert_eq!(
        told,
        [
            "brush has another case before all others",
            figures,
            "seconds 7, was 9"
        ]
    );
    let edge = changed.base.clue_id("edge").unwrap();
    assert_eq!(changed.base.changes_of(edge).count(), 0);
}

fn printseam(args: &[&str]) -> (bool, String, String) {
    let out = Command::new(env!("CARGO_BIN_EXE_printseam"))
        .args(args)
        .env("XDG_CONFIG_HOME", "/nonexistent")
        .output()
        .unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (out.status.success(), text(out.stdout), text(out.stderr))
}

#[test]
fn the_skeleton_of_a_clue_is_a_clue() {
    let (done, skeleton, _) = printseam(&["rules", "new", "clue", "rim-colour"]);
    assert!(done);
    let mut files = shipped::files();
    files.push(SourceFile {
        name: "overlay/clues/new.ron".to_owned(),
        text: skeleton,
    });
    let expert = Expert::load(&files, PRESENT).unwrap();
    let clue = expert.base.clue_id("rim-colour").unwrap();
    assert_eq!(expert.base.clue(clue).findings.len(), 2);

    let (done, _, error) = printseam(&["rules", "new", "clue", "Rim Colour"]);
    assert!(!done && error.contains("'Rim Colour'"), "{error}");
}

#[test]
fn two_rule_bases_are_compared_on_the_same_pieces() {
    let cases = "case_id,from,to,kind,setting,print-colour,edge\n\
                 a,1890,1900,flow-blue,museum-drawer,blue,clouded\n\
                 b,1830,1840,printed-blue,museum-drawer,blue,crisp\n";
    let folder = folder("compared");
    let table = folder.join("cases.csv");
    fs::write(&table, cases).unwrap();
    let own = folder.join("own");
    fs::create_dir_all(&own).unwrap();
    let change = |weight: &str| {
        let text = format!(
            "(format: 1, changes: [(clue: \"edge\", finding: \"clouded\", case: (kinds: [\"flow-blue\"], \
             weight: {weight}), because: \"tried\", source: [\"common-practice\"])])"
        );
        fs::write(own.join("changes.ron"), text).unwrap();
    };
    let table = table.to_str().unwrap();
    let own = own.to_str().unwrap();

    let (done, same, error) =
        printseam(&["rules", "compare", "built-in", "built-in", "--cases", table]);
    assert!(
        done && same.starts_with("0 of 2 verdicts moved"),
        "{same}{error}"
    );

    change("Never");
    let (done, moved, error) = printseam(&["rules", "compare", "built-in", own, "--cases", table]);
    assert!(done, "{error}");
    assert!(moved.contains("\n  a: flow-blue "), "{moved}");
    let row = moved.lines().find(|l| l.starts_with("  a:")).unwrap();
    let (before, after) = row.split_once(" -> ").unwrap();
    assert!(
        before.contains("flow-blue") && !after.contains("flow-blue"),
        "{row}"
    );
    assert!(row.contains("score -"), "{row}");
    let right = moved.lines().find(|l| l.starts_with("kind right")).unwrap();
    let shares: Vec<&str> = right
        .split_whitespace()
        .filter(|w| w.parse::<u8>().is_ok())
        .collect();
    assert_eq!(shares, ["100", "50"], "{moved}");

    change("Often");
    let (done, _, error) = printseam(&["rules", "compare", "built-in", own, "--cases", table]);
    assert!(!done && error.contains("overlay/changes.ron:1:"), "{error}");
}
