//! Pictures in rows of characters, in the colours of the theme.

use ratatui::style::{Color, Style};
use ratatui::text::Span;

use super::rows::Row;
use super::theme::Theme;
use crate::picture::Picture;
use crate::picture::cells::{Cell, Depth, Shade, cells, fitting};

/// Said of pictures whose colours are all there is to see, where there are none.
pub(crate) const COLOURS: &str = "It takes colours to tell these apart: start with --theme rich.";

/// The picture within so many columns and rows, in the middle of them.
pub(crate) fn rows(picture: &Picture, columns: usize, rows: usize, theme: Theme) -> Vec<Row> {
    let (wide, high) = fitting(picture, columns, rows);
    let margin = " ".repeat(columns.saturating_sub(wide) / 2);
    let row = |line: &Vec<Cell>| {
        let mut spans = vec![Span::raw(margin.clone())];
        for part in line.chunk_by(|a, b| (a.ink, a.ground) == (b.ink, b.ground)) {
            let text: String = part.iter().map(|c| c.sign).collect();
            let mut style = Style::new();
            style.fg = part[0].ink.map(colour);
            style.bg = part[0].ground.map(colour);
            spans.push(Span::styled(text, style));
        }
        Row::of(spans)
    };
    cells(picture, wide, high, depth(theme))
        .iter()
        .map(row)
        .collect()
}

/// True where the theme has any colour.
pub(crate) fn in_colour(theme: Theme) -> bool {
    depth(theme) != Depth::Mono
}

/// How many colours a theme takes.
fn depth(theme: Theme) -> Depth {
    match theme.bar.fg {
        None => Depth::Mono,
        Some(Color::Rgb(..)) => Depth::Rich,
        Some(_) => Depth::Sixteen,
    }
}

fn colour(shade: Shade) -> Color {
    match shade {
        Shade::Of16(0) => Color::Black,
        Shade::Of16(15) => Color::White,
        Shade::Of16(index) => Color::Indexed(index),
        Shade::Rgb([r, g, b]) => Color::Rgb(r, g, b),
    }
}
