//! Drills: fair questions, proper scores, and a learner who is asked again what was missed.

use std::fs;

use proptest::prelude::{prop_assert, proptest};

use printseam::internals::cli::WithFiles;
use printseam::internals::core::grid::Year;
use printseam::internals::core::seeded::Seeded;
use printseam::internals::learn::again::again;
use printseam::internals::learn::asked::{Asking, Guess};
use printseam::internals::learn::backs::read_the_back;
use printseam::internals::learn::drills::{misfit, printed, which};
use printseam::internals::learn::item::{Item, Picture};
use printseam::internals::learn::learner::{Answered, Learner, name_problem};
use printseam::internals::learn::memory::Day;
use printseam::internals::learn::scoring::{points, years_lost};
use printseam::internals::picture::{findings, needs_colour};
use printseam::internals::registry::diamond;
use printseam::internals::rulebase::ids::SettingId;
use printseam::internals::say::drill::{question, why};
use printseam::internals::stock::memory::Memory;
use printseam::internals::stock::sqlite::Sqlite;
use printseam::internals::stock::store::Store;

use crate::commands::folder;
use crate::running::{command, text};
use crate::shipped::EXPERT;

proptest! {
    /// Whoever thinks an answer right with chance `p` wins most on average by saying `p`.
    #[test]
    fn no_other_confidence_pays_better_than_the_true_one(p in 0.0..=1.0, said in 0.0..=1.0) {
        let mean = |c: f64| p * points(c, true) + (1.0 - p) * points(c, false);
        prop_assert!(mean(p) >= mean(said) - 1e-9);
        // Strictly: the further off, the less.
        prop_assert!((said - p).abs() < 1e-3 || mean(p) > mean(said));
    }

    /// Of a truth anywhere between two years alike, the run from its tenth to its ninth tenth loses
    /// least on average.
    #[test]
    fn no_other_run_of_years_pays_better_than_the_middle_four_fifths(a in 0i16..=100, b in 0i16..=100) {
        let mean = |from: i16, to: i16| {
            let lost = (0..=100).map(|t| years_lost(Year(from), Year(to), Year(t), 0.8));
            lost.sum::<f64>() / 101.0
        };
        let (from, to) = (a.min(b), a.max(b));
        prop_assert!(mean(10, 90) <= mean(from, to) + 1e-9);
    }
}

/// Questions of all sorts from many seeds.
fn questions(seeds: u64) -> Vec<Item> {
    let mut out = Vec::new();
    for seed in 0..seeds {
        out.extend(which(&EXPERT, seed));
        out.extend(read_the_back(&EXPERT, seed));
        out.extend(printed(&EXPERT, seed));
        out.extend(misfit(&EXPERT, SettingId(0), seed));
    }
    assert_eq!(out.len() as u64, 4 * seeds, "a drill found nothing to ask");
    out
}

#[test]
fn every_question_has_one_right_answer_among_different_ones_and_a_reason() {
    let mut where_right = [0; 8];
    for item in questions(12) {
        let put = question(&EXPERT, &item);
        assert_eq!(put.answers.len(), item.count());
        assert!(item.right() < item.count() && item.count() >= 2, "{item:?}");
        let mut different = put.answers.clone();
        different.sort();
        different.dedup();
        assert_eq!(different.len(), put.answers.len(), "{:?}", put.answers);
        let reasons = why(&EXPERT, &item);
        assert!(reasons.iter().any(|r| r.len() > 10), "{item:?}");
        where_right[item.right()] += 1;
    }
    // Of 48: nobody gets far by always saying the same.
    assert!(where_right.iter().all(|n| *n < 30), "{where_right:?}");
}

#[test]
fn a_worn_mark_can_be_only_one_of_the_answers_and_a_diamond_is_of_the_year_asked() {
    let (mut worn, mut diamonds) = (0, 0);
    for item in (0..40).filter_map(|seed| read_the_back(&EXPERT, seed)) {
        match item {
            Item::Worn { shown, answers, .. } => {
                worn += 1;
                let fits = |form: &str| {
                    form.chars().count() == shown.chars().count()
                        && shown
                            .chars()
                            .zip(form.chars())
                            .all(|(s, f)| s == '?' || s == f)
                };
                assert_eq!(
                    answers.iter().filter(|(_, form)| fits(form)).count(),
                    1,
                    "{shown}"
                );
            }
            Item::Diamond {
                corners,
                year,
                answers,
            } => {
                diamonds += 1;
                let decoded = diamond::decode(&EXPERT.base.registry, &corners, None);
                let years: Vec<i16> = decoded.dates.iter().map(|d| d.from.year()).collect();
                assert!(
                    !years.is_empty() && years.iter().all(|y| *y == year),
                    "{corners}: {years:?}"
                );
                assert!(answers.contains(&year));
            }
            _ => {}
        }
    }
    assert!(worn > 10 && diamonds > 3, "{worn} {diamonds}");
}

