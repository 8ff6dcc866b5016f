//! What opens over a screen; the last of the stack has the keys.
//!
//! | file | what |
//! |---|---|
//! | `jump` | any clue, by station, found by typing |
//! | `reading` | a line of notes, and what stands on the back, turned into findings |
//! | `diamond` | a registration diamond with its corners to type into |
//! | `ticket` | somebody's date or kind put to the findings |
//! | `trial` | one finding flipped: before and after side by side |
//! | `glossary` | trade words explained |
//! | `why` | why this question |
//! | `help` | keys and signs |

pub mod diamond;
pub mod glossary;
mod help;
pub mod jump;
mod reading;
pub mod ticket;
pub mod trial;
mod why;

use ratatui::layout::{Constraint, Rect};
use ratatui::text::Span;

use super::app::App;
use super::canvas::{Canvas, Row, above, paragraph};
use super::keys::label_of;
use super::msg::Msg;
use super::wrap::fit;
use diamond::Diamond;
use ticket::Ticket;
use trial::Trial;

/// From this width on a popup leaves some of the screen in sight.
const WIDE: u16 = 92;

/// Widest popup; a longer line is hard to read.
const MOST_WIDE: u16 = 90;

/// What is open, and what was typed or chosen in it.
#[derive(Clone, Debug, PartialEq)]
pub enum Popup {
    Jump {
        search: String,
        cursor: usize,
    },
    Setting {
        cursor: usize,
    },
    Notes {
        text: String,
        scroll: usize,
    },
    Mark {
        text: String,
        scroll: usize,
        /// Nothing else stands there, so words that are not there speak too.
        whole: bool,
    },
    Diamond(Diamond),
    Ticket(Box<Ticket>),
    Trial(Box<Trial>),
    Words {
        search: String,
        scroll: usize,
    },
    Why {
        scroll: usize,
    },
    Help {
        scroll: usize,
    },
    Quit,
}

impl Popup {
    /// What is being typed; `None` where keys give orders.
    pub fn text(&mut self) -> Option<&mut String> {
        match self {
            Popup::Jump { search: text, .. }
            | Popup::Notes { text, .. }
            | Popup::Mark { text, .. }
            | Popup::Words { search: text, .. } => Some(text),
            Popup::Diamond(diamond) => Some(diamond.text()),
            Popup::Ticket(ticket) => Some(&mut ticket.text),
            _ => None,
        }
    }

    /// True when keys write text.
    pub fn writes(&self) -> bool {
        matches!(
            self,
            Popup::Jump { .. }
                | Popup::Notes { .. }
                | Popup::Mark { .. }
                | Popup::Words { .. }
                | Popup::Diamond(_)
                | Popup::Ticket(_)
        )
    }

    /// First row shown, where a long text is scrolled.
    pub fn scroll(&mut self) -> Option<&mut usize> {
        match self {
            Popup::Notes { scroll, .. }
            | Popup::Mark { scroll, .. }
            | Popup::Words { scroll, .. }
            | Popup::Why { scroll }
            | Popup::Help { scroll } => Some(scroll),
            Popup::Diamond(diamond) => Some(&mut diamond.scroll),
            Popup::Ticket(ticket) => Some(&mut ticket.scroll),
            _ => None,
        }
    }

    /// The item of a list that the cursor is on.
    pub fn cursor(&mut self) -> Option<&mut usize> {
        match self {
            Popup::Jump { cursor, .. } | Popup::Setting { cursor } => Some(cursor),
            Popup::Trial(trial) => Some(&mut trial.cursor),
            _ => None,
        }
    }

    fn title(&self) -> &'static str {
        match self {
            Popup::Jump { .. } => "Go to a clue",
            Popup::Setting { .. } => "Where was it found?",
            Popup::Notes { .. } => "Say what you see",
            Popup::Mark { .. } => "Read the back",
            Popup::Diamond(_) => "Registration diamond",
            Popup::Ticket(_) => "Check a ticket",
            Popup::Trial(_) => "What if?",
            Popup::Words { .. } => "Trade words",
            Popup::Why { .. } => "Why this question",
            Popup::Help { .. } => "Keys",
            Popup::Quit => "Leave",
        }
    }
}

