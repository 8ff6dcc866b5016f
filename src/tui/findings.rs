//! A clue's findings as a numbered list; the key of each stands before it.

use ratatui::text::Span;

use super::app::App;
use super::canvas::Row;
use super::keys::label_of;
use super::msg::Msg;
use super::wrap::fit;
use crate::core::axes::ClueId;
use crate::core::evidence::Seen;

/// One row a finding, with a tick at the one that was said before.
pub fn rows(app: &App, clue: ClueId, cells: usize) -> Vec<Row> {
    let rules = app.expert().base.clue(clue);
    let said = app.case().evidence().of(clue).map(|e| e.seen);
    rules
        .findings
        .iter()
        .enumerate()
        .map(|(i, finding)| {
            let key = label_of(i).unwrap_or(' ');
            let before = matches!(said, Some(Seen::Finding(f)) if usize::from(f.0) == i);
            let tick = if before { "✓" } else { " " };
            Row::of(vec![
                Span::styled(format!("{key:>2}"), app.theme.key),
                Span::raw(format!(
                    "{tick} {}",
                    fit(&finding.words, cells.saturating_sub(4))
                )),
            ])
            .click(Msg::Choose(i))
            .chosen(i == app.cursor)
        })
        .collect()
}
