//! The shipped lessons: complete, of findings there are, and the engine agrees with every answer.

use printseam::internals::core::grid::Year;
use printseam::internals::core::interval::mass;
use printseam::internals::learn::drills::practice;
use printseam::internals::learn::item::Item;
use printseam::internals::picture;
use printseam::internals::report::handout::Handout;
use printseam::internals::report::html;
use printseam::internals::rulebase::definitions::Lesson;

use crate::reports::{parsed, self_contained};
use crate::shipped::EXPERT;

/// The engine must put the right answer at least this far ahead of the next, or a learner who knows
/// the matter would be told off (odds of two; common practice, no source).
const AHEAD: f64 = 2.0;

fn each_item(mut f: impl FnMut(&Lesson, usize, Item)) {
    for (at, lesson) in EXPERT.base.lessons.iter().enumerate() {
        for item in 0..lesson.practice.len() {
            f(lesson, item, practice(&EXPERT, at, item, 1).unwrap());
        }
    }
}

#[test]
fn there_are_eight_lessons_with_what_they_show() {
    let lessons = &EXPERT.base.lessons;
    assert!(lessons.len() >= 8, "{}", lessons.len());
    for lesson in lessons {
        assert!(
            !lesson.shows.is_empty() && lesson.practice.len() == 3,
            "{}",
            lesson.id
        );
        for (clue, finding) in &lesson.shows {
            assert!(
                !EXPERT.base.finding(*clue, *finding).because.is_empty(),
                "{}",
                lesson.id
            );
        }
        // A lesson is read in two of its five minutes, at some 200 words a minute.
        let words: usize = lesson
            .text
            .iter()
            .map(|t| t.split_whitespace().count())
            .sum();
        assert!((30..=200).contains(&words), "{}: {words} words", lesson.id);
    }
    let [printed, painted] = &EXPERT.base.printed_or_painted;
    assert!(!printed.is_empty() && !painted.is_empty());
    assert!(printed.iter().all(|k| !painted.contains(k)));
}

#[test]
fn the_engine_agrees_with_every_answer() {
    let mut wrong = Vec::new();
    each_item(|lesson, n, item| {
        let grid = &EXPERT.engine().model.grid;
        let right = item.right();
        let chances: Vec<f64> = match &item {
            Item::Kind { piece, answers, .. } => {
                let kinds = piece.judgement().posterior.kinds(grid);
                answers.iter().map(|k| kinds[usize::from(k.0)]).collect()
            }
            Item::Made { piece, answers, .. } => {
                let years = &piece.judgement().years;
                answers
                    .iter()
                    .map(|(from, to)| mass(years, grid, *from, *to))
                    .collect()
            }
            Item::Rarer { answers, .. } => answers.iter().map(|p| p.rarity().score).collect(),
            _ => panic!("{item:?}"),
        };
        let most = match item {
            // Scores of rarity, not chances: ten points of a hundred are a difference.
            Item::Rarer { .. } => chances[right] - 10.0,
            _ => chances[right] / AHEAD,
        };
        let others = chances.iter().enumerate().filter(|(i, _)| *i != right);
        if others.into_iter().any(|(_, p)| *p > most) {
            wrong.push(format!(
                "{} {}: {chances:.3?}, right is {}",
                lesson.id,
                n + 1,
                right + 1
            ));
        }
    });
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The years to choose from part the axis: no answer lies outside them or in two of them.
#[test]
fn years_to_choose_from_do_not_overlap() {
    let mut asked = 0;
    each_item(|lesson, _, item| {
        if let Item::Made { answers, .. } = item {
            asked += 1;
            for pair in answers.windows(2) {
                assert!(pair[0].1 < pair[1].0, "{}", lesson.id);
            }
            assert!(answers.iter().all(|(_, to)| *to <= Year(2026)));
        }
    });
    assert!(asked > 0);
}

#[test]
fn handouts_are_pages_of_their_own_with_answers() {
    let all: Vec<Handout> = (0..EXPERT.base.lessons.len())
        .map(|at| Handout::new(&EXPERT, at))
        .collect();
    let page = parsed(&html::handouts(&all).unwrap());
    self_contained(&page);
    for lesson in &EXPERT.base.lessons {
        assert!(page.text.contains(&lesson.title), "{}", lesson.id);
        for (clue, finding) in &lesson.shows {
            assert!(
                page.text
                    .contains(&EXPERT.base.finding(*clue, *finding).because)
            );
        }
    }
    // Every finding that can be drawn is, with its name for those who can't see it.
    let shown = EXPERT.base.lessons.iter().flat_map(|l| &l.shows);
    let drawn = shown.filter(|(clue, finding)| {
        let id = EXPERT.base.finding(*clue, *finding).id.as_str();
        picture::findings(&EXPERT.base.clue(*clue).id).contains(&id)
    });
    let drawn = drawn.count();
    for name in ["svg", "title", "image"] {
        let count = page.elements.iter().filter(|(n, _)| n == name).count();
        let of_page = usize::from(name == "title");
        assert_eq!(count, drawn + of_page, "{name}");
    }
    assert!(drawn > 10, "{drawn}");
    assert_eq!(page.text.matches("Answers:").count(), all.len());
    assert!(!page.text.contains("deciban"));
    // The right answer does not stand first everywhere, or a class would soon know.
    let exercises: Vec<_> = all.iter().flat_map(|h| &h.practice).collect();
    let first = exercises.iter().filter(|e| e.answers[0] == e.right).count();
    assert!(
        first < exercises.len() * 2 / 3,
        "{first} of {}",
        exercises.len()
    );
}
