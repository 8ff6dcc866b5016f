//! The line mode fed by a pipe gives the same verdict as `judge` with the same findings.

use std::io::{BufRead, BufReader, Write};
use std::time::Duration;

use crate::running::{command, run, text};

fn printseam(arguments: &[&str], input: &str) -> String {
    let output = run(arguments, input.as_bytes());
    assert!(output.status.success());
    text(&output.stdout)
}

/// The verdict without what judge alone adds.
fn verdict(text: &str) -> serde_json::Value {
    let mut value: serde_json::Value = serde_json::from_str(text).unwrap();
    for judge_adds in ["heard", "not_understood", "opinion"] {
        value.as_object_mut().unwrap().remove(judge_adds);
    }
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
fn notes_and_marks_are_heard_as_judge_hears_them() {
    let judged = printseam(
        &[
            "judge",
            "--json",
            "--mark",
            "MADE IN ENGLAND",
            "--notes",
            "dark blue willow, frumious",
        ],
        "",
    );
    let asked = printseam(
        &["ask", "--json"],
        "mark MADE IN ENGLAND\nnotes dark blue willow, frumious\n",
    );
    let (judged, asked) = (verdict(&judged), verdict(&asked));
    for part in ["kinds", "band", "because"] {
        assert_eq!(judged[part], asked[part], "{part}");
    }
    // Said in notes, it does not count over what was answered outright.
    let told = printseam(&["ask"], "print-colour=black\nnotes blue\n");
    assert!(told.contains("Not counted: print colour: blue"), "{told}");
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

/// A person at a terminal must see the question before the answer is waited for.
#[test]
fn each_question_comes_before_its_answer_is_read() {
    let mut child = command(&["ask"]).spawn().unwrap();
    let mut answers = child.stdin.take().unwrap();
    let said = BufReader::new(child.stdout.take().unwrap());
    // Read beside the test, so that a question that never comes fails instead of hanging.
    let (tell, told) = std::sync::mpsc::channel();
    std::thread::spawn(move || {
        for line in said.lines() {
            let _ = tell.send(line.unwrap());
        }
    });
    let until = |end: &str| {
        while !told
            .recv_timeout(Duration::from_secs(30))
            .unwrap()
            .contains(end)
        {}
    };
    until("an empty line skips to the questions");
    answers.write_all(b"\n").unwrap();
    until("(number, ? unsure");
    answers.write_all(b"1\n").unwrap();
    until("(number, ? unsure");
    drop(answers);
    until("Dates and rarity are guidance");
    assert!(child.wait().unwrap().success());
}

/// Numbers, ids, doubt, can't tell and jumps say what `--saw` says.
#[test]
fn every_way_to_answer_is_heard() {
    let judged = printseam(
        &[
            "judge",
            "--json",
            "--setting",
            "dug-up",
            "--saw",
            "crazing=none??",
            "--saw",
            "line-make=engraved?",
            "--saw",
            "glaze-pool=cant-tell",
            "--saw",
            "printed-year=1901",
        ],
        "",
    );
    let asked = printseam(
        &["ask", "--json", "--setting", "dug-up"],
        "jump crazing\nnone??\njump line-make\n1?\njump glaze-pool\nx\njump printed-year\n1901\n",
    );
    assert_eq!(verdict(&judged), verdict(&asked));
}

#[test]
fn an_answer_that_will_not_count_is_told_so() {
    // No mark, so no words in it: the gate is shut.
    let told = |input: &str| printseam(&["ask"], input);
    let shut = "Says nothing here: country word does not apply after mark way: no mark at all.";
    let jumped = told("mark-way=none\njump country-word\ndone\n");
    assert_eq!(jumped.matches(shut).count(), 1, "{jumped}");
    let answered = told("mark-way=none\ncountry-word=england\ndone\n");
    assert_eq!(answered.matches(shut).count(), 1, "{answered}");
    // And it is true: the verdict is the same with and without.
    let verdicts = ["mark-way=none\n", "mark-way=none\ncountry-word=england\n"]
        .map(|input| verdict(&printseam(&["ask", "--json"], input))["kinds"].clone());
    assert_eq!(verdicts[0], verdicts[1]);
    let open = told("mark-way=printed-under\njump country-word\ndone\n");
    assert!(!open.contains("Says nothing here"), "{open}");
}

/// The number of a line of the first glance.
fn line_of(words: &str) -> String {
    let shown = printseam(&["ask"], "");
    let line = shown.lines().find(|line| line.ends_with(words)).unwrap();
    line.split_whitespace().next().unwrap().to_owned()
}

#[test]
fn ticks_of_the_first_glance_are_findings() {
    let ticks = format!(
        "{} {}\n",
        line_of(" gold, rubbed"),
        line_of(" willow pattern")
    );
    let ticked = printseam(&["ask", "--json"], &ticks);
    let said = printseam(&["ask", "--json"], "gilding=worn\nsubject=willow\n");
    assert_eq!(verdict(&ticked)["kinds"], verdict(&said)["kinds"]);
    // An empty line skips it; 0 says that there is no gold, for nobody misses it.
    let skipped = printseam(&["ask", "--json"], "\n");
    assert_eq!(verdict(&skipped)["because"], serde_json::json!([]));
    let none = printseam(&["ask", "--json"], "0\n");
    let said = printseam(&["ask", "--json"], "gilding=none?\n");
    assert_eq!(verdict(&none), verdict(&said));
    // A number that is none of the list's is refused, and the list is still open.
    let again = printseam(&["ask", "--json"], &format!("999\n{ticks}"));
    assert_eq!(verdict(&again), verdict(&ticked));
}

#[test]
fn the_words_of_a_mark_are_typed_at_once() {
    let said = "mark-way=printed-under\ncountry-word=england\n";
    let typed = printseam(&["ask", "--json"], "mark-way=printed-under\nENGLAND\n");
    let kinds = |text: &str| verdict(text)["kinds"].clone();
    assert_eq!(kinds(&typed), kinds(&printseam(&["ask", "--json"], said)));
    let asked = printseam(&["ask"], "mark-way=printed-under\nx\n");
    let offers = asked.matches("What stands in the mark?").count();
    assert_eq!(offers, 1, "{asked}");
    // Who can't read the mark is not asked for its words.
    let after = asked.rsplit("What stands in the mark?").next().unwrap();
    assert!(!after.contains("[country-word]"), "{after}");
    // Who wants to be asked word by word is.
    let asked = printseam(
        &["ask"],
        &format!("mark-way=printed-under\n\n{}", "x\n".repeat(40)),
    );
    assert!(asked.contains("[country-word]"), "{asked}");
}

#[test]
fn a_look_that_needs_the_loupe_is_not_asked_without_it() {
    let answers = "\n".to_owned() + &"x\n".repeat(60);
    let asks = |arguments: &[&str], clue: &str| printseam(arguments, &answers).contains(clue);
    assert!(asks(&["ask"], "[line-make]"));
    assert!(!asks(&["ask", "--without", "loupe"], "[line-make]"));
}

#[test]
fn help_and_letters_are_known() {
    assert!(printseam(&["ask"], "\n?\nq\n").contains("jump CLUE: ask another question"));
    let help = printseam(&["ask"], "help\n");
    assert_eq!(help.matches("mark TEXT").count(), 1);
}
