//! A last question before findings are lost or put away.

use ratatui::layout::Rect;

use super::popup::{Effect, Opening, Popup};
use crate::screens::kit::canvas::Canvas;
use crate::screens::kit::rows::paragraph;
use crate::screens::state::input::Key;
use crate::screens::state::keys::{Binding, KeyTable};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::{Order, worth_weighing};
use crate::screens::state::session::Session;

/// Rows of the frame.
const ROWS: u16 = 6;

pub const LEAVE: Opening = Opening {
    order: Order::opening(
        'q',
        "Leave; asks first when findings would be lost.",
        |_| Some("quit"),
    ),
    open: |session, _| match session.piece().evidence().is_empty() {
        true => Effect::Leave,
        false => Effect::open(AskFirst {
            title: "Leave",
            question: "Leave? The findings of this piece are not kept, unless you keep them in a \
                file first.",
            yes: "yes, leave",
            then: Msg::Leave,
        }),
    },
};

pub const NEW_PIECE: Opening = Opening {
    order: Order::opening(
        'n',
        "Begin a new piece in the same setting; asks first.",
        |session| worth_weighing(session).then_some("new piece"),
    ),
    open: |session, _| match session.piece().evidence().is_empty() {
        true => Effect::Below(Msg::NewPiece),
        false => Effect::open(AskFirst {
            title: "A new piece",
            question: "Begin a new piece? The findings of this one are put away; undo brings them \
                back until you leave.",
            yes: "yes, a new piece",
            then: Msg::NewPiece,
        }),
    },
};

/// The question, and what is done on a yes.
#[derive(Debug)]
pub struct AskFirst {
    title: &'static str,
    question: &'static str,
    yes: &'static str,
    then: Msg,
}

impl Popup for AskFirst {
    fn title(&self) -> &'static str {
        self.title
    }

    fn keys(&self, _: &Session) -> KeyTable {
        KeyTable::new(vec![
            Binding::new(Key::Char('y'), self.then, self.yes, "Do it."),
            Binding::new(Key::Esc, Msg::Close, "no, stay", "Stay."),
            Binding::new(
                Key::Char('k'),
                Msg::Open('k'),
                "keep it in a file",
                "Keep the piece in a file first.",
            ),
        ])
    }

    fn update(&mut self, msg: Msg, _: &Session) -> Effect {
        match msg {
            Msg::NewPiece | Msg::Open(_) => Effect::Below(msg),
            _ => Effect::Pass,
        }
    }

    fn draw(&self, _: &Session, canvas: &mut Canvas, inside: Rect) {
        let cells = usize::from(inside.width);
        let rows = paragraph(self.question, cells, canvas.theme.heading);
        canvas.rows(inside, &rows);
    }

    fn height(&self) -> Option<u16> {
        Some(ROWS)
    }
}
