//! How many cells a window has, and how large they are. Pure, so that it is tested without a browser.
//!
//! All lengths are in dots of the display, of which a CSS pixel has `density`: cells end on whole dots,
//! so that no seam shows between two of them.

use printseam::internals::screens::{LEAST, MOST};

/// Height of a row over the size of its letters: a finger needs more than a mouse (common practice, no
/// source).
const FINGER: f64 = 1.5;
const MOUSE: f64 = 1.25;

/// A row is at least so high under a finger, in CSS pixels (W3C, WCAG 2.2, success criterion 2.5.8).
const LEAST_TARGET: f64 = 24.0;

/// Tightest height of a row over the size of its letters, and smallest letters in CSS pixels, when a
/// phone's keyboard leaves little room (common practice, no source).
const TIGHT: f64 = 1.15;
const SMALLEST: f64 = 9.0;

/// What is known of a window.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// CSS pixels.
    pub width: f64,
    pub height: f64,
    /// Dots of the display in a CSS pixel.
    pub density: f64,
    /// Size of letters the user has set, in CSS pixels.
    pub letters: f64,
    /// Width of a letter over its size.
    pub advance: f64,
    /// A finger points, not a mouse.
    pub finger: bool,
}

/// Cells of a window.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cells {
    pub columns: u16,
    pub rows: u16,
    /// Dots of one cell.
    pub wide: f64,
    pub high: f64,
    /// Size of letters in dots.
    pub letters: f64,
}

impl Cells {
    /// Cells as large as the user's letters make them, smaller where the screens would not fit else.
    pub fn of(room: Room) -> Cells {
        let (width, height) = (room.width * room.density, room.height * room.density);
        let least = (f64::from(LEAST.0), f64::from(LEAST.1));
        let wished = room.letters * room.density;
        let wide = (wished * room.advance).min(width / least.0);
        let letters = wished.min(wide / room.advance);
        let roomy = if room.finger {
            (letters * FINGER).max(LEAST_TARGET * room.density)
        } else {
            letters * MOUSE
        };
        let high = roomy.min((height / least.1).max(letters * TIGHT));
        if high * least.1 <= height {
            return Cells::fill((width, height), wide, high, letters);
        }
        // Even tight rows are too high: smaller letters, down to what can still be read.
        let high = (height / least.1).max(SMALLEST * room.density * TIGHT);
        let letters = letters.min(high / TIGHT);
        Cells::fill((width, height), letters * room.advance, high, letters)
    }

    fn fill((width, height): (f64, f64), wide: f64, high: f64, letters: f64) -> Cells {
        let (wide, high) = (wide.floor().max(1.0), high.floor().max(1.0));
        Cells {
            columns: ((width / wide) as u16).clamp(1, MOST.0),
            rows: ((height / high) as u16).clamp(1, MOST.1),
            wide,
            high,
            letters,
        }
    }

    /// The cell at a place in dots.
    pub fn at(&self, x: f64, y: f64) -> (u16, u16) {
        ((x / self.wide) as u16, (y / self.high) as u16)
    }
}

#[cfg(test)]
mod tests {
    use super::{Cells, Room};
    use printseam::internals::screens::LEAST;

    fn room(width: f64, height: f64) -> Room {
        Room {
            width,
            height,
            density: 2.625,
            letters: 16.0,
            advance: 0.6,
            finger: true,
        }
    }

    #[test]
    fn phones_have_room_for_the_screens_in_rows_a_finger_can_hit() {
        for (width, height) in [(412.0, 800.0), (360.0, 640.0), (320.0, 568.0)] {
            let cells = Cells::of(room(width, height));
            assert!(
                cells.columns >= LEAST.0 && cells.rows >= LEAST.1,
                "{cells:?}"
            );
            assert!(cells.high >= 23.6 * 2.625, "{cells:?}");
        }
    }

    #[test]
    fn a_keyboard_that_is_up_makes_rows_tight_and_not_fewer_than_needed() {
        for height in [340.0, 250.0, 180.0] {
            let cells = Cells::of(room(360.0, height));
            assert!(
                cells.columns >= LEAST.0 && cells.rows >= LEAST.1,
                "{height}: {cells:?}"
            );
        }
    }

    #[test]
    fn letters_grow_with_those_the_user_has_set_as_far_as_the_screens_fit() {
        let wide = Room {
            finger: false,
            ..room(1200.0, 900.0)
        };
        let of = |letters| Cells::of(Room { letters, ..wide });
        assert_eq!(of(16.0).letters, 16.0 * 2.625);
        assert_eq!(of(24.0).letters, 24.0 * 2.625);
        assert!(of(90.0).columns >= LEAST.0 && of(90.0).rows >= LEAST.1);
    }

    #[test]
    fn cells_lie_within_the_window_and_end_on_whole_dots() {
        for width in (1..3000).step_by(37) {
            for height in (1..2000).step_by(41) {
                for letters in [1.0, 12.0, 16.0, 40.0] {
                    let room = Room {
                        letters,
                        ..room(f64::from(width), f64::from(height))
                    };
                    let cells = Cells::of(room);
                    assert_eq!((cells.wide.fract(), cells.high.fract()), (0.0, 0.0));
                    let across = f64::from(cells.columns) * cells.wide;
                    assert!(
                        across <= (room.width * room.density).max(cells.wide),
                        "{room:?} {cells:?}"
                    );
                }
            }
        }
    }
}
