//! Ink laid on a ground: layers of density in mm, and what light they let through.

use super::chance::{Chance, Noise};
use super::raster::Picture;

/// A colour, 0 to 255 a channel.
pub(super) type Rgb = [f64; 3];

/// A point of a line, and half of its width there, in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Node {
    pub x: f64,
    pub y: f64,
    pub half: f64,
}

impl Node {
    pub(super) fn new(x: f64, y: f64, half: f64) -> Node {
        Node { x, y, half }
    }
}

/// Size of a picture in pixels, and its scale.
#[derive(Clone, Copy, Debug)]
pub(super) struct Field {
    pub width: usize,
    pub height: usize,
    /// Pixels a mm.
    pub scale: f64,
}

impl Field {
    /// The usual picture, so many mm wide.
    pub(super) fn wide(mm: f64) -> Field {
        Field {
            width: super::raster::WIDTH,
            height: super::raster::HEIGHT,
            scale: super::raster::WIDTH as f64 / mm,
        }
    }

    /// Width and height in mm.
    pub(super) fn mm(&self) -> (f64, f64) {
        (
            self.width as f64 / self.scale,
            self.height as f64 / self.scale,
        )
    }
}

/// Density of one ink at every pixel: 0 none, 1 its full colour, more where it lies double.
#[derive(Clone, Debug)]
pub(super) struct Layer {
    pub field: Field,
    pub ink: Vec<f32>,
}

impl Layer {
    pub(super) fn new(field: Field) -> Layer {
        Layer {
            field,
            ink: vec![0.0; field.width * field.height],
        }
    }

    /// The pixels of a rectangle in mm: column, row.
    fn pixels(&self, left: f64, top: f64, right: f64, bottom: f64) -> [usize; 4] {
        let edge = |mm: f64, most: usize| (mm * self.field.scale).clamp(0.0, most as f64) as usize;
        [
            edge(left, self.field.width),
            edge(top, self.field.height),
            edge(right + 1.0 / self.field.scale, self.field.width),
            edge(bottom + 1.0 / self.field.scale, self.field.height),
        ]
    }

    /// Adds what `density` says at every point.
    pub(super) fn flood(&mut self, density: impl Fn(f64, f64) -> f64) {
        let (width, scale) = (self.field.width, self.field.scale);
        for (i, ink) in self.ink.iter_mut().enumerate() {
            let (x, y) = ((i % width) as f64 + 0.5, (i / width) as f64 + 0.5);
            *ink += density(x / scale, y / scale) as f32;
        }
    }

    /// A round dot, its edge `soft` mm wide.
    pub(super) fn dot(&mut self, x: f64, y: f64, radius: f64, soft: f64, density: f64) {
        let soft = soft.max(1.0 / self.field.scale);
        let reach = radius + soft;
        let [left, top, right, bottom] = self.pixels(x - reach, y - reach, x + reach, y + reach);
        for row in top..bottom {
            for column in left..right {
                let dx = (column as f64 + 0.5) / self.field.scale - x;
                let dy = (row as f64 + 0.5) / self.field.scale - y;
                let cover = ((radius - dx.hypot(dy)) / soft + 0.5).clamp(0.0, 1.0);
                self.ink[row * self.field.width + column] += (cover * density) as f32;
            }
        }
    }

    /// A line of changing width, its edge `soft` mm wide; `paint` gives the density from how far
    /// along it (0 to 1) and how far across (−1 to 1). Where a line crosses itself it counts once.
    pub(super) fn ribbon(&mut self, line: &[Node], soft: f64, paint: impl Fn(f64, f64) -> f64) {
        let soft = soft.max(1.0 / self.field.scale);
        let lengths: Vec<f64> = line
            .windows(2)
            .map(|w| (w[1].x - w[0].x).hypot(w[1].y - w[0].y))
            .collect();
        let whole: f64 = lengths.iter().sum::<f64>().max(1e-9);
        let reach = |n: &Node| n.half + soft;
        let least = |f: fn(&Node) -> f64| {
            line.iter()
                .map(|n| f(n) - reach(n))
                .fold(f64::MAX, f64::min)
        };
        let most = |f: fn(&Node) -> f64| {
            line.iter()
                .map(|n| f(n) + reach(n))
                .fold(f64::MIN, f64::max)
        };
        let [left, top, right, bottom] =
            self.pixels(least(|n| n.x), least(|n| n.y), most(|n| n.x), most(|n| n.y));
        if left >= right || top >= bottom {
            return;
        }
        let columns = right - left;
        // How deep inside, along, across: of the stretch of line each pixel is deepest in.
        let mut deepest = vec![(f64::MIN, 0.0, 0.0); columns * (bottom - top)];
        let mut before = 0.0;
        for (pair, length) in line.windows(2).zip(&lengths) {
            let (a, b) = (pair[0], pair[1]);
            let wide = reach(&a).max(reach(&b));
            let [l, t, r, d] = self.pixels(
                a.x.min(b.x) - wide,
                a.y.min(b.y) - wide,
                a.x.max(b.x) + wide,
                a.y.max(b.y) + wide,
            );
            let (ux, uy) = (
                (b.x - a.x) / length.max(1e-9),
                (b.y - a.y) / length.max(1e-9),
            );
            for row in t.max(top)..d.min(bottom) {
                for column in l.max(left)..r.min(right) {
                    let dx = (column as f64 + 0.5) / self.field.scale - a.x;
                    let dy = (row as f64 + 0.5) / self.field.scale - a.y;
                    let along = (dx * ux + dy * uy).clamp(0.0, *length);
                    let share = along / length.max(1e-9);
                    let half = a.half + (b.half - a.half) * share;
                    let away = (dx - ux * along).hypot(dy - uy * along);
                    let side = if ux * dy - uy * dx < 0.0 { -1.0 } else { 1.0 };
                    let at = &mut deepest[(row - top) * columns + column - left];
                    if half - away > at.0 {
                        let across = side * (away / half.max(1e-6)).min(1.0);
                        *at = (half - away, (before + along) / whole, across);
                    }
                }
            }
            before += length;
        }
        for (i, (depth, along, across)) in deepest.into_iter().enumerate() {
            let cover = (depth / soft + 0.5).clamp(0.0, 1.0);
            if depth > f64::MIN && cover > 0.0 {
                let at = (top + i / columns) * self.field.width + left + i % columns;
                self.ink[at] += (cover * paint(along, across)) as f32;
            }
        }
    }

