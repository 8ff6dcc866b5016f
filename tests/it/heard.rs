//! Marks and notes on the shipped rules: what is written turns into findings.

use printseam::internals::claim::read;
use printseam::internals::hearing::one_per_clue::GaveWay;
use printseam::internals::piece::notation::write;
use printseam::internals::piece::reading::{mark, notes};

use crate::shipped::{case_of, expert};

fn said(entries: &[printseam::internals::core::observation::Observation]) -> Vec<String> {
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
    let case = case_of(
        &expert,
        "antiques-fair",
        &["line-make=engraved", "print-colour=brown"],
    );
    let before = case.judgement().band();
    let case = case.with_all(mark(&expert, "Rd No 61234", false).entries);
    let after = case.judgement().band();
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
    let entries: Vec<_> = heard.heard.iter().map(|(_, e)| e.clone()).collect();
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
                assert!(heard.heard.contains(&(by.clone(), entry.clone())), "{line}");
                (o.text.clone(), by.clone(), o.why)
            })
            .collect();
        lost
    };
    let told = |text: &str, by: &str, why| vec![(text.to_owned(), by.to_owned(), why)];
    assert_eq!(
        lost("crazed, no crazing"),
        told("crazed", "crazing", GaveWay::SaidBefore)
    );
    assert_eq!(
        lost("brown?, scalloped, blue"),
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
            ("crazing", "crazed", GaveWay::SaidBefore),
            ("brown", "green", GaveWay::SaidBefore),
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
                // "[mark] crown" is heard of a mark only; "[no] …" only after a denial.
                if form.starts_with("[no]") {
                    continue;
                }
                let form = match form.split_once("] ") {
                    Some((thing, words)) => format!("{words} {}", &thing[1..]),
                    None => form.clone(),
                };
                if notes(&expert, &form).heard.is_empty() {
                    lost.push(format!("{}={}: {form}", clue.id, finding.id));
                }
            }
        }
    }
    assert!(lost.is_empty(), "{lost:?}");
}

/// Words for a kind are an opinion and no finding; what else they say counts.
#[test]
fn words_for_a_kind_are_an_opinion() {
    let expert = expert();
    for (line, kind, wanted, unwanted) in [
        ("flow blue plate", "flow-blue", "print-colour=blue", "edge"),
        (
            "brown transferware",
            "printed-colour",
            "print-colour=brown",
            "line-make",
        ),
        ("hand painted jug", "painted-over", "form=jug", "line-make"),
    ] {
        let heard = notes(&expert, line);
        let entries: Vec<_> = heard.heard.into_iter().map(|(_, e)| e).collect();
        let found = said(&entries);
        assert!(found.contains(&wanted.to_owned()), "{line}: {found:?}");
        assert!(
            !found.iter().any(|f| f.starts_with(unwanted)),
            "{line}: {found:?}"
        );
        let kinds = heard.opinion.unwrap().kinds;
        let named = kinds.iter().any(|k| expert.base.kinds[*k].id == kind);
        assert!(named, "{line}: {kinds:?}");
    }
}
