//! Marks and notes on the shipped rules: what is written turns into findings.

use printseam::internals::claim::{self, read};
use printseam::internals::hearing::one_per_clue::GaveWay;
use printseam::internals::piece::Piece;
use printseam::internals::piece::intake::{Told, intake};
use printseam::internals::piece::notation::write;
use printseam::internals::piece::reading::{mark, notes};
use printseam::internals::report::json::told as told_in_json;
use printseam::internals::rulebase::ids::SettingId;

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
    let entries: Vec<_> = heard.heard.iter().map(|h| h.observation.clone()).collect();
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

#[test]
fn notes_in_trade_words() {
    let expert = expert();
    let heard = |line: &str| {
        let heard = notes(&expert, line);
        let all: Vec<_> = heard.heard.iter().map(|h| h.observation.clone()).collect();
        let unread: Vec<String> = heard.unread.into_iter().map(|u| u.text).collect();
        (said(&all), unread)
    };
    let holds = |line: &str, wanted: &[&str]| {
        let (found, unread) = heard(line);
        for w in wanted {
            assert!(found.iter().any(|f| f == w), "{line}: {w} not in {found:?}");
        }
        assert_eq!(unread, Vec::<String>::new(), "{line}");
    };
    holds(
        "dark blue willow, scalloped, crazed, three stilt marks, no mark",
        &[
            "depth-of-blue=dark",
            "subject=willow",
            "rim=scalloped",
            "crazing=fine",
            "stilt-marks=three-groups",
            "mark-way=none",
        ],
    );
    holds("scolloped rim", &["rim=scalloped"]);
    // The edge of the colour is not the edge of the plate.
    holds(
        "blue willow clouded edges ENGLAND",
        &["subject=willow", "edge=clouded", "country-word=england"],
    );
    holds(
        "willow? dark blue ??",
        &["subject=willow?", "depth-of-blue=dark??"],
    );
    // A jug of any time may swell; squat is rococo. A mark that is smudged is no soft print.
    holds("bulbous jug", &["form=jug", "pot-body=bulbous"]);
    holds("squat bulbous jug", &["form=jug", "pot-body=squat"]);
    holds(
        "creamware teapot, entwined strap handle",
        &["body=cream-earthenware", "hollow-handle=entwined"],
    );
    holds("silver resist jug", &["form=jug", "sheen=silver"]);
    holds("mark is smudged", &["mark-size=smudged"]);
    holds("oversized mark", &["mark-size=large"]);
    let (found, _) = heard("smudged mark");
    assert_eq!(found, ["mark-size=smudged"]);
    for denial in ["not crazed", "without crazing"] {
        let (found, _) = heard(denial);
        assert!(
            found.iter().all(|f| !f.starts_with("crazing=fine")),
            "{found:?}"
        );
    }
    let (found, unread) = heard("the plate has a kangaroo on it, blue");
    assert!(found.iter().any(|f| f == "print-colour=blue"), "{found:?}");
    assert_eq!(unread.len(), 1, "{unread:?}");
    assert!(unread[0].contains("kangaroo"));
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
                assert!(heard.heard.contains(&o.by), "{line}");
                (o.lost.text.clone(), o.by.text.clone(), o.why)
            })
            .collect();
        lost
    };
    let told = |text: &str, by: &str, why| vec![(text.to_owned(), by.to_owned(), why)];
    assert_eq!(
        lost("crazed, no crazing"),
        told("crazed", "no crazing", GaveWay::SaidBefore)
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
        .map(|o| (o.lost.text.as_str(), o.by.text.as_str(), o.why))
        .collect();
    assert_eq!(
        lost,
        [
            ("no crazing", "crazed", GaveWay::SaidBefore),
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
        let entries: Vec<_> = heard.heard.into_iter().map(|h| h.observation).collect();
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

/// `heard`, `not_understood` and `opinion` of `judge --json`: every span cuts its words out of its line.
#[test]
fn json_tells_what_became_of_every_word() {
    let expert = expert();
    let line = "flow blue 1890s, blue willow, brown mark, kangaroo";
    let told = Told {
        notes: line,
        mark: "MADE IN ENGLAND",
        ..Told::default()
    };
    let taken = intake(&expert, &told).unwrap();
    let piece = Piece::new(expert, SettingId::default(), taken.evidence.clone());
    let parts: std::collections::BTreeMap<_, _> =
        told_in_json(&piece, &taken).into_iter().collect();
    let cut = |v: &serde_json::Value, of: &str| {
        let at = |i: usize| usize::try_from(v["span"][i].as_u64().unwrap()).unwrap();
        assert_eq!(&of[at(0)..at(1)], v["text"].as_str().unwrap());
    };
    let heard = parts["heard"].as_array().unwrap();
    let of = |clue: &str| heard.iter().find(|h| h["clue"] == clue).unwrap();
    cut(of("subject"), line);
    cut(of("country-word"), "MADE IN ENGLAND");
    assert_eq!(of("subject")["counted"], true);
    let brown = heard.iter().find(|h| h["text"] == "brown").unwrap();
    cut(brown, line);
    assert_eq!(brown["counted"], false);
    assert!(brown["why"].as_str().unwrap().contains("mark"), "{brown}");
    let unread = parts["not_understood"].as_array().unwrap();
    assert_eq!(unread.len(), 1, "{unread:?}");
    cut(&unread[0], line);
    let opinion = &parts["opinion"];
    assert_eq!(opinion["kind"], "flow-blue");
    assert_eq!(
        (&opinion["from"], &opinion["to"]),
        (&1890.into(), &1899.into())
    );
    let claim = claim::challenge(
        &piece,
        claim::read(piece.expert(), "flow blue, 1890s").unwrap(),
    );
    let p = opinion["p"].as_f64().unwrap();
    assert!((p - claim.p).abs() < 1e-5, "{p} {}", claim.p);
    assert!(opinion["look"].is_string(), "{opinion}");
}

/// What the notes deny is no part of what they take the piece to be.
#[test]
fn a_kind_denied_is_left_out_of_the_opinion() {
    let expert = expert();
    let told = Told {
        notes: "1890s, not flow blue, clouded edge",
        ..Told::default()
    };
    let taken = intake(&expert, &told).unwrap();
    let piece = Piece::new(expert, SettingId::default(), taken.evidence.clone());
    let parts: std::collections::BTreeMap<_, _> =
        told_in_json(&piece, &taken).into_iter().collect();
    let p = parts["opinion"]["p"].as_f64().unwrap();
    let of = |guess: &str| claim::challenge(&piece, read(piece.expert(), guess).unwrap()).p;
    assert!((p - of("1890s, not flow blue")).abs() < 1e-5, "{p}");
    assert!(p < of("1890s") - 1e-3, "{p}");
}

/// A plate of more than 225 mm is a dinner plate, a platter of more than 500 very large; an inch is 25.4 mm.
#[test]
fn measures_are_read_in_every_unit_and_spelling() {
    let expert = expert();
    let plates = [
        ("8 inch plate", "form=small-plate"),
        ("9 inch plate", "form=dinner-plate"),
        ("9\" plate", "form=dinner-plate"),
        ("9in plate", "form=dinner-plate"),
        ("8in plate", "form=small-plate"),
        ("8\" plate", "form=small-plate"),
        ("225mm plate", "form=small-plate"),
        ("226mm plate", "form=dinner-plate"),
        ("23cm plate", "form=dinner-plate"),
        ("22 cm plate", "form=small-plate"),
        ("22.6 cm plate", "form=dinner-plate"),
        ("9.5 inch plate", "form=dinner-plate"),
        ("9.5in plate", "form=dinner-plate"),
        ("22,6 cm plate", "form=dinner-plate"),
        ("22.4cm plate", "form=small-plate"),
        ("twenty cm plate", "form=small-plate"),
        ("twenty three cm plate", "form=dinner-plate"),
        ("19 inch platter", "size-word=large"),
        ("20in platter", "size-word=very-large"),
        ("twenty inch platter", "size-word=very-large"),
        ("16\" platter", "size-word=large"),
        ("40 cm platter", "form=platter"),
    ];
    for (text, finding) in plates {
        let found = notes(&expert, text).heard;
        let found = said(
            &found
                .iter()
                .map(|h| h.observation.clone())
                .collect::<Vec<_>>(),
        );
        let of_size = |f: &&String| f.contains("size-word") || f.contains("plat");
        let last = found
            .iter()
            .filter(of_size)
            .max_by_key(|f| f.contains("size-word"));
        let last = last.unwrap_or_else(|| panic!("{text}: {found:?}"));
        assert!(last.starts_with(finding), "{text}: {found:?}");
    }
}