/// Draws the popup on top.
pub fn draw(app: &App, canvas: &mut Canvas, area: Rect, popup: &Popup) {
    // A narrow window has no cells to spare for what lies below.
    let width = if area.width < WIDE {
        area.width
    } else {
        (area.width - 2).min(MOST_WIDE)
    };
    let height = match popup {
        Popup::Quit => 5,
        _ => area.height,
    };
    let at = area.centered(Constraint::Length(width), Constraint::Length(height));
    let inside = canvas.frame(at, popup.title());
    let cells = usize::from(inside.width);
    // One column stays free for the signs that there is more.
    let narrower = cells.saturating_sub(2);
    let theme = app.theme;
    match popup {
        Popup::Jump { search, cursor } => {
            let rest = entry(app, canvas, inside, "Find: ", search);
            canvas.list(rest, &jump::rows(app, search, *cursor, cells));
        }
        Popup::Setting { cursor } => canvas.list(inside, &settings(app, *cursor, cells)),
        Popup::Notes { text, scroll } => {
            canvas.scrolled(inside, &reading::notes(app, text, narrower), *scroll);
        }
        Popup::Mark {
            text,
            scroll,
            whole,
        } => {
            canvas.scrolled(inside, &reading::mark(app, text, *whole, narrower), *scroll);
        }
        Popup::Diamond(diamond) => diamond::draw(app, canvas, inside, diamond),
        Popup::Ticket(ticket) => {
            let rest = entry(app, canvas, inside, "Ticket: ", &ticket.text);
            canvas.scrolled(rest, &ticket::rows(app, ticket, narrower), ticket.scroll);
        }
        Popup::Trial(trial) => trial::draw(app, canvas, inside, trial),
        Popup::Words { search, scroll } => {
            let rest = entry(app, canvas, inside, "Find: ", search);
            canvas.scrolled(rest, &glossary::rows(app, search, narrower), *scroll);
        }
        Popup::Why { scroll } => canvas.scrolled(inside, &why::rows(app, narrower), *scroll),
        Popup::Help { scroll } => canvas.scrolled(inside, &help::rows(app, narrower), *scroll),
        Popup::Quit => {
            let text = "Leave? The findings of this piece are not kept.";
            canvas.rows(inside, &paragraph(text, cells, theme.heading));
        }
    }
}

/// One line that is typed, its end in sight; gives the area below it.
fn entry(app: &App, canvas: &mut Canvas, area: Rect, label: &str, text: &str) -> Rect {
    let room = usize::from(area.width).saturating_sub(label.chars().count() + 1);
    let from = text.chars().count().saturating_sub(room);
    let end: String = text.chars().skip(from).collect();
    let (line, rest) = above(area, 1);
    let row = Row::of(vec![
        Span::styled(label.to_owned(), app.theme.key),
        Span::styled(super::wrap::clean(&end), app.theme.heading),
        Span::styled("_", app.theme.key),
    ]);
    canvas.rows(line, &[row]);
    rest
}

fn settings(app: &App, cursor: usize, cells: usize) -> Vec<Row> {
    let settings = app.expert().base.settings.iter().enumerate();
    let row = |(i, s): (usize, &crate::rulebase::definitions::Setting)| {
        let words = format!("{}: {}", s.name, s.about);
        Row::of(vec![
            Span::styled(format!("{:>2} ", label_of(i).unwrap_or(' ')), app.theme.key),
            Span::raw(fit(&words, cells.saturating_sub(3))),
        ])
        .click(Msg::Choose(i))
        .chosen(i == cursor)
    };
    settings.map(row).collect()
}
