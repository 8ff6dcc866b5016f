//! The first screen: what the program does, and where the piece was found.

use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::Span;

use crate::say::{caution, headline};
use crate::screens::kit::canvas::Canvas;
use crate::screens::kit::rows::{Row, item, paragraph};
use crate::screens::kit::wrap::fit;
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{DOWN, PAGE_DOWN, PAGE_UP, UP};
use crate::screens::state::keys::{Binding, KeyTable, label_of};
use crate::screens::state::msg::Msg;
use crate::screens::state::session::Session;

const START: Binding = Binding::new(
    Key::Enter,
    Msg::Start,
    "start",
    "Begin with the setting marked.",
);

/// The keys of the welcome alone.
pub(crate) fn keys(session: &Session) -> KeyTable {
    let pages = [PAGE_UP.in_help(), PAGE_DOWN.in_help()];
    let keys = [UP, DOWN, START].into_iter().chain(pages);
    KeyTable::new(keys.collect()).choosing(session.items(), Msg::Cursor)
}

/// Draws the welcome.
pub(crate) fn draw(session: &Session, canvas: &mut Canvas, area: Rect) {
    let cells = usize::from(area.width);
    let (theme, cursor) = (canvas.theme, session.place().cursor);
    let mut rows = vec![Row::new("Where was the piece found?", theme.heading)];
    let settings = session.expert().base.kinds_of_place();
    for (i, setting) in settings.iter().enumerate() {
        let key = label_of(i);
        // A second tap on the same setting starts.
        rows.push(
            Row::of(vec![
                Span::styled(format!("{key:>2} "), theme.key),
                Span::raw(fit(&setting.name, cells.saturating_sub(3))),
            ])
            .click(if i == cursor {
                Msg::Start
            } else {
                Msg::Cursor(i)
            })
            .chosen(i == cursor),
        );
    }
    if let Some(setting) = settings.get(cursor) {
        rows.extend(paragraph(&setting.about, cells, theme.instruction));
    }
    let height = usize::from(area.height);
    // What the program does gives way to the question on a phone with its keyboard up.
    let mut job = paragraph(headline::THE_JOB, cells, Style::new());
    job.push(Row::blank());
    if job.len() + rows.len() <= height {
        job.append(&mut rows);
        rows = job;
    }
    // A caution cut short warns of nothing: what does not fit whole stands with the verdict.
    for caution in caution::cautions(session.expert(), session.piece().evidence()) {
        let caution = item("! ", &caution, cells, theme.caution);
        if rows.len() + caution.len() <= height {
            rows.extend(caution);
        }
    }
    canvas.list(area, &rows);
}
