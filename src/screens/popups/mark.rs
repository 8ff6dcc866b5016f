//! What stands on the back, typed and turned into findings, each shown for a yes.

use ratatui::layout::Rect;

use super::diamond::Diamond;
use super::popup::{Effect, Opening, Popup};
use crate::piece::reading::{self, MarkHeard};
use crate::piece::typed_mark::unread;
use crate::screens::kit::canvas::{Canvas, text_cells};
use crate::screens::kit::rows::{Row, paragraph};
use crate::screens::kit::theme::Theme;
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{
    CLOSE, DOWN, ERASE, PAGE_DOWN, PAGE_UP, RIGHT, UP, enter,
};
use crate::screens::state::keys::{Binding, KeyTable, Writes};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::Order;
use crate::screens::state::place::Screen;
use crate::screens::state::position::step_rows;
use crate::screens::state::session::Session;
use crate::screens::state::typed_line::TypedLine;
use crate::screens::views::decoded_mark;

pub const OPENING: Opening = Opening {
    order: Order::opening('m', "Type what can be read on the back.", |session| {
        (session.screen() == Screen::Look).then_some("mark")
    }),
    open: |session, _| Effect::open(Mark::new(session)),
};

const TITLE: &str = "Read the back";

const DIAMOND: Binding = Binding::new(
    Key::Tab,
    Msg::Next,
    "diamond",
    "Type into a registration diamond.",
);

/// The mark as typed, and what it says.
#[derive(Debug)]
pub struct Mark {
    line: TypedLine,
    /// Nothing else stands there, so words that are not there speak too.
    whole: bool,
    reading: MarkHeard,
    scroll: usize,
}

impl Mark {
    /// With the line that was typed before, if one was.
    fn new(session: &Session) -> Mark {
        let typed = session.unfinished(TITLE);
        Mark {
            line: TypedLine::from(typed),
            whole: false,
            reading: reading::mark(session.expert(), typed, false),
            scroll: 0,
        }
    }

    fn hear(&mut self, session: &Session) {
        self.reading = reading::mark(session.expert(), self.line.text(), self.whole);
    }

    fn rows(&self, session: &Session, theme: Theme, cells: usize) -> Vec<Row> {
        let hint = "Type what can be read: ? for a letter you can't read, / for a new line. Enter on an empty line: can't be read. Esc: ask me word by word. Tab opens a registration diamond to type into.";
        let mut out = paragraph(hint, cells, theme.instruction);
        let typed = format!("{}_", self.line.text());
        out.extend(paragraph(&typed, cells, theme.chosen));
        let more = match self.whole {
            true => {
                "Nothing else stands there: words that are missing speak too. (→ takes it back)"
            }
            false => "There may be more that can't be read. (→ if nothing else stands there)",
        };
        let more = paragraph(more, cells, theme.instruction).into_iter();
        out.extend(more.map(|row| row.click(Msg::Right)));
        let decoded = decoded_mark::rows(session.expert(), &self.reading, theme, cells);
        out.extend(decoded);
        out
    }
}

impl Popup for Mark {
    fn title(&self) -> &'static str {
        TITLE
    }

    fn keys(&self, _: &Session) -> KeyTable {
        let take = enter("take", "Take these findings.");
        let whole = RIGHT.labelled("whole or not");
        let moves = [UP, DOWN, PAGE_UP, PAGE_DOWN];
        let keys = [take, DIAMOND, whole, ERASE].into_iter().chain(moves);
        KeyTable::new(keys.chain([CLOSE]).collect()).writing(Writes::Text)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        match msg {
            // There are words, and they can't be read.
            Msg::Take if self.line.text().trim().is_empty() && !self.whole => {
                let piece = session.piece();
                let unread = unread(piece.expert(), piece.evidence());
                return match unread.is_empty() {
                    true => Effect::Below(Msg::Nothing),
                    false => Effect::Take(unread),
                };
            }
            Msg::Take => return Effect::Take(self.reading.entries.clone()),
            Msg::Next => return Effect::open(Diamond::default()),
            Msg::Right => {
                self.whole = !self.whole;
                self.hear(session);
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
        self.hear(session);
        self.scroll = 0;
    }

    fn unfinished(&self) -> Option<&str> {
        Some(self.line.text())
    }

    fn draw(&self, session: &Session, canvas: &mut Canvas, inside: Rect) {
        let rows = self.rows(session, canvas.theme, text_cells(inside));
        canvas.scrolled(inside, &rows, self.scroll);
    }
}
