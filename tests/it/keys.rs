//! Keys and clicks: what is listed works, what works is listed, and every finding is near.

use std::path::Path;
use std::sync::Arc;

use printseam::internals::core::grid::{ClueId, FindingId, Year};
use printseam::internals::core::observation::{Evidence, Observed, Sure};
use printseam::internals::piece::expert::Expert;
use printseam::internals::rulebase::ids::SettingId;
use printseam::internals::rulebase::source::SourceFile;
use printseam::internals::screens::app::App;
use printseam::internals::screens::kit::theme::Theme;
use printseam::internals::screens::state::input::{Input, Key, keys};
use printseam::internals::screens::state::keys::{Writes, label_of};
use printseam::internals::screens::state::msg::Msg;
use printseam::internals::screens::state::place::Screen;
use ratatui::buffer::Buffer;

use crate::rules_corpus::read_rules;
use crate::screens::{SIZES, after, drawn, frame, played, small, text, title};
use crate::shipped;

/// Clicks where a message can be clicked.
fn click(app: &mut App, size: (u16, u16), msg: Msg) {
    let (_, shown) = frame(app, size);
    let area = shown.area_of(msg).unwrap();
    app.drawn(shown);
    app.handle(Input::Click {
        x: area.x,
        y: area.y,
    });
}

/// Every screen and everything that opens over one.
pub const PLACES: [&str; 35] = [
    "",
    "h",
    "l",
    "<enter>",
    "<enter>01",
    "<enter>s",
    "<enter>jhow dark<enter>",
    "<enter>jregistered<enter>",
    "<enter>01j<enter>",
    "<enter>0101010101010101",
    "<enter>v",
    "<enter>0101v",
    "<enter>j",
    "<enter>jzzz",
    "<enter>?",
    "<enter>?g",
    "<enter>h",
    "<enter>01vh",
    "<enter>l",
    "<enter>m",
    "<enter>m<tab>",
    "<enter>m<tab>w",
    "<enter>c",
    "<enter>01q",
    "<enter>01t",
    "<enter>01t1850",
    "<enter>01w",
    "<enter>01w<up><right>",
    "<enter>g",
    "<enter>/",
    "<enter>/zzz",
    "<enter>01k",
    "<enter>01n",
    "<enter>jhow is the line<enter>p",
    "<enter>jfoot<enter>p<pgdn><tab>",
];

#[test]
fn every_key_listed_is_on_the_screen_and_can_be_clicked() {
    for place in PLACES {
        for size in SIZES {
            let (app, buffer) = after(small(), place, size);
            let shown = text(&buffer);
            let (_, shown_at) = frame(&app, size);
            for binding in app.keys().listed() {
                let words = format!("{} {}", binding.key.shown(), binding.label);
                // What has no room stands in the help, see `fields`.
                if !shown.contains(words.trim()) && shown.contains("h all keys") {
                    continue;
                }
                assert!(
                    shown.contains(words.trim()),
                    "{place} {size:?}: {words}\n{shown}"
                );
                let area = shown_at.area_of(binding.msg);
                let area = area.unwrap_or_else(|| panic!("{place} {size:?}: {words}"));
                assert_eq!(
                    shown_at.at(area.as_position()),
                    Some(binding.msg),
                    "{words}"
                );
            }
        }
    }
}

/// No key stands for two things at the same time, and none is hidden behind what keys write or
/// behind the keys of a list.
#[test]
fn every_key_of_a_table_means_what_it_says() {
    for place in PLACES {
        let (app, _) = after(small(), place, (80, 24));
        let keys = app.keys();
        for binding in &keys.bindings {
            let meant = keys.message(binding.key);
            assert_eq!(meant, Some(binding.msg), "{place}: {binding:?}");
            let same = keys.bindings.iter().filter(|b| b.key == binding.key);
            assert_eq!(same.count(), 1, "{place}: {binding:?}");
        }
    }
}

/// Keys that write nothing and stay in the program.
pub const MOVES: [Key; 12] = [
    Key::Enter,
    Key::Esc,
    Key::Up,
    Key::Down,
    Key::Left,
    Key::Right,
    Key::PageUp,
    Key::PageDown,
    Key::Home,
    Key::End,
    Key::Backspace,
    Key::Tab,
];

