//! A walk through the program for somebody who has not installed it: `demo/walk.cast`, to be played like a film, and
//! `demo/walk.md`, to be read. Both are made here, of the real screens, and must be what the screens are now;
//! `README_SCREENS=overwrite cargo test --test it recorded_walk` makes them anew.
//!
//! The film is asciicast, version 2: a line of JSON that names the size, then a line `[seconds, "o", "text"]` for what a
//! terminal is sent. Nothing is timed by a clock: a pause follows from how much there is to read. Below the screen stand
//! two rows more, what is done and the keys, which nobody who only looks on could see else.

use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use crossterm::style::force_color_output;
use printseam::internals::screens::app::App;
use printseam::internals::screens::kit::theme::Theme;
use printseam::internals::screens::state::input::{Key, keys};
use printseam::internals::screens::state::keys::Writes;
use printseam::internals::stock::memory::Memory;
use ratatui::backend::{Backend, CrosstermBackend};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::{Modifier, Style};
use serde_json::Value;

use crate::readme_screens::{held_or_put, trimmed};
use crate::screens::drawn;
use crate::shipped::expert;
use crate::stock_screens::{at_hand, deliver};

/// The window of the program, and that of the film, which has two rows more.
const SCREEN: (u16, u16) = (80, 24);
const FILM: Rect = Rect::new(0, 0, 80, 26);

/// Pauses in milliseconds (chosen by eye, no source): between two letters of a line, before and after any other key,
/// how much longer for each cell that changed, and at most; for the words below the screen; at the end of a step.
const LETTER: u32 = 90;
const KEY: u32 = 1000;
const CELL: u32 = 1;
const LONGEST: u32 = 2500;
const CAPTION: u32 = 1800;
const LOOK_ON: u32 = 1500;

/// A blue plate on a thrift shelf; all of it is invented, the name in its mark too. Two lines a step: what is done and
/// why, then the keys, with a star where the page shows the screen that they lead to.
const WALK: &str = "\
A blue plate on a thrift shelf: Enter, and begin
  <enter>
First glance: the glaze has a brown crackle, so tick 15
* 15
Go on to the questions, the most telling look first
  <enter>
The print is blue; there are more than nine colours, so Enter ends the number
  1<enter>
Its edge is crisp: nothing runs into the white
  1
The picture is a lake with a ruin and figures: old, or made to look old?
* 6
The white looks bluish beside a sheet of paper: that speaks for old
  3
A picture in the middle and a border round it
  1
There is a mark, printed under the glaze: it can be typed at once
  3
Type what can be read; a name that nobody knows does no harm
* Harrow Lake / stone china
Take it: enough has been seen, no look left is worth its time
  <enter>
The verdict: what it is, when it was made, and how sure that is
* <enter>
Further down: how uncommon it is, and what the verdict rests on
* <pgdn><pgdn><up>
Before the price, what only the price depends on, as a line of notes
* <esc>ldinner plate, no chips, no cracks, no hairline
11 are asked: one look first, for it may change what to pay
  <enter>vb11<enter>
Faint ripples, as turned by hand: the price stands, and more may now be paid
* <enter>1vb
7 is offered and taken: that leaves the margin, and no look is worth its time
* <bs><bs>7<enter>
Into the stock book, which keeps what was seen and what was paid
* <esc>+7<enter>o
";

struct Step {
    what: &'static str,
    keys: &'static str,
    shown: bool,
}

fn walk() -> Vec<Step> {
    let lines: Vec<&str> = WALK.lines().collect();
    let step = |pair: &[&'static str]| Step {
        what: pair[0],
        keys: &pair[1][2..],
        shown: pair[1].starts_with('*'),
    };
    lines.chunks(2).map(step).collect()
}

const INTRODUCTION: &str = "\
# A walk along the shelf (invented)

All of this is invented: the plate, its mark, what is asked and what is paid. The screens are what the program
really shows, at 80 by 24. The same walk can be played as a film: `walk.cast` is an asciicast file (version 2), which any
player of such files shows in a terminal or on a page. Nothing was recorded by hand: a test plays the keys on the
program, and `README_SCREENS=overwrite cargo test --test it recorded_walk` makes both files anew.
";

/// Both files while the walk is played.
struct Recording {
    cast: String,
    page: String,
    /// What the film shows now.
    film: Buffer,
    /// When the next thing happens, in milliseconds from the beginning.
    at: u32,
}

impl Recording {
    fn new() -> Recording {
        let header = serde_json::json!({
            "version": 2,
            "width": FILM.width,
            "height": FILM.height,
            "title": "printseam: a walk along the shelf (invented)",
        });
        let mut new = Recording {
            cast: format!("{header}\n"),
            page: INTRODUCTION.to_owned(),
            film: Buffer::empty(FILM),
            at: 0,
        };
        // The window cleared, and no cursor: the screens draw their own.
        new.send("\u{1b}[2J\u{1b}[?25l");
        new
    }

