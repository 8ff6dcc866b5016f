//! The command line: transcripts (`tests/cmd`, those of README, `docs/` and demo), and what
//! a transcript can't hold: odd bytes, endless input, a reader that goes away.

use std::fs;
use std::path::PathBuf;

use crate::running::{command, run, text};

#[test]
fn transcripts_hold() {
    trycmd::TestCases::new()
        .env("PRINTSEAM_NOW", "2026")
        .env("XDG_CONFIG_HOME", "/nonexistent")
        .env("XDG_DATA_HOME", "/nonexistent")
        .register_bin("printseam", trycmd::cargo::cargo_bin!("printseam"))
        .case("tests/cmd/*.trycmd")
        .case("tests/cmd/*.toml")
        .case("README.md")
        .case("docs/*.md")
        .case("demo/README.md");
}

/// A fresh folder for one test.
pub fn folder(name: &str) -> PathBuf {
    let path = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&path);
    fs::create_dir_all(&path).unwrap();
    path
}

pub fn no_control(bytes: &[u8]) {
    let bad = text(bytes)
        .chars()
        .find(|c| c.is_control() && *c != '\n' && *c != '\t');
    assert_eq!(bad, None);
}

/// Every refusal is one line on standard error and nothing on the other output.
pub fn refused(arguments: &[&str], input: &[u8], says: &str) {
    let output = run(arguments, input);
    let said = text(&output.stderr);
    assert_eq!(output.status.code(), Some(2), "{arguments:?}: {said}");
    assert_eq!(said.lines().count(), 1, "{said}");
    assert!(
        said.starts_with("printseam: ") && said.contains(says),
        "{said}"
    );
    assert!(output.stdout.is_empty());
    no_control(&output.stderr);
}

#[test]
fn refusals_are_one_line() {
    let dir = folder("refusals");
    let file = |name: &str, bytes: &[u8]| {
        let path = dir.join(name);
        fs::write(&path, bytes).unwrap();
        path.display().to_string()
    };
    let long = vec![b' '; 1_000_001];
    let judge = |name: &str, bytes: &[u8], says: &str| {
        refused(&["judge", &file(name, bytes)], b"", says);
        refused(&["judge", "-"], bytes, says);
    };
    judge(
        "latin.ron",
        b"(format: 1, notes: \"caf\xe9\")",
        "not UTF-8 text (byte 23)",
    );
    judge("long.ron", &long, "too long; at most 1000000 bytes");
    judge("empty.ron", b"", ":1:1: ");
    judge("cut.ron", b"(format: 1,\n saw: [\"edge=crisp\"", ":2:");
    judge("newer.ron", b"(format: 2)", "this program reads format 1");
    judge("field.ron", b"(format: 1,\n seen: [])", ":2:");
    judge("name.ron", b"(format: 1, setting: \"attick\")", ":1:22: ");
    judge(
        "escape.ron",
        b"(format: 1, saw: [\"edge\\u{1b}[2J=x\"])",
        "edge",
    );
    refused(&["judge", &dir.display().to_string()], b"", "can't be read");
    refused(&["judge", "\u{1b}[31m.ron"], b"", "can't be read");
    refused(&["ask", "--json"], &long, "too long");
    refused(&["--now", "1700", "judge"], b"", "1800 to 2100");
    refused(&["fro\u{1b}[2J"], b"", "judge, ask");
    refused(&["rules", "show", "\u{1b}[2J"], b"", "rules list");
    let none = dir.join("none.csv").display().to_string();
    refused(&["prove", &none], b"", "can't be read");
    refused(&[], b"", "need a terminal");
}

#[cfg(unix)]
#[test]
fn odd_arguments_and_endless_files_are_refused() {
    use std::ffi::OsStr;
    use std::os::unix::ffi::OsStrExt;

    let odd = OsStr::from_bytes(b"\xff\xfe");
    for arguments in [
        vec![OsStr::new("judge"), odd],
        vec![OsStr::new("judge"), OsStr::new("--notes"), odd],
        vec![odd],
    ] {
        let output = run(&arguments, b"");
        assert_eq!(output.status.code(), Some(2));
        assert_eq!(text(&output.stderr).lines().count(), 1);
    }
    refused(&["judge", "/dev/zero"], b"", "too long");
    refused(&["prove", "/dev/zero"], b"", "too long");
}

