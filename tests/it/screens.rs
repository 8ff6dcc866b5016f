//! Screens in text and style at three sizes, driven by key strings on a small fixed rule base; and
//! every window size renders.

use std::fs;
use std::path::Path;
use std::sync::{Arc, LazyLock};

use printseam::internals::core::grid::Year;
use printseam::internals::piece::expert::Expert;
use printseam::internals::rulebase::ids::SettingId;
use printseam::internals::screens::app::App;
use printseam::internals::screens::kit::theme::Theme;
use printseam::internals::screens::state::input::{Input, Key, keys};
use printseam::internals::screens::state::msg::Msg;
use printseam::internals::screens::state::place::Screen;
use printseam::internals::screens::state::shown::Shown;
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::buffer::Buffer;
use ratatui::style::Color;
use unicode_width::UnicodeWidthStr;

use crate::rules_corpus::read_rules;
use crate::shipped::expert;

pub const SIZES: [(u16, u16); 4] = [(44, 14), (44, 20), (80, 24), (120, 40)];

/// A small rule base that no change of the shipped rules touches.
static SMALL: LazyLock<Arc<Expert>> = LazyLock::new(|| {
    let rules = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/rules/ok/small");
    Arc::new(Expert::load(&read_rules(&rules), Year(2026)).unwrap())
});

pub fn small() -> Arc<Expert> {
    SMALL.clone()
}

/// A new app after some keys.
pub fn after(expert: Arc<Expert>, text: &str, size: (u16, u16)) -> (App, Buffer) {
    played(App::new(expert, Theme::sixteen()), text, size)
}

/// The app after some keys, drawn after each as in life. A first glance that opens by itself is
/// skipped: `first_glance.rs` looks at it.
pub fn played(mut app: App, text: &str, size: (u16, u16)) -> (App, Buffer) {
    let mut buffer = drawn(&mut app, size);
    for key in keys(text).unwrap() {
        let open = title(&app) == Some("First glance");
        app.press(key);
        if !open && key != Key::Char('e') && title(&app) == Some("First glance") {
            app.press(Key::Esc);
        }
        buffer = drawn(&mut app, size);
    }
    (app, buffer)
}

/// The title of the popup on top.
pub fn title(app: &App) -> Option<&'static str> {
    app.popup().map(|popup| popup.title())
}

/// One frame; the app knows where things are afterwards.
pub fn drawn(app: &mut App, size: (u16, u16)) -> Buffer {
    let (buffer, shown) = frame(app, size);
    app.drawn(shown);
    buffer
}

/// One frame, and where it put things.
pub fn frame(app: &App, size: (u16, u16)) -> (Buffer, Shown) {
    let mut terminal = Terminal::new(TestBackend::new(size.0, size.1)).unwrap();
    let mut shown = Shown::default();
    terminal.draw(|frame| shown = app.draw(frame)).unwrap();
    (terminal.backend().buffer().clone(), shown)
}

/// The text, a line a row.
pub fn text(buffer: &Buffer) -> String {
    let rows = buffer.content.chunks(usize::from(buffer.area.width));
    rows.map(|row| row.iter().map(|c| c.symbol()).collect::<String>() + "\n")
        .collect()
}

/// The text, and under each line one letter a style.
pub fn styled(buffer: &Buffer) -> String {
    let (mut out, mut key) = (String::new(), Vec::<String>::new());
    for row in buffer.content.chunks(usize::from(buffer.area.width)) {
        let (mut text, mut marks, mut skip) = (String::new(), String::new(), 0);
        for cell in row {
            let style = format!("{:?} on {:?} {:?}", cell.fg, cell.bg, cell.modifier);
            marks.push(if style == "Reset on Reset NONE" {
                '.'
            } else {
                let i = key.iter().position(|k| *k == style).unwrap_or_else(|| {
                    key.push(style);
                    key.len() - 1
                });
                char::from(b'a' + i as u8)
            });
            if skip == 0 {
                text.push_str(cell.symbol());
                skip = cell.symbol().width().saturating_sub(1);
            } else {
                skip -= 1;
            }
        }
        out += text.trim_end();
        if marks.contains(|c| c != '.') {
            out += "\n  ~ ";
            out += marks.trim_end_matches('.');
        }
        out.push('\n');
    }
    for (i, k) in key.iter().enumerate() {
        out += &format!("{} = {k}\n", char::from(b'a' + i as u8));
    }
    out
}

