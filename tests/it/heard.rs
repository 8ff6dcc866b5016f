//! Marks and notes on the shipped rules: what is written turns into findings.

use printseam::claim::read;
use printseam::hearing::one_per_clue::GaveWay;
use printseam::piece::intake::{mark, notes};
use printseam::piece::notation::write;

use crate::shipped::{case_of, expert};

fn said(entries: &[printseam::core::observation::Observation]) -> Vec<String> {
    let base = &expert().base;
    entries.iter().map(|e| write(base, e)).collect()
}

#[test]
fn a_mark_turns_into_findings() {
    let expert = expert();
    let heard = mark(
        &expert,
        "IRONST?NE CH1NA / MADE IN ENGLAND / Rd No 61234",
        false,
    );
    let found = said(&heard.entries);
    assert!(
        found.contains(&"country-word=made-in-england".to_owned()),
        "{found:?}"
    );
    assert!(
        found.iter().any(|f| f.starts_with("ware-word=ironstone")),
        "{found:?}"
    );
    assert!(
        found.contains(&"registration=rd-no".to_owned()),
        "{found:?}"
    );
    assert!(found.contains(&"registered=1886".to_owned()), "{found:?}");
}

#[test]
fn an_absent_word_speaks_only_in_a_complete_mark() {
    let expert = expert();
    let part = said(&mark(&expert, "STONE CHINA", false).entries);
    let whole = said(&mark(&expert, "STONE CHINA", true).entries);
    assert!(!part.iter().any(|f| f == "country-word=none"), "{part:?}");
    assert!(whole.iter().any(|f| f == "country-word=none"), "{whole:?}");
}

#[test]
fn a_mark_moves_the_band() {
    let expert = expert();
    let mut case = case_of(
        &expert,
        "antiques-fair",
        &["line-make=engraved", "print-colour=brown"],
    );
    let before = case.verdict().band();
    case.say_all(&mark(&expert, "Rd No 61234", false).entries);
    let after = case.verdict().band();
    assert!(after.width() < before.width() / 2, "{before:?} {after:?}");
    assert!(after.from.0 >= 1885, "{after:?}");
}

#[test]
fn one_line_of_notes_gives_a_useful_verdict() {
    let expert = expert();
    let heard = notes(
        &expert,
        "dark blue willow, scalloped, crazed, three stilt marks, no mark",
    );
    let entries: Vec<_> = heard.heard.iter().map(|(_, e)| *e).collect();
    let found = said(&entries);
    assert!(found.iter().any(|f| f == "print-colour=blue"), "{found:?}");
    for wanted in [
        "depth-of-blue=dark",
        "subject=willow",
        "rim=scalloped",
        "stilt-marks=three-groups",
        "mark-way=none",
    ] {
        assert!(
            found.iter().any(|f| f == wanted),
            "{wanted} not in {found:?}"
        );
    }
    assert!(found.iter().any(|f| f.starts_with("crazing=")), "{found:?}");
    let nonsense = notes(&expert, "dark blue, zzyzx frumious");
    assert!(nonsense.unread.iter().any(|u| u.text.contains("frumious")));
}

/// A clue answered twice in one line: one answer counts, and the other is handed back with the reason.
#[test]
fn what_gives_way_in_a_line_of_notes_is_told() {
    let expert = expert();
    let lost = |line: &str| {
        let heard = notes(&expert, line);
        let lost: Vec<_> = heard
            .overridden
            .iter()
            .map(|o| {
                let (by, entry) = &o.by;
                assert!(heard.heard.contains(&(by.clone(), *entry)), "{line}");
                (o.text.clone(), by.clone(), o.why)
            })
            .collect();
        lost
    };
    let told = |text: &str, by: &str, why| vec![(text.to_owned(), by.to_owned(), why)];
    assert_eq!(
        lost("crazed, no crazing"),
        told("no crazing", "crazed", GaveWay::SaidLater)
    );
    assert_eq!(
        lost("brown? scalloped, blue"),
        told("brown", "blue", GaveWay::LessSure)
    );
    assert_eq!(
        lost("dark blue, brown"),
        told("dark blue", "brown", GaveWay::OnlyImplied)
    );
    assert_eq!(lost("dark blue willow, blue, crazed, crazing"), []);
}

/// The same rule where a guess takes something for granted.
#[test]
fn what_gives_way_in_a_guess_is_told() {
    let expert = expert();
    let claim = read(&expert, "brown 1880s, green, Victorian, no crazing, crazed").unwrap();
    let lost: Vec<_> = claim
        .overridden
        .iter()
        .map(|o| (o.text.as_str(), o.by.0.as_str(), o.why))
        .collect();
    assert_eq!(
        lost,
        [
            ("crazed", "no crazing", GaveWay::SaidLater),
            ("green", "brown", GaveWay::SaidLater),
        ]
    );
}

#[test]
fn every_spoken_form_is_understood_as_some_finding() {
    let expert = expert();
    let mut lost = Vec::new();
    for clue in &expert.base.clues {
        for finding in &clue.findings {
            for form in &finding.spoken {
                if notes(&expert, form).heard.is_empty() {
                    lost.push(format!("{}={}: {form}", clue.id, finding.id));
                }
            }
        }
    }
    assert!(lost.is_empty(), "{lost:?}");
}

/// What pickers say of a piece before they have looked closely counts, but as unsure.
#[test]
fn words_for_a_kind_are_heard_as_unsure_findings() {
    let expert = expert();
    for (line, wanted) in [
        (
            "flow blue plate",
            &["edge=clouded?", "print-colour=blue"][..],
        ),
        (
            "brown transferware",
            &["line-make=engraved?", "print-colour=brown"],
        ),
        (
            "hand painted jug",
            &["line-make=brush-strokes?", "form=jug"],
        ),
        ("decal??", &["line-make=rosette-dots??"]),
        ("stilt marks", &["stilt-marks=three-groups?"]),
        ("no stilt marks", &["stilt-marks=none"]),
        ("England on the back", &["country-word=england"]),
        ("engraved lines, transferware", &["line-make=engraved"]),
    ] {
        let entries: Vec<_> = notes(&expert, line)
            .heard
            .into_iter()
            .map(|(_, e)| e)
            .collect();
        let found = said(&entries);
        for finding in wanted {
            assert!(found.contains(&(*finding).to_owned()), "{line}: {found:?}");
        }
    }
}
