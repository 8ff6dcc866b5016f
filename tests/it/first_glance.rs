//! The first glance, the mark typed at once, and the switch for what is not at hand.

use printseam::internals::core::observation::{Evidence, Observation, Observed, Sure};
use printseam::internals::piece::glance;
use printseam::internals::rulebase::definitions::Tool;
use printseam::internals::screens::app::App;
use printseam::internals::screens::kit::theme::Theme;
use printseam::internals::screens::state::input::{Input, Key};
use printseam::internals::screens::state::msg::Msg;
use ratatui::layout::Position;

use crate::screens::{SIZES, after, drawn, frame, styled, title};
use crate::shipped::expert;

const SIZE: (u16, u16) = (80, 24);

fn said(app: &App, clue: &str) -> Option<Observed> {
    let clue = app.piece().expert().base.clue_id(clue).unwrap();
    app.piece().evidence().of(clue).map(|e| e.seen.clone())
}

/// The number of a line of the first glance.
fn line_of(words: &str) -> usize {
    let lines = &expert().base.glance;
    lines.iter().position(|line| line.words == words).unwrap()
}

/// A new piece, with the first glance open as it opens by itself.
fn opened() -> App {
    let mut app = App::new(expert(), Theme::sixteen());
    app.press(Key::Enter);
    assert_eq!(title(&app), Some("First glance"));
    app
}

#[test]
fn the_first_glance_looks_as_it_should() {
    for (w, h) in SIZES {
        let mut app = opened();
        app.update(Msg::Choose(line_of("willow pattern")));
        let buffer = drawn(&mut app, (w, h));
        insta::assert_snapshot!(format!("first-glance-{w}x{h}"), styled(&buffer));
    }
}

/// Every line can be clicked, on the page it stands on.
#[test]
fn every_line_is_near() {
    for size in SIZES {
        for line in 0..expert().base.glance.len() {
            let mut app = opened();
            for _ in 0..4 {
                let (_, shown) = frame(&app, size);
                let area = shown.area_of(Msg::Choose(line));
                app.drawn(shown);
                if let Some(at) = area {
                    app.handle(Input::Click { x: at.x, y: at.y });
                    break;
                }
                app.press(Key::PageDown);
            }
            app.press(Key::Enter);
            let striking = &expert().base.glance[line];
            let seen = app.piece().evidence().of(striking.clue).unwrap();
            assert_eq!(seen.seen, Observed::Finding(striking.finding), "{size:?}");
        }
    }
}

/// A tap that turns the page is no figure of a number: Enter goes on.
#[test]
fn a_page_turned_by_a_tap_ticks_nothing() {
    let mut app = opened();
    let (_, shown) = frame(&app, (44, 14));
    // In the middle, where the footer has no such key.
    let x = 22;
    let turns = |y: &u16| shown.at(Position::new(x, *y)) == Some(Msg::PageDown);
    let y = (0..14).find(turns).unwrap();
    app.drawn(shown);
    app.handle(Input::Click { x, y });
    app.press(Key::Enter);
    // What nobody misses is seen, unsure, whatever is ticked.
    let seen = app.piece().evidence().observations().iter();
    assert!(title(&app).is_none() && seen.clone().count() > 0);
    assert!(seen.clone().all(|o| o.sure == Sure::Unsure));
}

#[test]
fn a_tick_taken_back_is_none_and_what_nobody_misses_is_unsure() {
    let mut app = opened();
    for line in ["gold, rubbed", "willow pattern", "gold, rubbed"] {
        app.update(Msg::Choose(line_of(line)));
    }
    app.press(Key::Enter);
    assert!(title(&app).is_none());
    assert!(said(&app, "subject").is_some());
    let gilding = expert().base.clue_id("gilding").unwrap();
    let none = expert().base.clue(gilding).finding("none").unwrap();
    let seen = app.piece().evidence().of(gilding).unwrap();
    assert_eq!(seen.seen, Observed::Finding(none));
    assert_eq!(seen.sure, Sure::Unsure);
    assert_eq!(app.piece().evidence().observations().len(), 2);
}