#[cfg(unix)]
#[test]
fn a_reader_that_goes_away_is_no_error() {
    for arguments in [
        &["rules", "list"][..],
        &["judge", "--json"],
        &["generate", "zsh"],
    ] {
        let mut child = command(arguments).spawn().unwrap();
        drop(child.stdout.take());
        let output = child.wait_with_output().unwrap();
        assert!(output.status.success(), "{arguments:?}");
        assert_eq!(text(&output.stderr), "");
    }
}

/// A copy of a shipped file's text with one exact change.
pub fn changed(file: &str, from: &str, to: &str) -> String {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("rules")
        .join(file);
    let before = fs::read_to_string(path).unwrap();
    let after = before.replacen(from, to, 1);
    assert_ne!(before, after, "'{from}' is not in {file}");
    after
}

/// A folder that holds all shipped rule files.
pub fn rules_copy(name: &str) -> PathBuf {
    let dir = folder(name);
    for file in printseam::internals::rulebase::shipped::files() {
        let path = dir.join(&file.name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, file.text).unwrap();
    }
    dir
}

#[test]
fn texts_of_rules_and_notes_cannot_command_the_terminal() {
    let dir = rules_copy("commanding");
    let text = changed(
        "clues/loupe.ron",
        "question: \"",
        "question: \"\\u{1b}[2J\\u{9b}31m",
    );
    fs::write(dir.join("clues/loupe.ron"), text).unwrap();
    let rules = dir.display().to_string();
    let list = run(&["--rules", &rules, "rules", "list"], b"");
    assert!(list.status.success());
    assert!(crate::running::text(&list.stdout).contains("\u{fffd}[2J\u{fffd}31m"));
    no_control(&list.stdout);
    let ask = run(
        &["--rules", &rules, "ask"],
        b"\x1b[2J\njump \x1b[2J\n\xc2\x9b=x\n",
    );
    no_control(&ask.stdout);
    let noted = [
        "judge",
        "--notes",
        "\u{1b}]0;x\u{7} willow \u{9b}2J",
        "--mark",
        "\u{1b}cEngland",
    ];
    no_control(&run(&noted, b"").stdout);
}

#[test]
fn own_rules_are_added_or_stop_the_program() {
    let config = folder("config");
    let own = config.join("printseam/rules");
    fs::create_dir_all(own.join("clues")).unwrap();
    let with = |arguments: &[&str]| {
        let mut command = command(arguments);
        command.env("XDG_CONFIG_HOME", &config).output().unwrap()
    };
    let clue = |weight: &str, kind: &str| {
        format!(
            "(format: 1, station: Back, clues: [(id: \"own-sticker\", question: \"Is my sticker on \
             it?\", look: \"Turn it over.\", seconds: 2, slip: 0.01, because: \"A trial.\", source: \
             [\"common-practice\"], findings: [\n(id: \"yes\", words: \"yes\", cases: [(kinds: \
             [\"{kind}\"], weight: {weight}), (weight: Rare)]),\n(id: \"no\", words: \"no\", cases: \
             [(weight: Common)])])])"
        )
    };
    let file = own.join("clues/own.ron");

    fs::write(&file, clue("Common", "decal")).unwrap();
    let judged = with(&["judge", "--json", "--saw", "own-sticker=yes"]);
    assert_eq!(text(&judged.stderr), "");
    let value: serde_json::Value = serde_json::from_slice(&judged.stdout).unwrap();
    assert_eq!(value["kinds"][0]["id"], "decal");
    // `--rules` stands for all rules: nothing is added to it.
    let shipped = format!("{}/rules", env!("CARGO_MANIFEST_DIR"));
    let list = with(&["--rules", &shipped, "rules", "list"]);
    assert!(list.status.success() && !text(&list.stdout).contains("own-sticker"));

    fs::write(&file, clue("Comon", "decl")).unwrap();
    for arguments in [&["judge"][..], &["ask"], &[]] {
        let stopped = with(arguments);
        assert_eq!(stopped.status.code(), Some(2));
        assert!(stopped.stdout.is_empty());
        let said = text(&stopped.stderr);
        assert!(said.contains("overlay/clues/own.ron:2:"), "{said}");
        assert!(
            said.contains("'Comon'") && said.contains("'decl'"),
            "{said}"
        );
    }
    let checked = with(&["rules", "check"]);
    assert_eq!(checked.status.code(), Some(1));
    assert!(text(&checked.stdout).ends_with("2 problems\n"));
}

