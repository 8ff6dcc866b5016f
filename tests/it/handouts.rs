//! Cards for the shelf, sheets for a class, and an opinion set beside the verdict.

use std::fs;

use printseam::internals::piece::Piece;
use printseam::internals::piece::intake::{Taken, Told, intake};
use printseam::internals::report::card::{Card, Seller};
use printseam::internals::report::lesson::Lesson;
use printseam::internals::report::{html, text};
use printseam::internals::rulebase::ids::SettingId;
use printseam::internals::say::{card, names, observation, opinion};

use crate::commands::{folder, refused};
use crate::reports::{parsed, self_contained};
use crate::running::{run, text as output};
use crate::shipped::{EXPERT, case_of, museum_pieces};

const CLOUDED: &[&str] = &[
    "edge=clouded",
    "print-colour=blue",
    "country-word=england",
    "subject=flowers",
    "feel=smooth",
];

fn clouded() -> Piece {
    case_of(&EXPERT, "thrift-shelf", CLOUDED)
}

fn all_of(card: &Card) -> String {
    let mut out = format!("{}\n{}\n{}", card.what, card.about, card.when);
    for reason in &card.reasons {
        out += &format!("\n{} {}", reason.seen, reason.tells);
    }
    out
}

#[test]
fn a_card_says_what_when_and_why_without_codes_and_figures_of_evidence() {
    let expert = &EXPERT;
    for (i, piece) in museum_pieces().iter().step_by(5).enumerate() {
        let card = Card::new(piece, "", &Seller::default());
        let all = all_of(&card);
        for banned in [" %", "deciban", " bits", "EDTF", "AAT", " in 10", "="] {
            assert!(!all.contains(banned), "piece {i}, {banned}: {all}");
        }
        for clue in expert.base.clues.iter().filter(|c| c.id.contains('-')) {
            assert!(!all.contains(&format!("{}:", clue.id)), "{all}");
        }
        let leading = names::kind_name(expert, piece.judgement().leading().0);
        assert!(
            card.what.to_lowercase().contains(&leading.to_lowercase()),
            "{all}"
        );
        let hedged = !card
            .what
            .to_lowercase()
            .starts_with(&leading.to_lowercase());
        let sure = piece.judgement().leading().1 >= 0.9;
        assert!(!(sure && hedged), "{all}");
        let band = piece.judgement().band();
        assert!(card.when.contains(&band.from.0.to_string()), "{all}");
        assert!((1..=3).contains(&card.reasons.len()), "piece {i}: {all}");
        // Every reason is something seen on the piece.
        let seen: Vec<String> = piece
            .evidence()
            .observations()
            .iter()
            .map(|o| observation::seen(expert, o))
            .collect();
        for reason in &card.reasons {
            assert!(
                seen.iter().any(|s| reason.seen.ends_with(s.as_str())),
                "{reason:?}"
            );
            assert!(!reason.tells.is_empty());
        }
    }
}

#[test]
fn the_first_reason_is_the_one_that_carries_the_kind() {
    let reasons = card::reasons(&clouded());
    assert!(reasons[0].seen.starts_with("Edge: clouded"), "{reasons:?}");
    // Without it, another one.
    let edge = EXPERT.base.clue_id("edge").unwrap();
    let without = card::reasons(&clouded().without(edge));
    assert!(
        without.iter().all(|r| !r.seen.starts_with("Edge")),
        "{without:?}"
    );
    assert!(!without.is_empty());
}

#[test]
fn what_a_thing_is_worth_is_warned_of_beside_a_price_only() {
    let priced = Seller {
        price: "£30".to_owned(),
        condition: "one chip".to_owned(),
    };
    let with = Card::new(&clouded(), "", &priced);
    let without = Card::new(&clouded(), "", &Seller::default());
    let warns = |card: &Card| {
        card.cautions
            .iter()
            .filter(|c| c.contains("appraisal"))
            .count()
    };
    assert_eq!((warns(&with), warns(&without)), (1, 0));
    for card in [&with, &without] {
        let food = card
            .cautions
            .iter()
            .filter(|c| c.contains("lead and cadmium"));
        assert_eq!(food.count(), 1);
    }
    let page = html::cards(&[with]).unwrap();
    assert!(page.contains("£30") && page.contains("one chip"));
    assert!(!html::cards(&[without]).unwrap().contains("class=\"price\""));
}

#[test]
fn cards_stand_four_to_a_sheet_and_one_is_a_page_of_its_own() {
    let nasty = "<script>x</script> \"&\" {{ 7*7 }} \u{1b}[2J";
    let seller = Seller {
        price: nasty.to_owned(),
        condition: nasty.to_owned(),
    };
    let card = Card::new(&clouded(), nasty, &seller);
    for (cards, sheets, paper) in [
        (1, 1, "105mm 148mm"),
        (4, 1, "210mm 297mm"),
        (5, 2, "210mm 297mm"),
    ] {
        let source = html::cards(&vec![card.clone(); cards]).unwrap();
        assert!(source.contains(paper) && !source.contains('\u{1b}'));
        let page = parsed(&source);
        self_contained(&page);
        let of_class = |class: &str| page.values("class").iter().filter(|c| **c == class).count();
        assert_eq!((of_class("card"), of_class("sheet")), (cards, sheets));
        assert!(page.text.contains("<script>x</script>"));
    }
}

