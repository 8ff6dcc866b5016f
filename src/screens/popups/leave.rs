//! A last question before findings are lost.

use ratatui::layout::Rect;

use super::popup::{Effect, Opening, Popup};
use crate::screens::kit::canvas::Canvas;
use crate::screens::kit::rows::paragraph;
use crate::screens::state::input::Key;
use crate::screens::state::keys::{Binding, KeyTable};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::Order;
use crate::screens::state::session::Session;

/// Rows of the frame.
const ROWS: u16 = 5;

pub const OPENING: Opening = Opening {
    order: Order::opening(
        'q',
        "Leave; asks first when findings would be lost.",
        |_| Some("quit"),
    ),
    open: |session, _| match session.piece().evidence().is_empty() {
        true => Effect::Leave,
        false => Effect::open(Leave),
    },
};

/// The question.
#[derive(Debug)]
pub struct Leave;

impl Popup for Leave {
    fn title(&self) -> &'static str {
        "Leave"
    }

    fn keys(&self, _: &Session) -> KeyTable {
        KeyTable::new(vec![
            Binding::new(Key::Char('y'), Msg::Leave, "yes, leave", "Leave."),
            Binding::new(Key::Char('n'), Msg::Close, "no, stay", "Stay."),
            Binding::hidden(Key::Char('q'), Msg::Leave),
            Binding::hidden(Key::Esc, Msg::Close),
        ])
    }

    fn update(&mut self, _: Msg, _: &Session) -> Effect {
        Effect::Pass
    }

    fn draw(&self, _: &Session, canvas: &mut Canvas, inside: Rect) {
        let text = "Leave? The findings of this piece are not kept.";
        let rows = paragraph(text, usize::from(inside.width), canvas.theme.heading);
        canvas.rows(inside, &rows);
    }

    fn height(&self) -> Option<u16> {
        Some(ROWS)
    }
}