#[test]
fn screens_look_as_they_should() {
    let screens = [
        ("welcome", ""),
        ("look-start", "<enter>"),
        ("look-three-answers", "<enter>010101"),
        ("unsure", "<enter>s"),
        ("jump", "<enter>j"),
        ("why", "<enter>?"),
        ("help", "<enter>h"),
        ("notes", "<enter>ldark blue, frumious"),
        ("mark", "<enter>mMADE IN ENGLAND"),
        ("setting", "<enter>c"),
        ("leave", "<enter>01q"),
        ("verdict", "<enter>010101v"),
        ("verdict-end", "<enter>010101v<end>"),
        ("dated", "<enter>jregistered<enter>18"),
        ("stopped", "<enter>0101010101010101"),
        ("ticket", "<enter>0101t"),
        ("ticket-judged", "<enter>010101t1990s"),
        ("ticket-unread", "<enter>0101tgrandmother"),
        ("what-if", "<enter>0101w"),
        ("what-if-changed", "<enter>0101w<up><right>"),
        ("show", "<enter>jhow is the line<enter>p"),
        ("words", "<enter>01g"),
        ("words-found", "<enter>01gflow"),
        ("find", "<enter>/"),
        ("find-found", "<enter>/br"),
        ("keep", "<enter>01k"),
        ("new-piece", "<enter>01n"),
        ("first-figure", "<enter>1"),
        (
            "notes-denied",
            "<enter>lflow blue about 1900, not crazed, light blue, dark blue, frumious",
        ),
    ];
    let expert = small();
    for (name, text) in screens {
        for (w, h) in SIZES {
            let (_, buffer) = after(expert.clone(), text, (w, h));
            insta::assert_snapshot!(format!("{name}-{w}x{h}"), styled(&buffer));
        }
    }
}

/// The tables of registrations belong to the shipped rules.
#[test]
fn the_diamond_looks_as_it_should() {
    let screens = [
        ("diamond", ""),
        ("diamond-read", "a<right>12<down>3<left>w"),
        ("diamond-second", "<right>s<down>w"),
        ("diamond-impossible", "31<tab>s<tab>d,2"),
    ];
    let expert = expert();
    for (name, typed) in screens {
        for (w, h) in SIZES {
            let (_, buffer) = after(expert.clone(), &format!("<enter>m<tab>{typed}"), (w, h));
            insta::assert_snapshot!(format!("{name}-{w}x{h}"), styled(&buffer));
        }
    }
}

/// Without colours nothing may be lost: the text is the same, and no cell has a colour.
#[test]
fn the_screens_say_the_same_without_colour() {
    let expert = small();
    for keys_pressed in [
        "<enter>",
        "<enter>0101s",
        "<enter>0101v",
        "<enter>j",
        "<enter>?",
        "<enter>010101t1990s",
        "<enter>0101w<up><right>",
        "<enter>m<tab>a,12",
        "<enter>g",
    ] {
        let (_, coloured) = after(expert.clone(), keys_pressed, (80, 24));
        let (_, mono) = played(
            App::new(expert.clone(), Theme::mono()),
            keys_pressed,
            (80, 24),
        );
        assert_eq!(text(&coloured), text(&mono), "{keys_pressed}");
        for cell in &mono.content {
            assert_eq!((cell.fg, cell.bg), (Color::Reset, Color::Reset));
        }
    }
}

/// Functions of a file that draw, as their text: those that are given a canvas or a theme.
fn drawing(text: &str) -> impl Iterator<Item = &str> {
    let functions = text.split("\n    fn ").flat_map(|t| t.split("\nfn "));
    let functions = functions.flat_map(|t| t.split("\npub fn "));
    let head = |f: &str| f.split('{').next().unwrap_or("").to_owned();
    functions.filter(move |f| head(f).contains(": &mut Canvas") || head(f).contains(": Theme"))
}

/// What hears, decodes, judges or tries out: done when a key is pressed, never in a frame.
const WORK: [&str; 9] = [
    "reading::notes(",
    "reading::mark(",
    "reading::diamond(",
    " read(",
    " challenge(",
    "prospects(",
    "WhatIf::new(",
    "changed(",
    "posterior(",
];

#[test]
fn no_drawing_hears_decodes_or_judges() {
    let screens = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/screens");
    let mut drawn = 0;
    for folder in ["", "kit", "views", "popups", "popups/drill"] {
        for entry in fs::read_dir(screens.join(folder)).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                continue;
            }
            let text = fs::read_to_string(&path).unwrap();
            for function in drawing(&text) {
                drawn += 1;
                for work in WORK {
                    assert!(!function.contains(work), "{}: {work}", path.display());
                }
            }
        }
    }
    assert!(drawn > 30, "{drawn}");
    let one = "x\n    fn rows(&self, theme: Theme) {\n let r = reading::notes(e, t);\n    }\n";
    assert!(drawing(one).any(|f| f.contains(WORK[0])));
}

