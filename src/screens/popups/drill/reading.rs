//! A text to be read: how a round went, what a guess was worth, how a learner stands.

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::part::{Part, Pupil, Step};
use crate::piece::Piece;
use crate::screens::kit::canvas::{Canvas, text_cells};
use crate::screens::kit::rows::{Row, item, paragraph};
use crate::screens::popups::popup::Effect;
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{CLOSE, DOWN, PAGE_DOWN, PAGE_UP, UP, enter};
use crate::screens::state::keys::{Binding, KeyTable};
use crate::screens::state::msg::Msg;
use crate::screens::state::position::{read_on, step_rows};
use crate::screens::state::session::Session;

/// Headings with their lines.
#[derive(Debug)]
pub(super) struct Reading {
    parts: Vec<(String, Vec<String>)>,
    /// A piece that can go on the table.
    piece: Option<Piece>,
    scroll: usize,
}

impl Reading {
    pub(super) fn new(parts: Vec<(String, Vec<String>)>) -> Reading {
        Reading {
            parts,
            piece: None,
            scroll: 0,
        }
    }

    /// One heading.
    pub(super) fn one(heading: &str, lines: Vec<String>) -> Reading {
        Reading::new(vec![(heading.to_owned(), lines)])
    }

    /// With a piece that can go on the table.
    pub(super) fn of_piece(self, piece: Piece) -> Reading {
        Reading {
            piece: Some(piece),
            ..self
        }
    }
}

impl Part for Reading {
    fn keys(&self, _: &Session) -> KeyTable {
        let mut keys = vec![enter("to the list", "Back to the list of all drills.")];
        if self.piece.is_some() {
            let help = "Put these findings on the table.";
            keys.push(Binding::new(Key::Char('t'), Msg::Start, "take up", help));
        }
        keys.extend([UP, DOWN, PAGE_UP, PAGE_DOWN].map(Binding::in_help));
        keys.push(CLOSE);
        KeyTable::new(keys)
    }

    fn update(&mut self, msg: Msg, _: &mut Pupil, session: &Session) -> Step {
        match msg {
            Msg::Take if read_on(&mut self.scroll, session.shown()) => Step::Stay,
            Msg::Take | Msg::Close => Step::Menu,
            Msg::Start => match self.piece.take() {
                Some(piece) => Step::Effect(Effect::TakeUp(piece)),
                None => Step::Stay,
            },
            _ => Step::used(step_rows(&mut self.scroll, msg, session.shown())),
        }
    }

    fn draw(&self, _: &Pupil, canvas: &mut Canvas, area: Rect) {
        let (theme, cells) = (canvas.theme, text_cells(area));
        let mut rows = Vec::new();
        for (heading, lines) in &self.parts {
            if !rows.is_empty() {
                rows.push(Row::blank());
            }
            rows.extend(paragraph(heading, cells, theme.heading));
            for line in lines {
                let line = item("", line, cells, Style::new());
                rows.extend(line.into_iter().map(Row::prose));
            }
        }
        canvas.scrolled(area, &rows, self.scroll);
    }
}
