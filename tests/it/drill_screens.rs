//! Drills on the screens: lesson one from the first key to the last, every round, every size; the
//! record goes to the book and comes back.

use printseam::internals::core::seeded::Seeded;
use printseam::internals::learn::drills::which;
use printseam::internals::learn::item::Item;
use printseam::internals::learn::learner::Learner;
use printseam::internals::learn::memory::Day;
use printseam::internals::learn::round::{Drill, Sitting};
use printseam::internals::picture;
use printseam::internals::rulebase::ids::SettingId;
use printseam::internals::screens::app::App;
use printseam::internals::screens::kit::theme::Theme;
use printseam::internals::screens::state::input::{Key, keys};
use printseam::internals::screens::state::session::AtHand;
use printseam::internals::stock::memory::Memory;
use printseam::internals::stock::store::{Store, Trouble};

use crate::screens::{SIZES, drawn, frame, styled, text, title};
use crate::shipped::EXPERT;
use crate::stock_screens::{at_hand, deliver, with_book};

const TODAY: Day = Day(20_783);
const BIG: (u16, u16) = (120, 40);

fn sitting(drill: Option<Drill>) -> Sitting {
    Sitting {
        learner: "ann".to_owned(),
        drill,
        seed: Some(7),
        today: TODAY,
        place: SettingId(0),
        recorded: Vec::new(),
    }
}

/// Somebody sits down and presses keys.
fn drilled(book: &mut Memory, sitting: Sitting, pressed: &str, size: (u16, u16)) -> (App, String) {
    let app = App::new(EXPERT.clone(), Theme::mono()).with_stock(at_hand());
    let mut app = app.drilling(sitting);
    let shown = press(&mut app, book, pressed, size);
    (app, shown)
}

/// Enter until the questions come.
fn to_questions(app: &mut App, book: &mut Memory, size: (u16, u16)) -> String {
    for _ in 0..40 {
        let shown = text(&drawn(app, size));
        if shown.contains("Question 1 of 3") {
            return shown;
        }
        app.press(Key::Enter);
        deliver(app, book);
    }
    panic!("{size:?}: no question after forty keys");
}

fn press(app: &mut App, book: &mut Memory, pressed: &str, size: (u16, u16)) -> String {
    text(&with_book(app, book, pressed, size))
}

#[test]
fn a_newcomer_does_lesson_one_with_enter_and_figures_at_every_size() {
    for size in SIZES {
        let mut book = Memory::new();
        let (mut app, menu) = drilled(&mut book, sitting(None), "", size);
        assert!(
            menu.contains("New here?") && menu.contains("Learner: ann"),
            "{menu}"
        );
        press(&mut app, &mut book, "<enter>", size);
        to_questions(&mut app, &mut book, size);
        let mut verdicts = 0;
        for _ in 0..3 {
            // The first answer, very sure.
            press(&mut app, &mut book, "1", size);
            let told = press(&mut app, &mut book, "4", size);
            assert!(
                told.contains("Right.") || told.contains("No: "),
                "{size:?}\n{told}"
            );
            assert!(
                told.contains("points of 100 for saying 90 %"),
                "{size:?}\n{told}"
            );
            verdicts += 1;
            // Why is read to its end.
            for _ in 0..9 {
                let shown = press(&mut app, &mut book, "<enter>", size);
                if shown.contains("Question") && !shown.contains("points of 100 for")
                    || shown.contains("of 3 right")
                {
                    break;
                }
            }
        }
        assert_eq!(verdicts, 3);
        let end = text(&drawn(&mut app, size));
        assert!(
            end.contains("of 3 right") && end.contains("Come back on "),
            "{size:?}\n{end}"
        );
        let record = book.learner("ann").unwrap();
        assert_eq!(record.lessons.len(), 1);
        assert_eq!(record.memories.len(), 3);
        assert_eq!(record.stated[&90].answers, 3);
        // The next thing is marked: lesson two today, what was missed tomorrow.
        let (_, today) = drilled(&mut book, sitting(None), "<enter>", size);
        assert!(today.contains("Lesson 2: "), "{today}");
        let missed = record.stated[&90].answers - record.stated[&90].right;
        assert!(missed > 0, "the first answer is not always right");
        let tomorrow = Sitting {
            today: Day(TODAY.0 + 1),
            ..sitting(None)
        };
        let (_, again) = drilled(&mut book, tomorrow, "<enter>", size);
        assert!(
            again.contains(&format!("Question 1 of {missed}")),
            "{again}"
        );
    }
}

