//! What is asked for the piece, put against what it may bring: buy, offer less, leave, look again.
//!
//! Rests on the user's own terms where they were handed in, else the usual ones; on the starting guesses, and
//! on the sales of the stock book.

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::popup::{Effect, Opening, Popup};
use crate::buy::{Advice, Money, PriceModel, ShelfAnswer, shelf};
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
use crate::stock::entry::Entry;
use crate::stock::sales::own_sales;
use crate::stock::store::{Answer, Ask, Trouble};

const TITLE: &str = "Buy it?";

pub const OPENING: Opening = Opening {
    order: Order::opening(
        'b',
        "Type what is asked for it: buy, offer less, leave, or look again.",
        |session| {
            let priced = session.expert().base.prices.is_some();
            (priced && session.screen() == Screen::Verdict).then_some("buy?")
        },
    ),
    open: |session, _| Effect::open(Shelf::new(session)),
};

/// What is asked, and the advice on it.
#[derive(Debug, Default)]
pub struct Shelf {
    line: TypedLine,
    /// Goes off when the popup opens, where there is a stock book.
    sending: Option<Ask>,
    /// What the book holds; empty until it answers.
    book: Vec<Entry>,
    /// Why it did not; empty when it did.
    trouble: String,
    /// Prices as the sales of the book teach them; made at the first weighing.
    model: Option<PriceModel>,
    /// Of the line as it stands; `None` until it is weighed.
    answer: Option<Result<ShelfAnswer, String>>,
    scroll: usize,
}

impl Shelf {
    fn new(session: &Session) -> Shelf {
        let mut shelf = Shelf {
            line: TypedLine::from(session.unfinished(TITLE)),
            sending: session.stock().map(|_| Ask::All),
            ..Shelf::default()
        };
        // Back from the look that was worth its time: the price stands, the piece is another.
        if !shelf.line.text().is_empty() {
            shelf.answer = Some(shelf.weigh(session));
        }
        shelf
    }

    /// The advice: `None` until a price is weighed; an error says what can be read.
    pub fn answer(&self) -> Option<&Result<ShelfAnswer, String>> {
        self.answer.as_ref()
    }

    /// Weighs the piece against the price as it was typed.
    fn weigh(&mut self, session: &Session) -> Result<ShelfAnswer, String> {
        let piece = session.piece();
        let expert = piece.expert();
        let Some(guesses) = &expert.base.prices else {
            return Err("These rules hold no prices.".to_owned());
        };
        let terms = session.terms(guesses);
        let asking = Money::read_in(self.line.text(), terms.currency)?;
        let model = self.model.get_or_insert_with(|| {
            // Without a book there are no sales, and the day plays no part.
            let last = Date::last_of(expert.present().0);
            let today = session.stock().map_or(last, |at_hand| at_hand.today);
            let own = own_sales(expert, guesses, &terms, &self.book);
            let mut model = PriceModel::new(guesses, &terms, &own.sales, today);
            model.left_out += own.left_out;
            model
        });
        let answer = shelf(piece, guesses, &terms, model, asking);
        answer.ok_or_else(|| "These rules name no place to sell.".to_owned())
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
        let style = match answer.gist.advice {
            Advice::Buy | Advice::Offer => theme.band,
            Advice::Leave | Advice::LookAgain => theme.caution,
        };
        let mut out = paragraph(&self.trouble, cells, theme.caution);
        out.extend(paragraph(
            &words::advice(expert, &answer.gist),
            cells,
            style,
        ));
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

impl Popup for Shelf {
    fn title(&self) -> &'static str {
        TITLE
    }

    fn keys(&self, _: &Session) -> KeyTable {
        let found = self.answer.as_ref().and_then(|a| a.as_ref().ok());
        let key = match found.and_then(|a| a.gist.look) {
            Some(_) => enter("look", "Make the look that is worth its time."),
            None => enter("weigh", "Weigh the piece against this price."),
        };
        KeyTable::new(vec![key, ERASE, UP, DOWN, PAGE_UP, PAGE_DOWN, CLOSE]).writing(Writes::Text)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        if msg == Msg::Take {
            let found = self.answer.as_ref().and_then(|a| a.as_ref().ok());
            if let Some(look) = found.and_then(|a| a.gist.look) {
                return Effect::GoTo(look.clue);
            }
            self.answer = Some(self.weigh(session));
            self.scroll = 0;
            return Effect::Stay;
        }
        if self.line.edit(msg) {
            self.read(session);
            return Effect::Stay;
        }
        Effect::used(step_rows(&mut self.scroll, msg, session.shown()))
    }

    fn line(&mut self) -> Option<&mut TypedLine> {
        Some(&mut self.line)
    }

    fn unfinished(&self) -> Option<&str> {
        Some(self.line.text())
    }

    /// A price that was weighed is no longer the one that stands there.
    fn read(&mut self, _: &Session) {
        self.answer = None;
    }

    fn ask(&mut self) -> Option<Ask> {
        self.sending.take()
    }

    fn answered(&mut self, answer: Result<Answer, Trouble>, session: &Session) -> Effect {
        match answer {
            Ok(Answer::Held(held)) => {
                let there = held.into_iter().filter(|h| h.removed_on.is_none());
                self.book = there.map(|h| h.entry).collect();
                self.model = None;
                // A price that was weighed before the book answered.
                if self.answer.is_some() {
                    self.answer = Some(self.weigh(session));
                }
            }
            Ok(Answer::Written | Answer::Listed(_) | Answer::Learners(_)) => {}
            Err(trouble) => self.trouble = trouble.to_string(),
        }
        Effect::Stay
    }

    fn draw(&self, session: &Session, canvas: &mut Canvas, inside: Rect) {
        let rest = canvas.typed_line(inside, "Asked: ", self.line.text());
        let rows = self.rows(session, canvas.theme, text_cells(inside));
        canvas.scrolled(rest, &rows, self.scroll);
    }
}