#[test]
fn one_seed_is_one_question() {
    let shown = |seed| format!("{:?}", question(&EXPERT, &which(&EXPERT, seed).unwrap()));
    assert_eq!(shown(3), shown(3));
    assert!((0..10).any(|seed| shown(seed) != shown(seed + 1)));
}

#[test]
fn what_was_missed_is_asked_the_next_day_and_what_was_known_later() {
    let (monday, tuesday) = (Day(20_000), Day(20_001));
    let base = &EXPERT.base;
    let items = questions(3);
    let mut store = Memory::new();
    let mut learner = store.learner("ann").unwrap();
    let mut missed = Vec::new();
    for (n, item) in items.iter().enumerate() {
        let right = n % 2 == 0;
        let key = item.key(base);
        let known = learner.memories.contains_key(&key);
        learner.answered(
            &Answered {
                key: &key,
                names: None,
                right,
                confidence: Some(70),
            },
            monday,
        );
        if !right && !known {
            missed.push(key);
        }
    }
    store.keep_learner("ann", &learner).unwrap();
    let learner = store.learner("ann").unwrap();
    assert!(
        store.learner("bob").unwrap().memories.is_empty(),
        "a learner each"
    );
    assert!(learner.due(monday).is_empty());
    let due = learner.due(tuesday);
    assert!(!missed.is_empty());
    for key in &missed {
        assert!(due.contains(&key.as_str()), "{key}");
        let item = again(&EXPERT, key, 5).unwrap_or_else(|| panic!("{key} can't be asked again"));
        assert_eq!(item.key(base), *key);
    }
    assert!(
        due.len() < learner.memories.len(),
        "what was known is not asked yet"
    );
    let stated = &learner.stated[&70];
    assert_eq!((stated.answers, stated.right), (12, 6));
}

#[test]
fn a_hidden_piece_is_scored_against_the_best_looks() {
    for seed in 0..10 {
        let mut asking = Asking::new(&EXPERT, SettingId(0), seed).unwrap();
        for _ in 0..4 {
            let best = asking.choices()[0].clue;
            assert!(asking.look(best).is_some());
            assert!(asking.look(best).is_none(), "no look twice");
        }
        let truth = asking.truth();
        let guess = Guess {
            kind: truth.kind.unwrap(),
            percent: 100,
            years: truth.years,
        };
        let result = asking.result(&guess);
        assert!(
            result.right == Some(true) && result.looking.is_some_and(|s| (s - 1.0).abs() < 1e-9)
        );
        let (own, engine) = result.points.unwrap();
        assert!((own - 100.0).abs() < 1e-9 && result.years_lost == Some(0.0));
        assert!(engine <= 100.0 && result.engine_years_lost.unwrap() >= 0.0);

        let mut worst = Asking::new(&EXPERT, SettingId(0), seed).unwrap();
        let last = worst.choices().last().unwrap().clue;
        worst.look(last);
        assert!(worst.result(&guess).looking.unwrap() < 0.9);
    }
}

/// A learner of whom everything is kept.
fn learner_with_all() -> Learner {
    let mut learner = Learner::default();
    for (key, said, right) in [
        ("which:edge=soft", "clouded", false),
        ("which:edge=crisp", "crisp", true),
        ("diamond", "soft", false),
    ] {
        let answered = Answered {
            key,
            names: Some(("edge", "soft", said)),
            right,
            confidence: Some(90),
        };
        learner.answered(&answered, Day(20_000));
    }
    learner.lessons.insert("flow-blue".to_owned(), Day(20_001));
    learner
}

