//! First glance: what strikes the eye at arm's length, any number of ticks.

use ratatui::layout::Rect;

use super::popup::{Effect, Opening, Popup};
use crate::piece::glance;
use crate::screens::kit::canvas::{Canvas, above};
use crate::screens::kit::rows::paragraph;
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{CLOSE, DOWN, PAGE_DOWN, PAGE_UP, UP, enter};
use crate::screens::state::keys::{Binding, KeyTable};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::Order;
use crate::screens::state::place::Screen;
use crate::screens::state::position::step_item;
use crate::screens::state::session::Session;
use crate::screens::views::findings;

pub const OPENING: Opening = Opening {
    order: Order::opening('e', "Tick what strikes the eye.", |session| {
        let some = !session.expert().base.glance.is_empty();
        (some && session.screen() == Screen::Look).then_some("first glance")
    }),
    open: |session, _| Effect::open(Glance::new(session)),
};

const TICK: Binding = Binding::new(
    Key::Char(' '),
    Msg::Right,
    "tick",
    "Tick the line marked, or take the tick away.",
);

/// Rows from which the whole hint has room.
const ROOMY: u16 = 16;

/// What is ticked of the list.
#[derive(Debug)]
pub struct Glance {
    ticked: Vec<bool>,
    words: Vec<String>,
    cursor: usize,
    /// A figure was typed that may begin a longer number.
    begun: bool,
}

impl Glance {
    /// With ticks at what has been seen already.
    fn new(session: &Session) -> Glance {
        let base = &session.expert().base;
        Glance {
            ticked: glance::ticked(base, session.piece().evidence()),
            words: base.glance.iter().map(|line| line.words.clone()).collect(),
            cursor: 0,
            begun: false,
        }
    }

    /// A clue has one answer: a tick takes away those of the same clue.
    fn tick(&mut self, at: usize, session: &Session) {
        let lines = &session.expert().base.glance;
        let Some(line) = lines.get(at) else {
            return;
        };
        let tick = !self.ticked[at];
        for (other, ticked) in lines.iter().zip(&mut self.ticked) {
            *ticked &= other.clue != line.clue;
        }
        self.ticked[at] = tick;
        self.cursor = at;
    }
}

impl Popup for Glance {
    fn title(&self) -> &'static str {
        "First glance"
    }

    fn keys(&self, _: &Session) -> KeyTable {
        let go_on = enter("go on", "Take what is ticked, and go on to the questions.");
        let keys = vec![
            TICK,
            go_on,
            UP,
            DOWN,
            PAGE_UP,
            PAGE_DOWN,
            CLOSE.labelled("skip"),
        ];
        KeyTable::new(keys).choosing(self.words.len(), Msg::Choose)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        let begun = std::mem::take(&mut self.begun);
        match msg {
            // The figure may begin a longer number; Enter says that it does not.
            Msg::Cursor(at) => {
                self.cursor = at;
                self.begun = true;
            }
            Msg::Take if begun => self.tick(self.cursor, session),
            Msg::Take => {
                let (base, known) = (&session.expert().base, session.piece().evidence());
                let seen = glance::seen(base, &self.ticked, known);
                return match seen.is_empty() {
                    true => Effect::Below(Msg::Nothing),
                    false => Effect::Take(seen),
                };
            }
            Msg::Choose(at) => self.tick(at, session),
            Msg::Right => self.tick(self.cursor, session),
            // A list in pages is turned page by page.
            Msg::PageUp | Msg::PageDown => {
                let shown = session.shown();
                let page = match msg {
                    Msg::PageUp => shown.page_before,
                    _ => shown.page_after,
                };
                self.cursor = page.unwrap_or(self.cursor);
            }
            _ => return Effect::used(step_item(&mut self.cursor, msg, self.words.len())),
        }
        Effect::Stay
    }

    fn draw(&self, _: &Session, canvas: &mut Canvas, inside: Rect) {
        let hint = match inside.height < ROOMY {
            true => "At arm's length, front and back:",
            false => {
                "Hold the piece at arm's length, then turn it over once. Tick whatever you see, or nothing."
            }
        };
        let hint = paragraph(hint, usize::from(inside.width), canvas.theme.heading);
        let (top, rest) = above(inside, hint.len() as u16);
        canvas.rows(top, &hint);
        let ticked = |i: usize| self.ticked.get(i).copied().unwrap_or(false);
        findings::list(canvas, rest, &self.words, self.cursor, &ticked);
    }
}