    /// Something a terminal is sent now.
    fn send(&mut self, text: &str) {
        let (seconds, text) = (self.at as f64 / 1000.0, Value::from(text));
        self.cast += &format!("[{seconds:.3},\"o\",{text}]\n");
    }

    /// A frame with the words below it, as far as it differs from the last one; gives how many cells do.
    fn frame(&mut self, screen: &Buffer, what: &str, keys: &str) -> u32 {
        let mut now = Buffer::empty(FILM);
        now.content[..screen.content.len()].clone_from_slice(&screen.content);
        let style = Style::new().add_modifier(Modifier::REVERSED);
        let width = usize::from(FILM.width);
        for (row, line) in [(SCREEN.1, what), (SCREEN.1 + 1, keys)] {
            now.set_string(0, row, format!("{line:width$}"), style);
        }
        let changed = self.film.diff(&now);
        let (cells, mut sent) = (changed.len() as u32, Vec::new());
        let mut terminal = CrosstermBackend::new(&mut sent);
        terminal.draw(changed.into_iter()).unwrap();
        self.send(&String::from_utf8(sent).unwrap());
        self.film = now;
        cells
    }

    /// The step as the page tells it.
    fn tell(&mut self, step: &Step, number: usize, pressed: &str, screen: &Buffer) {
        self.page += &format!("\n## {number}. {}\n\nKeys: `{pressed}`\n", step.what);
        if step.shown {
            self.page += &format!("\n```text\n{}```\n", trimmed(screen));
        }
    }
}

/// How a key is written after those before it: letters of a line run on, other keys stand apart.
fn written(pressed: &mut String, key: Key, in_line: bool) {
    if let (Key::Char(c), true) = (key, in_line) {
        return pressed.push(c);
    }
    if !pressed.is_empty() {
        pressed.push(' ');
    }
    *pressed += &key.shown();
}

/// Both, made once for all tests.
static RECORDED: LazyLock<(String, String)> = LazyLock::new(recorded);

/// Plays the walk, and gives the film and the page.
fn recorded() -> (String, String) {
    // Whatever the environment says of colours, the film has them.
    force_color_output(true);
    let mut app = App::new(expert(), Theme::sixteen()).with_stock(at_hand());
    let (mut book, mut take) = (Memory::new(), Recording::new());
    let mut screen = drawn(&mut app, SCREEN);
    for (at, step) in walk().iter().enumerate() {
        let mut pressed = String::new();
        take.frame(&screen, step.what, "Keys:");
        take.at += CAPTION;
        let mut line_begun = false;
        for key in keys(step.keys).unwrap() {
            let letter = app.keys().writes == Writes::Text && matches!(key, Key::Char(_));
            written(&mut pressed, key, letter && line_begun);
            line_begun = letter;
            app.press(key);
            deliver(&mut app, &mut book);
            screen = drawn(&mut app, SCREEN);
            let cells = take.frame(&screen, step.what, &format!("Keys: {pressed}"));
            take.at += match letter {
                true => LETTER,
                false => (KEY + CELL * cells).min(LONGEST),
            };
        }
        take.tell(step, at + 1, &pressed, &screen);
        take.at += LOOK_ON;
    }
    // The last frame stands a while; then the cursor comes back.
    take.at += LONGEST;
    take.send("\u{1b}[?25h");
    (take.cast, take.page)
}

fn demo(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("demo")
        .join(name)
}

#[test]
fn the_recorded_walk_is_what_the_screens_are() {
    let (cast, page) = &*RECORDED;
    assert!(cast.len() < 150_000, "{} bytes", cast.len());
    held_or_put(&demo("walk.cast"), cast);
    held_or_put(&demo("walk.md"), page);
}

/// What a player needs: the header, then events in order, none of which waits long.
#[test]
fn the_recorded_walk_is_asciicast() {
    let (cast, _) = &*RECORDED;
    let mut lines = cast
        .lines()
        .map(|l| serde_json::from_str::<Value>(l).unwrap());
    let header = lines.next().unwrap();
    assert_eq!(header["version"], 2);
    let mut before = 0.0;
    for event in lines {
        let at = event[0].as_f64().unwrap();
        assert!(before <= at && at <= before + 7.0, "{before} {at}");
        assert!(event[1] == "o" && event[2].is_string(), "{event}");
        before = at;
    }
    assert!((60.0..180.0).contains(&before), "{before} seconds");
}

/// Every step has something to do and fits below the screen, and the visit ends with the plate in the book.
#[test]
fn the_recorded_walk_comes_to_its_end() {
    for step in walk() {
        assert!(
            step.what.len() <= 80 && !step.keys.is_empty(),
            "{}",
            step.what
        );
    }
    let (_, page) = &*RECORDED;
    for said in [
        "Blue print under the glaze",
        "Rarity",
        "Look again before you decide",
        "Buy it: 7.00 USD",
        "1 piece held",
    ] {
        assert!(page.contains(said), "{said}");
    }
}