#[test]
fn a_sheet_tells_each_finding_and_explains_its_words() {
    let taken = heard("flow blue");
    let piece = clouded();
    let lesson = Lesson::new(&piece, "Lesson one", taken.opinion.as_ref());
    assert_eq!(lesson.findings.len(), CLOUDED.len());
    // Two on one page: words are explained on each.
    let source = html::lessons(&[lesson.clone(), lesson.clone()]).unwrap();
    let page = parsed(&source);
    self_contained(&page);
    for finding in &lesson.findings {
        for said in [
            &finding.seen,
            &finding.because,
            &finding.leaning,
            &finding.here,
        ] {
            assert!(page.text.matches(&said.plain()).count() >= 2, "{said:?}");
        }
    }
    assert!(lesson.glossary.iter().any(|t| t.id == "flow-blue"));
    assert_eq!(page.elements.iter().filter(|(n, _)| n == "svg").count(), 2);
    for banned in ["deciban", "AAT", "EDTF"] {
        assert!(!page.text.contains(banned), "{banned}");
    }
}

fn heard(notes: &str) -> Taken {
    let told = Told {
        notes,
        ..Told::default()
    };
    intake(&EXPERT, &told).unwrap()
}

#[test]
fn an_opinion_stands_beside_the_answer_and_changes_nothing() {
    let said = "blue willow, crisp edge, flow blue, about 1900";
    let taken = heard(said);
    let opinion = taken.opinion.as_ref().unwrap();
    let piece = Piece::new(EXPERT.clone(), SettingId::default(), taken.evidence.clone());
    let lines = opinion::lines(&piece, opinion);
    assert!(
        lines[0].starts_with("You say flow blue, about 1900; what is seen gives"),
        "{lines:?}"
    );
    assert!(lines[0].contains("because of the edge"), "{lines:?}");
    let text = text::verdict_beside(&piece, Some(opinion));
    assert!(lines.iter().all(|l| text.contains(l)), "{text}");
    // The rest is what is said without it.
    let rest: Vec<&str> = text
        .lines()
        .filter(|l| !lines.iter().any(|o| o == l))
        .collect();
    assert_eq!(rest, text::verdict(&piece).lines().collect::<Vec<_>>());
    // Where the findings say the same, it is told so.
    let agreed = opinion::lines(&clouded(), opinion);
    assert!(agreed[0].contains("agrees on the kind"), "{agreed:?}");
    // A denial is an opinion too.
    let denied = heard("not flow blue, crisp edge").opinion.unwrap();
    let lines = opinion::lines(&piece, &denied);
    assert!(lines[0].contains("agrees on the kind"), "{lines:?}");
    // One that takes back its only kind leaves nothing to set beside.
    let nothing = heard("flow blue, not flow blue").opinion.unwrap();
    let lines = opinion::lines(&piece, &nothing);
    assert_eq!(lines, ["You say: flow blue, not flow blue."]);
}

#[test]
fn cards_are_made_of_one_piece_of_several_and_of_a_folder() {
    let dir = folder("handouts");
    let at = |name: &str| dir.join(name).display().to_string();
    let sale = at("sale");
    let empty = at("empty");
    fs::create_dir_all(&sale).unwrap();
    fs::create_dir_all(&empty).unwrap();
    let (one, two) = (format!("{sale}/a.ron"), format!("{sale}/b.ron"));
    fs::write(
        &one,
        "(format: 1, title: \"First\", saw: [\"edge=clouded\"])",
    )
    .unwrap();
    fs::write(
        &two,
        "(format: 1, title: \"Second\", saw: [\"edge=crisp\"])",
    )
    .unwrap();
    fs::write(format!("{sale}/notes.txt"), "not a sighting").unwrap();
    let cards = |arguments: &[&str]| {
        let done = run(arguments, b"");
        assert!(done.status.success(), "{}", output(&done.stderr));
        let page = output(&done.stdout);
        (
            page.matches("class=\"title\">First").count(),
            page.matches("class=\"title\">Second").count(),
        )
    };
    let both = cards(&["judge", &sale, "--card"]);
    assert_eq!(both, cards(&["judge", "--card", &one, &two]));
    assert_eq!(both, (1, 1));
    assert_eq!(cards(&["judge", &two, "--card", "--copies", "6"]), (0, 6));
    let file = at("cards.html");
    let option = format!("--card={file}");
    assert!(run(&["judge", &sale, &option], b"").status.success());
    assert!(fs::read_to_string(&file).unwrap().contains("Second"));
    fs::write(&file, "somebody's").unwrap();
    refused(&["judge", &sale, &option], b"", "--force");
    refused(&["judge", &empty, "--card"], b"", "no sighting");
    refused(&["judge", &one, &two], b"", "only --card and --sheet");
    refused(
        &["judge", &sale, "--card", "--saw", "feel=smooth"],
        b"",
        "one piece",
    );
    refused(&["judge", "--card"], b"", "nothing has been seen");
    refused(&["judge", &one, "--price", "5"], b"", "--card");
    let sheets = output(&run(&["judge", &sale, "--sheet"], b"").stdout);
    assert_eq!(sheets.matches("<article>").count(), 2);
}
