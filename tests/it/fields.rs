//! Choosing by number, finding by typing, text that is pasted, lines that are kept, files that are
//! wanted, and that nothing is cut which has room.

use std::collections::BTreeMap;

use printseam::internals::core::grid::{ClueId, FindingId};
use printseam::internals::core::observation::{Evidence, Observed};
use printseam::internals::piece::sighting_file;
use printseam::internals::rulebase::ids::SettingId;
use printseam::internals::rulebase::source::SourceFile;
use printseam::internals::screens::app::App;
use printseam::internals::screens::kit::theme::Theme;
use printseam::internals::screens::state::input::{Input, Key, keys};
use printseam::internals::screens::state::keys::Writes;
use printseam::internals::screens::state::msg::Msg;

use crate::keys::PLACES;
use crate::screens::{SIZES, after, drawn, played, small, text, title};
use crate::shipped;
use crate::stock_screens::at_hand;

const SIZE: (u16, u16) = (80, 24);

/// An app at a clue of the small rules, of which nothing is known.
fn at(id: &str) -> (App, ClueId) {
    let expert = small();
    let clue = expert.base.clue_id(id).unwrap();
    let mut app = App::opened(expert, Theme::mono(), SettingId(0), &[]);
    app.update(Msg::GoTo(clue));
    (app, clue)
}

fn said(app: &App, clue: ClueId) -> Option<Observed> {
    app.piece().evidence().of(clue).map(|o| o.seen.clone())
}

fn paste(app: &mut App, text: &str) {
    app.handle(Input::Paste(text.to_owned()));
}

#[test]
fn a_number_of_two_figures_chooses_and_one_that_begins_it_waits() {
    let (app, clue) = at("print-colour");
    let (app, buffer) = played(app, "1", SIZE);
    assert_eq!(said(&app, clue), None);
    assert!(
        text(&buffer).contains("1: Enter takes it"),
        "{}",
        text(&buffer)
    );
    let (app, _) = played(app, "2", SIZE);
    assert_eq!(said(&app, clue), Some(Observed::Finding(FindingId(11))));
    for (figures, finding) in [
        ("1<enter>", 0),
        ("3", 2),
        ("03", 2),
        ("10", 9),
        ("1<down><enter>", 1),
    ] {
        let (app, _) = played(at("print-colour").0, figures, SIZE);
        let chosen = Observed::Finding(FindingId(finding));
        assert_eq!(said(&app, clue), Some(chosen), "{figures}");
    }
    let (app, buffer) = played(at("print-colour").0, "19", SIZE);
    assert!(app.piece().evidence().is_empty());
    assert!(
        text(&buffer).contains("There is no 19"),
        "{}",
        text(&buffer)
    );
}

/// Whatever a list holds, a letter is the same order everywhere on the screens, and chooses nothing.
#[test]
fn no_letter_has_two_meanings() {
    let mut meanings: BTreeMap<char, Msg> = BTreeMap::new();
    let mut letters = 0;
    for expert in [small(), shipped::expert()] {
        for place in PLACES {
            // The stock book has letters of its own.
            let app = App::new(expert.clone(), Theme::mono()).with_stock(at_hand());
            let (app, _) = played(app, place, SIZE);
            let table = app.keys();
            if app.popup().is_some() || table.writes == Writes::Text {
                continue;
            }
            for c in ('a'..='z').chain('A'..='Z') {
                let Some(msg) = table.message(Key::Char(c)) else {
                    continue;
                };
                let chooses = matches!(msg, Msg::Choose(_) | Msg::Cursor(_));
                assert!(!chooses, "{place}: {c}");
                assert_eq!(*meanings.entry(c).or_insert(msg), msg, "{place}: {c}");
                letters += 1;
            }
        }
    }
    assert!(letters > 100, "{letters}");
}

#[test]
fn every_key_says_what_it_does() {
    for place in PLACES {
        let (app, _) = after(small(), place, SIZE);
        for binding in &app.keys().bindings {
            assert!(!binding.help.is_empty(), "{place}: {binding:?}");
        }
    }
}