/// True when the first question of the round of this seed can be drawn without colours.
fn begins_with_a_picture(seed: u64) -> bool {
    let item = which(&EXPERT, Seeded::part(seed, 0).number());
    let Some(Item::Which { picture: p, .. }) = item else {
        return false;
    };
    let clue = EXPERT.base.clue(p.clue).id.as_str();
    let finding = EXPERT.base.finding(p.clue, p.finding).id.as_str();
    !picture::needs_colour(clue) && picture::findings(clue).contains(&finding)
}

/// Every part at every size: the keys listed are there, and the picture where it is promised.
#[test]
fn the_drill_looks_as_it_should() {
    let places = [
        ("menu", None, ""),
        ("lesson-text", Some(Drill::Lesson(0)), ""),
        ("lesson-picture", Some(Drill::Lesson(2)), "<end><enter>"),
        ("which", Some(Drill::Which), ""),
        ("which-picture", Some(Drill::Which), ""),
        ("which-magnified", Some(Drill::Which), "p"),
        ("which-how-sure", Some(Drill::Which), "2"),
        ("which-told", Some(Drill::Which), "23"),
        ("printed", Some(Drill::Printed), ""),
        ("misfit", Some(Drill::Misfit), ""),
        ("back", Some(Drill::Back), ""),
        ("ask", Some(Drill::Ask), "01"),
        ("ask-guess", Some(Drill::Ask), "01s"),
        ("own", Some(Drill::Own), "01"),
        ("progress", None, "16"),
    ];
    for (name, drill, pressed) in places {
        for size in SIZES {
            let app = App::new(EXPERT.clone(), Theme::sixteen()).with_stock(at_hand());
            let mut sitting = sitting(drill);
            if ["which-picture", "which-magnified"].contains(&name) {
                sitting.seed = (0..99).find(|seed| begins_with_a_picture(*seed));
            }
            let mut app = app.drilling(sitting);
            let buffer = with_book(&mut app, &mut Memory::new(), pressed, size);
            for binding in app.keys().listed() {
                let words = format!("{} {}", binding.key.shown(), binding.label);
                let shown = text(&buffer);
                assert!(
                    shown.contains(words.trim()),
                    "{name} {size:?}: {words}\n{shown}"
                );
                let (_, shown_at) = frame(&app, size);
                let area = shown_at.area_of(binding.msg);
                let area = area.unwrap_or_else(|| panic!("{name} {size:?}: {words}"));
                assert_eq!(
                    shown_at.at(area.as_position()),
                    Some(binding.msg),
                    "{words}"
                );
            }
            let (w, h) = size;
            insta::assert_snapshot!(format!("drill-{name}-{w}x{h}"), styled(&buffer));
        }
    }
}

#[test]
fn a_key_leads_there_and_back_from_every_screen() {
    for before in ["", "<enter><esc>", "<enter><esc>01<esc>v"] {
        let app = App::new(EXPERT.clone(), Theme::mono()).with_stock(at_hand());
        let (mut app, mut book) = (app, Memory::new());
        press(&mut app, &mut book, before, BIG);
        let (screen, seen) = (app.screen(), app.piece().evidence().clone());
        let shown = press(&mut app, &mut book, "d", BIG);
        assert!(shown.contains("Learner: me"), "{before}\n{shown}");
        press(&mut app, &mut book, "<esc>", BIG);
        assert_eq!((title(&app), app.screen()), (None, screen));
        assert_eq!(app.piece().evidence(), &seen);
    }
    let mut app = App::new(EXPERT.clone(), Theme::mono());
    app.press(Key::Char('d'));
    assert_eq!(title(&app), None, "without a book nothing could be kept");
}