#[test]
fn every_window_size_renders() {
    let expert = small();
    for text in [
        "",
        "<enter>0101",
        "<enter>0101v",
        "<enter>j",
        "<enter>?",
        "<enter>h",
        "<enter>mEngland",
        "<enter>01q",
        "<enter>m<tab>a,12,3,w",
        "<enter>0101t1990s",
        "<enter>0101w<up><right>",
        "<enter>g",
    ] {
        let (app, _) = after(expert.clone(), text, (80, 24));
        for w in (0..=130).step_by(3) {
            for h in (0..=45).step_by(3) {
                let mut terminal = Terminal::new(TestBackend::new(w, h)).unwrap();
                terminal.draw(|frame| drop(app.draw(frame))).unwrap();
            }
        }
    }
}

#[test]
fn a_small_window_says_how_much_it_needs() {
    let (_, buffer) = after(small(), "", (30, 10));
    let text: String = buffer.content.iter().map(|c| c.symbol()).collect();
    assert!(text.contains("44") && text.contains("14"), "{text}");
}

#[test]
fn shipped_rules_fit_every_screen() {
    let expert = expert();
    for size in SIZES {
        for text in [
            "",
            "1<enter>",
            "1<enter>0101",
            "1<enter>0101v",
            "1<enter>j",
            "1<enter>?",
            "1<enter>lwillow<enter>",
        ] {
            after(expert.clone(), text, size);
        }
    }
}

#[test]
fn a_click_chooses_what_is_under_it() {
    let (mut app, _) = after(small(), "<enter>", (80, 24));
    let (_, shown) = frame(&app, (80, 24));
    let area = shown.area_of(Msg::Choose(1)).unwrap();
    let clue = app.clue().unwrap();
    app.drawn(shown);
    app.handle(Input::Click {
        x: area.x + 2,
        y: area.y,
    });
    let entry = app.piece().evidence().of(clue).unwrap();
    assert_eq!(
        entry.seen,
        printseam::internals::core::observation::Observed::Finding(
            printseam::internals::core::grid::FindingId(1)
        )
    );
}

#[test]
fn undo_gives_back_the_same_screen() {
    let expert = small();
    let (_, before) = after(expert.clone(), "<enter>01", (80, 24));
    let (_, back) = after(expert, "<enter>0101u", (80, 24));
    assert_eq!(styled(&before), styled(&back));
    // Also at a clue gone to by hand, at the cursor and sureness it was answered with.
    let there = "<enter>jmulberry<enter>s<down><down>";
    let (_, before) = after(small(), there, (80, 24));
    let (_, back) = after(small(), &format!("{there}<enter>u"), (80, 24));
    assert_eq!(styled(&before), styled(&back));
}

#[test]
fn the_screens_give_the_same_verdict_as_the_case() {
    let expert = expert();
    let (app, _) = after(
        expert.clone(),
        "1<enter>ldark blue, scalloped, no mark<enter>",
        (80, 24),
    );
    let heard =
        printseam::internals::piece::reading::notes(&expert, "dark blue, scalloped, no mark");
    let heard = heard.heard.into_iter().map(|h| h.observation);
    let case = printseam::internals::piece::Piece::new(expert, SettingId(0), heard.collect());
    assert_eq!(app.piece().judgement().kinds, case.judgement().kinds);
    assert_eq!(app.piece().judgement().band(), case.judgement().band());
}

#[test]
fn a_mark_typed_moves_the_band() {
    let (before, _) = after(expert(), "2<enter>", (80, 24));
    let (app, _) = after(expert(), "2<enter>mRd No 61234<enter>", (80, 24));
    assert!(app.piece().judgement().band().width() < before.piece().judgement().band().width() / 2);
    assert!(app.piece().judgement().band().from.0 >= 1885);
}

#[test]
fn leaving_asks_when_findings_would_be_lost() {
    let (app, _) = after(small(), "<enter>q", (80, 24));
    assert!(app.done);
    let (app, _) = after(small(), "<enter>01q", (80, 24));
    assert!(!app.done && title(&app) == Some("Leave"));
    let (app, _) = after(small(), "<enter>01qy", (80, 24));
    assert!(app.done);
    let (app, _) = after(small(), "<enter>01<c-c>", (80, 24));
    assert!(app.done);
    let (app, _) = after(small(), "<enter>01v", (80, 24));
    assert_eq!(app.screen(), Screen::Verdict);
}
