//! Rows of text with what a click on them means, put on a buffer.

use ratatui::buffer::Buffer;
use ratatui::layout::{Position, Rect};
use ratatui::style::Style;
use ratatui::text::{Line, Span};
use ratatui::widgets::{Block, Clear, Widget};

use super::msg::Msg;
use super::theme::Theme;
use super::wrap::{clean, fit, width, wrap};
use crate::rulebase::RuleBase;
use crate::say::glossary::fragments;

/// Where the frame put things.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shown {
    /// Later areas lie over earlier ones.
    hits: Vec<(Rect, Msg)>,
    /// First item of the page before and after, when a list is shown in pages.
    pub(super) page_before: Option<usize>,
    pub(super) page_after: Option<usize>,
    /// Furthest a long text can be scrolled, and the rows of one page.
    pub(super) scroll_most: usize,
    pub(super) scroll_page: usize,
}

impl Shown {
    /// What a click here means.
    pub fn at(&self, position: Position) -> Option<Msg> {
        let found = self.hits.iter().rev().find(|(r, _)| r.contains(position));
        found.map(|(_, msg)| *msg)
    }

    /// Where a message can be clicked; for tests and other backends.
    pub fn area_of(&self, msg: Msg) -> Option<Rect> {
        let found = self.hits.iter().rev().find(|(_, m)| *m == msg);
        found.map(|(area, _)| *area)
    }
}

/// One line of a screen.
#[derive(Clone, Debug, Default)]
pub struct Row {
    pub line: Line<'static>,
    pub msg: Option<Msg>,
    /// The cursor is here.
    pub chosen: bool,
    /// A sentence: trade words in it lead to the glossary.
    pub prose: bool,
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

    /// The text without styles.
    pub fn text(&self) -> String {
        self.line.spans.iter().map(|s| s.content.as_ref()).collect()
    }
}

/// A text wrapped to rows of one style.
pub fn paragraph(text: &str, cells: usize, style: Style) -> Vec<Row> {
    wrap(text, cells)
        .iter()
        .map(|l| Row::new(l, style))
        .collect()
}

/// A text wrapped to rows, with its trade words linked.
pub fn prose(text: &str, cells: usize, style: Style) -> Vec<Row> {
    let rows = paragraph(text, cells, style).into_iter();
    rows.map(Row::prose).collect()
}

/// A text whose lines after the first stand in by as many cells as the `mark` before the first.
pub fn item(mark: &str, text: &str, cells: usize, style: Style) -> Vec<Row> {
    let indent = width(mark);
    wrap(text, cells.saturating_sub(indent))
        .iter()
        .enumerate()
        .map(|(i, line)| match i {
            0 => Row::new(&format!("{mark}{line}"), style),
            _ => Row::new(&format!("{}{line}", " ".repeat(indent)), style),
        })
        .collect()
}

/// The first rows of an area, and the others.
pub fn above(area: Rect, rows: u16) -> (Rect, Rect) {
    let rows = rows.min(area.height);
    let first = Rect {
        height: rows,
        ..area
    };
    let rest = Rect {
        y: area.y + rows,
        height: area.height - rows,
        ..area
    };
    (first, rest)
}

/// The first columns of an area, and those after a gap.
pub fn beside(area: Rect, columns: u16, gap: u16) -> (Rect, Rect) {
    let columns = columns.min(area.width);
    let first = Rect {
        width: columns,
        ..area
    };
    let taken = (columns + gap).min(area.width);
    let rest = Rect {
        x: area.x + taken,
        width: area.width - taken,
        ..area
    };
    (first, rest)
}

/// A buffer being drawn on.
pub struct Canvas<'a> {
    pub buf: &'a mut Buffer,
    /// For the glossary.
    pub base: &'a RuleBase,
    pub theme: Theme,
    pub shown: Shown,
}

