//! Moving about in lists and long texts.

use super::app::{App, Screen};
use super::msg::Msg;

/// Rows a page key moves in a list or text.
const PAGE: usize = 8;

impl App {
    /// One move in whatever has the keys.
    pub(super) fn step(&mut self, msg: Msg) {
        let most = self.shown.scroll_most;
        let page = self.shown.scroll_page.max(1);
        if let Some(at) = self.scroll_place() {
            *at = moved((*at).min(most), msg, most, page);
            return;
        }
        let Some(last) = self.items().checked_sub(1) else {
            return;
        };
        // A list that is shown in pages is turned page by page.
        let to = match msg {
            Msg::PageUp if self.shown.page_before.is_some() => self.shown.page_before,
            Msg::PageDown if self.shown.page_after.is_some() => self.shown.page_after,
            _ => None,
        };
        let from = self.cursor_place();
        let to = to.unwrap_or_else(|| moved(from, msg, last, PAGE));
        self.set_cursor(to);
    }

    /// Puts the cursor on an item, if there is such an item.
    pub(super) fn set_cursor(&mut self, i: usize) {
        if i >= self.items() {
            return;
        }
        match self.popups.last_mut() {
            Some(popup) => {
                if let Some(cursor) = popup.cursor() {
                    *cursor = i;
                }
            }
            None => self.cursor = i,
        }
    }

    fn cursor_place(&mut self) -> usize {
        match self.popups.last_mut() {
            Some(popup) => popup.cursor().map_or(0, |cursor| *cursor),
            None => self.cursor,
        }
    }

    /// First row shown of the long text that has the keys.
    fn scroll_place(&mut self) -> Option<&mut usize> {
        match self.popups.last_mut() {
            Some(popup) => popup.scroll(),
            None => (self.screen == Screen::Verdict).then_some(&mut self.scroll),
        }
    }
}

fn moved(at: usize, msg: Msg, last: usize, page: usize) -> usize {
    let to = match msg {
        Msg::Up => at.saturating_sub(1),
        Msg::Down => at + 1,
        Msg::PageUp => at.saturating_sub(page),
        Msg::PageDown => at + page,
        Msg::First => 0,
        Msg::Last => last,
        _ => at,
    };
    to.min(last)
}