#[test]
fn a_registration_that_cannot_be_is_answered_no() {
    let ends = |arguments: &[&str]| {
        let output = run(&[&["registered"], arguments].concat(), b"");
        assert_eq!(text(&output.stderr), "");
        assert!(!output.stdout.is_empty());
        output.status.code()
    };
    for json in [&[][..], &["--json"]] {
        let ends = |arguments: &[&str]| ends(&[arguments, json].concat());
        for impossible in ["31,S,D,2", "A,B,C,D"] {
            assert_eq!(ends(&["--diamond", impossible]), Some(1), "{impossible}");
        }
        for impossible in ["0", "99999999"] {
            assert_eq!(ends(&["--number", impossible]), Some(1), "{impossible}");
        }
        assert_eq!(ends(&["--diamond", "31,S,W,2"]), Some(0));
        assert_eq!(ends(&["--diamond", "?,?,?,?"]), Some(0));
        assert_eq!(ends(&["--number", "12345?"]), Some(0));
        // What is neither a diamond nor a number was never asked.
        for (option, nothing) in [
            ("--diamond", "A,12,3"),
            ("--number", "abc"),
            ("--number", ""),
        ] {
            let asked = [&["registered", option, nothing][..], json].concat();
            let output = run(&asked, b"");
            assert_eq!(output.status.code(), Some(2), "{nothing}");
            assert!(output.stdout.is_empty());
            assert!(!text(&output.stderr).is_empty());
        }
        // A class of other goods is a problem, but the dates stand.
        assert_eq!(ends(&["--diamond", "31,S,W,2", "--class", "XX"]), Some(0));
    }
}

#[test]
fn a_theme_is_one_of_three_and_colour_can_be_refused() {
    use printseam::internals::screens::{theme::Theme, theme_for};
    refused(&["--theme", "blue"], b"", "mono, 16, rich");
    refused(&["--theme", "rich"], b"", "need a terminal");
    assert_eq!(theme_for(None, false), Theme::default());
    assert_eq!(theme_for(None, true), Theme::mono());
    for name in ["mono", "16", "rich"] {
        assert_eq!(Some(theme_for(Some(name), false)), Theme::named(name));
        // What is asked for in so many words wins over the environment.
        assert_eq!(Some(theme_for(Some(name), true)), Theme::named(name));
    }
    assert_ne!(theme_for(Some("rich"), false), theme_for(Some("16"), false));
}

/// What each invented piece was made up to be.
#[test]
fn the_sale_is_judged_as_it_was_made_up() {
    let made_up = [
        ("bears-lid", "printed-multi"),
        ("clouded-plate", "flow-blue"),
        ("cottage-plate", "revival-print"),
        ("nursery-plate", "print-and-paint"),
        ("rose-cup", "decal"),
        ("strokes-bowl", "painted-under"),
        ("teabowl", "printed-blue"),
        ("willow-dish", "printed-blue"),
    ];
    let demo = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("demo");
    let files = fs::read_dir(&demo).unwrap().filter(|f| {
        let name = f.as_ref().unwrap().file_name();
        name.to_string_lossy().ends_with(".ron")
    });
    assert_eq!(files.count(), made_up.len());
    for (name, kind) in made_up {
        let path = demo.join(format!("{name}.ron")).display().to_string();
        let judged = run(&["judge", "--json", &path], b"");
        let value: serde_json::Value = serde_json::from_slice(&judged.stdout).unwrap();
        assert_eq!(value["kinds"][0]["id"], kind, "{name}");
        // The same from a pipe, to the last bit.
        let piped = run(&["judge", "--json", "-"], &fs::read(&path).unwrap());
        assert_eq!(judged.stdout, piped.stdout, "{name}");
    }
}