/// All keys there are names for, and a letter of everything a keyboard writes.
fn keyboard() -> Vec<Key> {
    let mut out = [&MOVES[..], &[Key::Break, Key::Aside]].concat();
    out.extend(
        (' '..='~')
            .chain("éß青\u{7}\u{202e}".chars())
            .map(Key::Char),
    );
    out
}

/// All that can be told apart from outside.
fn state(app: &App) -> (Buffer, String, Evidence, SettingId, bool) {
    let (buffer, _) = frame(app, (80, 24));
    let piece = app.piece();
    let popup = format!("{:?}", app.popup());
    let evidence = piece.evidence().clone();
    (buffer, popup, evidence, piece.setting(), app.done)
}

#[test]
fn a_key_that_is_not_in_the_table_does_nothing() {
    for place in PLACES {
        let (mut app, _) = after(small(), place, (80, 24));
        let keys = app.keys();
        let before = state(&app);
        let mut idle = 0;
        for key in keyboard() {
            let written = match (key, keys.writes) {
                (Key::Char(_), Writes::Text) => true,
                (Key::Char(c), Writes::Figures) => c.is_ascii_digit(),
                _ => false,
            };
            let item = keys.items > 0 && matches!(key, Key::Char('0'..='9'));
            if written || item || keys.bindings.iter().any(|b| b.key == key) {
                continue;
            }
            app.press(key);
            assert!(state(&app) == before, "{place}: {key:?}");
            idle += 1;
        }
        assert!(idle > 0, "{place}");
    }
}

/// What a frame shows has been worked out before: the piece keeps what was asked of it, and a frame
/// asks nothing new.
#[test]
fn drawing_works_nothing_out() {
    let expert = small();
    for place in PLACES {
        for size in SIZES {
            let mut app = App::new(expert.clone(), Theme::mono());
            for key in keys(place).unwrap() {
                app.press(key);
            }
            let before = format!("{:?}", app.piece());
            frame(&app, size);
            let after = format!("{:?}", app.piece());
            let changed = before.bytes().zip(after.bytes()).position(|(a, b)| a != b);
            let near = changed.map(|at| &after[at.saturating_sub(300)..(at + 80).min(after.len())]);
            assert!(before == after, "{place} {size:?}: {near:?}");
        }
    }
}

/// On a phone too: each finding of each shipped clue can be read in full and chosen by its number.
#[test]
fn every_finding_of_every_clue_is_near() {
    let expert = shipped::expert();
    let size = (44, 20);
    let mut app = App::opened(expert.clone(), Theme::mono(), SettingId(0), &[]);
    for c in 0..expert.base.clues.len() {
        let clue = ClueId(c as u16);
        app.update(Msg::GoTo(clue));
        let findings = expert.base.clue(clue).findings.clone();
        let (mut read, mut pages) = (String::new(), 0);
        loop {
            let shown = text(&drawn(&mut app, size));
            let turns = shown.contains("PgDn ▶");
            read += &shown;
            pages += 1;
            if !turns {
                break;
            }
            app.press(Key::PageDown);
            assert!(pages < 20, "{}", expert.base.clue(clue).id);
        }
        for (i, finding) in findings.iter().enumerate() {
            for word in finding.words.split_whitespace() {
                assert!(
                    read.contains(word),
                    "{}: '{word}' of '{}' is not on\n{read}",
                    expert.base.clue(clue).id,
                    finding.words
                );
            }
            // Each is chosen on a piece of which nothing is known.
            app.update(Msg::GoTo(clue));
            label_of(i).chars().for_each(|c| app.press(Key::Char(c)));
            // A number that a longer one begins with waits for Enter.
            if app.piece().evidence().is_empty() {
                app.press(Key::Enter);
            }
            let said = app.piece().evidence().of(clue).map(|e| &e.seen);
            assert_eq!(said, Some(&Observed::Finding(FindingId(i as u16))));
            // A mark is offered to be typed as soon as there is one.
            if app.popup().is_some() {
                app.press(Key::Esc);
            }
            app.press(Key::Char('u'));
            assert!(app.piece().evidence().is_empty());
        }
    }
}

