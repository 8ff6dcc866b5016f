//! Kinds as bars: name, bar and percentage, so that the bar only repeats the number.

use ratatui::text::Span;

use super::app::App;
use super::canvas::Row;
use super::wrap::{pad, width};
use crate::words::reasons::kind_name;
use crate::words::scales::percent;

/// Cells of the percentage, "over 99 %".
const NUMBER: usize = 9;

/// The likeliest kinds, at most `most` rows of `cells`.
pub fn kinds(app: &App, cells: usize, most: usize) -> Vec<Row> {
    let verdict = app.case().verdict();
    let name_cells = (cells / 2).clamp(8, 34);
    let bar_cells = cells.saturating_sub(name_cells + NUMBER + 2);
    verdict
        .kinds
        .iter()
        .take(most)
        .map(|(kind, p)| {
            let filled = (p * bar_cells as f64).round() as usize;
            let bar = format!(
                "{}{}",
                "█".repeat(filled),
                "·".repeat(bar_cells - filled.min(bar_cells))
            );
            let number = percent(*p);
            let number = format!(
                "{}{number}",
                " ".repeat(NUMBER.saturating_sub(width(&number)))
            );
            Row::of(vec![
                Span::raw(pad(kind_name(app.expert(), *kind), name_cells)),
                Span::raw(" "),
                Span::styled(bar, app.theme.bar),
                Span::raw(format!(" {number}")),
            ])
        })
        .collect()
}
