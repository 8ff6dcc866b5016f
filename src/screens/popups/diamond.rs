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
use ratatui::text::Span;

use super::popup::{Effect, Popup};
use crate::piece::reading::{self, MarkHeard};
use crate::registry::corners::{NAMES, parts};
use crate::say::registration::part;
use crate::screens::kit::canvas::{Canvas, above, beside, text_cells};
use crate::screens::kit::rows::{Row, paragraph};
use crate::screens::kit::wrap::{fit, pad, width};
use crate::screens::state::input::Key;
use crate::screens::state::keys::usual::{
    CLOSE, DOWN, ERASE, LEFT, PAGE_DOWN, PAGE_UP, RIGHT, UP, enter,
};
use crate::screens::state::keys::{Binding, KeyTable, Writes};
use crate::screens::state::msg::Msg;
use crate::screens::state::position::step_rows;
use crate::screens::state::session::Session;
use crate::screens::state::typed_line::one_line;
use crate::screens::views::decoded_mark;

/// Index of the class among the fields; before it come the corners in the order of `NAMES`.
const CLASS: usize = 4;

const FIELDS: usize = 5;

/// Most letters or figures of a corner, two and a slip, and of the class, `XIII`.
const MOST: usize = 3;
const MOST_CLASS: usize = 4;

/// Cells of a field, all inside the diamond at its top corner.
const CELLS: u16 = 4;

/// Rows of the picture, and the cells it and its labels need.
const ROWS: u16 = 9;
const PICTURE: u16 = 42;

/// Rows below which there is no room for a picture: the fields stand in two lines.
const LOW: u16 = 13;

/// From this width on the reading stands beside the picture.
const WIDE: u16 = 76;

/// What was typed, and which field has the keys.
#[derive(Debug, Default)]
pub struct Diamond {
    /// Top, right, bottom, left, class; empty where nothing can be read.
    fields: [String; FIELDS],
    at: usize,
    /// What the corners say; `None` while nothing is typed.
    reading: Option<MarkHeard>,
    scroll: usize,
}

const NEXT: Binding = Binding::new(Key::Tab, Msg::Next, "next", "Go to the next corner.");

impl Diamond {
    /// Goes to a field, writes into it or erases; false when the message does none of it.
    fn edit(&mut self, msg: Msg) -> bool {
        match msg {
            Msg::Up => self.at = 0,
            Msg::Right => self.at = 1,
            Msg::Down => self.at = 2,
            Msg::Left => self.at = 3,
            Msg::Field(i) => self.at = i.min(CLASS),
            // In the order top, right, bottom, left, class.
            Msg::Next | Msg::Type(',' | ' ') => self.at = (self.at + 1) % FIELDS,
            Msg::Type(c) => self.write(c),
            Msg::Erase => {
                self.fields[self.at].pop();
            }
            _ => return false,
        }
        true
    }

    /// Writes into the field that has the keys: letters, figures and `?`.
    fn write(&mut self, c: char) {
        let most = if self.at == CLASS { MOST_CLASS } else { MOST };
        let text = &mut self.fields[self.at];
        if (c.is_ascii_alphanumeric() || c == '?') && text.len() < most {
            text.push(c.to_ascii_uppercase());
        }
    }

    /// The fields in two lines, without the picture: three, then two.
    fn fields_alone(&self, canvas: &mut Canvas, area: Rect) {
        for (n, fields) in [0..3, 3..FIELDS].into_iter().enumerate() {
            let mut x = 0;
            for i in fields {
                let name = NAMES.get(i).copied().unwrap_or("class");
                let chosen = self.at == i;
                let (text, style) = match (self.fields[i].as_str(), chosen) {
                    ("", true) => ("_", canvas.theme.chosen),
                    ("", false) => ("?", canvas.theme.quiet),
                    (text, true) => (text, canvas.theme.chosen),
                    (text, false) => (text, canvas.theme.heading),
                };
                let row = Row::of(vec![
                    Span::raw(format!("{name} ")),
                    Span::styled(pad(text, usize::from(CELLS)), style),
                ])
                .click(Msg::Field(i));
                let cells = width(&row.text()) as u16;
                let at = Rect::new(area.x + x, area.y + n as u16, cells, 1);
                canvas.rows(at.intersection(area), &[row]);
                x += cells + 2;
            }
        }
    }

