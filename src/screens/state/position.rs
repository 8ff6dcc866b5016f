//! A cursor in a list, the first row shown of a long text, and how they move.

use super::msg::Msg;
use super::shown::Shown;

/// Items a page key moves in a list.
const PAGE: usize = 8;

/// Moves the cursor of a list; false when the message is no move.
pub(crate) fn step_item(cursor: &mut usize, msg: Msg, items: usize) -> bool {
    let to = match msg {
        Msg::Cursor(item) if item < items => Some(item),
        _ => items
            .checked_sub(1)
            .and_then(|last| moved(*cursor, msg, last, PAGE)),
    };
    *cursor = to.unwrap_or(*cursor);
    to.is_some()
}

/// The item of a list that a message chooses: the one named, or the one the cursor is on.
pub(crate) fn chosen_item(cursor: usize, msg: Msg) -> Option<usize> {
    match msg {
        Msg::Take => Some(cursor),
        Msg::Choose(item) => Some(item),
        _ => None,
    }
}

/// Scrolls a long text as the last frame has shown it; false when the message is no move.
pub(crate) fn step_rows(top: &mut usize, msg: Msg, shown: &Shown) -> bool {
    let most = shown.scroll_most;
    let to = moved((*top).min(most), msg, most, shown.scroll_page.max(1));
    *top = to.unwrap_or(*top);
    to.is_some()
}

/// Reads on in a long text: scrolls it by a page; false at its end.
pub(crate) fn read_on(top: &mut usize, shown: &Shown) -> bool {
    *top < shown.scroll_most && step_rows(top, Msg::PageDown, shown)
}

fn moved(at: usize, msg: Msg, last: usize, page: usize) -> Option<usize> {
    let to = match msg {
        Msg::Up => at.saturating_sub(1),
        Msg::Down => at + 1,
        Msg::PageUp => at.saturating_sub(page),
        Msg::PageDown => at + page,
        Msg::First => 0,
        Msg::Last => last,
        _ => return None,
    };
    Some(to.min(last))
}

#[cfg(test)]
mod tests {
    use super::{Msg, step_item};

    #[test]
    fn a_cursor_stays_on_its_list() {
        let mut at = 0;
        for (msg, to) in [
            (Msg::Up, 0),
            (Msg::Down, 1),
            (Msg::PageDown, 9),
            (Msg::PageDown, 11),
            (Msg::First, 0),
            (Msg::Last, 11),
            (Msg::Cursor(4), 4),
        ] {
            assert!(step_item(&mut at, msg, 12));
            assert_eq!(at, to, "{msg:?}");
        }
        assert!(!step_item(&mut at, Msg::Cursor(12), 12));
        assert!(!step_item(&mut at, Msg::Take, 12));
        assert!(!step_item(&mut at, Msg::Down, 0));
        assert_eq!(at, 4);
    }
}
