//! A registration diamond as it stands on the piece, with its corners to type into.
//!
//! ```text
//!              ( IV )  class
//!                ╱╲
//!              ╱ A  ╲  top
//!            ╱        ╲
//!    left  ╱ W   Rd  12 ╲  right
//!          ╲            ╱
//!            ╲        ╱
//!              ╲ 3  ╱  bottom
//!                ╲╱
//! ```

use ratatui::layout::Rect;
use ratatui::style::Style;

use super::reading;
use crate::piece::intake::{self, MarkHeard};
use crate::registry::corners::{NAMES, parts};
use crate::say::registration::part;
use crate::screens::app::App;
use crate::screens::canvas::{Canvas, Row, above, beside, paragraph};
use crate::screens::msg::Msg;
use crate::screens::wrap::{fit, width};

/// Index of the class among the fields; before it come the corners in the order of `NAMES`.
pub const CLASS: usize = 4;

const FIELDS: usize = 5;

/// Most letters or figures of a corner, two and a slip, and of the class, `XIII`.
const MOST: usize = 3;
const MOST_CLASS: usize = 4;

/// Cells of a field, all inside the diamond at its top corner.
const CELLS: u16 = 4;

/// Rows of the picture, and the cells it and its labels need.
const ROWS: u16 = 9;
const PICTURE: u16 = 42;

/// From this width on the reading stands beside the picture.
const WIDE: u16 = 76;

/// What was typed, and which field has the keys.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Diamond {
    /// Top, right, bottom, left, class; empty where nothing can be read.
    fields: [String; FIELDS],
    pub at: usize,
    pub scroll: usize,
}

impl Diamond {
    /// The field that has the keys.
    pub fn text(&mut self) -> &mut String {
        &mut self.fields[self.at.min(CLASS)]
    }

    /// Writes into the field that has the keys: letters, figures and `?`.
    pub fn write(&mut self, c: char) {
        let most = if self.at == CLASS { MOST_CLASS } else { MOST };
        let text = self.text();
        if (c.is_ascii_alphanumeric() || c == '?') && text.len() < most {
            text.push(c.to_ascii_uppercase());
        }
    }

    /// The next field, in the order top, right, bottom, left, class.
    pub fn next(&mut self) {
        self.at = (self.at + 1) % FIELDS;
    }

    /// What the corners say; `None` while nothing is typed.
    pub fn heard(&self, app: &App) -> Option<MarkHeard> {
        let [corners @ .., class] = &self.fields;
        let typed = self.fields.iter().any(|f| !f.is_empty());
        typed.then(|| intake::diamond(app.expert(), corners, class))
    }
}

/// Draws the diamond and what its corners say.
pub fn draw(app: &App, canvas: &mut Canvas, area: Rect, diamond: &Diamond) {
    let heard = diamond.heard(app);
    let (picture, rest) = if area.width >= WIDE {
        beside(area, PICTURE, 0)
    } else {
        above(area, ROWS)
    };
    let decoded = heard.as_ref().and_then(|h| h.reading.registered.first());
    let meanings = decoded.and_then(|d| d.layout).map(parts);
    let picture = Picture {
        theme: app.theme.quiet,
        centre: picture.x + picture.width / 2,
        area: picture,
    };
    picture.outline(canvas);
    for (i, text) in diamond.fields.iter().enumerate() {
        let meaning = meanings.and_then(|m| m.get(i).map(|meaning| part(*meaning)));
        picture.field(canvas, i, text, diamond.at == i, meaning);
    }
    let cells = usize::from(rest.width).saturating_sub(2);
    let rows = match &heard {
        None => paragraph(
            "Type what stands at each corner. The arrows go to a corner, Tab to the next; leave a corner empty, or write ?, where it can't be read.",
            cells,
            app.theme.quiet,
        ),
        Some(heard) => reading::heard(app, heard, cells),
    };
    canvas.scrolled(rest, &rows, diamond.scroll);
}

/// Where the picture lies; cells are counted from its middle.
struct Picture {
    theme: Style,
    centre: u16,
    area: Rect,
}

impl Picture {
    fn put(&self, canvas: &mut Canvas, x: i32, row: u16, text: &str, style: Style) -> Rect {
        let x = u16::try_from(i32::from(self.centre) + x).unwrap_or(self.area.x);
        let at = Rect::new(x, self.area.y + row, width(text) as u16, 1).intersection(self.area);
        canvas.rows(at, &[Row::new(text, style)]);
        at
    }

    fn outline(&self, canvas: &mut Canvas) {
        // Each row is two cells wider on either side than the one nearer the point.
        for r in 0..4u16 {
            let out = i32::from(r) * 2;
            for (row, left, right) in [(1 + r, "╱", "╲"), (ROWS - 1 - r, "╲", "╱")] {
                self.put(canvas, -1 - out, row, left, self.theme);
                self.put(canvas, out, row, right, self.theme);
            }
        }
        self.put(canvas, -1, 4, "Rd", self.theme);
        self.put(canvas, -3, 0, "(", self.theme);
        self.put(canvas, 2, 0, ")", self.theme);
    }

    /// A field, its name beside the diamond, and what stands there under the name.
    fn field(
        &self,
        canvas: &mut Canvas,
        i: usize,
        text: &str,
        chosen: bool,
        meaning: Option<&str>,
    ) {
        // (first cell of the field, row, cell of the name; negative: the name ends there)
        let (x, row, name_at) = match i {
            0 => (-2, 2, 5),
            1 => (2, 4, 9),
            2 => (-2, 7, 5),
            3 => (-6, 4, -9),
            _ => (-2, 0, 5),
        };
        let name = NAMES.get(i).copied().unwrap_or("class");
        let style = match (chosen, text.is_empty()) {
            (true, _) => canvas.theme.chosen,
            (false, true) => self.theme,
            (false, false) => canvas.theme.heading,
        };
        let shown = match text {
            "" if chosen => "_",
            "" => "?",
            text => text,
        };
        let shown = format!("{:^1$}", shown, usize::from(CELLS));
        let field = self.put(canvas, x, row, &shown, style);
        let name_style = if chosen { canvas.theme.key } else { self.theme };
        let mut label = |row: u16, text: &str, style: Style| {
            let x = match name_at {
                at if at < 0 => at - width(text) as i32 + 1,
                at => at,
            };
            let half = i32::from(self.area.width / 2);
            let room = match name_at {
                at if at < 0 => half + at + 1,
                at => half - at,
            };
            let room = usize::try_from(room).unwrap_or(0);
            self.put(canvas, x, row, &fit(text, room), style)
        };
        let named = label(row, name, name_style);
        if let Some(meaning) = meaning {
            label(row + 1, meaning, self.theme);
        }
        for at in [field, named] {
            canvas.hit(at, Msg::Field(i));
        }
    }
}
