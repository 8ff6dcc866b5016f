//! A picture as rows of pixels.

/// Pixels of a picture.
pub const WIDTH: usize = 480;
pub const HEIGHT: usize = 360;

/// A picture, row by row from the top: red, green and blue of each pixel.
#[derive(Clone, PartialEq, Eq)]
pub struct Picture {
    pub width: usize,
    pub height: usize,
    pub rgb: Vec<u8>,
}

impl std::fmt::Debug for Picture {
    /// Its size and a sum over its bytes: the bytes themselves would fill pages.
    fn fmt(&self, f: &mut std::fmt::Formatter) -> std::fmt::Result {
        let step = |sum: u64, byte: &u8| sum.wrapping_mul(31).wrapping_add(u64::from(*byte));
        let sum = self.rgb.iter().fold(7, step);
        write!(f, "Picture({}x{}, {sum:x})", self.width, self.height)
    }
}

impl Picture {
    /// Colour of a pixel.
    pub fn pixel(&self, column: usize, row: usize) -> [u8; 3] {
        let at = (row * self.width + column) * 3;
        [self.rgb[at], self.rgb[at + 1], self.rgb[at + 2]]
    }

    /// The mean colour of a rectangle given in shares of the whole (0 to 1).
    pub fn mean(&self, left: f64, top: f64, right: f64, bottom: f64) -> [f64; 3] {
        let span = |from: f64, to: f64, size: usize| {
            let from = ((from * size as f64).round() as usize).min(size - 1);
            let to = ((to * size as f64).round() as usize).clamp(from + 1, size);
            from..to
        };
        let (columns, rows) = (
            span(left, right, self.width),
            span(top, bottom, self.height),
        );
        let count = (columns.len() * rows.len()) as f64;
        let mut sum = [0.0; 3];
        for row in rows {
            for column in columns.clone() {
                let pixel = self.pixel(column, row);
                sum.iter_mut()
                    .zip(pixel)
                    .for_each(|(s, p)| *s += f64::from(p));
            }
        }
        sum.map(|s| s / count)
    }
}