#[test]
fn a_new_piece_asks_first() {
    let clue = at("print-colour").1;
    let (app, _) = played(at("print-colour").0, "3n", SIZE);
    assert_eq!(title(&app), Some("A new piece"));
    let (app, _) = played(app, "<esc>", SIZE);
    assert!(said(&app, clue).is_some());
    let (app, _) = played(app, "ny", SIZE);
    assert!(app.piece().evidence().is_empty() && app.popup().is_none());
    // Nothing would be lost: nothing is asked.
    let (app, _) = played(at("print-colour").0, "n", SIZE);
    assert!(app.popup().is_none());
}

#[test]
fn a_finding_is_found_by_typing() {
    let (app, buffer) = played(at("print-colour").0, "/mulb", SIZE);
    assert_eq!(title(&app), Some("Find a finding"));
    assert!(!text(&buffer).contains("sepia"), "{}", text(&buffer));
    let (app, _) = played(app, "<enter>", SIZE);
    let clue = at("print-colour").1;
    assert_eq!(said(&app, clue), Some(Observed::Finding(FindingId(6))));
    // A short list has no need of it.
    let (app, _) = played(at("glaze-pool").0, "/", SIZE);
    assert!(app.popup().is_none());
}

#[test]
fn a_pasted_text_stays_in_its_field() {
    let (mut app, _) = played(at("print-colour").0, "l", SIZE);
    paste(&mut app, "dark blue\nno mark\n");
    assert_eq!(title(&app), Some("Say what you see"));
    let shown = text(&drawn(&mut app, SIZE));
    assert!(shown.contains("dark blue no mark_"), "{shown}");
    let (app, _) = played(app, "<enter>", SIZE);
    assert!(app.piece().evidence().observations().len() >= 2);
    for (opening, field) in [
        ("t", "Ticket: flow blue 1890s_"),
        ("j", "Find: flow blue 1890s_"),
        ("g", "Find: flow blue 1890s_"),
        ("/", "Find: flow blue 1890s_"),
        ("m", "flow blue 1890s_"),
    ] {
        let (mut app, _) = played(at("print-colour").0, "l", SIZE);
        app.press(Key::Esc);
        // A ticket is offered once something is seen.
        app.update(Msg::GoTo(at("glaze-pool").1));
        app.press(Key::Char('1'));
        app.update(Msg::GoTo(at("print-colour").1));
        app.press(keys(opening).unwrap()[0]);
        paste(&mut app, "flow blue\n1890s");
        let shown = text(&drawn(&mut app, SIZE));
        assert!(shown.contains(field), "{opening}\n{shown}");
    }
}

#[test]
fn a_text_without_end_is_cut_and_says_so() {
    let (mut app, _) = played(at("print-colour").0, "l", SIZE);
    paste(&mut app, &"x".repeat(100_000));
    let shown = text(&drawn(&mut app, SIZE));
    assert!(shown.contains("99600 letters have no room"), "{shown}");
}

#[test]
fn a_text_pasted_where_nothing_is_typed_presses_no_keys() {
    for place in ["", "<enter>", "<enter>01v", "<enter>c", "<enter>01n"] {
        let (mut app, _) = after(small(), place, SIZE);
        let before = (app.screen(), app.piece().evidence().clone(), app.clue());
        paste(&mut app, "n\ny\nq\ny\n1\n");
        let now = (app.screen(), app.piece().evidence().clone(), app.clue());
        assert!(now == before && !app.done, "{place}");
    }
    let (mut app, clue) = at("registered");
    paste(&mut app, "about 1884\n");
    let (app, _) = played(app, "<enter>", SIZE);
    let year = printseam::internals::core::grid::Year(1884);
    assert_eq!(said(&app, clue), Some(Observed::Year(year)));
}

#[test]
fn a_line_begun_is_there_again() {
    for (letter, typed) in [("l", "dark blue"), ("m", "MADE IN"), ("t", "1890s")] {
        let (app, _) = played(at("glaze-pool").0, "1", SIZE);
        let (app, _) = played(app, &format!("{letter}{typed}<esc>"), SIZE);
        assert!(app.popup().is_none());
        let (app, buffer) = played(app, letter, SIZE);
        let shown = text(&buffer);
        assert!(shown.contains(&format!("{typed}_")), "{letter}\n{shown}");
        drop(app);
    }
    // What was taken is not begun any more, and a new piece begins with nothing.
    let (app, _) = played(at("glaze-pool").0, "ldark blue<enter>", SIZE);
    let (app, buffer) = played(app, "l", SIZE);
    assert!(!text(&buffer).contains("dark blue_"));
    let (_, buffer) = played(app, "no mark<esc>nyl", SIZE);
    assert!(!text(&buffer).contains("no mark_"));
}

