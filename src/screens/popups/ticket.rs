//! Somebody's date or kind, as on a ticket, put to the findings: laid over the picture of the
//! eras, with what opposing it and what would stand instead.

use ratatui::style::Style;

use crate::claim::{Challenge, ClaimAnswer, challenge, read};
use crate::piece::Piece;
use crate::say::{claim as words, claim_read};
use crate::screens::app::App;
use crate::screens::canvas::{Row, item, paragraph};
use crate::screens::timeline::Timeline;

/// Rows of the curve.
const CURVE: usize = 2;

/// What the ticket says, and how it stands.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Ticket {
    pub text: String,
    /// `None` while nothing is typed; an error says what can be read.
    pub answer: Option<Result<Challenge, String>>,
    pub scroll: usize,
}

impl Ticket {
    /// Judges what is typed now.
    pub fn judge(&mut self, piece: &Piece) {
        self.answer = (!self.text.trim().is_empty()).then(|| {
            let claim = read(piece.expert(), &self.text)
                .map_err(|problem| claim_read::unread(piece.expert(), &problem))?;
            Ok(challenge(piece, claim))
        });
    }
}

/// The answer with its picture.
pub fn rows(app: &App, ticket: &Ticket, cells: usize) -> Vec<Row> {
    let (expert, theme) = (app.expert(), app.theme);
    let c = match &ticket.answer {
        None => {
            let hint = "Type what the ticket says, or any guess: flow blue, 1890s; Victorian; c. 1840-60; hand painted, around 1900.";
            return paragraph(hint, cells, theme.quiet);
        }
        Some(Err(problem)) => return paragraph(problem, cells, theme.quiet),
        Some(Ok(c)) => c,
    };
    let style = match c.answer {
        ClaimAnswer::Supported | ClaimAnswer::Possible => theme.band,
        ClaimAnswer::HardToSupport | ClaimAnswer::RuledOut => theme.caution,
    };
    let mut out = paragraph(&words::answered(expert, c), cells, style);
    let timeline = Timeline::new(app, cells).with_guess(c.from, c.to);
    out.extend(timeline.guess("ticket"));
    out.extend(timeline.verdict(CURVE));
    out.push(timeline.axis());
    out.extend(timeline.eras(usize::MAX));
    out.extend(paragraph(&words::numbers(app.piece(), c), cells, style));
    out.extend(paragraph(&words::heading(expert, c), cells, theme.quiet));
    for line in words::details(app.piece(), c) {
        let rows = item("· ", &line, cells, Style::new());
        out.extend(rows.into_iter().map(Row::prose));
    }
    out
}
