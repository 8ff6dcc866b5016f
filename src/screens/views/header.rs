//! The line above every screen, and what is said after the last message.

use ratatui::layout::Rect;

use crate::core::observation::{Observation, Observed};
use crate::screens::kit::canvas::Canvas;
use crate::screens::kit::rows::{Row, paragraph};
use crate::screens::kit::theme::Theme;
use crate::screens::kit::wrap::width;
use crate::screens::state::msg::Msg;
use crate::screens::state::place::Screen;
use crate::screens::state::session::Session;

/// Most rows of what is said after a message.
const NOTICE_ROWS: usize = 3;

/// Draws the line: the setting, and how much has been seen so far.
pub(crate) fn draw(session: &Session, canvas: &mut Canvas, area: Rect) {
    let piece = session.piece();
    let setting = &session.expert().base.settings[piece.setting()].name;
    let seen = counted(piece.evidence().observations());
    let words = match session.screen() {
        Screen::Welcome => "printseam".to_owned(),
        Screen::Look => format!("printseam: {setting}, {seen}"),
        Screen::Verdict => format!("Verdict: {setting}, {seen}"),
    };
    // The rule's own signs take three cells; a phone can do without the program's name.
    let words = match width(&words) + 3 <= usize::from(area.width) {
        true => words,
        false => format!("{setting}, {seen}"),
    };
    canvas.rule(area, &words, canvas.theme.heading);
}

/// How much has been seen. To have looked and not be able to tell is no finding.
fn counted(observations: &[Observation]) -> String {
    let told = observations.iter().filter(|o| o.seen != Observed::CantTell);
    let findings = told.count();
    let cant_tell = observations.len() - findings;
    match (findings, cant_tell) {
        (0, 0) => "nothing seen yet".to_owned(),
        (0, n) => format!("no finding, {n} can't tell"),
        (1, 0) => "1 finding".to_owned(),
        (1, n) => format!("1 finding, {n} can't tell"),
        (f, 0) => format!("{f} findings"),
        (f, n) => format!("{f} findings, {n} can't tell"),
    }
}

/// What is said after the last message, in few rows: all findings stand in the list of clues.
pub(crate) fn notice(session: &Session, theme: Theme, cells: usize) -> Vec<Row> {
    if session.notice().is_empty() {
        return Vec::new();
    }
    let mut rows = paragraph(session.notice(), cells, theme.caution);
    if rows.len() > NOTICE_ROWS {
        rows.truncate(NOTICE_ROWS - 1);
        rows.push(Row::new("and more: j shows all", theme.caution).click(Msg::Open('j')));
    }
    rows
}
