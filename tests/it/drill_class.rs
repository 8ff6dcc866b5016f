//! For those who teach: a class on one page, and pieces somebody has written down.

use std::fs;

use printseam::internals::core::grid::Year;
use printseam::internals::core::observation::Evidence;
use printseam::internals::learn::asked::{Asking, Guess};
use printseam::internals::learn::learner::{Answered, Learner};
use printseam::internals::learn::memory::Day;
use printseam::internals::learn::recorded::{Recorded, Truth};
use printseam::internals::piece::notation::parse;
use printseam::internals::report::class_sheet::ClassSheet;
use printseam::internals::report::html;
use printseam::internals::rulebase::ids::SettingId;
use printseam::internals::say::asked;

use crate::commands::folder;
use crate::drills::drill;
use crate::reports::{parsed, self_contained};
use crate::running::{command, text};
use crate::shipped::EXPERT;
use crate::stock_book::Book;

const TODAY: Day = Day(20_783);

/// Somebody who took soft for clouded so many times, of twice as many, and said 90 % each time.
fn learner(times: u32) -> Learner {
    let mut learner = Learner::default();
    for n in 0..2 * times {
        let said = if n % 2 == 0 { "clouded" } else { "soft" };
        let answered = Answered {
            key: "which:edge=soft",
            names: Some(("edge", "soft", said)),
            right: said == "soft",
            confidence: Some(90),
        };
        learner.answered(&answered, TODAY);
    }
    learner
}

#[test]
fn a_class_stands_on_one_page() {
    let mut bob = learner(1);
    bob.lessons.insert("flow-blue".to_owned(), TODAY);
    let class = [
        ("ann".to_owned(), learner(2)),
        ("bob".to_owned(), bob),
        ("carl".to_owned(), Learner::default()),
    ];
    let sheet = ClassSheet::new(&EXPERT, &class, TODAY);
    let brief: Vec<_> = sheet.learners.iter().map(|l| &l.stands).collect();
    assert_eq!(
        brief[0].lessons,
        format!("none of {}", EXPERT.base.lessons.len())
    );
    assert!(brief[1].lessons.starts_with("1 of ") && brief[1].lessons.contains("2026-11-26"));
    assert_eq!(brief[0].sure, "said 90 % on average: right 2 of 4 (50 %)");
    assert!(
        brief[0].mixed[0].contains("2 times (right 2 of 4)"),
        "{:?}",
        brief[0].mixed
    );
    assert_eq!(
        (brief[2].sure.as_str(), brief[2].due.as_str()),
        ("", "nothing yet")
    );
    // The class together: three times of six.
    assert!(
        sheet.mixed[0].contains("3 times (right 3 of 6)"),
        "{:?}",
        sheet.mixed
    );
    assert_eq!(sheet.sure, ["said 90 % on average: right 3 of 6 (50 %)"]);
    let page = parsed(&html::class(&sheet).unwrap());
    self_contained(&page);
    for said in ["ann", "bob", "carl", "2026-11-26", &sheet.mixed[0]] {
        assert!(page.text.contains(said), "{said}");
    }
    assert!(!page.text.contains("deciban"));
}

#[test]
fn the_class_of_the_book_is_written_and_not_over_other_files() {
    let data = folder("drill-class");
    for name in ["ann", "bob"] {
        drill(
            &["which", "--seed", "3", "--learner", name],
            &data,
            "1 80\nq\n",
        );
    }
    let page = data.join("class.html").display().to_string();
    drill(&["--class", &page], &data, "");
    let written = fs::read_to_string(&page).unwrap();
    assert!(
        written.contains("ann") && written.contains("said 80 % on average"),
        "{written}"
    );
    // Over its own page, and over nothing else.
    drill(&["--class", &page], &data, "");
    fs::write(&page, "mine").unwrap();
    let refused = command(&["drill", "--class", &page])
        .env("XDG_DATA_HOME", &data)
        .output();
    assert_eq!(refused.unwrap().status.code(), Some(2));
    assert_eq!(fs::read_to_string(&page).unwrap(), "mine");
    let nobody = folder("drill-class-empty");
    let refused = command(&["drill", "--class", "-"])
        .env("XDG_DATA_HOME", &nobody)
        .output();
    let said = text(&refused.unwrap().stderr);
    assert!(said.contains("nobody has drilled yet"), "{said}");
}

fn recorded(truth: Truth) -> Recorded {
    let saw = ["edge=clouded", "line-make=engraved", "print-colour=blue"];
    let seen = saw.map(|s| parse(&EXPERT.base, s).unwrap());
    Recorded {
        title: "case 7".to_owned(),
        photos: vec!["front.jpg".to_owned()],
        seen: seen.into_iter().collect::<Evidence>(),
        truth,
    }
}

