//! A buffer to draw rows on, which remembers what a click means.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::Span;
use ratatui::widgets::{Block, Clear, Widget};

use super::rows::Row;
use super::said::Record;
use super::theme::Theme;
use super::wrap::{clean, fit, width};
use crate::rulebase::RuleBase;
use crate::say::glossary::fragments;
use crate::screens::state::msg::Msg;
use crate::screens::state::shown::Shown;

/// Cells of a line in a long text: a column stays free for the signs that there is more.
pub(crate) fn text_cells(area: Rect) -> usize {
    usize::from(area.width).saturating_sub(2)
}

/// The first rows of an area, and the others.
pub(crate) fn above(area: Rect, rows: u16) -> (Rect, Rect) {
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
pub(crate) fn beside(area: Rect, columns: u16, gap: u16) -> (Rect, Rect) {
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
    /// The frame in words, where they are wanted.
    pub said: Option<Record>,
}

impl Canvas<'_> {
    /// A click in this area means this.
    pub fn hit(&mut self, area: Rect, msg: Msg) {
        self.shown.hit(area.intersection(self.buf.area), msg);
    }

    /// Draws rows from the top of the area; what does not fit is left out.
    pub fn rows(&mut self, area: Rect, rows: &[Row]) {
        self.say(rows);
        self.put(area, rows);
    }

    fn say(&mut self, rows: &[Row]) {
        if let Some(said) = &mut self.said {
            said.rows(rows, self.theme);
        }
    }

    fn put(&mut self, area: Rect, rows: &[Row]) {
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
        // Whoever hears the text scrolls in their own way.
        self.say(rows);
        self.put(area, &rows[top..]);
        self.more(area, top > 0, top < most);
    }

    /// Draws a list so that its chosen row is in sight.
    pub fn list(&mut self, area: Rect, rows: &[Row]) {
        let page = usize::from(area.height);
        let most = rows.len().saturating_sub(page);
        let chosen = rows.iter().position(|r| r.chosen).unwrap_or(0);
        let top = chosen.saturating_sub(page / 2).min(most);
        self.say(rows);
        self.put(area, &rows[top..]);
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

    /// One line that is typed, its end in sight; gives the area below it.
    pub fn typed_line(&mut self, area: Rect, label: &str, text: &str) -> Rect {
        let room = usize::from(area.width).saturating_sub(label.chars().count() + 1);
        let from = text.chars().count().saturating_sub(room);
        let end: String = text.chars().skip(from).collect();
        let (line, rest) = above(area, 1);
        let row = Row::of(vec![
            Span::styled(label.to_owned(), self.theme.key),
            Span::styled(clean(&end), self.theme.heading),
            Span::styled("_", self.theme.key),
        ]);
        self.rows(line, &[row]);
        rest
    }

    /// A horizontal rule with words in it.
    pub fn rule(&mut self, area: Rect, words: &str, style: Style) {
        if let Some(said) = &mut self.said {
            said.heading(words);
        }
        let cells = usize::from(area.width);
        let mut text = fit(&format!("─ {words} "), cells);
        let used = width(&text);
        text.push_str(&"─".repeat(cells.saturating_sub(used)));
        self.put(area, &[Row::new(&text, style)]);
    }

    /// An empty framed area over the screen; clicks beside it close it. Gives the inside.
    pub fn frame(&mut self, area: Rect, title: &str) -> Rect {
        if let Some(said) = &mut self.said {
            said.covered();
            said.heading(title);
        }
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
        self.hit(area, Msg::Nothing);
        inside
    }
}