#[test]
fn not_being_able_to_tell_is_no_finding() {
    let (app, buffer) = played(at("print-colour").0, "x", SIZE);
    assert_eq!(app.piece().evidence().observations().len(), 1);
    assert!(
        text(&buffer).contains("no finding, 1 can't tell"),
        "{}",
        text(&buffer)
    );
    let (_, buffer) = played(app, "01", SIZE);
    assert!(
        text(&buffer).contains("1 finding, 1 can't tell"),
        "{}",
        text(&buffer)
    );
}

#[test]
fn what_was_seen_can_be_kept_and_opened_again() {
    let (mut app, _) = after(small(), "<enter>0101s01xk<enter>", SIZE);
    let save = app.wanted().unwrap();
    assert!(app.wanted().is_none());
    assert!(save.name.ends_with(".ron"), "{}", save.name);
    let file = SourceFile {
        name: save.name.clone(),
        text: save.text,
    };
    let sighting = sighting_file::read(&app.piece().expert().base, &file).unwrap();
    let read: Evidence = sighting.saw.into_iter().collect();
    assert_eq!(read, *app.piece().evidence());
    assert_eq!(sighting.setting, Some(app.piece().setting()));
    app.saved(Err("plate.ron: is there already".to_owned()));
    assert!(text(&drawn(&mut app, SIZE)).contains("is there already"));
    assert_eq!(title(&app), Some("Keep in a file"));
    app.saved(Ok("plate.ron".to_owned()));
    assert!(text(&drawn(&mut app, SIZE)).contains("Written to plate.ron"));
    assert_eq!(title(&app), None);
}

#[test]
fn pages_are_kept_by_their_ending() {
    for (typed, begins) in [("<tab>", "# "), ("<tab><tab>", "<!doctype html>")] {
        let (mut app, _) = after(small(), &format!("<enter>01k{typed}<enter>"), SIZE);
        let save = app.wanted().unwrap();
        let head: String = save.text.trim_start().chars().take(40).collect();
        assert!(
            head.to_lowercase().starts_with(begins),
            "{}: {head}",
            save.name
        );
    }
    // An ending typed says the form as well.
    let (app, _) = after(small(), "<enter>01k", SIZE);
    let erased = "<bs>".repeat(80);
    let (mut app, _) = played(app, &format!("{erased}plate.md<enter>"), SIZE);
    let save = app.wanted().unwrap();
    assert_eq!(save.name, "plate.md");
    assert!(!save.text.starts_with('('));
}

/// However many findings a clue has, how to look begins in sight, and its end is one key away.
#[test]
fn how_to_look_stays_in_sight() {
    let expert = shipped::expert();
    for size in SIZES {
        let mut app = App::opened(expert.clone(), Theme::mono(), SettingId(0), &[]);
        for c in 0..expert.base.clues.len() {
            let clue = ClueId(c as u16);
            app.update(Msg::GoTo(clue));
            let shown = text(&drawn(&mut app, size));
            let words: Vec<&str> = expert.base.clue(clue).look.split_whitespace().collect();
            let first = words[..words.len().min(2)].join(" ");
            assert!(shown.contains(&first), "{size:?} {first}\n{shown}");
            let last = words[words.len() - 1];
            let whole = shown.contains(last) || shown.contains("? shows all");
            assert!(whole, "{size:?} {last}\n{shown}");
        }
    }
}

/// The rules themselves write "a present from …", with a space before.
fn cut(shown: &str) -> bool {
    let mut at = shown.match_indices('…');
    at.any(|(i, _)| !shown[..i].ends_with(' '))
}