#[test]
fn a_learner_is_the_same_in_every_store() {
    let file = folder("learners").join("stock.db");
    let learner = learner_with_all();
    let check = |store: &mut dyn Store| {
        store.keep_learner("bob", &Learner::default()).unwrap();
        for _ in 0..2 {
            store.keep_learner("ann", &learner).unwrap();
        }
        assert_eq!(store.learner("ann").unwrap(), learner);
        assert_eq!(store.learner("nobody").unwrap(), Learner::default());
        let all = store.learners().unwrap();
        let names: Vec<&str> = all.iter().map(|(name, _)| name.as_str()).collect();
        assert_eq!(names, ["ann", "bob"]);
        assert!(store.all().unwrap().is_empty(), "a learner is no piece");
    };
    check(&mut Memory::new());
    check(&mut Sqlite::open(&file).unwrap());
    // Another day.
    assert_eq!(
        Sqlite::open(&file).unwrap().learner("ann").unwrap(),
        learner
    );
    for bad in ["", "../x", "a b", "a/b"] {
        assert!(name_problem(bad).is_some(), "{bad}");
    }
}

#[test]
fn what_an_earlier_version_kept_in_files_is_still_known() {
    let learners = folder("learners-in-files");
    let text = serde_json::to_string_pretty(&learner_with_all()).unwrap();
    fs::write(learners.join("ann.json"), &text).unwrap();
    fs::write(learners.join("notes.txt"), "nothing of ours").unwrap();
    let mut store = WithFiles::of(Memory::new(), Some(learners.clone()));
    let mut ann = store.learner("ann").unwrap();
    assert_eq!(ann, learner_with_all());
    assert_eq!(store.learners().unwrap().len(), 1);
    // What is kept from now on counts; the file stays as it was.
    ann.lessons.clear();
    store.keep_learner("ann", &ann).unwrap();
    assert_eq!(store.learner("ann").unwrap(), ann);
    assert_eq!(store.learners().unwrap(), [("ann".to_owned(), ann)]);
    assert_eq!(fs::read_to_string(learners.join("ann.json")).unwrap(), text);
    fs::write(learners.join("bob.json"), "{}").unwrap();
    let said = store.learner("bob").unwrap_err().to_string();
    assert!(
        said.contains("bob.json") && said.contains("no learner's record"),
        "{said}"
    );
    assert_eq!(store.learner("carl").unwrap(), Learner::default());
}

/// A book of the format before learners were kept in it is copied, then brought up to date.
#[test]
fn an_older_book_takes_learners_in() {
    use printseam::internals::stock::sqlite::MIGRATIONS;
    let folder = folder("learners-older");
    let file = folder.join("stock.db");
    drop(Sqlite::open(&file).unwrap());
    let older = rusqlite::Connection::open(&file).unwrap();
    for table in [
        "memories",
        "confusions",
        "confidences",
        "lessons_done",
        "learners",
    ] {
        older.execute_batch(&format!("DROP TABLE {table}")).unwrap();
    }
    older.execute_batch("PRAGMA user_version = 2").unwrap();
    drop(older);
    assert_eq!(MIGRATIONS.len(), 3, "the version after is not older");
    let mut book = Sqlite::open(&file).unwrap();
    book.keep_learner("ann", &learner_with_all()).unwrap();
    assert_eq!(book.learner("ann").unwrap(), learner_with_all());
    assert!(folder.join("stock.db.format-2").exists());
}

/// The program itself, with a data folder of the test's own.
pub fn drill(arguments: &[&str], data: &std::path::Path, input: &str) -> String {
    use std::io::Write;
    let mut child = command(&[&["drill"], arguments].concat())
        .env("XDG_DATA_HOME", data)
        .spawn()
        .unwrap();
    child
        .stdin
        .take()
        .unwrap()
        .write_all(input.as_bytes())
        .unwrap();
    let output = child.wait_with_output().unwrap();
    assert!(output.status.success(), "{}", text(&output.stderr));
    text(&output.stdout)
}

