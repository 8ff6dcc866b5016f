//! The first screen: what the program does, and where the piece was found.

use crate::say::caution;
use crate::say::headline;
use ratatui::layout::Rect;
use ratatui::style::Style;
use ratatui::text::Span;

use super::app::App;
use super::canvas::{Canvas, Row, item, paragraph};
use super::keys::label_of;
use super::msg::Msg;
use super::wrap::fit;

/// Draws the welcome.
pub fn draw(app: &App, canvas: &mut Canvas, area: Rect) {
    let cells = usize::from(area.width);
    let theme = app.theme;
    let mut rows = paragraph(headline::THE_JOB, cells, Style::new());
    rows.push(Row::blank());
    rows.push(Row::new("Where was the piece found?", theme.heading));
    let settings = &app.expert().base.settings;
    for (i, setting) in settings.iter().enumerate() {
        let key = label_of(i).unwrap_or(' ');
        // A second tap on the same setting starts.
        rows.push(
            Row::of(vec![
                Span::styled(format!("{key:>2} "), theme.key),
                Span::raw(fit(&setting.name, cells.saturating_sub(3))),
            ])
            .click(if i == app.cursor {
                Msg::Start
            } else {
                Msg::Cursor(i)
            })
            .chosen(i == app.cursor),
        );
    }
    if let Some(setting) = settings.get(app.cursor) {
        rows.extend(paragraph(&setting.about, cells, theme.quiet));
    }
    // A caution cut short warns of nothing: what does not fit whole stands with the verdict.
    for caution in caution::cautions(app.expert(), app.piece().evidence()) {
        let caution = item("! ", &caution, cells, theme.caution);
        if rows.len() + caution.len() <= usize::from(area.height) {
            rows.extend(caution);
        }
    }
    canvas.rows(area, &rows);
}