/// "Clouded blue" is blue as well; who called it otherwise is believed, and so is another tick.
#[test]
fn the_words_of_a_tick_are_taken_as_they_stand() {
    let base = &expert().base;
    let colour = base.clue_id("print-colour").unwrap();
    let [blue, black] = ["blue", "black"].map(|f| base.clue(colour).finding(f).unwrap());
    let mut app = opened();
    app.update(Msg::Choose(line_of("clouded blue")));
    app.press(Key::Enter);
    assert_eq!(said(&app, "print-colour"), Some(Observed::Finding(blue)));

    let mut ticked = vec![false; base.glance.len()];
    ticked[line_of("clouded blue")] = true;
    let called: Evidence = [Observation::finding(colour, black)].into_iter().collect();
    let seen = glance::seen(base, &ticked, &called);
    assert!(!seen.is_empty() && seen.iter().all(|o| o.clue != colour));
}

#[test]
fn skipping_says_nothing() {
    let mut app = opened();
    app.update(Msg::Choose(0));
    app.press(Key::Esc);
    assert!(app.piece().evidence().is_empty() && title(&app).is_none());
}

#[test]
fn two_lines_of_one_clue_are_not_ticked_together() {
    let mut app = opened();
    for words in ["ENGLAND", "MADE IN ENGLAND"] {
        app.update(Msg::Choose(line_of(words)));
    }
    app.press(Key::Enter);
    let clue = expert().base.clue_id("country-word").unwrap();
    let made = expert().base.clue(clue).finding("made-in-england").unwrap();
    assert_eq!(said(&app, "country-word"), Some(Observed::Finding(made)));
    // A word that was seen has the rest of the mark typed.
    assert_eq!(title(&app), Some("Read the back"));
}

/// As soon as there is a mark, its words are typed; an empty line says that they can't be read.
#[test]
fn a_mark_is_offered_to_be_typed_and_its_words_are_not_asked_again() {
    let (mut app, _) = after(expert(), "<enter>jmark way<enter>3", SIZE);
    assert_eq!(title(&app), Some("Read the back"));
    for c in "MADE IN ENGLAND".chars() {
        app.press(Key::Char(c));
    }
    app.press(Key::Enter);
    assert!(title(&app).is_none());
    let base = &expert().base;
    let trade = base.clue_id("trade-word").unwrap();
    assert!(app.piece().advice().looks.iter().all(|l| l.clue != trade));
    app.press(Key::Char('u'));
    assert!(
        title(&app).is_none(),
        "what is taken back is not offered again"
    );
    assert!(app.piece().advice().looks.iter().any(|l| l.clue == trade));

    let (mut app, _) = after(expert(), "<enter>jmark way<enter>3", SIZE);
    app.press(Key::Enter);
    assert_eq!(said(&app, "trade-word"), Some(Observed::CantTell));
}

#[test]
fn who_could_not_tell_is_not_asked_further() {
    let (app, _) = after(expert(), "<enter>jline make<enter>x", SIZE);
    let expert = app.piece().expert();
    let line = expert.base.clue_id("line-make").unwrap();
    let follows = |clue| {
        let gate = &expert.engine().model.clue(clue).gate;
        gate.iter().any(|clause| clause.clue == line)
    };
    assert_eq!(said(&app, "line-make"), Some(Observed::CantTell));
    let looks = &app.piece().advice().looks;
    assert!(!looks.is_empty() && !looks.iter().any(|look| follows(look.clue)));
}

#[test]
fn without_a_loupe_no_look_needs_one() {
    for (switch, missing) in [("i", Tool::Loupe), ("ii", Tool::Torch)] {
        let (mut app, _) = after(expert(), &format!("<enter>{switch}"), SIZE);
        let mut asked = 0;
        while let Some(clue) = app.clue() {
            let tools = &app.piece().expert().base.clue(clue).tools;
            assert!(tools.iter().any(|tool| *tool != missing), "{tools:?}");
            app.press(Key::Char('x'));
            asked += 1;
            assert!(asked < 80, "asked for ever");
        }
        assert!(asked > 10, "{asked} looks");
    }
}
