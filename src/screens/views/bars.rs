//! Kinds as bars: name, bar and percentage, so that the bar only repeats the number.

use ratatui::text::Span;

use crate::piece::Piece;
use crate::say::names::kind_name;
use crate::say::scales::percent;
use crate::screens::kit::rows::Row;
use crate::screens::kit::theme::Theme;
use crate::screens::kit::wrap::{pad, width};

/// Cells of the percentage, "under 1 %", and the space before it.
const NUMBER: usize = 10;

/// From this width on a name and its bar stand on one row.
const ONE_ROW: usize = 48;

/// Longest name shown beside a bar.
const MOST_NAME: usize = 44;

/// The likeliest kinds with a bar each, in at most `rows` rows of `cells`.
pub(crate) fn kinds(piece: &Piece, theme: Theme, cells: usize, rows: usize) -> Vec<Row> {
    let one = cells >= ONE_ROW;
    let names = if one {
        (cells / 2).min(MOST_NAME)
    } else {
        cells
    };
    let room = cells.saturating_sub(NUMBER + if one { names + 1 } else { 0 });
    let most = if one { rows } else { rows / 2 };
    let mut out = Vec::new();
    for (kind, p) in piece.judgement().kinds.iter().take(most) {
        let name = Span::raw(pad(kind_name(piece.expert(), *kind), names));
        let full = ((p * room as f64).round() as usize).min(room);
        let number = Span::raw(right(&percent(*p)));
        if one {
            let bar = format!(" {}{}", "█".repeat(full), "·".repeat(room - full));
            out.push(Row::of(vec![name, Span::styled(bar, theme.bar), number]));
        } else {
            let bar = format!("{}{}", "█".repeat(full), "·".repeat(room - full));
            out.push(Row::of(vec![name]));
            out.push(Row::of(vec![Span::styled(bar, theme.bar), number]));
        }
    }
    out
}

/// The likeliest kinds on one row each, for a phone: the number and as much of the name as fits.
pub(crate) fn names(piece: &Piece, theme: Theme, cells: usize, rows: usize) -> Vec<Row> {
    let bar_cells = (cells / 8).max(1);
    let name_cells = cells.saturating_sub(NUMBER + 1 + bar_cells);
    let kinds = piece.judgement().kinds.iter().take(rows);
    kinds
        .map(|(kind, p)| {
            let full = ((p * bar_cells as f64).round() as usize).min(bar_cells);
            Row::of(vec![
                Span::raw(pad(kind_name(piece.expert(), *kind), name_cells)),
                Span::raw(" "),
                Span::styled(
                    format!("{}{}", "█".repeat(full), "·".repeat(bar_cells - full)),
                    theme.bar,
                ),
                Span::raw(right(&percent(*p))),
            ])
        })
        .collect()
}

/// The likeliest places in one line; below one in a hundred they are not worth the room.
pub(crate) fn places(piece: &Piece, most: usize) -> String {
    let base = &piece.expert().base;
    let named: Vec<String> = piece
        .judgement()
        .places
        .iter()
        .take(most)
        .enumerate()
        .filter(|(i, (_, p))| *i == 0 || *p >= 0.01)
        .map(|(_, (place, p))| {
            format!("{} {}", base.places[usize::from(place.0)].name, percent(*p))
        })
        .collect();
    format!("Where made: {}", named.join(", "))
}

fn right(number: &str) -> String {
    " ".repeat(NUMBER.saturating_sub(width(number))) + number
}