#[test]
fn a_newcomer_does_lesson_one_and_is_asked_again_what_was_missed() {
    let data = folder("drill-newcomer");
    let title = &EXPERT.base.lessons[0].title;
    let first = drill(
        &["--seed", "7", "--today", "2026-11-26"],
        &data,
        "1 90\nnonsense\n1\n1\n",
    );
    assert!(
        first.starts_with(&format!("Lesson 1: {title}\n")),
        "{first}"
    );
    assert!(first.contains("Write a number from 1 to 3"), "{first}");
    assert!(
        first.contains("\n2 of 3 right") || first.contains("\n1 of 3 right"),
        "{first}"
    );
    let missed = first.lines().filter(|l| l.starts_with("No: ")).count();
    assert!(missed > 0, "{first}");
    // The same day nothing is repeated; the next day what was missed, before lesson two.
    let same = drill(&["--seed", "8", "--today", "2026-11-26"], &data, "q\n");
    assert!(same.starts_with("Lesson 2: "), "{same}");
    let next = drill(&["--seed", "8", "--today", "2026-11-27"], &data, "q\n");
    assert!(
        next.starts_with(&format!("First what you met before: {missed} to repeat.")),
        "{next}"
    );
    let other = drill(&["--learner", "bob", "--today", "2026-11-27"], &data, "");
    assert!(other.starts_with("Lesson 1: "), "{other}");
    let shown = drill(&["--progress", "--today", "2026-11-27"], &data, "");
    assert!(
        shown.contains("done on 2026-11-26") && shown.contains("taken for"),
        "{shown}"
    );
    let mut book = Sqlite::open(&data.join("printseam/stock.db")).unwrap();
    assert_eq!(
        book.learners().unwrap().len(),
        1,
        "bob has answered nothing"
    );
}

/// Lines drawn in braille.
fn drawn(text: &str) -> Vec<&str> {
    let dotted = |line: &&str| line.chars().any(|c| ('\u{2801}'..='\u{28ff}').contains(&c));
    text.lines().filter(dotted).collect()
}

#[test]
fn what_can_be_drawn_is_shown_and_the_rest_told() {
    let data = folder("drill-pictures");
    // Four grades of flow, each a picture below its name, and all of them different.
    let lesson = drill(&["flow-blue", "--seed", "3"], &data, "q\n");
    let parts: Vec<_> = lesson
        .split("How sharp is the edge of the colour? ")
        .collect();
    assert_eq!(parts.len(), 5, "{lesson}");
    let pictures: Vec<_> = parts[1..].iter().map(|part| drawn(part)).collect();
    for (i, picture) in pictures.iter().enumerate() {
        assert!(picture.len() >= 15, "{i}: {picture:?}");
        assert!(picture.iter().all(|l| l.chars().count() <= 62), "{i}");
        assert!(!pictures[..i].contains(picture), "{i}");
    }
    // No pictures of what takes colours to be told apart.
    let colours = drill(&["old-or-revival", "--seed", "3"], &data, "q\n");
    let (before, after) = colours.split_once("kiln-support marks? ").unwrap();
    assert!(
        drawn(before).is_empty() && !drawn(after).is_empty(),
        "{colours}"
    );
    // A round shows what it asks: the first question of a seed is that of its first part.
    let first = |seed| which(&EXPERT, Seeded::part(seed, 0).number()).unwrap();
    let is_drawn = |seed: &u64| {
        let Item::Which { picture, .. } = first(*seed) else {
            return false;
        };
        let clue = EXPERT.base.clue(picture.clue).id.as_str();
        !needs_colour(clue) && findings(clue).contains(&finding_of(&picture))
    };
    let (with, without) = ((0..99).find(is_drawn), (0..99).find(|s| !is_drawn(s)));
    for (seed, shown) in [(with, true), (without, false)] {
        let round = drill(
            &["which", "--seed", &seed.unwrap().to_string()],
            &data,
            "q\n",
        );
        assert_eq!(!drawn(&round).is_empty(), shown, "{round}");
    }
}

fn finding_of(picture: &Picture) -> &'static str {
    &EXPERT.base.finding(picture.clue, picture.finding).id
}

#[test]
fn rounds_go_through_a_pipe_and_end_with_it() {
    let data = folder("drill-rounds");
    for round in ["printed", "which", "misfit", "back"] {
        let shown = drill(&[round, "--seed", "3"], &data, "1\n1\n1\nq\n");
        assert!(
            shown.contains("Question 3") && shown.contains(" of 3 right"),
            "{round}: {shown}"
        );
    }
    let asked = "looks\nline-make\nprint-colour\nnowhere\nsay\nflow blue, 1840-1870\n60\n";
    let shown = drill(&["ask", "--seed", "3"], &data, asked);
    assert!(
        shown.contains("It was ") && shown.contains("points of 100"),
        "{shown}"
    );
    let shown = drill(&["piece"], &data, "1\n1\nsay\nflow blue, 1840-1870\n60\n");
    // The answer stays hidden until the guess is made.
    let (before, after) = shown.split_once("Understood: ").unwrap();
    assert!(
        !before.contains("Made between") && after.contains("Made between"),
        "{shown}"
    );
}
