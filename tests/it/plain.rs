//! The plain answer: three lines for a picker, with what the findings alone say.

use printseam::internals::core::grid::Year;
use printseam::internals::piece::Piece;
use printseam::internals::piece::setting_effect::setting_effect;
use printseam::internals::report::{json, text};
use printseam::internals::say::{plain, setting_effect as said};

use crate::shipped::{DRAWN, EXPERT, case_of};

/// "Blue willow plate with clouded edges, printed mark, ENGLAND", seen on a thrift shelf.
const CLOUDED_WILLOW: &[&str] = &[
    "print-colour=blue",
    "subject=willow",
    "edge=clouded",
    "mark-way=printed",
    "country-word=england",
];

fn shelf(saw: &[&str]) -> Piece {
    case_of(&EXPERT, "thrift-shelf", saw)
}

#[test]
fn clouded_willow_on_a_shelf_is_said_whole() {
    let piece = shelf(CLOUDED_WILLOW);
    let flow_blue = EXPERT.base.kind_id("flow-blue").unwrap();
    let leads = |expert, first: usize| {
        let judged = case_of(expert, "thrift-shelf", CLOUDED_WILLOW);
        let kinds = &judged.judgement().kinds[..first];
        kinds.iter().any(|(k, p)| *k == flow_blue && *p > 0.2)
    };
    assert!(leads(&DRAWN, 2));
    // Three kinds share it nearly evenly, and museums' pieces, counted, put it third.
    assert!(leads(&EXPERT, 3));
    let text = text::verdict(&piece);
    let mut lines = text.lines();
    assert!(lines.next().unwrap().contains("flow blue"), "{text}");
    let alone = lines.next().unwrap();
    assert!(
        alone.starts_with("From what is seen alone: flow blue or flow mulberry, about "),
        "{text}"
    );
    assert!(
        alone.contains("thrift shelf") && alone.contains("later print"),
        "{text}"
    );
    assert!(
        lines.next().unwrap().starts_with("Made between about "),
        "{text}"
    );
    let years = lines.next().unwrap();
    assert!(
        years.starts_with("From what is seen alone: made ") && years.ends_with("makes it later."),
        "{text}"
    );
    let look = lines.next().unwrap();
    let next = piece.advice().next().unwrap();
    assert!(
        look.contains(&EXPERT.base.clue(next.clue).question),
        "{text}"
    );
    for figure in ["deciban", "bits", "%", "~/"] {
        assert!(!text.contains(figure), "{figure} in {text}");
    }
}

#[test]
fn what_the_setting_adds_is_judged_by_the_findings_alone() {
    let piece = shelf(CLOUDED_WILLOW);
    let neutral = EXPERT.base.neutral();
    let alone = piece.in_setting(neutral);
    let effect = setting_effect(&piece).unwrap();
    assert_eq!(effect.alone, alone.judgement().leading());
    // In the neutral setting, and with nothing seen, nothing is added.
    assert_eq!(said::setting_effect(&alone), None);
    assert_eq!(said::setting_effect(&shelf(&[])), None);
    // Findings that settle the kind by themselves are not moved by any setting.
    let sure = case_of(
        &EXPERT,
        "antiques-fair",
        &["line-make=engraved", "edge=clouded"],
    );
    let sure = sure.in_setting(EXPERT.base.setting("family-attic").unwrap());
    if let Some(effect) = setting_effect(&sure) {
        let odds = |p: f64| p / (1.0 - p);
        let moved = odds(effect.alone_here) / odds(effect.alone.1);
        assert!(
            sure.judgement().leading().0 != effect.alone.0 || !(0.5..=2.0).contains(&moved),
            "{effect:?}"
        );
    }
}

#[test]
fn only_a_limit_the_rules_know_is_called_one() {
    // A registration is a floor: its kernel is nothing before the year.
    let dated = shelf(&["print-colour=blue", "registered=1868"]);
    let earliest = dated.explanation().earliest;
    assert!(earliest.hard && earliest.year == Year(1868), "{earliest:?}");
    let when = &plain::answer(&dated)[1];
    assert!(
        when.contains("; not before 1868 (registered: 1868)"),
        "{when}"
    );
    // Unsure, it may be misread.
    let unsure = shelf(&["print-colour=blue", "registered=1868?"]);
    assert!(!unsure.explanation().earliest.hard);
    // A country word was used by a few before the law: usual, not known.
    let word = shelf(CLOUDED_WILLOW);
    assert!(!word.explanation().earliest.hard);
    let when = &plain::answer(&word)[1];
    assert!(when.contains("; hardly before "), "{when}");
    assert!(text::details(&word).contains("Hardly before "));
}

#[test]
fn json_holds_the_plain_answer_and_soft_findings() {
    let piece = shelf(&["print-colour=blue|black", "edge=clouded"]);
    let value = json::verdict(&piece);
    let plain: Vec<&str> = value["plain"]
        .as_array()
        .unwrap()
        .iter()
        .map(|line| line.as_str().unwrap())
        .collect();
    assert_eq!(plain, plain::answer(&piece));
    let soft = &value["because"][0];
    assert!(
        soft["finding"].is_null() && soft["sure"] == "soft",
        "{soft}"
    );
    assert_eq!(soft["weights"]["blue"], 1.0);
    assert_eq!(soft["weights"]["green"], 0.0);
    let listed = &value["because"][1];
    assert!(
        listed["weights"].is_null() && listed["finding"] == "clouded",
        "{listed}"
    );
}
