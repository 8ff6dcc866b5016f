//! The year curve, the band under it, and the eras of the findings under that.

use ratatui::text::Span;

use super::app::App;
use super::canvas::Row;
use super::wrap::pad;
use crate::words::reasons::clue_name;

/// Eighths of a cell, from empty to full.
const EIGHTHS: [char; 9] = [' ', '▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'];

/// Shades for the eras, from nothing to full.
const SHADES: [char; 5] = [' ', '░', '▒', '▓', '█'];

/// Cells before the curve, for the names of the eras.
const GUTTER: usize = 12;

/// A curve of `height` rows, its axis with the band, and at most `eras` rows of eras.
pub fn picture(app: &App, cells: usize, height: usize, eras: usize) -> Vec<Row> {
    let gutter = if cells >= 30 {
        GUTTER.min(cells / 4)
    } else {
        0
    };
    let columns = cells.saturating_sub(gutter).max(1);
    let verdict = app.case().verdict();
    let mut out = curve(app, &binned(&verdict.years, columns), gutter, height);
    out.push(band(app, columns, gutter));
    out.push(axis(app, columns, gutter));
    if gutter > 0 {
        let skipped = app.eras.len().saturating_sub(eras);
        for (entry, era) in app.eras.iter().skip(skipped) {
            let strip: String = peaks(era, columns)
                .iter()
                .map(|h| SHADES[(h * 4.0).round().clamp(0.0, 4.0) as usize])
                .collect();
            out.push(Row::of(vec![
                Span::styled(
                    pad(&clue_name(app.expert(), entry.clue), gutter - 1),
                    app.theme.quiet,
                ),
                Span::raw(" "),
                Span::styled(strip, app.theme.era),
            ]));
        }
    }
    out
}

/// Probability by column, scaled so that the highest column is 1.
fn binned(years: &[f64], columns: usize) -> Vec<f64> {
    let mut out = vec![0.0; columns];
    for (offset, p) in years.iter().enumerate() {
        out[offset * columns / years.len()] += p;
    }
    let top = out.iter().copied().fold(f64::MIN_POSITIVE, f64::max);
    out.iter().map(|x| x / top).collect()
}

/// Highest year of each column.
fn peaks(heights: &[f64], columns: usize) -> Vec<f64> {
    let mut out = vec![0.0f64; columns];
    for (offset, h) in heights.iter().enumerate() {
        let at = offset * columns / heights.len();
        out[at] = out[at].max(*h);
    }
    out
}

fn curve(app: &App, heights: &[f64], gutter: usize, rows: usize) -> Vec<Row> {
    (0..rows)
        .rev()
        .map(|row| {
            let text: String = heights
                .iter()
                .map(|h| {
                    let eighths = h * 8.0 * rows as f64 - 8.0 * row as f64;
                    EIGHTHS[eighths.round().clamp(0.0, 8.0) as usize]
                })
                .collect();
            Row::of(vec![
                Span::raw(" ".repeat(gutter)),
                Span::styled(text, app.theme.bar),
            ])
        })
        .collect()
}

/// The 80 % band and the middle year.
fn band(app: &App, columns: usize, gutter: usize) -> Row {
    let verdict = app.case().verdict();
    let axes = &app.expert().engine.model.axes;
    let column = |year| axes.offset(year).unwrap_or(0) * columns / axes.years();
    let (from, to) = (column(verdict.band().from), column(verdict.band().to));
    let middle = column(verdict.median);
    let text: String = (0..columns)
        .map(|c| match c {
            c if c == middle => '●',
            c if c == from => '├',
            c if c == to => '┤',
            c if from < c && c < to => '─',
            _ => ' ',
        })
        .collect();
    let label = if gutter > 0 {
        pad("80 % band", gutter)
    } else {
        String::new()
    };
    Row::of(vec![
        Span::styled(label, app.theme.quiet),
        Span::styled(text, app.theme.band),
    ])
}

/// Years every half century, as far as they fit.
fn axis(app: &App, columns: usize, gutter: usize) -> Row {
    let axes = &app.expert().engine.model.axes;
    let mut text = vec![' '; columns];
    for offset in (0..axes.years()).filter(|o| axes.year(*o).0 % 50 == 0) {
        let at = offset * columns / axes.years();
        let label = axes.year(offset).0.to_string();
        if at + label.len() <= columns
            && text[at.saturating_sub(1)..at + label.len()]
                .iter()
                .all(|c| *c == ' ')
        {
            for (i, c) in label.chars().enumerate() {
                text[at + i] = c;
            }
        }
    }
    let text: String = text.into_iter().collect();
    Row::of(vec![
        Span::raw(" ".repeat(gutter)),
        Span::styled(text, app.theme.quiet),
    ])
}