#[test]
fn kinds_years_and_rarity_are_always_in_sight() {
    for expert in [small(), shipped::expert()] {
        for size in SIZES {
            for place in ["<enter>", "<enter>01", "<enter>01010101"] {
                let (app, buffer) = after(expert.clone(), place, size);
                let shown = text(&buffer);
                let judgement = app.piece().judgement();
                let band = judgement.band();
                for wanted in [
                    format!("rarity {:.0}", app.piece().rarity().score),
                    band.from.0.to_string(),
                    band.to.0.to_string(),
                    judgement.median.0.to_string(),
                    printseam::internals::say::scales::percent(judgement.leading().1),
                ] {
                    assert!(
                        shown.contains(&wanted),
                        "{size:?} {place}: {wanted}\n{shown}"
                    );
                }
            }
        }
    }
}

#[test]
fn sureness_holds_for_one_answer() {
    let (app, _) = after(small(), "<enter>s01s012", (80, 24));
    let sure: Vec<Sure> = app
        .piece()
        .evidence()
        .observations()
        .iter()
        .map(|e| e.sure)
        .collect();
    assert_eq!(sure, [Sure::Unsure, Sure::Unsure, Sure::Sure]);
    let (app, buffer) = after(small(), "<enter>ss", (80, 24));
    assert!(text(&buffer).contains("counts as a guess"));
    let (app, _) = played(app, "01", (80, 24));
    assert_eq!(app.piece().evidence().observations()[0].sure, Sure::Guess);
}

#[test]
fn a_clue_is_found_by_the_words_of_its_findings_and_can_be_changed() {
    let expert = small();
    let clue = expert.base.clue_id("print-colour").unwrap();
    let (app, _) = after(expert.clone(), "<enter>jmulberry<enter>7", (80, 24));
    assert_eq!(
        app.piece().evidence().of(clue).unwrap().seen,
        Observed::Finding(FindingId(6))
    );
    let (app, buffer) = played(app, "jmulberry<enter>", (80, 24));
    assert_eq!(app.clue(), Some(clue));
    assert!(text(&buffer).contains("7✓ mulberry"), "{}", text(&buffer));
    let (app, _) = played(app, "01", (80, 24));
    assert_eq!(app.piece().evidence().observations().len(), 1);
    let (app, _) = played(app, "jmulberry<enter>f", (80, 24));
    assert!(app.piece().evidence().is_empty());
    let (app, _) = played(app, "u", (80, 24));
    assert_eq!(app.piece().evidence().observations().len(), 1);
    let (_, buffer) = played(app, "jmulberry brown zzz", (80, 24));
    assert!(text(&buffer).contains("No clue has these words"));
}

#[test]
fn a_clue_named_so_comes_before_one_with_such_a_finding() {
    let (app, _) = after(shipped::expert(), "<enter>jcountry<enter>", (80, 24));
    assert_eq!(
        app.clue(),
        app.piece().expert().base.clue_id("country-word")
    );
}

#[test]
fn a_clue_that_does_not_apply_is_marked_so() {
    let (_, buffer) = after(small(), "<enter>jmulberry<enter>02j", (80, 24));
    assert!(text(&buffer).contains("– depth of blue: does not apply"));
}

#[test]
fn a_year_is_typed_and_checked() {
    let expert = small();
    let clue = expert.base.clue_id("registered").unwrap();
    let to_it = "<enter>jregistered<enter>";
    let (app, _) = after(expert.clone(), &format!("{to_it}1884<enter>"), (80, 24));
    assert_eq!(
        app.piece().evidence().of(clue).unwrap().seen,
        Observed::Year(Year(1884))
    );
    let (app, buffer) = after(expert.clone(), &format!("{to_it}99<enter>"), (80, 24));
    assert!(app.piece().evidence().is_empty());
    assert!(text(&buffer).contains("1750"), "{}", text(&buffer));
    let (app, _) = after(expert, &format!("{to_it}188<bs>81<enter>"), (80, 24));
    assert_eq!(
        app.piece().evidence().of(clue).unwrap().seen,
        Observed::Year(Year(1881))
    );
}

