//! Kinds as bars: name, bar and percentage, so that the bar only repeats the number.

use ratatui::text::Span;

use crate::core::grid::KindId;
use crate::piece::Piece;
use crate::say::names::kind_name;
use crate::say::scales::percent;
use crate::screens::kit::rows::Row;
use crate::screens::kit::theme::Theme;
use crate::screens::kit::wrap::{fit, pad, width, wrap};

/// Kinds less likely than this are counted, not named one by one (common practice, no source).
const NAMED: f64 = 0.01;

/// Fewest cells of a bar: the names have all others.
const LEAST_BAR: usize = 5;

/// The likeliest kinds with a bar each, then a line for all that are under 1 %; in at most `rows`
/// rows. A name that is too long for its column goes on in the next row.
pub(crate) fn kinds(piece: &Piece, theme: Theme, cells: usize, rows: usize) -> Vec<Row> {
    let (named, others): (Vec<_>, Vec<_>) = piece
        .judgement()
        .kinds
        .iter()
        .copied()
        .partition(|(_, p)| *p >= NAMED);
    let name = |(kind, _): &(KindId, f64)| kind_name(piece.expert(), *kind);
    let widest = |widths: &mut dyn Iterator<Item = usize>| widths.max().unwrap_or(0);
    let number = 1 + widest(&mut named.iter().map(|(_, p)| width(&percent(*p))));
    let most = cells.saturating_sub(number + 1 + LEAST_BAR);
    let names = widest(&mut named.iter().map(|k| width(name(k)))).min(most);
    let bar_cells = cells.saturating_sub(number + 1 + names);
    let mut out = Vec::new();
    for kind in &named {
        let mut lines = wrap(name(kind), names);
        if out.len() + lines.len() > rows {
            if !out.is_empty() {
                return out;
            }
            lines = vec![fit(name(kind), names)];
        }
        let full = ((kind.1 * bar_cells as f64).round() as usize).min(bar_cells);
        let bar = format!(" {}{}", "█".repeat(full), "·".repeat(bar_cells - full));
        for (n, line) in lines.iter().enumerate() {
            let mut spans = vec![Span::raw(pad(line, names))];
            if n == 0 {
                spans.push(Span::styled(bar.clone(), theme.bar));
                spans.push(Span::raw(format!("{:>number$}", percent(kind.1))));
            }
            out.push(Row::of(spans));
        }
    }
    if out.len() < rows && !others.is_empty() {
        let line = match others.len() {
            1 => format!("{}: under 1 %", name(&others[0])),
            n => format!("{n} other kinds: under 1 % each"),
        };
        out.push(Row::new(&fit(&line, cells), theme.quiet));
    }
    out
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
        .filter(|(i, (_, p))| *i == 0 || *p >= NAMED)
        .map(|(_, (place, p))| {
            format!("{} {}", base.places[usize::from(place.0)].name, percent(*p))
        })
        .collect();
    format!("Where made: {}", named.join(", "))
}