fn guess(kind: &str, years: Option<(i16, i16)>) -> Guess {
    Guess {
        kind: EXPERT.base.kind_id(kind).unwrap(),
        percent: 80,
        years: years.map(|(from, to)| (Year(from), Year(to))),
    }
}

#[test]
fn only_what_is_written_down_can_be_looked_at() {
    let truth = Truth {
        kind: EXPERT.base.kind_id("flow-blue"),
        place: None,
        years: Some((Year(1840), Year(1860))),
    };
    let mut asking = Asking::of(&EXPERT, SettingId(0), recorded(truth));
    let head = asked::from_where(&asking).join(" ");
    assert!(
        head.contains("3 findings") && head.contains("front.jpg"),
        "{head}"
    );
    assert!(!head.contains("case 7"), "a title may give it away");
    let other = EXPERT.base.clue_id("crazing").unwrap();
    assert!(asking.look(other).is_none());
    while let Some(look) = asking.choices().first() {
        let clue = look.clue;
        assert!(asking.look(clue).is_some());
    }
    assert_eq!(asking.piece().evidence().observations().len(), 3);
    // Years that the guess shares with the record lose no more than their width.
    let result = asking.result(&guess("flow-blue", Some((1850, 1870))));
    assert_eq!(result.right, Some(true));
    assert!((result.years_lost.unwrap() - 20.0).abs() < 1e-9);
    let late = asking.result(&guess("decal", Some((1870, 1870))));
    assert_eq!(late.right, Some(false));
    assert!((late.years_lost.unwrap() - 100.0).abs() < 1e-9);
    let said = asked::asked(&asking, &guess("flow-blue", None)).join("\n");
    assert!(
        said.contains("Right. It was ") && said.contains("1840 to 1860 (case 7)"),
        "{said}"
    );
    let mut learner = Learner::default();
    asking.keep(&guess("decal", None), &mut learner);
    assert_eq!(learner.mixed_up().len(), 1);
}

/// Nobody knows what it is: the program's answer to all that was seen stands beside the guess, and
/// nothing is counted as right or wrong.
#[test]
fn a_piece_nobody_has_settled_is_not_marked_right_or_wrong() {
    let asking = Asking::of(&EXPERT, SettingId(0), recorded(Truth::default()));
    let result = asking.result(&guess("flow-blue", Some((1850, 1870))));
    assert_eq!(
        (result.right, result.points, result.years_lost),
        (None, None, None)
    );
    let said = asked::asked(&asking, &guess("flow-blue", None)).join("\n");
    assert!(
        said.contains("Nobody has written down") && said.contains("You said "),
        "{said}"
    );
    assert!(said.contains("Made between"), "{said}");
    let mut learner = Learner::default();
    asking.keep(&guess("decal", None), &mut learner);
    assert_eq!(learner, Learner::default());
    assert_eq!(asking.whole().evidence(), &recorded(Truth::default()).seen);
}

#[test]
fn pieces_of_a_table_and_of_the_book_are_asked() {
    let data = folder("drill-from");
    let said = "looks\nsay\nflow blue, 1840-1870\n60\n";
    let table = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/museum.csv");
    let museum = drill(&["ask", "--from", table, "--seed", "3"], &data, said);
    assert!(
        museum.contains("findings are written down") && museum.contains("It was "),
        "{museum}"
    );
    let book = Book(data.join("printseam/stock.db"));
    let turned = ["--turned-out", "flow blue, 1850", "--by", "an expert"];
    let saw = [
        "--saw",
        "edge=clouded",
        "--saw",
        "rim=scalloped",
        "--saw",
        "crazing=fine",
    ];
    let id = book.add(&[&saw[..], &["--title", "Aunt's plate", "--photo", "a.jpg"]].concat());
    let unknown = drill(&["ask", "--from", "stock"], &data, said);
    assert!(
        unknown.contains("Photograph: a.jpg") && unknown.contains("Nobody has"),
        "{unknown}"
    );
    book.done(&[&["edit", &id], &turned[..]].concat());
    let known = drill(&["ask", "--from", "stock"], &data, said);
    assert!(
        known.contains("Right. It was ") && known.contains("Aunt's plate"),
        "{known}"
    );
    let (before, _) = known.split_once("Understood").unwrap();
    assert!(!before.contains("Aunt's plate"), "{known}");
    for wrong in [
        &["which", "--from", "stock"][..],
        &["ask", "--from", "nowhere.csv"],
    ] {
        let refused = command(&[&["drill"], wrong].concat())
            .env("XDG_DATA_HOME", &data)
            .output();
        assert_eq!(refused.unwrap().status.code(), Some(2), "{wrong:?}");
    }
}