/// Nothing of the answer is in sight before the guess; then it is put beside it, and the findings can
/// go on the table.
#[test]
fn an_own_piece_is_guessed_before_the_program_says_anything() {
    let mut book = Memory::new();
    let size = BIG;
    let (mut app, first) = drilled(&mut book, sitting(Some(Drill::Own)), "", size);
    let mut before = first;
    for _ in 0..3 {
        before += &press(&mut app, &mut book, "01", size);
    }
    before += &press(&mut app, &mut book, "s", size);
    assert!(
        !before.contains("Made between") && !before.contains("How decorated"),
        "{before}"
    );
    let kind = press(&mut app, &mut book, "02", size);
    assert!(
        kind.contains("How sure are you?") && !kind.contains("rather not say"),
        "{kind}"
    );
    press(&mut app, &mut book, "3", size);
    let typed = press(&mut app, &mut book, "1840-1870", size);
    assert!(typed.contains("Years: 1840-1870_"), "{typed}");
    let told = press(&mut app, &mut book, "<enter>", size);
    for words in ["Understood: ", "Made between", "You said ", "75 %"] {
        assert!(told.contains(words), "{words}\n{told}");
    }
    press(&mut app, &mut book, "t", size);
    assert_eq!(title(&app), None);
    assert_eq!(app.piece().evidence().observations().len(), 3);
}

#[test]
fn a_hidden_piece_is_asked_and_guessed() {
    let mut book = Memory::new();
    let size = (44, 20);
    let (mut app, first) = drilled(&mut book, sitting(Some(Drill::Ask)), "", size);
    assert!(first.contains("A hidden piece from this place"), "{first}");
    let looked = press(&mut app, &mut book, "01", size);
    assert!(looked.contains("1 look"), "{looked}");
    let told = press(&mut app, &mut book, "s0141850s<enter>", size);
    assert!(
        told.contains("It was ") && told.contains("points of 100"),
        "{told}"
    );
    let record = book.learner("ann").unwrap();
    assert_eq!(record.confusions.len(), 1);
    assert_eq!(record.stated[&90].answers, 1);
}

/// Two minutes by the clock that was handed in.
#[test]
fn the_round_by_time_ends_by_the_clock() {
    use std::sync::atomic::{AtomicU64, Ordering::Relaxed};
    static CLOCK: AtomicU64 = AtomicU64::new(1_000);
    let handed = AtHand {
        seconds: || CLOCK.load(Relaxed),
        ..at_hand()
    };
    let mut book = Memory::new();
    let mut app = App::new(EXPERT.clone(), Theme::mono())
        .with_stock(handed)
        .drilling(sitting(Some(Drill::Printed)));
    deliver(&mut app, &mut book);
    CLOCK.store(1_100, Relaxed);
    press(&mut app, &mut book, "1<end>", (80, 24));
    let second = press(&mut app, &mut book, "<enter>", (80, 24));
    assert!(second.contains("Question 2, 20 seconds left"), "{second}");
    CLOCK.store(1_120, Relaxed);
    press(&mut app, &mut book, "1<end>", (80, 24));
    let end = press(&mut app, &mut book, "<enter>", (80, 24));
    assert!(end.contains("Time.") && end.contains("of 2 right"), "{end}");
}

#[test]
fn learners_are_kept_apart_and_tab_goes_to_the_next() {
    let mut book = Memory::new();
    for name in ["ann", "bob"] {
        book.keep_learner(name, &Learner::default()).unwrap();
    }
    let (mut app, shown) = drilled(&mut book, sitting(None), "", BIG);
    assert!(shown.contains("another learner"), "{shown}");
    let bob = press(&mut app, &mut book, "<tab>", BIG);
    assert!(bob.contains("Learner: bob"), "{bob}");
    let (mut alone, shown) = drilled(&mut Memory::new(), sitting(None), "", BIG);
    assert!(!shown.contains("another learner"), "{shown}");
    alone.press(Key::Tab);
    assert!(alone.messages().is_empty());
}

/// A record that can't be read is not written over.
#[test]
fn without_the_record_nothing_is_begun() {
    let app = App::new(EXPERT.clone(), Theme::mono()).with_stock(at_hand());
    let mut app = app.drilling(sitting(Some(Drill::Which)));
    let (ticket, _) = app.messages().remove(0);
    app.answered(ticket, Err(Trouble::Damaged("stock.db".to_owned())));
    for key in keys("1<enter>14<enter>").unwrap() {
        app.press(key);
    }
    let shown = text(&drawn(&mut app, (44, 20)));
    assert!(
        shown.contains("stock.db: is damaged") && !shown.contains("Question"),
        "{shown}"
    );
    let (ticket, _) = app.messages().remove(0);
    app.answered(
        ticket,
        Ok(printseam::internals::stock::store::Answer::Learners(
            Vec::new(),
        )),
    );
    assert!(!text(&drawn(&mut app, BIG)).contains("Question"));
}
