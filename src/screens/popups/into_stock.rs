//! The piece on the table into the stock book: bought for so much, or only looked at.

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::popup::{Effect, Opening, Popup};
use crate::buy::{Currency, Money};
use crate::screens::kit::canvas::Canvas;
use crate::screens::kit::rows::paragraph;
use crate::screens::state::keys::usual::{CLOSE, ERASE, enter};
use crate::screens::state::keys::{KeyTable, Writes};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::{Order, begun};
use crate::screens::state::session::Session;
use crate::screens::state::typed_line::TypedLine;
use crate::stock::entry::Entry;
use crate::stock::id::EntryId;
use crate::stock::keep;
use crate::stock::line::Line;
use crate::stock::store::{Answer, Ask, Change, Trouble};
use crate::stock::words;

/// Rows of the frame.
const ROWS: u16 = 7;

pub const OPENING: Opening = Opening {
    order: Order::opening('+', "Put the piece into the stock book.", |session| {
        let seen = begun(session) && !session.piece().evidence().says_nothing();
        (session.stock().is_some() && seen).then_some("into stock")
    }),
    open: |_, _| Effect::open(IntoStock::default()),
};

/// What was paid, as typed, and the piece on its way to the book.
#[derive(Debug, Default)]
pub struct IntoStock {
    paid: TypedLine,
    problem: String,
    sending: Option<Ask>,
    entry: Entry,
}

impl IntoStock {
    fn entry(&self, session: &Session) -> Result<Entry, String> {
        let Some(at_hand) = session.stock() else {
            return Err("there is no stock book".to_owned());
        };
        let typed = self.paid.text().trim();
        let paid = match typed.is_empty() {
            true => None,
            false => Some(Money::read(typed, Currency::default())?),
        };
        let piece = session.piece();
        let entry = Entry {
            id: EntryId::from_bits((at_hand.chance)()),
            added: Some(at_hand.today),
            draft: paid.is_none(),
            sighting: keep::sighting(piece, "", false, ""),
            verdict: Some(keep::verdict(piece)),
            bought_on: paid.map(|_| at_hand.today),
            currency: paid.map_or(Currency::default(), |p| p.currency),
            paid: paid.map(|p| p.minor),
            ..Entry::default()
        };
        Ok(entry.cleaned())
    }
}

impl Popup for IntoStock {
    fn title(&self) -> &'static str {
        "Into the stock book"
    }

    fn keys(&self, _: &Session) -> KeyTable {
        let keys = vec![enter("keep", "Put it into the book."), ERASE, CLOSE];
        KeyTable::new(keys).writing(Writes::Text)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        if msg != Msg::Take {
            self.read(session);
            return Effect::used(self.paid.edit(msg));
        }
        match self.entry(session) {
            Ok(entry) => {
                self.sending = Some(Ask::Write(vec![Change::New(entry.clone())]));
                self.entry = entry;
            }
            Err(why) => self.problem = why,
        }
        Effect::Stay
    }

    fn line(&mut self) -> Option<&mut TypedLine> {
        Some(&mut self.paid)
    }

    fn read(&mut self, _: &Session) {
        self.problem.clear();
    }

    fn ask(&mut self) -> Option<Ask> {
        self.sending.take()
    }

    fn answered(&mut self, answer: Result<Answer, Trouble>, session: &Session) -> Effect {
        match answer {
            Ok(_) => {
                let what = if self.entry.draft { "Kept" } else { "Added" };
                let line = words::line(&session.expert().base, &Line::of(&self.entry));
                Effect::Done(format!("{what}: {line}."))
            }
            Err(trouble) => {
                self.problem = trouble.to_string();
                Effect::Stay
            }
        }
    }

    fn draw(&self, _: &Session, canvas: &mut Canvas, inside: Rect) {
        let rest = canvas.typed_line(inside, "Paid: ", self.paid.text());
        let cells = usize::from(inside.width);
        let rows = match self.problem.is_empty() {
            true => paragraph(
                "Empty: it was only looked at, and can be taken up again from the stock book.",
                cells,
                Style::new(),
            ),
            false => paragraph(&self.problem, cells, canvas.theme.caution),
        };
        canvas.rows(rest, &rows);
    }

    fn height(&self) -> Option<u16> {
        Some(ROWS)
    }
}
