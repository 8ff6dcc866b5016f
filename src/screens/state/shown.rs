//! Where the last frame put things: what a click means, and how far texts and lists go.

use ratatui::layout::{Position, Rect};

use super::msg::Msg;

/// Where a frame put things.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Shown {
    /// Later areas lie over earlier ones.
    hits: Vec<(Rect, Msg)>,
    /// First item of the page before and after, when the findings are shown in pages.
    pub(crate) page_before: Option<usize>,
    pub(crate) page_after: Option<usize>,
    /// Furthest the long text on top can be scrolled, and the rows of one page.
    pub(crate) scroll_most: usize,
    pub(crate) scroll_page: usize,
}

impl Shown {
    /// A click in this area means this, whatever lies below it.
    pub(crate) fn hit(&mut self, area: Rect, msg: Msg) {
        if !area.is_empty() {
            self.hits.push((area, msg));
        }
    }

    /// What a key means in a list: one that is shown in pages is turned page by page.
    pub(crate) fn turned(&self, msg: Msg) -> Msg {
        let page = match msg {
            Msg::PageUp => self.page_before,
            Msg::PageDown => self.page_after,
            _ => None,
        };
        page.map_or(msg, Msg::Cursor)
    }

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
