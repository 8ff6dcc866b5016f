//! The keys of the screen below, then what the signs mean.

use ratatui::layout::Rect;

use super::popup::{Effect, Opening, Popup};
use crate::screens::kit::canvas::{Canvas, text_cells};
use crate::screens::kit::rows::{Row, item, paragraph};
use crate::screens::kit::theme::Theme;
use crate::screens::state::keys::usual::{CLOSE, DOWN, PAGE_DOWN, PAGE_UP, UP};
use crate::screens::state::keys::{Binding, KeyTable};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::Order;
use crate::screens::state::position::step_rows;
use crate::screens::state::session::Session;

const SIGNS: [(&str, &str); 6] = [
    (
        "● ",
        "the middle year: half of the chance lies on either side",
    ),
    (
        "├ ┤ ",
        "the shortest run of years that holds 80 % of the chance",
    ),
    ("╞ ╡ ", "the years of a ticket"),
    ("░▒▓ ", "when a finding is seen: the darker, the more often"),
    ("✓ ", "what you have said"),
    (
        "underlined ",
        "a trade word: tap it, or press g, to have it explained",
    ),
];

pub const OPENING: Opening = Opening {
    order: Order::opening('h', "Show all keys and what the words mean.", |_| {
        Some("all keys")
    }),
    open: |_, below| {
        Effect::open(Help {
            numbers: below.items > 0,
            keys: below.bindings.clone(),
            scroll: 0,
        })
    },
};

/// The keys of the screen below.
#[derive(Debug)]
pub struct Help {
    /// There is a list to choose from by numbers.
    numbers: bool,
    keys: Vec<Binding>,
    scroll: usize,
}

impl Help {
    fn rows(&self, theme: Theme, cells: usize) -> Vec<Row> {
        let mut out = Vec::new();
        if self.numbers {
            let choose = "Choose by number. From ten on, a figure that begins a longer number \
                waits for a second one, or for Enter.";
            out.extend(item("1, 2 …  ", choose, cells, theme.instruction));
        }
        // Those that always work come after those that belong to the screen.
        let (footer, others): (Vec<_>, Vec<_>) = self.keys.iter().partition(|b| !b.hidden);
        for binding in footer.into_iter().chain(others) {
            let key = format!("{:<8}", binding.key.shown());
            let rows = item(&key, binding.help, cells, theme.instruction).into_iter();
            out.extend(rows.map(|row| row.click(binding.msg)));
        }
        out.push(Row::blank());
        let tap = "All of it can also be tapped or clicked.";
        out.extend(paragraph(tap, cells, theme.instruction));
        out.push(Row::blank());
        for (sign, meaning) in SIGNS {
            out.extend(item(sign, meaning, cells, theme.instruction));
        }
        out
    }
}

impl Popup for Help {
    fn title(&self) -> &'static str {
        "Keys"
    }

    fn keys(&self, _: &Session) -> KeyTable {
        KeyTable::new(vec![UP, DOWN, PAGE_UP, PAGE_DOWN, CLOSE])
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        match msg {
            Msg::Close | Msg::Nothing => Effect::Pass,
            // The cursor below is out of sight: nothing is chosen or erased unseen.
            Msg::Take | Msg::Erase => Effect::Stay,
            _ if step_rows(&mut self.scroll, msg, session.shown()) => Effect::Stay,
            // A key of the screen that was tapped in the list.
            _ => Effect::Below(msg),
        }
    }

    fn draw(&self, _: &Session, canvas: &mut Canvas, inside: Rect) {
        let rows = self.rows(canvas.theme, text_cells(inside));
        canvas.scrolled(inside, &rows, self.scroll);
    }
}
