//! What is asked for the piece, put against what it may bring: buy, offer less, leave, look again.
//!
//! Rests on the usual terms and the starting guesses; the command `shelf` reads the user's own terms.

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::popup::{Effect, Opening, Popup};
use crate::buy::{Advice, Money, PriceModel, ShelfAnswer, Terms, shelf};
use crate::piece::Piece;
use crate::registry::calendar::Date;
use crate::say::shelf as words;
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
        'b',
        "Type what is asked for it: buy, offer less, leave, or look again.",
        |session| {
            let priced = session.expert().base.prices.is_some();
            (priced && session.screen() == Screen::Verdict).then_some("buy?")
        },
    ),
    open: |_, _| Effect::open(Shelf::default()),
};

/// What is asked, and the advice on it.
#[derive(Debug, Default)]
pub struct Shelf {
    line: TypedLine,
    /// Of the line as it stands; `None` until it is weighed.
    answer: Option<Result<ShelfAnswer, String>>,
    scroll: usize,
}

impl Shelf {
    /// The advice: `None` until a price is weighed; an error says what can be read.
    pub fn answer(&self) -> Option<&Result<ShelfAnswer, String>> {
        self.answer.as_ref()
    }

    fn rows(&self, session: &Session, theme: Theme, cells: usize) -> Vec<Row> {
        let answer = match &self.answer {
            None => {
                let hint = "Type what is asked, such as 12 or 12.50, and press enter.";
                return paragraph(hint, cells, theme.quiet);
            }
            Some(Err(problem)) => return paragraph(problem, cells, theme.quiet),
            Some(Ok(answer)) => answer,
        };
        let expert = session.expert();
        let style = match answer.advice {
            Advice::Buy | Advice::Offer => theme.band,
            Advice::Leave | Advice::LookAgain => theme.caution,
        };
        let mut out = paragraph(&words::advice(expert, answer), cells, style);
        out.push(Row::blank());
        for channel in &answer.channels {
            out.extend(paragraph(&words::channel(channel), cells, Style::new()));
        }
        out.push(Row::blank());
        for line in words::reasons(expert, answer) {
            let rows = item("· ", &line, cells, Style::new());
            out.extend(rows.into_iter().map(Row::prose));
        }
        out.extend(paragraph(words::GUIDANCE, cells, theme.quiet));
        out
    }
}

/// Weighs the piece against a price as it was typed.
fn weigh(piece: &Piece, text: &str) -> Result<ShelfAnswer, String> {
    let Some(guesses) = &piece.expert().base.prices else {
        return Err("These rules hold no prices.".to_owned());
    };
    let terms = Terms::usual(guesses, None);
    let asking = Money::read(text, terms.currency)?;
    // No sales are handed in, so that today's date plays no part.
    let today = Date::last_of(piece.expert().engine.model.grid.last().0);
    let model = PriceModel::new(guesses, &terms, &[], today);
    let answer = shelf(piece, guesses, &terms, &model, asking);
    answer.ok_or_else(|| "These rules name no place to sell.".to_owned())
}

impl Popup for Shelf {
    fn title(&self) -> &'static str {
        "Buy it?"
    }

    fn keys(&self, _: &Session) -> KeyTable {
        let found = self.answer.as_ref().and_then(|a| a.as_ref().ok());
        let key = match found.and_then(|a| a.look) {
            Some(_) => enter("look", "Make the look that is worth its time."),
            None => enter("weigh", "Weigh the piece against this price."),
        };
        KeyTable::new(vec![key, ERASE, UP, DOWN, PAGE_UP, PAGE_DOWN, CLOSE]).writing(Writes::Text)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        if msg == Msg::Take {
            let found = self.answer.as_ref().and_then(|a| a.as_ref().ok());
            if let Some(look) = found.and_then(|a| a.look) {
                return Effect::GoTo(look.clue);
            }
            self.answer = Some(weigh(session.piece(), self.line.text()));
            self.scroll = 0;
            return Effect::Stay;
        }
        if self.line.edit(msg) {
            self.answer = None;
            return Effect::Stay;
        }
        Effect::used(step_rows(&mut self.scroll, msg, session.shown()))
    }

    fn draw(&self, session: &Session, canvas: &mut Canvas, inside: Rect) {
        let rest = canvas.typed_line(inside, "Asked: ", self.line.text());
        let rows = self.rows(session, canvas.theme, text_cells(inside));
        canvas.scrolled(rest, &rows, self.scroll);
    }
}