    fn decode(&mut self, session: &Session) {
        let [corners @ .., class] = &self.fields;
        let typed = self.fields.iter().any(|f| !f.is_empty());
        self.reading = typed.then(|| reading::diamond(session.expert(), corners, class));
    }
}

impl Popup for Diamond {
    fn title(&self) -> &'static str {
        "Registration diamond"
    }

    fn keys(&self, _: &Session) -> KeyTable {
        let take = enter("take", "Take these findings.");
        let corners = [UP, RIGHT, DOWN, LEFT, NEXT].into_iter();
        let keys = corners.chain([take, ERASE, PAGE_UP, PAGE_DOWN, CLOSE]);
        KeyTable::new(keys.collect()).writing(Writes::Text)
    }

    fn update(&mut self, msg: Msg, session: &Session) -> Effect {
        if msg == Msg::Take {
            let entries = self.reading.as_ref().map(|r| r.entries.clone());
            return Effect::Take(entries.unwrap_or_default());
        }
        if self.edit(msg) {
            self.decode(session);
            self.scroll = 0;
            return Effect::Stay;
        }
        Effect::used(step_rows(&mut self.scroll, msg, session.shown()))
    }

    /// `A,12,3,W` goes to the corners in their order; what has no room there is left out.
    fn paste(&mut self, text: &str, session: &Session) -> usize {
        let mut left_out = 0;
        for c in one_line(text) {
            let before: usize = self.fields.iter().map(String::len).sum();
            self.edit(Msg::Type(c));
            let after: usize = self.fields.iter().map(String::len).sum();
            left_out += usize::from(after == before && !matches!(c, ',' | ' '));
        }
        self.decode(session);
        self.scroll = 0;
        left_out
    }

    fn draw(&self, session: &Session, canvas: &mut Canvas, inside: Rect) {
        let low = inside.height < LOW && inside.width < WIDE;
        let (picture, rest) = if inside.width >= WIDE {
            beside(inside, PICTURE, 0)
        } else if low {
            above(inside, 2)
        } else {
            above(inside, ROWS)
        };
        let registered = self.reading.as_ref().map(|r| &r.reading.registered);
        let decoded = registered.and_then(|r| r.first());
        let meanings = decoded.and_then(|d| d.layout).map(parts);
        let picture = Picture {
            style: canvas.theme.quiet,
            centre: picture.x + picture.width / 2,
            area: picture,
        };
        if low {
            self.fields_alone(canvas, picture.area);
        } else {
            picture.outline(canvas);
            for (i, text) in self.fields.iter().enumerate() {
                let meaning = meanings.and_then(|m| m.get(i).map(|meaning| part(*meaning)));
                picture.field(canvas, i, text, self.at == i, meaning);
            }
        }
        let (cells, theme) = (text_cells(rest), canvas.theme);
        let rows = match &self.reading {
            None => paragraph(
                "Type what stands at each corner. The arrows go to a corner, Tab to the next; leave a corner empty, or write ?, where it can't be read.",
                cells,
                theme.instruction,
            ),
            Some(reading) => decoded_mark::rows(session.expert(), reading, theme, cells),
        };
        canvas.scrolled(rest, &rows, self.scroll);
    }
}

/// Where the picture lies; cells are counted from its middle.
struct Picture {
    style: Style,
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
                self.put(canvas, -1 - out, row, left, self.style);
                self.put(canvas, out, row, right, self.style);
            }
        }
        self.put(canvas, -1, 4, "Rd", self.style);
        self.put(canvas, -3, 0, "(", self.style);
        self.put(canvas, 2, 0, ")", self.style);
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
            (false, true) => self.style,
            (false, false) => canvas.theme.heading,
        };
        let shown = match text {
            "" if chosen => "_",
            "" => "?",
            text => text,
        };
        let shown = format!("{:^1$}", shown, usize::from(CELLS));
        let field = self.put(canvas, x, row, &shown, style);
        let name_style = if chosen { canvas.theme.key } else { self.style };
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
            label(row + 1, meaning, self.style);
        }
        for at in [field, named] {
            canvas.hit(at, Msg::Field(i));
        }
    }
}
