//! One frame: header, screen, what was said last, keys; popups over the screen.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::app::{App, Screen};
use super::canvas::{Canvas, Row, Shown, paragraph};
use super::msg::Msg;
use super::popups::Popup;
use super::{bindings, footer, look, popups, verdict, welcome};

/// Smallest window the screens are laid out for: a phone's terminal.
pub const LEAST: (u16, u16) = (44, 20);

/// Most rows of what is said after a message.
const MOST_SAID: usize = 3;

/// Draws a frame and says where things are.
pub fn draw(app: &App, area: Rect, buf: &mut Buffer) -> Shown {
    let mut canvas = Canvas {
        buf,
        base: &app.expert().base,
        theme: app.theme,
        shown: Shown::default(),
    };
    if area.width < LEAST.0 || area.height < LEAST.1 {
        let text = format!(
            "This window has {} columns and {} rows; printseam needs at least {} and {}.",
            area.width, area.height, LEAST.0, LEAST.1
        );
        let rows = paragraph(&text, usize::from(area.width), app.theme.heading);
        canvas.rows(area, &rows);
        return canvas.shown;
    }
    let rows = footer::layout(&bindings::bindings(app), usize::from(area.width));
    let foot = (rows.len() as u16).min(area.height / 3);
    let notice = notice(app, usize::from(area.width));
    let said = notice.len() as u16;
    let body = Rect {
        y: area.y + 1,
        height: area.height.saturating_sub(1 + foot + said),
        ..area
    };
    let setting = &app.expert().base.settings[app.piece().setting()].name;
    let head = match app.screen() {
        Screen::Welcome => "printseam".to_owned(),
        Screen::Look => format!("printseam: {setting}, {}", seen(app)),
        Screen::Verdict => format!("Verdict: {setting}, {}", seen(app)),
    };
    canvas.rule(Rect { height: 1, ..area }, &head, app.theme.heading);
    match app.screen() {
        Screen::Welcome => welcome::draw(app, &mut canvas, body),
        Screen::Look => look::draw(app, &mut canvas, body),
        Screen::Verdict => verdict::draw(app, &mut canvas, body),
    }
    let last = Rect {
        y: body.y + body.height,
        height: said,
        ..area
    };
    canvas.rows(last, &notice);
    if let Some(top) = app.popup() {
        let over = match top {
            Popup::Quit => body,
            _ => Rect {
                y: area.y,
                height: area.height - foot,
                ..area
            },
        };
        popups::draw(app, &mut canvas, over, top);
    }
    let foot = Rect {
        y: area.y + area.height - foot,
        height: foot,
        ..area
    };
    footer::draw(&mut canvas, foot, &rows);
    canvas.shown
}

/// What is said after the last message, in few rows; all that was heard stands in the list of clues.
fn notice(app: &App, cells: usize) -> Vec<Row> {
    if app.notice.is_empty() {
        return Vec::new();
    }
    let mut rows = paragraph(&app.notice, cells, app.theme.caution);
    if rows.len() > MOST_SAID {
        rows.truncate(MOST_SAID - 1);
        rows.push(Row::new("and more: j shows all", app.theme.caution).click(Msg::Jump));
    }
    rows
}

/// How much has been seen so far.
fn seen(app: &App) -> String {
    match app.piece().evidence().observations().len() {
        0 => "nothing seen yet".to_owned(),
        1 => "1 finding".to_owned(),
        n => format!("{n} findings"),
    }
}