    /// A plain line.
    pub(super) fn line(&mut self, line: &[Node], soft: f64, density: f64) {
        self.ribbon(line, soft, |_, _| density);
    }

    /// Spread by `deviation` mm: three running means come near a normal (Wells, "Efficient synthesis
    /// of Gaussian filters by cascaded uniform filters", 1986).
    pub(super) fn blurred(&self, deviation: f64) -> Layer {
        let pixels = deviation * self.field.scale;
        let radius = (((4.0 * pixels * pixels + 1.0).sqrt() - 1.0) / 2.0).round() as usize;
        let mut out = self.clone();
        let (width, height) = (self.field.width, self.field.height);
        for _ in 0..3 {
            for row in out.ink.chunks_mut(width) {
                running_mean(row, radius);
            }
            for column in 0..width {
                let mut cells: Vec<f32> =
                    (0..height).map(|r| out.ink[r * width + column]).collect();
                running_mean(&mut cells, radius);
                for (row, cell) in cells.into_iter().enumerate() {
                    out.ink[row * width + column] = cell;
                }
            }
        }
        out
    }

    /// Density at a point, 0 outside.
    pub(super) fn at(&self, x: f64, y: f64) -> f64 {
        let (x, y) = (x * self.field.scale, y * self.field.scale);
        if x < 0.0 || y < 0.0 {
            return 0.0;
        }
        let (column, row) = (x as usize, y as usize);
        match column < self.field.width && row < self.field.height {
            true => f64::from(self.ink[row * self.field.width + column]),
            false => 0.0,
        }
    }

    /// Changes the density everywhere.
    pub(super) fn each(&mut self, change: impl Fn(f64, f64, f64) -> f64) {
        let (width, scale) = (self.field.width, self.field.scale);
        for (i, ink) in self.ink.iter_mut().enumerate() {
            let (x, y) = ((i % width) as f64 + 0.5, (i / width) as f64 + 0.5);
            *ink = change(x / scale, y / scale, f64::from(*ink)) as f32;
        }
    }

    /// No denser than `most` anywhere.
    pub(super) fn capped(mut self, most: f64) -> Layer {
        self.each(|_, _, d| d.min(most));
        self
    }
}

/// The mean of `radius` cells either side; beyond the ends the last cell goes on.
fn running_mean(cells: &mut [f32], radius: usize) {
    if radius == 0 || cells.is_empty() {
        return;
    }
    let old = cells.to_vec();
    let last = old.len() as i64 - 1;
    let get = |i: i64| f64::from(old[i.clamp(0, last) as usize]);
    let reach = radius as i64;
    let mut sum: f64 = (-reach..=reach).map(get).sum();
    for (i, cell) in (0..).zip(cells.iter_mut()) {
        *cell = (sum / (2 * radius + 1) as f64) as f32;
        sum += get(i + reach + 1) - get(i - reach);
    }
}

/// Light through all layers: each lets through its own colour to the power of its density, so that
/// overlaps darken (Beer and Lambert's law, three wavelengths for all).
pub(super) fn printed(
    field: Field,
    ground: &dyn Fn(f64, f64) -> Rgb,
    inks: &[(&Layer, Rgb)],
) -> Picture {
    let mut rgb = Vec::with_capacity(field.width * field.height * 3);
    for i in 0..field.width * field.height {
        let x = ((i % field.width) as f64 + 0.5) / field.scale;
        let y = ((i / field.width) as f64 + 0.5) / field.scale;
        let mut light = ground(x, y);
        for (layer, ink) in inks {
            let density = f64::from(layer.ink[i]);
            if density > 0.0 {
                for (light, ink) in light.iter_mut().zip(ink) {
                    *light *= (ink.max(4.0) / 255.0).powf(density);
                }
            }
        }
        rgb.extend(light.map(|l| l.round().clamp(0.0, 255.0) as u8));
    }
    Picture {
        width: field.width,
        height: field.height,
        rgb,
    }
}

/// The even ground of white glazed ware, a little uneven as all ware is.
pub(super) fn white(chance: &mut Chance) -> impl Fn(f64, f64) -> Rgb + use<> {
    let noise = Noise::new(chance, 1.7);
    // Within the range of pearlware, shared by all clues (from memory).
    move |x, y| [236.0, 238.0, 240.0].map(|c: f64| c + 3.0 * noise.at(x, y))
}

/// Points of a curve from one point to another, bent aside by `bend` of its length at the middle.
pub(super) fn arc(
    from: (f64, f64),
    to: (f64, f64),
    bend: f64,
    half: impl Fn(f64) -> f64,
) -> Vec<Node> {
    const PIECES: usize = 24;
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let point = |i: usize| {
        let t = i as f64 / PIECES as f64;
        let aside = 4.0 * t * (1.0 - t) * bend;
        Node::new(
            from.0 + dx * t - dy * aside,
            from.1 + dy * t + dx * aside,
            half(t),
        )
    };
    (0..=PIECES).map(point).collect()
}
