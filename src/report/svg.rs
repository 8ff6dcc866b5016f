//! The eras picture: one timeline, a row a finding, their product below, the band marked and the
//! guess laid over it. The same file stands by itself and within a page.

use std::fmt::Write;

use crate::claim::Challenge;
use crate::core::grid::{Grid, Year};
use crate::piece::Piece;
use crate::piece::notation::printable;
use crate::say::band::years;

/// One finding's row.
#[derive(Clone, Debug)]
pub struct Row {
    pub label: String,
    /// By year offset, the highest being 1.
    pub heights: Vec<f64>,
}

const WIDTH: f64 = 480.0;
const MARGIN: f64 = 8.0;
const ROW: f64 = 31.0;
/// Height of a row's area under its label.
const AREA: f64 = 15.0;
const PRODUCT: f64 = 70.0;
const TOP: f64 = 16.0;
const FOOT: f64 = 36.0;

/// Longest label, in characters: the picture is 480 wide and a letter about 6.
const LABEL: usize = 72;

const STYLE: &str = "\
.eras{font:11px system-ui,sans-serif}\
.eras text{fill:#222}.eras .grid{stroke:#ccc}.eras .era{fill:#56b4e9;stroke:#0072b2}\
.eras .sum{fill:#e69f00;stroke:#8a5a00}.eras .band{fill:#e69f00;fill-opacity:.18;stroke:#8a5a00}\
.eras .guess{fill:none;stroke:#222;stroke-width:1.5;stroke-dasharray:5 3}\
@media (prefers-color-scheme:dark){.eras text{fill:#eee}.eras .grid{stroke:#444}\
.eras .guess{stroke:#eee}.eras .era{stroke:#9fd3f5}.eras .sum{stroke:#ffd27a}\
.eras .band{stroke:#ffd27a}}\
@media print{.eras text{fill:#000}.eras .grid{stroke:#bbb}.eras .guess{stroke:#000}}";

/// What the picture shows, for those who can't see it.
pub fn alt(piece: &Piece) -> String {
    let judgement = piece.judgement();
    let band = judgement.band();
    format!(
        "Timeline from {} to {}: a row for the era of each finding, and below them the years they \
         leave, {}, middle year {}",
        piece.expert().engine.model.grid.first().0,
        piece.expert().engine.model.grid.last().0,
        years(band.from, band.to),
        judgement.median.0
    )
}

/// The picture.
pub fn eras(piece: &Piece, rows: &[Row], guess: Option<&Challenge>) -> String {
    let grid = &piece.expert().engine.model.grid;
    let product_top = TOP + ROW * rows.len() as f64 + 14.0;
    let bottom = product_top + PRODUCT;
    let height = bottom + FOOT;
    let mut out = String::new();
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"eras\" viewBox=\"0 0 {WIDTH} {height}\" \
         role=\"img\"><title>{}</title><style>{STYLE}</style>",
        escape(&alt(piece))
    );
    for year in (grid.first().0..=grid.last().0).filter(|y| y % 50 == 0) {
        let x = x_of(grid, f64::from(year));
        let _ = write!(
            out,
            "<path class=\"grid\" d=\"M{x:.1} {TOP}V{bottom:.1}\"/>\
             <text x=\"{x:.1}\" y=\"{:.1}\" text-anchor=\"{}\">{year}</text>",
            bottom + 13.0,
            anchor(x),
        );
    }
    for (i, row) in rows.iter().enumerate() {
        let base = TOP + ROW * (i + 1) as f64;
        let _ = write!(
            out,
            "<text x=\"{MARGIN}\" y=\"{:.1}\">{}</text><path class=\"era\" d=\"{}\"/>",
            base - AREA - 4.0,
            escape(&shorten(&row.label)),
            area(grid, &row.heights, base, AREA)
        );
    }
    let judgement = piece.judgement();
    let most = judgement
        .years
        .iter()
        .copied()
        .fold(f64::MIN_POSITIVE, f64::max);
    let scaled: Vec<f64> = judgement.years.iter().map(|p| p / most).collect();
    let band = judgement.band();
    let (from, to) = edges(grid, band.from, band.to);
    let _ = write!(
        out,
        "<rect class=\"band\" x=\"{from:.1}\" y=\"{:.1}\" width=\"{:.1}\" height=\"{:.1}\"/>\
         <path class=\"sum\" d=\"{}\"/>\
         <text x=\"{MARGIN}\" y=\"{:.1}\">All together: {} ({:.0} % band)</text>",
        product_top,
        to - from,
        PRODUCT,
        area(grid, &scaled, bottom, PRODUCT - 4.0),
        product_top - 4.0,
        years(band.from, band.to),
        100.0 * band.share
    );
    if let Some(guess) = guess {
        let (from, to) = edges(grid, guess.from, guess.to);
        let _ = write!(
            out,
            "<rect class=\"guess\" x=\"{from:.1}\" y=\"{TOP}\" width=\"{:.1}\" height=\"{:.1}\"/>\
             <text x=\"{MARGIN}\" y=\"{:.1}\">Dashed: the guess, {}</text>",
            to - from,
            bottom - TOP,
            bottom + 29.0,
            escape(&shorten(&guess.claim.text))
        );
    }
    out.push_str("</svg>");
    out
}

fn x_of(grid: &Grid, year: f64) -> f64 {
    let first = f64::from(grid.first().0);
    MARGIN + (year - first) / grid.years() as f64 * (WIDTH - 2.0 * MARGIN)
}

/// Left edge of the first year and right edge of the last.
fn edges(grid: &Grid, from: Year, to: Year) -> (f64, f64) {
    (
        x_of(grid, f64::from(from.0)),
        x_of(grid, f64::from(to.0) + 1.0),
    )
}

fn anchor(x: f64) -> &'static str {
    match x {
        x if x < 20.0 => "start",
        x if x > WIDTH - 20.0 => "end",
        _ => "middle",
    }
}

/// The area under the heights; points on a straight line are left out.
fn area(grid: &Grid, heights: &[f64], base: f64, tall: f64) -> String {
    let point = |offset: usize| {
        let x = x_of(grid, f64::from(grid.year(offset).0) + 0.5);
        (x, base - tall * heights[offset].clamp(0.0, 1.0))
    };
    let last = heights.len().saturating_sub(1);
    let mut out = format!("M{:.1} {base:.1}", x_of(grid, f64::from(grid.first().0)));
    let mut drawn: Option<(f64, f64)> = None;
    for offset in 0..heights.len() {
        let (x, y) = point(offset);
        let bend = offset == 0 || offset == last || {
            let (before, after) = (point(offset - 1).1, point(offset + 1).1);
            (before + after - 2.0 * y).abs() > 0.05
                || drawn.is_some_and(|(_, d)| (d - y).abs() > 2.0)
        };
        if bend {
            let _ = write!(out, "L{x:.1} {y:.1}");
            drawn = Some((x, y));
        }
    }
    let _ = write!(
        out,
        "L{:.1} {base:.1}Z",
        x_of(grid, f64::from(grid.last().0) + 1.0)
    );
    out
}

fn shorten(label: &str) -> String {
    if label.chars().count() <= LABEL {
        return label.to_owned();
    }
    let mut short: String = label.chars().take(LABEL - 1).collect();
    short.push('…');
    short
}

/// Text within XML: no markup, no control characters, nothing XML forbids.
fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in printable(text).chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\u{fffe}' | '\u{ffff}' => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
    out
}
