//! A line of notes turned into findings, each shown for a yes.

use ratatui::layout::Rect;

use super::popup::{Effect, Opening, Popup};
use crate::hearing::notes::Heard;
use crate::piece::reading::{self, NotesHeard};
use crate::say::names::clue_name;
use crate::say::observation::seen;
use crate::screens::kit::canvas::{Canvas, text_cells};
use crate::screens::kit::rows::{Row, item, paragraph};
use crate::screens::kit::theme::Theme;
use crate::screens::state::keys::usual::{CLOSE, DOWN, ERASE, PAGE_DOWN, PAGE_UP, UP, enter};
use crate::screens::state::keys::{KeyTable, Writes};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::Order;
use crate::screens::state::place::Screen;
use crate::screens::state::position::step_rows;
use crate::screens::state::session::Session;
use crate::screens::state::typed_line::TypedLine;

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

/// The line, and what was understood of it.
#[derive(Debug)]
pub struct Notes {
    line: TypedLine,
    reading: NotesHeard,
    scroll: usize,
}

impl Notes {
    fn new(session: &Session) -> Notes {
        Notes {
            line: TypedLine::default(),
            reading: reading::notes(session.expert(), ""),
            scroll: 0,
        }
    }

    /// The line, what was understood of it, and what was not.
    fn rows(&self, session: &Session, theme: Theme, cells: usize) -> Vec<Row> {
        let expert = session.expert();
        let hint = "One line in trade words, such as: dark blue willow, scalloped, no mark";
        let mut out = paragraph(hint, cells, theme.quiet);
        let typed = format!("{}_", self.line.text());
        out.extend(paragraph(&typed, cells, theme.chosen));
        for Heard {
            text: words,
            observation,
            ..
        } in &self.reading.heard
        {
            let name = clue_name(expert, observation.clue);
            let line = format!("{words}: {name}: {}", seen(expert, observation));
            out.extend(item("✓ ", &line, cells, theme.quiet));
        }
        for unread in &self.reading.unread {
            let line = format!("{} (not understood)", unread.text);
            out.extend(item("? ", &line, cells, theme.caution));
        }
        out
    }
}

impl Popup for Notes {
    fn title(&self) -> &'static str {
        "Say what you see"
    }

    fn keys(&self, _: &Session) -> KeyTable {
        let take = enter("take", "Take these findings.");
        KeyTable::new(vec![take, ERASE, UP, DOWN, PAGE_UP, PAGE_DOWN, CLOSE]).writing(Writes::Text)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        if msg == Msg::Take {
            let observations = self.reading.heard.iter().map(|h| h.observation.clone());
            return Effect::Take(observations.collect());
        }
        if self.line.edit(msg) {
            self.reading = reading::notes(session.expert(), self.line.text());
            self.scroll = 0;
            return Effect::Stay;
        }
        Effect::used(step_rows(&mut self.scroll, msg, session.shown()))
    }

    fn draw(&self, session: &Session, canvas: &mut Canvas, inside: Rect) {
        let rows = self.rows(session, canvas.theme, text_cells(inside));
        canvas.scrolled(inside, &rows, self.scroll);
    }
}
