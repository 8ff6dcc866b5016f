//! Lanes over one axis of years: how a picture of eras is drawn. Every lane has its label above it and
//! nothing is drawn where a label stands, neither lines of the axis nor a frame.

use std::fmt::Write;

use super::label;
use crate::core::grid::{Grid, Year};
use crate::piece::notation::printable;

/// Width of the picture: shown 380 wide on a phone its letters are 10 high.
const WIDTH: f64 = 420.0;
const MARGIN: f64 = 8.0;
/// Height of letters, as the style has it.
const LETTERS: f64 = 11.0;
/// From one line of a label to the next.
const LINE: f64 = 14.0;
/// Base line below the top of a line.
const BASE_LINE: f64 = 11.0;
/// Lines of a label at most.
const LINES: usize = 2;
/// Between a lane and the next one's label.
const GAP: f64 = 6.0;
/// For the years below the axis.
const FOOT: f64 = 18.0;

const STYLE: &str = "\
.eras{font:11px system-ui,sans-serif}\
.eras text{fill:#222}.eras .grid{stroke:#ccc;fill:none}.eras .era{fill:#56b4e9;stroke:#0072b2}\
.eras .sum{fill:#e69f00;stroke:#8a5a00}.eras .band{fill:#e69f00;fill-opacity:.18;stroke:#8a5a00}\
.eras .guess{fill:none;stroke:#222;stroke-width:1.5;stroke-dasharray:5 3}\
@media (prefers-color-scheme:dark){.eras text{fill:#eee}.eras .grid{stroke:#444}\
.eras .guess{stroke:#eee}.eras .era{stroke:#9fd3f5}.eras .sum{stroke:#ffd27a}\
.eras .band{stroke:#ffd27a}}\
@media print{.eras text{fill:#000}.eras .grid{stroke:#bbb}.eras .guess{stroke:#000}\
.eras .era{stroke:#0072b2}.eras .sum,.eras .band{stroke:#8a5a00}}";

/// What a lane shows of the years.
pub(super) enum Shape {
    /// By year offset, 0..=1.
    Heights(Vec<f64>),
    /// The same, with a band marked: heights, first and last year.
    Banded(Vec<f64>, Year, Year),
    /// A frame from one year to another.
    Frame(Year, Year),
}

/// One lane.
pub(super) struct Lane {
    pub label: String,
    pub shape: Shape,
    /// Height under the label.
    pub tall: f64,
}

/// The picture. `title` says what it shows to those who can't see it.
pub(super) fn draw(grid: &Grid, title: &str, lanes: &[Lane]) -> String {
    let room = WIDTH - 2.0 * MARGIN;
    let (mut drawn, mut axis) = (String::new(), String::new());
    let decades = || (grid.first().0..=grid.last().0).filter(|y| y % 50 == 0);
    let mut at = 2.0;
    for lane in lanes {
        for line in label::lines(&printable(&lane.label), LETTERS, room, LINES) {
            let _ = write!(
                drawn,
                "<text x=\"{MARGIN}\" y=\"{:.1}\">{}</text>",
                at + BASE_LINE,
                escape(&line)
            );
            at += LINE;
        }
        let (top, bottom) = (at + 1.0, at + 1.0 + lane.tall);
        for year in decades() {
            let _ = write!(
                axis,
                "M{:.1} {top:.1}V{bottom:.1}",
                x_of(grid, f64::from(year))
            );
        }
        shape(&mut drawn, grid, &lane.shape, top, bottom);
        at = bottom + GAP;
    }
    let bottom = at - GAP;
    for year in decades() {
        let x = x_of(grid, f64::from(year));
        let _ = write!(
            drawn,
            "<text x=\"{x:.1}\" y=\"{:.1}\" text-anchor=\"{}\">{year}</text>",
            bottom + 2.0 + BASE_LINE,
            anchor(x),
        );
    }
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"eras\" viewBox=\"0 0 {WIDTH} {:.1}\" \
         role=\"img\"><title>{}</title><style>{STYLE}</style>\
         <path class=\"grid\" d=\"{axis}\"/>{drawn}</svg>",
        bottom + FOOT,
        escape(title)
    )
}

fn shape(out: &mut String, grid: &Grid, shape: &Shape, top: f64, bottom: f64) {
    let mut frame = |class: &str, from: Year, to: Year| {
        let from = x_of(grid, f64::from(from.0.max(grid.first().0)));
        let to = x_of(grid, f64::from(to.0.min(grid.last().0)) + 1.0);
        let _ = write!(
            out,
            "<rect class=\"{class}\" x=\"{from:.1}\" y=\"{top:.1}\" width=\"{:.1}\" \
             height=\"{:.1}\"/>",
            (to - from).max(0.0),
            bottom - top
        );
    };
    let (class, heights) = match shape {
        Shape::Frame(from, to) => return frame("guess", *from, *to),
        Shape::Heights(heights) => ("era", heights),
        Shape::Banded(heights, from, to) => {
            frame("band", *from, *to);
            ("sum", heights)
        }
    };
    let area = area(grid, heights, bottom, bottom - top);
    let _ = write!(out, "<path class=\"{class}\" d=\"{area}\"/>");
}

fn x_of(grid: &Grid, year: f64) -> f64 {
    let first = f64::from(grid.first().0);
    MARGIN + (year - first) / grid.years() as f64 * (WIDTH - 2.0 * MARGIN)
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

/// Text within XML: no markup, no control characters, nothing XML forbids.
pub(super) fn escape(text: &str) -> String {
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
