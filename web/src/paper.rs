//! A canvas as ratatui draws on it: cells of letters and rectangles, at the display's own density.

use std::convert::Infallible;

use ratatui::backend::{Backend, ClearType, WindowSize};
use ratatui::buffer::Cell;
use ratatui::layout::{Position, Size};
use ratatui::style::Modifier;
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use crate::cells::Cells;
use crate::palette::{Palette, Rgb, css, mixed};
use crate::signs;

/// Fonts in the order they are asked for; the system's own comes first.
const FONTS: &str =
    "ui-monospace, \"Roboto Mono\", Menlo, Consolas, \"DejaVu Sans Mono\", monospace";

/// Letters stand so far below the middle of their row, in shares of their size (common practice, no
/// source).
const SUNK: f64 = 0.04;

/// How thick an underline is, and how far below the middle, in shares of the size of letters (common
/// practice, no source).
const LINE: f64 = 1.0 / 16.0;
const LINE_DOWN: f64 = 0.58;

/// The canvas and what it is painted with.
pub struct Paper {
    canvas: HtmlCanvasElement,
    context: CanvasRenderingContext2d,
    cells: Cells,
    palette: Palette,
    /// What the context has been told: setting a font costs more than drawing a letter.
    bold: Option<bool>,
    ink: Option<Rgb>,
}

impl Paper {
    pub fn new(
        canvas: HtmlCanvasElement,
        context: CanvasRenderingContext2d,
        cells: Cells,
        palette: Palette,
    ) -> Paper {
        let mut paper = Paper {
            canvas,
            context,
            cells,
            palette,
            bold: None,
            ink: None,
        };
        paper.fit(cells, palette, 1.0);
        paper
    }

    /// Takes the size of these cells, `density` dots in a CSS pixel, and wipes all.
    pub fn fit(&mut self, cells: Cells, palette: Palette, density: f64) {
        (self.cells, self.palette) = (cells, palette);
        let (wide, high) = (
            f64::from(cells.columns) * cells.wide,
            f64::from(cells.rows) * cells.high,
        );
        // Setting the size wipes the canvas, and whatever the context was told.
        self.canvas.set_width(wide as u32);
        self.canvas.set_height(high as u32);
        let style = self.canvas.style();
        let pixels = |dots: f64| format!("{}px", dots / density);
        // A style that can't be set leaves the canvas at its usual size, which can be read too.
        let _ = style.set_property("width", &pixels(wide));
        let _ = style.set_property("height", &pixels(high));
        self.context.set_text_baseline("middle");
        self.context.set_text_align("left");
        (self.bold, self.ink) = (None, None);
        self.wipe();
    }

    fn wipe(&mut self) {
        let (wide, high) = (self.canvas.width(), self.canvas.height());
        self.fill(self.palette.ground);
        self.context
            .fill_rect(0.0, 0.0, f64::from(wide), f64::from(high));
    }

    fn fill(&mut self, ink: Rgb) {
        if self.ink != Some(ink) {
            self.context.set_fill_style_str(&css(ink));
            self.ink = Some(ink);
        }
    }

    fn set_bold(&mut self, bold: bool) {
        if self.bold != Some(bold) {
            let weight = if bold { "bold " } else { "" };
            let font = format!("{weight}{}px {FONTS}", self.cells.letters);
            self.context.set_font(&font);
            self.bold = Some(bold);
        }
    }

    fn cell(&mut self, x: u16, y: u16, cell: &Cell) {
        let (wide, high) = (self.cells.wide, self.cells.high);
        let (left, top) = (f64::from(x) * wide, f64::from(y) * high);
        let (ground, ink) = self.palette.of(cell.fg, cell.bg, cell.modifier);
        self.fill(ground);
        self.context.fill_rect(left, top, wide, high);
        let sign = cell.symbol();
        let mut letters = sign.chars();
        let drawn = match (letters.next(), letters.next()) {
            (Some(one), None) => signs::parts(one, high / wide),
            _ => None,
        };
        match drawn {
            Some((parts, share)) => {
                self.fill(mixed(ink, ground, share));
                // Inner edges are rounded to whole dots, so that parts of one sign meet too.
                for [l, t, r, b] in parts {
                    let (l, r) = ((l * wide).round(), (r * wide).round());
                    let (t, b) = ((t * high).round(), (b * high).round());
                    let (width, height) = ((r - l).max(1.0), (b - t).max(1.0));
                    self.context.fill_rect(left + l, top + t, width, height);
                }
            }
            None => {
                self.set_bold(cell.modifier.contains(Modifier::BOLD));
                self.fill(ink);
                let middle = top + high / 2.0 + self.cells.letters * SUNK;
                // A letter that can't be drawn leaves its cell empty.
                let _ = self.context.fill_text(sign, left, middle);
            }
        }
        if cell.modifier.contains(Modifier::UNDERLINED) {
            self.fill(ink);
            let thick = (self.cells.letters * LINE).max(1.0).round();
            let foot = top + high / 2.0 + (self.cells.letters * LINE_DOWN).round();
            self.context
                .fill_rect(left, foot.min(top + high - thick), wide, thick);
        }
    }
}

impl Backend for Paper {
    type Error = Infallible;

    fn draw<'a, I>(&mut self, content: I) -> Result<(), Infallible>
    where
        I: Iterator<Item = (u16, u16, &'a Cell)>,
    {
        content.for_each(|(x, y, cell)| self.cell(x, y, cell));
        Ok(())
    }

    fn hide_cursor(&mut self) -> Result<(), Infallible> {
        Ok(())
    }

    fn show_cursor(&mut self) -> Result<(), Infallible> {
        Ok(())
    }

    fn get_cursor_position(&mut self) -> Result<Position, Infallible> {
        Ok(Position::ORIGIN)
    }

    fn set_cursor_position<P: Into<Position>>(&mut self, _: P) -> Result<(), Infallible> {
        Ok(())
    }

    fn clear(&mut self) -> Result<(), Infallible> {
        self.wipe();
        Ok(())
    }

    fn clear_region(&mut self, _: ClearType) -> Result<(), Infallible> {
        // The screens ask for it only before a whole frame.
        self.clear()
    }

    fn size(&self) -> Result<Size, Infallible> {
        Ok(Size::new(self.cells.columns, self.cells.rows))
    }

    fn window_size(&mut self) -> Result<WindowSize, Infallible> {
        Ok(WindowSize {
            columns_rows: self.size()?,
            pixels: Size::new(self.canvas.width() as u16, self.canvas.height() as u16),
        })
    }

    fn flush(&mut self) -> Result<(), Infallible> {
        Ok(())
    }
}

/// Width of a letter over its size, as this browser has its fonts.
pub fn advance(context: &CanvasRenderingContext2d) -> f64 {
    context.set_font(&format!("100px {FONTS}"));
    let measured = context.measure_text("MMMMMMMMMM").map(|m| m.width());
    match measured {
        Ok(wide) if wide > 0.0 => wide / 1000.0,
        // What monospaced letters mostly have (from memory).
        _ => 0.6,
    }
}
