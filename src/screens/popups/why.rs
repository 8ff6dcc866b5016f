//! Why this question: what it tells, what it is worth, and where each finding would lead.

use ratatui::layout::Rect;

use super::popup::{Effect, Opening, Popup};
use super::words;
use crate::core::grid::ClueId;
use crate::piece::prospect::{Prospect, prospects};
use crate::say::{look, names, origin};
use crate::screens::kit::canvas::{Canvas, text_cells};
use crate::screens::kit::rows::{Row, item, paragraph, prose};
use crate::screens::kit::theme::Theme;
use crate::screens::state::keys::KeyTable;
use crate::screens::state::keys::usual::{CLOSE, DOWN, PAGE_DOWN, PAGE_UP, UP};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::{Order, asked};
use crate::screens::state::position::step_rows;
use crate::screens::state::session::Session;

/// Findings whose outlook is shown.
const PROSPECTS: usize = 8;

/// Other looks shown.
const OTHERS: usize = 5;

pub const OPENING: Opening = Opening {
    order: Order::opening(
        '?',
        "Why this question, and what it would tell.",
        |session| asked(session).map(|_| "why"),
    ),
    open: |session, _| match asked(session) {
        Some(clue) => Effect::open(Why::new(session, clue)),
        None => Effect::Stay,
    },
};

/// The question, and what each finding would lead to.
#[derive(Debug)]
pub struct Why {
    clue: ClueId,
    /// The likeliest first; none of a year.
    prospects: Vec<Prospect>,
    scroll: usize,
}

impl Why {
    fn new(session: &Session, clue: ClueId) -> Why {
        let piece = session.piece();
        // The looks are read when this is drawn.
        piece.advice();
        let dated = session.expert().base.clue(clue).dated.is_some();
        Why {
            clue,
            prospects: match dated {
                true => Vec::new(),
                false => prospects(piece, clue),
            },
            scroll: 0,
        }
    }

    fn rows(&self, session: &Session, theme: Theme, cells: usize) -> Vec<Row> {
        let (expert, clue) = (session.expert(), self.clue);
        let looks = &session.piece().advice().looks;
        let rules = expert.base.clue(clue);
        let mut out = prose(&rules.question, cells, theme.heading);
        out.extend(prose(&rules.look, cells, theme.instruction));
        out.push(Row::blank());
        out.extend(prose(&rules.tells, cells, theme.instruction));
        out.extend(prose(&names::capital(&rules.because), cells, theme.quiet));
        let sources = origin::sources(expert, &rules.sources);
        out.extend(item("Source: ", &sources, cells, theme.quiet));
        if let Some(look) = looks.iter().find(|l| l.clue == clue) {
            out.push(Row::blank());
            out.extend(paragraph(&look::worth(look), cells, theme.quiet));
        }
        if !self.prospects.is_empty() {
            out.push(Row::blank());
            out.push(Row::new("Where each finding would lead", theme.heading));
        }
        for prospect in self.prospects.iter().take(PROSPECTS) {
            let text = look::prospect(expert, clue, prospect);
            out.extend(item("· ", &text, cells, theme.quiet));
        }
        out.push(Row::blank());
        out.push(Row::new("Other looks", theme.heading));
        for look in looks.iter().filter(|l| l.clue != clue).take(OTHERS) {
            let text = look::other(expert, look);
            out.extend(item("· ", &text, cells, theme.quiet));
        }
        out
    }
}

impl Popup for Why {
    fn title(&self) -> &'static str {
        "Why this question"
    }

    fn keys(&self, session: &Session) -> KeyTable {
        let mut keys = vec![UP, DOWN, PAGE_UP, PAGE_DOWN];
        keys.extend(words::OPENING.order.binding(session));
        keys.push(CLOSE);
        KeyTable::new(keys)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        Effect::used(step_rows(&mut self.scroll, msg, session.shown()))
    }

    fn draw(&self, session: &Session, canvas: &mut Canvas, inside: Rect) {
        let rows = self.rows(session, canvas.theme, text_cells(inside));
        canvas.scrolled(inside, &rows, self.scroll);
    }
}
