//! The keys that work now, always at the foot of the screen, each one clickable. Two lines at most:
//! what has no room there stands in the help, which is then the last key.

use ratatui::layout::Rect;
use ratatui::text::Span;

use crate::screens::kit::canvas::Canvas;
use crate::screens::kit::rows::Row;
use crate::screens::kit::wrap::width;
use crate::screens::state::keys::{Binding, KeyTable};
use crate::screens::state::msg::Msg;

/// Opens the help.
const HELP: Msg = Msg::Open('h');

/// Cells between two keys.
const GAP: usize = 2;

/// Most lines of keys: more would take the room of the question.
const ROWS: usize = 2;

/// Keys by row: (first cell, binding).
pub(crate) fn layout(keys: &KeyTable, cells: usize) -> Vec<Vec<(usize, Binding)>> {
    let mut shown: Vec<&Binding> = keys.listed().collect();
    loop {
        let rows = in_rows(&shown, cells);
        // The last but one gives way to the help, which shows it; without a help all stand.
        let helped = shown.len() > 1 && shown.last().is_some_and(|b| b.msg == HELP);
        if rows.len() <= ROWS || !helped {
            return rows;
        }
        shown.remove(shown.len() - 2);
    }
}

fn in_rows(shown: &[&Binding], cells: usize) -> Vec<Vec<(usize, Binding)>> {
    let mut rows: Vec<Vec<(usize, Binding)>> = vec![Vec::new()];
    let mut x = 0;
    for binding in shown {
        let needed = width(&words(binding));
        if x > 0 && x + needed > cells {
            rows.push(Vec::new());
            x = 0;
        }
        if let Some(row) = rows.last_mut() {
            row.push((x, (*binding).clone()));
        }
        x += needed + GAP;
    }
    rows
}

/// Draws the keys, one row of the layout a line.
pub(crate) fn draw(canvas: &mut Canvas, area: Rect, rows: &[Vec<(usize, Binding)>]) {
    for (y, row) in (area.top()..area.bottom()).zip(rows) {
        for (x, binding) in row {
            let cells = width(&words(binding)) as u16;
            let at = Rect::new(area.x + *x as u16, y, cells, 1).intersection(area);
            let key = Span::styled(binding.key.shown(), canvas.theme.key);
            let label = match binding.label {
                "" => Span::raw(""),
                label => Span::raw(format!(" {label}")),
            };
            canvas.rows(at, &[Row::of(vec![key, label]).click(binding.msg)]);
        }
    }
}

fn words(binding: &Binding) -> String {
    match binding.label {
        "" => binding.key.shown(),
        label => format!("{} {label}", binding.key.shown()),
    }
}
