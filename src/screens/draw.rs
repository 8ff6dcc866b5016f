//! One frame: header, screen, what is said after the last message, keys; a popup over the screen.

use ratatui::buffer::Buffer;
use ratatui::layout::{Constraint, Rect};

use super::kit::canvas::Canvas;
use super::kit::rows::paragraph;
use super::kit::said::{Record, Said};
use super::kit::theme::Theme;
use super::popups::popup::Popup;
use super::state::keys::KeyTable;
use super::state::place::Screen;
use super::state::session::Session;
use super::state::shown::Shown;
use super::views::{footer, header, look, verdict, welcome};

/// Smallest window the screens are laid out for, in columns and rows: a phone's terminal
/// with its keyboard up.
pub const LEAST: (u16, u16) = (44, 14);

/// Largest window that is drawn, in columns and rows: more than any display shows, and a frame of
/// it is still small. What is beyond stays empty.
pub const MOST: (u16, u16) = (500, 200);

/// From this width on a popup leaves some of the screen in sight.
const WIDE: u16 = 92;

/// Columns and rows with room for any frame: the longest list of findings in three columns, all keys.
const ROOMY: (u16, u16) = (300, 120);

/// Widest popup; a longer line is hard to read.
const MOST_WIDE: u16 = 90;

/// Draws a frame and says where things are.
pub(super) fn draw(
    session: &Session,
    popups: &[Box<dyn Popup>],
    keys: &KeyTable,
    theme: Theme,
    area: Rect,
    buf: &mut Buffer,
) -> Shown {
    let mut canvas = Canvas {
        buf,
        base: &session.expert().base,
        theme,
        shown: Shown::default(),
        said: None,
    };
    frame(session, popups, keys, area, &mut canvas);
    canvas.shown
}

/// The same frame in words: drawn where there is room for all of it, so that nothing is cut short.
pub(super) fn in_words(session: &Session, popups: &[Box<dyn Popup>], keys: &KeyTable) -> Vec<Said> {
    let area = Rect::new(0, 0, ROOMY.0, ROOMY.1);
    let mut canvas = Canvas {
        buf: &mut Buffer::empty(area),
        base: &session.expert().base,
        theme: Theme::okabe_ito(),
        shown: Shown::default(),
        said: Some(Record::default()),
    };
    frame(session, popups, keys, area, &mut canvas);
    canvas.said.map_or(Vec::new(), Record::into_all)
}

/// Draws a frame.
fn frame(
    session: &Session,
    popups: &[Box<dyn Popup>],
    keys: &KeyTable,
    area: Rect,
    canvas: &mut Canvas,
) {
    let theme = canvas.theme;
    let cells = usize::from(area.width);
    if area.width < LEAST.0 || area.height < LEAST.1 {
        let text = format!(
            "This window has {} columns and {} rows; printseam needs at least {} and {}.",
            area.width, area.height, LEAST.0, LEAST.1
        );
        return canvas.rows(area, &paragraph(&text, cells, theme.heading));
    }
    let keys = footer::layout(keys, cells);
    let foot = keys.len() as u16;
    let notice = header::notice(session, theme, cells);
    let noticed = notice.len() as u16;
    let body = Rect {
        y: area.y + 1,
        height: area.height.saturating_sub(1 + foot + noticed),
        ..area
    };
    let head = Rect {
        width: area.width.saturating_sub(session.corner),
        height: 1,
        ..area
    };
    match popups.iter().rev().find(|popup| popup.fills()) {
        Some(popup) => {
            canvas.rule(head, popup.title(), theme.heading);
            popup.draw(session, canvas, body);
        }
        None => {
            header::draw(session, canvas, head);
            match session.screen() {
                Screen::Welcome => welcome::draw(session, canvas, body),
                Screen::Look => look::draw(session, canvas, body),
                Screen::Verdict => verdict::draw(session, canvas, body),
            }
        }
    }
    let below = Rect {
        y: body.y + body.height,
        height: noticed,
        ..area
    };
    canvas.rows(below, &notice);
    if let Some(popup) = popups.last().filter(|popup| !popup.fills()) {
        let room = Rect {
            height: area.height - foot - noticed,
            ..area
        };
        over(session, popup.as_ref(), canvas, room, body);
    }
    let foot = Rect {
        y: area.y + area.height - foot,
        height: foot,
        ..area
    };
    footer::draw(canvas, foot, &keys);
}

/// A popup in its frame: in all the room above the keys, or in the middle of the screen.
fn over(session: &Session, popup: &dyn Popup, canvas: &mut Canvas, room: Rect, body: Rect) {
    let (area, height) = match popup.height() {
        Some(height) => (body, height),
        None => (room, room.height),
    };
    // A narrow window has no cells to spare for what lies below.
    let width = if area.width < WIDE {
        area.width
    } else {
        (area.width - 2).min(MOST_WIDE)
    };
    let at = area.centered(Constraint::Length(width), Constraint::Length(height));
    let inside = canvas.frame(at, popup.title());
    popup.draw(session, canvas, inside);
}
