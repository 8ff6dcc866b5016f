//! Somebody's date or kind, as on a ticket, put to the findings: laid over the picture of the
//! years, with what speaks against it and what would stand instead. Judged as the command does, each
//! year alike: the ticket is to answer to the piece, not to what the shelf usually holds.

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::popup::{Effect, Opening, Popup};
use crate::claim::{Challenge, ClaimAnswer, challenge, evenly, read};
use crate::piece::Piece;
use crate::say::{claim as sentences, claim_read};
use crate::screens::kit::canvas::{Canvas, text_cells};
use crate::screens::kit::rows::{Row, item, paragraph};
use crate::screens::kit::theme::Theme;
use crate::screens::state::keys::usual::{CLOSE, DOWN, ERASE, PAGE_DOWN, PAGE_UP, UP, enter};
use crate::screens::state::keys::{KeyTable, Writes};
use crate::screens::state::msg::Msg;
use crate::screens::state::orders::{Order, worth_weighing};
use crate::screens::state::position::step_rows;
use crate::screens::state::session::Session;
use crate::screens::state::typed_line::TypedLine;
use crate::screens::views::timeline::Timeline;

/// Rows of the curve.
const CURVE: usize = 2;

const TITLE: &str = "Check a ticket";

pub const OPENING: Opening = Opening {
    order: Order::opening(
        't',
        "Check the date on a ticket, or any guess, against what was seen.",
        |session| worth_weighing(session).then_some("ticket"),
    ),
    open: |session, _| Effect::open(Ticket::new(session)),
};

/// What the ticket says, and how it stands.
#[derive(Debug, Default)]
pub struct Ticket {
    line: TypedLine,
    answer: Option<Result<Challenge, String>>,
    /// The piece with every year alike, which the ticket is put to.
    ground: Option<Piece>,
    scroll: usize,
}

impl Ticket {
    /// With the line that was typed before, if one was.
    fn new(session: &Session) -> Ticket {
        let mut ticket = Ticket {
            line: TypedLine::from(session.unfinished(TITLE)),
            ..Ticket::default()
        };
        ticket.judge(session.piece());
        ticket
    }

    /// How the ticket stands: `None` while nothing is typed; an error says what can be read.
    pub fn answer(&self) -> Option<&Result<Challenge, String>> {
        self.answer.as_ref()
    }

    /// Puts what is typed now to the findings.
    fn judge(&mut self, piece: &Piece) {
        let text = self.line.text();
        self.answer = (!text.trim().is_empty()).then(|| {
            let claim = read(piece.expert(), text)
                .map_err(|problem| claim_read::unread(piece.expert(), &problem))?;
            // The picture marks what is at odds: worked out here, not in the frame.
            piece.at_odds();
            let ground = self.ground.get_or_insert_with(|| evenly(piece));
            Ok(challenge(ground, claim))
        });
    }

    /// The answer with its picture.
    fn rows(&self, session: &Session, theme: Theme, cells: usize) -> Vec<Row> {
        let expert = session.expert();
        let piece = self.ground.as_ref().unwrap_or(session.piece());
        let c = match &self.answer {
            None => {
                let hint = "Type what the ticket says, or any guess: flow blue, 1890s; Victorian; c. 1840-60; hand painted, around 1900.";
                return paragraph(hint, cells, theme.instruction);
            }
            Some(Err(problem)) => return paragraph(problem, cells, theme.instruction),
            Some(Ok(c)) => c,
        };
        let style = match c.answer {
            ClaimAnswer::Supported | ClaimAnswer::Possible => theme.band,
            ClaimAnswer::HardToSupport | ClaimAnswer::RuledOut => theme.caution,
        };
        let mut out = paragraph(&sentences::answered(expert, c), cells, style);
        let timeline = Timeline::new(session, theme, cells).with_guess(c.from, c.to);
        out.extend(timeline.guess(&format!("ticket {}–{}", c.from.0, c.to.0)));
        out.extend(timeline.verdict(CURVE));
        out.push(timeline.axis());
        out.extend(timeline.findings(usize::MAX));
        out.extend(paragraph(&sentences::numbers(piece, c), cells, style));
        out.extend(paragraph(
            &sentences::heading(expert, c),
            cells,
            theme.quiet,
        ));
        for line in sentences::details(piece, c) {
            let rows = item("· ", &line, cells, Style::new());
            out.extend(rows.into_iter().map(Row::prose));
        }
        out
    }
}

impl Popup for Ticket {
    fn title(&self) -> &'static str {
        TITLE
    }

    fn keys(&self, _: &Session) -> KeyTable {
        let look = enter("look", "Make the look that would settle it.");
        KeyTable::new(vec![look, ERASE, UP, DOWN, PAGE_UP, PAGE_DOWN, CLOSE]).writing(Writes::Text)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        if msg == Msg::Take {
            let answer = self.answer.as_ref().and_then(|a| a.as_ref().ok());
            return match answer.and_then(|c| c.look) {
                Some(look) => Effect::GoTo(look.clue),
                None => Effect::Notify("No look would settle it.".to_owned()),
            };
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

    fn read(&mut self, session: &Session) {
        self.judge(session.piece());
        self.scroll = 0;
    }

    fn unfinished(&self) -> Option<&str> {
        Some(self.line.text())
    }

    fn draw(&self, session: &Session, canvas: &mut Canvas, inside: Rect) {
        let rest = canvas.typed_line(inside, "Ticket: ", self.line.text());
        let rows = self.rows(session, canvas.theme, text_cells(inside));
        canvas.scrolled(rest, &rows, self.scroll);
    }
}
