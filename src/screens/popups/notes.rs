//! A line of notes turned into findings, each shown for a yes: under each word what was heard in it,
//! or why it does not count.

use ratatui::layout::Rect;

use super::popup::{Effect, Opening, Popup};
use crate::piece::reading::{self, NotesHeard};
use crate::say::names::clue_name;
use crate::say::observation::seen;
use crate::say::taken;
use crate::screens::kit::canvas::{Canvas, text_cells};
use crate::screens::kit::rows::{Row, item, paragraph};
use crate::screens::kit::theme::Theme;
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{CLOSE, DOWN, ERASE, PAGE_DOWN, PAGE_UP, UP, enter};
use crate::screens::state::keys::{Binding, KeyTable, Writes};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::Order;
use crate::screens::state::place::Screen;
use crate::screens::state::position::step_rows;
use crate::screens::state::session::Session;
use crate::screens::state::typed_line::TypedLine;
use crate::screens::views::under_words::{self, Become, Word};

const TITLE: &str = "Say what you see";

/// From this width on what was heard stands under its words, else in a list.
const WIDE: u16 = 72;

pub const OPENING: Opening = Opening {
    order: Order::opening(
        'l',
        "Write what you see in trade words, on one line.",
        |session| match session.screen() {
            Screen::Welcome => Some("line of notes"),
            Screen::Look => Some("notes"),
            Screen::Verdict => None,
        },
    ),
    open: |session, _| Effect::open(Notes::new(session)),
};

const CLEAR: Binding = Binding::new(Key::Tab, Msg::Next, "clear", "Erase the whole line.");

/// The line, and what was understood of it.
#[derive(Debug)]
pub struct Notes {
    line: TypedLine,
    reading: NotesHeard,
    /// The words in their order, each with what became of it.
    words: Vec<Word>,
    scroll: usize,
}

impl Notes {
    /// With the line that was typed before, if one was.
    fn new(session: &Session) -> Notes {
        let mut notes = Notes {
            line: TypedLine::from(session.unfinished(TITLE)),
            reading: reading::notes(session.expert(), ""),
            words: Vec::new(),
            scroll: 0,
        };
        notes.read(session);
        notes
    }

    /// The line, what was understood of it, and what was not.
    fn rows(&self, session: &Session, theme: Theme, cells: usize, wide: bool) -> Vec<Row> {
        let mut out = Vec::new();
        if self.line.text().is_empty() {
            let hint = "One line in trade words, such as: dark blue willow, scalloped, no mark";
            out.extend(paragraph(hint, cells, theme.instruction));
        }
        let typed = format!("{}_", self.line.text());
        out.extend(paragraph(&typed, cells, theme.chosen));
        out.push(Row::blank());
        match wide {
            true => out.extend(under_words::blocks(&self.words, theme, cells)),
            false => out.extend(under_words::list(&self.words, theme, cells)),
        }
        let reasons = self.reasons(session);
        if !reasons.is_empty() {
            out.push(Row::blank());
        }
        let sentence = |s: &String| item("· ", s, cells, theme.instruction);
        out.extend(reasons.iter().flat_map(sentence));
        out
    }

    /// Why something heard does not count, and what the writer takes the piece to be.
    fn reasons(&self, session: &Session) -> Vec<String> {
        let (expert, reading) = (session.expert(), &self.reading);
        let lost = reading.overridden.iter();
        let mut out: Vec<String> = lost
            .map(|o| taken::overridden(expert, &o.lost.observation, &o.by.observation))
            .collect();
        out.extend(reading.not_counted.iter().map(taken::not_counted));
        out.extend(reading.opinion.as_ref().map(taken::opinion));
        for heard in reading.heard.iter().map(|h| &h.observation) {
            if let Some(old) = session.piece().evidence().of(heard.clue)
                && !old.says_as(heard)
            {
                let clue = clue_name(expert, heard.clue);
                let (old, new) = (seen(expert, old), seen(expert, heard));
                out.push(format!("Instead of {clue}: {old}, this says: {new}"));
            }
        }
        out
    }
}

/// The words of a reading, each with what became of it.
fn words(session: &Session, line: &str, reading: &NotesHeard) -> Vec<Word> {
    let expert = session.expert();
    let mut out: Vec<Word> = Vec::new();
    let mut add = |text: &str, became: Become, what: String| {
        let what = (became, what);
        match out.iter_mut().find(|w| w.text == text) {
            Some(word) => word.heard.push(what),
            None => out.push(Word {
                text: text.to_owned(),
                heard: vec![what],
            }),
        }
    };
    for heard in &reading.heard {
        let clue = clue_name(expert, heard.clue());
        let what = format!("{clue}: {}", seen(expert, &heard.observation));
        add(&heard.text, Become::Counted, what);
    }
    for lost in reading.overridden.iter().map(|o| &o.lost) {
        let clue = clue_name(expert, lost.clue());
        let what = format!("{clue}: {}, not counted", seen(expert, &lost.observation));
        add(&lost.text, Become::NotCounted, what);
    }
    for heard in &reading.not_counted {
        add(&heard.text, Become::NotCounted, "not counted".to_owned());
    }
    if let Some(opinion) = &reading.opinion {
        let what = "what you take it for".to_owned();
        add(&opinion.text, Become::NotCounted, what);
    }
    for unread in &reading.unread {
        add(
            &unread.text,
            Become::NotUnderstood,
            "not understood".to_owned(),
        );
    }
    under_words::in_order(out, line)
}

impl Popup for Notes {
    fn title(&self) -> &'static str {
        TITLE
    }

    fn keys(&self, _: &Session) -> KeyTable {
        let take = enter("take", "Take these findings.");
        KeyTable::new(vec![
            take, CLEAR, ERASE, UP, DOWN, PAGE_UP, PAGE_DOWN, CLOSE,
        ])
        .writing(Writes::Text)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        match msg {
            Msg::Take => {
                let observations = self.reading.heard.iter().map(|h| h.observation.clone());
                return Effect::Take(observations.collect());
            }
            Msg::Next => {
                self.line.clear();
                self.read(session);
            }
            _ if self.line.edit(msg) => self.read(session),
            _ => return Effect::used(step_rows(&mut self.scroll, msg, session.shown())),
        }
        Effect::Stay
    }

    fn line(&mut self) -> Option<&mut TypedLine> {
        Some(&mut self.line)
    }

    fn read(&mut self, session: &Session) {
        self.reading = reading::notes(session.expert(), self.line.text());
        self.words = words(session, self.line.text(), &self.reading);
        self.scroll = 0;
    }

    fn unfinished(&self) -> Option<&str> {
        Some(self.line.text())
    }

    fn draw(&self, session: &Session, canvas: &mut Canvas, inside: Rect) {
        let wide = inside.width >= WIDE;
        let rows = self.rows(session, canvas.theme, text_cells(inside), wide);
        canvas.scrolled(inside, &rows, self.scroll);
    }
}
