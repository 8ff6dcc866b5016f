//! Rows of text with what a click on them means.

use ratatui::style::Style;
use ratatui::text::{Line, Span};

use super::wrap::{clean, width, wrap};
use crate::screens::state::msg::Msg;

/// One line of a screen.
#[derive(Clone, Debug, Default)]
pub struct Row {
    pub line: Line<'static>,
    pub msg: Option<Msg>,
    /// The cursor is here.
    pub chosen: bool,
    /// A sentence: trade words in it lead to the glossary.
    pub prose: bool,
    /// The sentence of the row before goes on here.
    pub goes_on: bool,
    /// A picture of what is said elsewhere in words.
    pub unsaid: bool,
}

impl Row {
    pub fn blank() -> Row {
        Row::default()
    }

    pub fn new(text: &str, style: Style) -> Row {
        Row::of(vec![Span::styled(clean(text), style)])
    }

    pub fn of(spans: Vec<Span<'static>>) -> Row {
        Row {
            line: Line::from(spans),
            ..Row::default()
        }
    }

    pub fn click(mut self, msg: Msg) -> Row {
        self.msg = Some(msg);
        self
    }

    pub fn chosen(mut self, chosen: bool) -> Row {
        self.chosen = chosen;
        self
    }

    pub fn prose(mut self) -> Row {
        self.prose = true;
        self
    }

    pub fn goes_on(mut self, goes_on: bool) -> Row {
        self.goes_on = goes_on;
        self
    }

    pub fn unsaid(mut self) -> Row {
        self.unsaid = true;
        self
    }

    /// The text without styles.
    pub fn text(&self) -> String {
        self.line.spans.iter().map(|s| s.content.as_ref()).collect()
    }
}

/// A text wrapped to rows of one style.
pub(crate) fn paragraph(text: &str, cells: usize, style: Style) -> Vec<Row> {
    wrap(text, cells)
        .iter()
        .enumerate()
        .map(|(i, l)| Row::new(l, style).goes_on(i > 0))
        .collect()
}

/// A text wrapped to rows, with its trade words linked.
pub(crate) fn prose(text: &str, cells: usize, style: Style) -> Vec<Row> {
    let rows = paragraph(text, cells, style).into_iter();
    rows.map(Row::prose).collect()
}

/// A text whose lines after the first stand in by as many cells as the `mark` before the first.
pub(crate) fn item(mark: &str, text: &str, cells: usize, style: Style) -> Vec<Row> {
    let indent = width(mark);
    wrap(text, cells.saturating_sub(indent))
        .iter()
        .enumerate()
        .map(|(i, line)| match i {
            0 => Row::new(&format!("{mark}{line}"), style),
            _ => Row::new(&format!("{}{line}", " ".repeat(indent)), style).goes_on(true),
        })
        .collect()
}
