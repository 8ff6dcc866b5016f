//! A picture in characters: braille, eight dots a cell, at any size and with as many colours as there
//! are.

use super::raster::Picture;

/// How many colours a terminal shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Depth {
    /// None: ink is dots.
    Mono,
    /// The sixteen every terminal has: ink is dots in the nearest hue of them on white.
    Sixteen,
    /// Any: two in each cell.
    Rich,
}

/// One character.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cell {
    pub sign: char,
    /// Colour of the dots, and of what lies behind them; `None` = as the terminal has it.
    pub ink: Option<Shade>,
    pub ground: Option<Shade>,
}

/// A colour in terms of what a terminal has.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shade {
    /// Index among the sixteen.
    Of16(u8),
    Rgb([u8; 3]),
}

/// Those of the sixteen that have a hue, with the values most terminals begin with (xterm's, from
/// memory).
const HUES: [(u8, Colour); 6] = [
    (1, [205.0, 0.0, 0.0]),
    (2, [0.0, 205.0, 0.0]),
    (3, [205.0, 205.0, 0.0]),
    (4, [0.0, 0.0, 205.0]),
    (5, [205.0, 0.0, 205.0]),
    (6, [0.0, 205.0, 205.0]),
];

/// Channels nearer to each other than this are a grey (common practice, no source).
const GREY: f64 = 24.0;

/// How far from paper to ink a dot must be, 0 to 1, not to be taken for white: specks of error would
/// look like dots of ink (common practice, no source).
const NEARLY_WHITE: f64 = 0.09;

/// How much edges are sharpened before dots are set (common practice, no source).
const SHARPENED: f64 = 0.9;

/// Paper is at least so bright, and ink so much darker than paper, of 255, whatever the picture holds:
/// a white piece alone must not turn grey (common practice, no source).
const PAPER: f64 = 225.0;
const CONTRAST: f64 = 110.0;

/// Columns and rows that keep the picture's shape within so many; a cell is twice as high as wide.
pub fn fitting(picture: &Picture, columns: usize, rows: usize) -> (usize, usize) {
    let shape = picture.width as f64 / picture.height as f64;
    let wide = (rows as f64 * 2.0 * shape).round() as usize;
    if wide <= columns {
        return (wide.max(1), rows.max(1));
    }
    let high = (columns as f64 / 2.0 / shape).round() as usize;
    (columns.max(1), high.clamp(1, rows.max(1)))
}

/// The picture in so many columns and rows.
pub fn cells(picture: &Picture, columns: usize, rows: usize, depth: Depth) -> Vec<Vec<Cell>> {
    let (columns, rows) = (columns.max(1), rows.max(1));
    let dots = Dots::new(picture, 2 * columns, 4 * rows);
    let inked = match depth {
        Depth::Rich => Vec::new(),
        Depth::Mono | Depth::Sixteen => dots.spread(),
    };
    let cell = |row: usize, column: usize| {
        let places = PLACES.map(|(dx, dy, bit)| (dots.at(2 * column + dx, 4 * row + dy), bit));
        match depth {
            Depth::Rich => two_colours(places.map(|(at, bit)| (dots.colours[at], bit))),
            Depth::Mono | Depth::Sixteen => {
                let set = places.iter().filter(|(at, _)| inked[*at]);
                let sign = braille(set.clone().map(|(_, bit)| *bit).sum());
                let colour = mean(set.map(|(at, _)| dots.colours[*at]));
                let coloured = depth == Depth::Sixteen;
                Cell {
                    sign,
                    ink: colour.filter(|_| coloured).map(nearest),
                    ground: coloured.then_some(Shade::Of16(15)),
                }
            }
        }
    };
    (0..rows)
        .map(|r| (0..columns).map(|c| cell(r, c)).collect())
        .collect()
}

/// Where the dots of a cell are, and their bits in the code of the sign (Unicode, Braille Patterns).
const PLACES: [(usize, usize, u32); 8] = [
    (0, 0, 0x01),
    (0, 1, 0x02),
    (0, 2, 0x04),
    (1, 0, 0x08),
    (1, 1, 0x10),
    (1, 2, 0x20),
    (0, 3, 0x40),
    (1, 3, 0x80),
];

fn braille(bits: u32) -> char {
    match bits {
        0 => ' ',
        _ => char::from_u32(0x2800 + bits).unwrap_or(' '),
    }
}

type Colour = [f64; 3];

/// Brightness as the eye has it (weights of ITU-R BT.709).
fn luma(c: Colour) -> f64 {
    0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2]
}

fn mean(colours: impl Iterator<Item = Colour>) -> Option<Colour> {
    let (mut sum, mut count) = ([0.0; 3], 0.0);
    for colour in colours {
        sum.iter_mut().zip(colour).for_each(|(s, c)| *s += c);
        count += 1.0;
    }
    (count > 0.0).then(|| sum.map(|s| s / count))
}