impl Canvas<'_> {
    /// A click in this area means this.
    pub fn hit(&mut self, area: Rect, msg: Msg) {
        let area = area.intersection(self.buf.area);
        if !area.is_empty() {
            self.shown.hits.push((area, msg));
        }
    }

    /// Draws rows from the top of the area; what does not fit is left out.
    pub fn rows(&mut self, area: Rect, rows: &[Row]) {
        let area = area.intersection(self.buf.area);
        for (y, row) in (area.top()..area.bottom()).zip(rows) {
            let at = Rect::new(area.x, y, area.width, 1);
            (&row.line).render(at, self.buf);
            if row.chosen {
                self.buf.set_style(at, self.theme.chosen);
            }
            if let Some(msg) = row.msg {
                self.hit(at, msg);
            }
            if row.prose {
                self.link(at, &row.text());
            }
        }
    }

    /// Marks the trade words of a line that has just been drawn.
    fn link(&mut self, at: Rect, text: &str) {
        let mut x = 0;
        for piece in fragments(self.base, text) {
            let cells = width(&piece.text) as u16;
            if let Some(term) = piece.term {
                let word = Rect::new(at.x.saturating_add(x), at.y, cells, 1).intersection(at);
                self.buf.set_style(word, self.theme.word);
                self.hit(word, Msg::Word(term));
            }
            x = x.saturating_add(cells);
        }
    }

    /// Draws a long text from its `scroll`-th row, with signs that there is more.
    pub fn scrolled(&mut self, area: Rect, rows: &[Row], scroll: usize) {
        let page = usize::from(area.height);
        let most = rows.len().saturating_sub(page);
        let top = scroll.min(most);
        self.shown.scroll_most = most;
        self.shown.scroll_page = page.saturating_sub(1);
        self.rows(area, &rows[top..]);
        self.more(area, top > 0, top < most);
    }

    /// Draws a list so that its chosen row is in sight.
    pub fn list(&mut self, area: Rect, rows: &[Row]) {
        let page = usize::from(area.height);
        let most = rows.len().saturating_sub(page);
        let chosen = rows.iter().position(|r| r.chosen).unwrap_or(0);
        let top = chosen.saturating_sub(page / 2).min(most);
        self.rows(area, &rows[top..]);
        self.more(area, top > 0, top < most);
    }

    fn more(&mut self, area: Rect, above: bool, below: bool) {
        let area = area.intersection(self.buf.area);
        if area.is_empty() {
            return;
        }
        let ends = [
            (above, area.y, "▲", Msg::PageUp),
            (below, area.bottom() - 1, "▼", Msg::PageDown),
        ];
        for (there, y, sign, msg) in ends {
            if there {
                let at = Rect::new(area.right() - 1, y, 1, 1);
                self.buf.set_string(at.x, at.y, sign, self.theme.key);
                self.hit(at, msg);
            }
        }
    }

    /// A horizontal rule with words in it.
    pub fn rule(&mut self, area: Rect, words: &str, style: Style) {
        let cells = usize::from(area.width);
        let mut text = fit(&format!("─ {words} "), cells);
        let used = width(&text);
        text.push_str(&"─".repeat(cells.saturating_sub(used)));
        self.rows(area, &[Row::new(&text, style)]);
    }

    /// An empty framed area over the screen; clicks beside it close it. Gives the inside.
    pub fn frame(&mut self, area: Rect, title: &str) -> Rect {
        let whole = self.buf.area;
        self.hit(whole, Msg::Close);
        let area = area.intersection(whole);
        Clear.render(area, self.buf);
        let title = format!(
            " {} ",
            fit(title, usize::from(area.width.saturating_sub(4)))
        );
        let block = Block::bordered().title(Span::styled(title, self.theme.heading));
        let inside = block.inner(area);
        block.render(area, self.buf);
        // A click inside that hits nothing else does nothing: moving up from the top is that.
        self.shown.hits.push((area, Msg::Cursor(usize::MAX)));
        inside
    }
}