#[test]
fn the_end_of_the_questions_says_why_and_offers_the_verdict() {
    let (app, buffer) = after(small(), "<enter>0101010101010101", (80, 24));
    assert!(app.clue().is_none() && app.piece().advice().stop.is_some());
    let shown = text(&buffer);
    assert!(shown.contains("Enough seen"), "{shown}");
    let (app, _) = played(app, "<enter>", (80, 24));
    assert_eq!(app.screen(), Screen::Verdict);
    let (app, _) = played(app, "<esc>jregistered<enter>", (80, 24));
    assert!(app.clue().is_some());
}

#[test]
fn clicks_do_what_keys_do() {
    let size = (44, 20);
    let (mut app, _) = after(small(), "", size);
    click(&mut app, size, Msg::Cursor(1));
    assert_eq!(app.screen(), Screen::Welcome);
    click(&mut app, size, Msg::Start);
    assert_eq!(
        (app.screen(), app.piece().setting()),
        (Screen::Look, SettingId(1))
    );
    click(&mut app, size, Msg::CantTell);
    assert_eq!(
        app.piece().evidence().observations()[0].seen,
        Observed::CantTell
    );
    click(&mut app, size, Msg::Undo);
    assert!(app.piece().evidence().is_empty());
    click(&mut app, size, Msg::Open('h'));
    assert_eq!(title(&app), Some("Keys"));
    // An order in the help is carried out below it.
    click(&mut app, size, Msg::Undo);
    assert!(app.popup().is_none());
    // The footer of a phone has no room for it.
    click(&mut app, (80, 24), Msg::Open('j'));
    click(&mut app, size, Msg::Choose(2));
    assert_eq!(title(&app), None);
    assert_eq!(app.clue(), app.piece().expert().base.clue_id("foot-ring"));
}

#[test]
fn a_click_beside_a_popup_closes_it_and_one_inside_does_not() {
    let size = (120, 40);
    let (mut app, _) = after(small(), "<enter>01q", size);
    app.handle(Input::Click { x: 60, y: 19 });
    assert_eq!(title(&app), Some("Leave"));
    app.handle(Input::Click { x: 1, y: 1 });
    assert_eq!(title(&app), None);
    assert!(!app.done);
}

#[test]
fn a_new_piece_and_another_setting_can_be_taken_back() {
    let (app, _) = after(small(), "<enter>0101ny", (80, 24));
    assert!(app.piece().evidence().is_empty());
    let (app, _) = played(app, "u", (80, 24));
    assert_eq!(app.piece().evidence().observations().len(), 2);
    let (app, _) = played(app, "c3", (80, 24));
    assert_eq!(app.piece().setting(), SettingId(2));
    assert_eq!(app.piece().evidence().observations().len(), 2);
}

/// Rule files of others may hold anything: nothing of it steers the terminal.
#[test]
fn control_characters_of_rule_files_stay_out() {
    let rules = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/rules/ok/small");
    let spoilt: Vec<SourceFile> = read_rules(&rules)
        .into_iter()
        .map(|f| SourceFile {
            text: f
                .text
                .replace("bluish", "blu\\u{1b}[31mish\\u{202e}")
                .replace("thrift shelf", "thrift\\u{7}shelf")
                .replace("\"flow blue\"", "\"flow\\u{9b}blue\""),
            name: f.name,
        })
        .collect();
    let expert = Arc::new(Expert::load(&spoilt, Year(2026)).unwrap());
    for place in [
        "",
        "<enter>",
        "<enter>jthick<enter>",
        "<enter>jthick<enter>01v",
        "<enter>c",
        "<enter>jthick<enter>?",
    ] {
        let (_, buffer) = after(expert.clone(), place, (120, 40));
        // Shown as what they are not, rather than swallowed by the backend.
        assert!(
            text(&buffer).contains('\u{fffd}'),
            "{place}\n{}",
            text(&buffer)
        );
        for cell in &buffer.content {
            assert!(
                !cell
                    .symbol()
                    .chars()
                    .any(|c| c.is_control() || c == '\u{202e}'),
                "{place}: {:?}",
                cell.symbol()
            );
        }
    }
}

#[test]
fn key_strings_are_checked() {
    assert_eq!(keys("1<enter>").unwrap(), [Key::Char('1'), Key::Enter]);
    assert!(keys("<nokey>").is_err() && keys("<enter").is_err());
}