/// The nearest hue, as strong as the sixteen are: how dark it is, the number of dots says.
fn nearest(colour: Colour) -> Shade {
    let most = colour.iter().copied().fold(f64::MIN, f64::max);
    let least = colour.iter().copied().fold(f64::MAX, f64::min);
    if most - least < GREY {
        return Shade::Of16(if luma(colour) < 90.0 { 0 } else { 8 });
    }
    let full = colour.map(|c| (c - least) / (most - least) * 205.0);
    let away = |of: &Colour| -> f64 { of.iter().zip(full).map(|(a, b)| (a - b).powi(2)).sum() };
    let found = HUES.iter().min_by(|a, b| away(&a.1).total_cmp(&away(&b.1)));
    Shade::Of16(found.map_or(0, |(index, _)| *index))
}

/// The dots of a cell parted into darker and lighter ones, each in their mean colour.
fn two_colours(dots: [(Colour, u32); 8]) -> Cell {
    let rgb = |c: Colour| Some(Shade::Rgb(c.map(|c| c.round().clamp(0.0, 255.0) as u8)));
    let brightness = dots.map(|(c, _)| luma(c));
    let most = brightness.iter().copied().fold(f64::MIN, f64::max);
    let least = brightness.iter().copied().fold(f64::MAX, f64::min);
    let dark = |c: Colour| luma(c) < (most + least) / 2.0;
    let count = dots.iter().filter(|(c, _)| dark(*c)).count();
    let of = |wanted: bool| mean(dots.iter().map(|d| d.0).filter(|c| dark(*c) == wanted));
    // Too little between them to be seen as two (common practice, no source).
    let (Some(darker), Some(lighter), true) = (of(true), of(false), most - least > 16.0) else {
        return Cell {
            sign: ' ',
            ink: None,
            ground: mean(dots.iter().map(|d| d.0)).and_then(rgb),
        };
    };
    // The fewer are dots, the more are behind them. Dots fill less than their share of a cell, so
    // their colour is pushed away from the ground by a third.
    let dotted = count <= 4;
    let (ink, ground) = if dotted {
        (darker, lighter)
    } else {
        (lighter, darker)
    };
    let bits = dots
        .iter()
        .filter(|(c, _)| dark(*c) == dotted)
        .map(|(_, bit)| bit)
        .sum();
    let mut pushed = ink;
    for (p, g) in pushed.iter_mut().zip(ground) {
        *p += (*p - g) / 3.0;
    }
    Cell {
        sign: braille(bits),
        ink: rgb(pushed),
        ground: rgb(ground),
    }
}

/// A picture made smaller, a colour a dot.
struct Dots {
    width: usize,
    height: usize,
    colours: Vec<Colour>,
}

impl Dots {
    fn new(picture: &Picture, width: usize, height: usize) -> Dots {
        let share = |i: usize, of: usize| i as f64 / of as f64;
        let colour = |i: usize| {
            let (x, y) = (i % width, i / width);
            picture.mean(
                share(x, width),
                share(y, height),
                share(x + 1, width),
                share(y + 1, height),
            )
        };
        Dots {
            width,
            height,
            colours: (0..width * height).map(colour).collect(),
        }
    }

    fn at(&self, x: usize, y: usize) -> usize {
        y * self.width + x
    }

    /// Which dots are ink: what a dot is too dark or too light goes on to its neighbours (Floyd and
    /// Steinberg, "An adaptive algorithm for spatial greyscale", 1976), from a picture whose edges
    /// have been sharpened, so that lines stay lines.
    fn spread(&self) -> Vec<bool> {
        let mut sorted: Vec<f64> = self.colours.iter().map(|c| luma(*c)).collect();
        sorted.sort_unstable_by(f64::total_cmp);
        let part = |share: f64| sorted[(share * (sorted.len() - 1) as f64) as usize];
        // White is what most white things here are; black what the darkest hundredth is.
        let paper = part(0.95).max(PAPER);
        let ink = part(0.01).min(paper - CONTRAST);
        let dark: Vec<f64> = self
            .colours
            .iter()
            .map(|c| ((paper - luma(*c)) / (paper - ink)).clamp(0.0, 1.0))
            .collect();
        let around = |x: usize, y: usize| {
            let (mut sum, mut count) = (0.0, 0.0);
            for row in y.saturating_sub(1)..(y + 2).min(self.height) {
                for column in x.saturating_sub(1)..(x + 2).min(self.width) {
                    sum += dark[self.at(column, row)];
                    count += 1.0;
                }
            }
            sum / count
        };
        let mut wanted: Vec<f64> = (0..dark.len())
            .map(|i| {
                let sharp =
                    dark[i] + SHARPENED * (dark[i] - around(i % self.width, i / self.width));
                if dark[i] < NEARLY_WHITE {
                    0.0
                } else {
                    sharp.clamp(0.0, 1.0)
                }
            })
            .collect();
        let mut out = vec![false; dark.len()];
        for y in 0..self.height {
            for x in 0..self.width {
                let at = self.at(x, y);
                out[at] = wanted[at] > 0.5;
                let error = wanted[at] - f64::from(u8::from(out[at]));
                let mut give = |dx: isize, dy: usize, share: f64| {
                    let column = x as isize + dx;
                    if (0..self.width as isize).contains(&column) && y + dy < self.height {
                        let to = self.at(column as usize, y + dy);
                        if dark[to] >= NEARLY_WHITE {
                            wanted[to] += error * share / 16.0;
                        }
                    }
                };
                give(1, 0, 7.0);
                give(-1, 1, 3.0);
                give(0, 1, 5.0);
                give(1, 1, 1.0);
            }
        }
        out
    }
}
