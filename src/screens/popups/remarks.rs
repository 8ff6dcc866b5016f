//! What has to be said of something before it is looked at: what a file was understood to say.

use ratatui::layout::Rect;

use super::popup::{Effect, Popup};
use crate::screens::kit::canvas::{Canvas, text_cells};
use crate::screens::kit::rows::{Row, item};
use crate::screens::state::keys::KeyTable;
use crate::screens::state::keys::usual::{CLOSE, DOWN, PAGE_DOWN, PAGE_UP, UP};
use crate::screens::state::msg::Msg;
use crate::screens::state::position::step_rows;
use crate::screens::state::session::Session;

/// Sentences to be read.
#[derive(Debug)]
pub struct Remarks {
    sentences: Vec<String>,
    scroll: usize,
}

impl Remarks {
    /// What a file was understood to say.
    pub(crate) fn of_file(sentences: Vec<String>) -> Remarks {
        Remarks {
            sentences,
            scroll: 0,
        }
    }
}

impl Popup for Remarks {
    fn title(&self) -> &'static str {
        "What the file says"
    }

    fn keys(&self, _: &Session) -> KeyTable {
        KeyTable::new(vec![UP, DOWN, PAGE_UP, PAGE_DOWN, CLOSE])
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        Effect::used(step_rows(&mut self.scroll, msg, session.shown()))
    }

    fn draw(&self, _: &Session, canvas: &mut Canvas, inside: Rect) {
        let cells = text_cells(inside);
        let sentences = self.sentences.iter();
        let rows: Vec<Row> = sentences
            .flat_map(|s| item("· ", s, cells, canvas.theme.instruction))
            .collect();
        canvas.scrolled(inside, &rows, self.scroll);
    }
}