#[test]
fn nothing_is_cut_where_there_is_room() {
    let expert = shipped::expert();
    let mut app = App::opened(expert.clone(), Theme::mono(), SettingId(0), &[]);
    for c in 0..expert.base.clues.len() {
        app.update(Msg::GoTo(ClueId(c as u16)));
        let shown = text(&drawn(&mut app, (120, 40)));
        assert!(!cut(&shown), "{shown}");
    }
    for (w, h) in [(44, 14), (44, 20)] {
        for place in [
            "",
            "<enter>",
            "<enter>c",
            "<enter>j",
            "<enter>jpattern",
            "<enter>01v",
        ] {
            let (_, buffer) = after(expert.clone(), place, (w, h));
            let shown = text(&buffer).replace("… (? shows all)", "");
            assert!(!cut(&shown), "{place}\n{shown}");
        }
        let (app, _) = after(expert.clone(), "<enter>lwillow, crazed<enter>", (w, h));
        let (_, buffer) = played(app, "tflow blue, 1890s", (w, h));
        assert!(!cut(&text(&buffer)), "{}", text(&buffer));
    }
}

#[test]
fn kinds_under_one_in_a_hundred_share_a_line() {
    let (app, buffer) = after(
        shipped::expert(),
        "<enter>lwillow, no mark<enter>",
        (120, 40),
    );
    let kinds = &app.piece().judgement().kinds;
    let small = kinds.iter().filter(|(_, p)| *p < 0.01).count();
    assert!(small > 1, "{small}");
    let shown = text(&buffer);
    assert_eq!(shown.matches("under 1 %").count(), 1, "{shown}");
    assert!(
        shown.contains(&format!("{small} other kinds: under 1 % each")),
        "{shown}"
    );
}

#[test]
fn years_stand_under_the_curve_of_a_phone() {
    let (_, buffer) = after(small(), "<enter>", (44, 20));
    let shown = text(&buffer);
    let axis = shown.lines().find(|l| l.contains("1850")).unwrap();
    assert!(axis.contains("1750") || axis.contains("1800"), "{shown}");
}

#[test]
fn a_clue_called_so_is_found_first() {
    let (app, _) = after(shipped::expert(), "<enter>jedge<enter>", SIZE);
    assert_eq!(app.clue(), app.piece().expert().base.clue_id("edge"));
}

#[test]
fn notes_show_what_was_heard_under_its_words() {
    let line = "lblue, frumious, dark blue";
    let (_, buffer) = played(at("glaze-pool").0, line, (120, 40));
    let shown = text(&buffer);
    let rows: Vec<&str> = shown.lines().collect();
    let column = |row: &str, words: &str| row.find(words).map(|at| row[..at].chars().count());
    // The first row is the line as typed, the next with the words has what was heard under it.
    let words = rows
        .iter()
        .skip(2)
        .position(|r| r.contains("frumious"))
        .unwrap()
        + 2;
    let under = column(rows[words], "frumious");
    assert_eq!(
        column(rows[words + 1], "? not understood"),
        under,
        "{shown}"
    );
    let (_, buffer) = played(at("glaze-pool").0, line, (44, 20));
    let shown = text(&buffer);
    assert!(shown.contains("? frumious → not understood"), "{shown}");
}

/// The footer never takes more than two lines; what has no room there stands in the help.
#[test]
fn keys_take_two_lines_and_the_help_shows_the_rest() {
    for place in PLACES {
        for size in SIZES {
            let (mut app, buffer) = after(small(), place, size);
            let shown = text(&buffer);
            let rows: Vec<&str> = shown.lines().collect();
            let foot = rows[rows.len() - 2..].join("\n");
            let missing: Vec<String> = app
                .keys()
                .listed()
                .map(|b| format!("{} {}", b.key.shown(), b.label).trim().to_owned())
                .filter(|words| !foot.contains(words))
                .collect();
            if missing.is_empty() {
                continue;
            }
            assert!(
                foot.contains("h all keys"),
                "{place} {size:?} {missing:?}\n{shown}"
            );
            let all = app.keys();
            app.press(Key::Char('h'));
            let mut read = String::new();
            for _ in 0..20 {
                read += &text(&drawn(&mut app, size));
                app.press(Key::PageDown);
            }
            for binding in &all.bindings {
                let words: Vec<&str> = binding.help.split_whitespace().collect();
                assert!(read.contains(words[0]), "{place} {size:?}: {binding:?}");
            }
        }
    }
}
