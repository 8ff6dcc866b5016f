//! Devices of printed marks, schematic: royal arms and registration marks.

use std::f64::consts::PI;

use super::chance::Chance;
use super::engraved::papered;
use super::layer::{Field, Layer, Node, printed, white};
use super::raster::Picture;
use super::technique::COBALT;

/// A pen for letters and lines.
struct Pen<'a> {
    layer: &'a mut Layer,
    /// Half its width, mm.
    half: f64,
}

impl Pen<'_> {
    fn path(&mut self, points: &[(f64, f64)]) {
        let nodes: Vec<Node> = points
            .iter()
            .map(|p| Node::new(p.0, p.1, self.half))
            .collect();
        if nodes.len() > 1 {
            self.layer.line(&nodes, 0.06, 1.0);
        }
    }

    /// A closed or open arc, in turns from the right, downwards.
    fn arc(&mut self, cx: f64, cy: f64, rx: f64, ry: f64, from: f64, to: f64) {
        let point = |i: i32| {
            let turn = 2.0 * PI * (from + (to - from) * f64::from(i) / 40.0);
            (cx + rx * turn.cos(), cy + ry * turn.sin())
        };
        let points: Vec<(f64, f64)> = (0..=40).map(point).collect();
        self.path(&points);
    }

    /// A line of capitals and figures, its middle at `cx`.
    fn text(&mut self, words: &str, cx: f64, y: f64, tall: f64) {
        let step = 0.82 * tall;
        let mut x = cx - step * (words.chars().count() as f64 - 1.0) / 2.0 - 0.3 * tall;
        for letter in words.chars() {
            for line in strokes(letter) {
                let at = |p: &(f64, f64)| (x + 0.6 * tall * p.0, y + tall * p.1);
                let points: Vec<(f64, f64)> = line.iter().map(at).collect();
                self.path(&points);
            }
            x += step;
        }
    }
}

/// Strokes of a letter in a box one wide and one high, the top at 0: drawn for this, no face copied.
fn strokes(letter: char) -> Vec<Vec<(f64, f64)>> {
    let line = |points: &[(f64, f64)]| points.to_vec();
    let (l, m, r) = (0.0, 0.5, 1.0);
    // C, and G without its bar.
    let round = line(&[
        (r, 0.15),
        (0.6, 0.0),
        (0.2, 0.1),
        (l, 0.5),
        (0.2, 0.9),
        (0.6, 1.0),
        (r, 0.85),
    ]);
    // P, and R without its leg.
    let bowl = line(&[
        (l, 1.0),
        (l, 0.0),
        (0.8, 0.0),
        (r, 0.25),
        (0.8, 0.5),
        (l, 0.5),
    ]);
    match letter.to_ascii_uppercase() {
        'A' => vec![
            line(&[(l, 1.0), (m, 0.0), (r, 1.0)]),
            line(&[(0.2, 0.65), (0.8, 0.65)]),
        ],
        'C' => vec![round],
        'D' => vec![line(&[
            (l, 0.0),
            (l, 1.0),
            (0.6, 1.0),
            (r, 0.7),
            (r, 0.3),
            (0.6, 0.0),
            (l, 0.0),
        ])],
        'E' => vec![
            line(&[(r, 0.0), (l, 0.0), (l, 1.0), (r, 1.0)]),
            line(&[(l, 0.5), (0.7, 0.5)]),
        ],
        'G' => vec![[round, line(&[(r, 0.55), (0.6, 0.55)])].concat()],
        'I' => vec![line(&[(m, 0.0), (m, 1.0)])],
        'K' => vec![
            line(&[(l, 0.0), (l, 1.0)]),
            line(&[(r, 0.0), (l, 0.5), (r, 1.0)]),
        ],
        'N' => vec![line(&[(l, 1.0), (l, 0.0), (r, 1.0), (r, 0.0)])],
        'O' | '0' => vec![line(&[
            (0.3, 0.0),
            (0.7, 0.0),
            (r, 0.3),
            (r, 0.7),
            (0.7, 1.0),
            (0.3, 1.0),
            (l, 0.7),
            (l, 0.3),
            (0.3, 0.0),
        ])],
        'P' => vec![bowl],
        'R' => vec![bowl, line(&[(0.5, 0.5), (r, 1.0)])],
        'S' => vec![line(&[
            (r, 0.12),
            (0.6, 0.0),
            (0.2, 0.05),
            (l, 0.25),
            (0.3, 0.45),
            (0.8, 0.55),
            (r, 0.78),
            (0.7, 1.0),
            (0.3, 1.0),
            (l, 0.88),
        ])],
        'T' => vec![line(&[(l, 0.0), (r, 0.0)]), line(&[(m, 0.0), (m, 1.0)])],
        'V' => vec![line(&[(l, 0.0), (m, 1.0), (r, 0.0)])],
        'X' => vec![line(&[(l, 0.0), (r, 1.0)]), line(&[(r, 0.0), (l, 1.0)])],
        '1' => vec![line(&[(0.2, 0.25), (m, 0.0), (m, 1.0)])],
        '2' => vec![line(&[
            (l, 0.2),
            (0.3, 0.0),
            (0.8, 0.0),
            (r, 0.3),
            (l, 1.0),
            (r, 1.0),
        ])],
        '3' => vec![line(&[
            (l, 0.1),
            (0.6, 0.0),
            (r, 0.25),
            (0.5, 0.45),
            (r, 0.72),
            (0.6, 1.0),
            (l, 0.9),
        ])],
        '4' => vec![line(&[(0.75, 1.0), (0.75, 0.0), (l, 0.7), (r, 0.7)])],
        '5' => vec![line(&[
            (r, 0.0),
            (0.1, 0.0),
            (l, 0.45),
            (0.7, 0.4),
            (r, 0.7),
            (0.6, 1.0),
            (l, 0.9),
        ])],
        '6' => vec![line(&[
            (0.8, 0.0),
            (0.2, 0.4),
            (l, 0.75),
            (0.4, 1.0),
            (r, 0.75),
            (0.6, 0.5),
            (0.05, 0.65),
        ])],
        '7' => vec![line(&[(l, 0.0), (r, 0.0), (0.3, 1.0)])],
        '8' => vec![line(&[
            (m, 0.45),
            (0.1, 0.25),
            (m, 0.0),
            (0.9, 0.25),
            (m, 0.45),
            (l, 0.75),
            (m, 1.0),
            (r, 0.75),
            (m, 0.45),
        ])],
        '9' => vec![line(&[
            (0.2, 1.0),
            (0.8, 0.6),
            (r, 0.25),
            (0.6, 0.0),
            (l, 0.25),
            (0.4, 0.5),
            (0.95, 0.35),
        ])],
        '.' => vec![line(&[(0.4, 0.95), (0.5, 1.0)])],
        _ => Vec::new(),
    }
}

/// Registration: the mark alone on a white ground.
pub(super) fn registration(finding: &str, chance: &mut Chance) -> Option<Picture> {
    let field = Field::wide(28.0);
    let (w, h) = field.mm();
    let mut layer = Layer::new(field);
    // Lines of 0.2 to 0.4 mm (from memory).
    let mut pen = Pen {
        layer: &mut layer,
        half: chance.between(0.11, 0.16),
    };
    let (cx, cy) = (w / 2.0, h / 2.0 + 0.8);
    let figure = |chance: &mut Chance| char::from(b'1' + chance.below(9) as u8).to_string();
    match finding {
        "none" => {}
        "diamond" => {
            // Side 6 to 12 mm, letters 1 to 1.8 high (from memory), on its point, the class in a ring
            // above (thepotteries.org, "Registration Diamonds & Numbers").
            let half = chance.between(6.8, 7.6);
            let corners = [(0.0, -1.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0)];
            let at = |p: (f64, f64)| (cx + half * p.0, cy + half * p.1);
            let mut square: Vec<(f64, f64)> = corners.iter().map(|p| at(*p)).collect();
            square.push(square[0]);
            pen.path(&square);
            pen.arc(cx, cy - half - 1.55, 1.5, 1.5, 0.0, 1.0);
            pen.text("IV", cx, cy - half - 2.2, 1.3);
            pen.text("RD", cx, cy - 0.9, 1.9);
            // Corners from the top as `registry::corners::parts` has them: to 1867, and after.
            let early = chance.happens(0.5);
            let letter = ["A", "C", "D", "E", "G", "I", "K", "R", "X"][chance.below(9)];
            let other = ["A", "C", "D", "E", "G", "I", "K"][chance.below(7)];
            let (day, parcel) = (figure(chance), figure(chance));
            let texts = match early {
                true => [letter.to_owned(), day, parcel, other.to_owned()],
                false => [day, letter.to_owned(), other.to_owned(), parcel],
            };
            for (corner, text) in corners.iter().zip(&texts) {
                let (x, y) = at((corner.0 * 0.68, corner.1 * 0.68));
                pen.text(text, x, y - 0.75, 1.5);
                // A segment cut off by an arc round the corner.
                let (x, y) = at(*corner);
                let inward = (-corner.1).atan2(-corner.0) / (2.0 * PI);
                let r = half * 0.56;
                pen.arc(x, y, r, r, inward - 0.125, inward + 0.125);
            }
        }
        // Letters larger than the 1 to 1.8 mm of ware (from memory), so that they can be read.
        "rd-no" => {
            let number: String = (0..6).map(|_| figure(chance)).collect();
            pen.text("RD NO", cx, cy - 3.0, 2.2);
            pen.text(&number, cx, cy + 0.8, 2.2);
        }
        "registered-words" => {
            pen.text("REGISTERED", cx, cy - 1.2, 2.2);
        }
        _ => return None,
    }
    let layer = papered(layer.capped(1.1), chance);
    Some(printed(field, &white(chance), &[(&layer, COBALT)]))
}

/// Royal arms, 30 mm wide: shield 0.22 by 0.27 of the width, the inner shield 0.35 of that (from
/// memory); drawn larger so that the shield can be seen.
pub(super) fn royal_arms(finding: &str, chance: &mut Chance) -> Option<Picture> {
    let field = Field::wide(28.0);
    let (w, h) = field.mm();
    let mut layer = Layer::new(field);
    let (cx, cy) = (w / 2.0, h * 0.53);
    let (sw, sh) = (chance.between(8.4, 9.2), chance.between(9.6, 10.4));
    let mut pen = Pen {
        layer: &mut layer,
        half: chance.between(0.1, 0.14),
    };
    if finding == "none" {
        pen.text(
            ["IRONSTONE", "STONE", "PEARL"][chance.below(3)].trim(),
            cx,
            cy - 1.0,
            2.0,
        );
    } else {
        supporters(&mut pen, cx, cy, sw, sh);
        crown(&mut pen, cx, cy - sh / 2.0 - 0.5, 5.0);
        ribbon(&mut pen, cx, cy + sh / 2.0 + 1.4, 0.8 * w);
    }
    match finding {
        "none" => {}
        "lion-unicorn" => pen.arc(cx, cy, 0.42 * sw, 0.42 * sh, 0.0, 1.0),
        "quartered" | "central-shield" => {
            shield(&mut pen, cx, cy, sw, sh);
            quarters(&mut pen, cx, cy, sw, sh, finding == "central-shield");
        }
        // Smudged: the shield is there, what is on it is not to be read.
        "unclear" => shield(&mut pen, cx, cy, sw, sh),
        _ => return None,
    }
    if finding == "unclear" {
        let blot = super::chance::Noise::new(chance, 1.1);
        layer.each(|x, y, d| {
            let away = ((x - cx) / (0.55 * sw)).hypot((y - cy) / (0.55 * sh));
            match away < 1.0 {
                true => d.max((0.75 + 0.6 * blot.at(x, y)) * (1.0 - away.powi(4))),
                false => d,
            }
        });
        layer = layer.blurred(0.12);
    }
    let layer = papered(layer.capped(1.1), chance);
    Some(printed(field, &white(chance), &[(&layer, COBALT)]))
}

fn shield(pen: &mut Pen, cx: f64, cy: f64, w: f64, h: f64) {
    let (l, r, t) = (cx - w / 2.0, cx + w / 2.0, cy - h / 2.0);
    let mut points = vec![(l, t), (r, t), (r, cy + 0.1 * h)];
    points.extend((1..=10).map(|i| {
        let turn = PI * f64::from(i) / 10.0;
        (
            cx + w / 2.0 * turn.cos(),
            cy + 0.1 * h + 0.4 * h * turn.sin(),
        )
    }));
    points.push((l, t));
    pen.path(&points);
}

/// England, Scotland, Ireland, England: lions as bars, a rampant lion as a hook, a harp as a bow with
/// four strings.
fn quarters(pen: &mut Pen, cx: f64, cy: f64, w: f64, h: f64, inner: bool) {
    // The quarters' lines stop at the inner shield.
    let (beside, above) = if inner { (0.18, 0.2) } else { (0.0, 0.0) };
    for side in [-1.0, 1.0] {
        pen.path(&[(cx, cy + side * above * h), (cx, cy + side * h / 2.0)]);
        pen.path(&[(cx + side * beside * w, cy), (cx + side * w / 2.0, cy)]);
    }
    let clear = |p: (f64, f64)| !inner || (p.0 - cx).abs() > 0.2 * w || (p.1 - cy).abs() > 0.23 * h;
    for (x, y) in [(-0.28, -0.27), (0.22, 0.2)] {
        for bar in -1..=1 {
            let y = cy + h * (y + 0.11 * f64::from(bar));
            let points: Vec<(f64, f64)> = (0..=8)
                .map(|i| {
                    let t = f64::from(i) / 8.0 - 0.5;
                    (cx + w * (x + 0.3 * t), y + 0.1 * (12.0 * t).sin())
                })
                .filter(|p| clear(*p))
                .collect();
            pen.path(&points);
        }
    }
    let (x, y) = (cx + 0.31 * w, cy - 0.26 * h);
    pen.path(&[
        (x - 0.08 * w, y + 0.16 * h),
        (x + 0.02 * w, y),
        (x - 0.06 * w, y - 0.14 * h),
    ]);
    pen.path(&[(x + 0.02 * w, y), (x + 0.1 * w, y + 0.14 * h)]);
    pen.path(&[(x - 0.02 * w, y - 0.06 * h), (x + 0.11 * w, y - 0.12 * h)]);
    let (x, y) = (cx - 0.3 * w, cy + 0.2 * h);
    pen.arc(x, y, 0.1 * w, 0.14 * h, -0.25, 0.25);
    for string in 0..4 {
        let x = x + 0.028 * w * f64::from(string);
        pen.path(&[(x, y - 0.12 * h), (x, y + 0.12 * h)]);
    }
    if inner {
        let half = pen.half;
        pen.half = 1.5 * half;
        shield(pen, cx, cy, 0.36 * w, 0.4 * h);
        pen.half = half;
        pen.arc(cx, cy - 0.26 * h, 0.1 * w, 0.05 * h, 0.5, 1.0);
    }
}

/// Lion to the left, unicorn to the right: a few strokes each.
fn supporters(pen: &mut Pen, cx: f64, cy: f64, w: f64, h: f64) {
    let (l, r) = (cx - w / 2.0 - 0.4, cx + w / 2.0 + 0.4);
    for (edge, side) in [(l, -1.0), (r, 1.0)] {
        let p = |x: f64, y: f64| (edge + side * x, cy + y * h);
        // Back, belly, legs.
        pen.path(&[
            p(2.6, -0.3),
            p(3.6, -0.1),
            p(3.3, 0.2),
            p(3.8, 0.5),
            p(2.9, 0.5),
        ]);
        pen.path(&[
            p(1.5, -0.15),
            p(1.9, 0.1),
            p(1.6, 0.3),
            p(1.9, 0.5),
            p(0.9, 0.5),
        ]);
        pen.path(&[p(1.7, -0.12), p(0.1, -0.2)]);
        pen.path(&[p(1.8, 0.05), p(0.1, 0.1)]);
        // Tail.
        pen.path(&[p(3.5, 0.2), p(4.9, 0.05), p(4.5, -0.2), p(5.1, -0.35)]);
        let head = p(1.9, -0.38);
        pen.arc(head.0, head.1, 0.8, 0.8, 0.0, 1.0);
        match side < 0.0 {
            // A mane.
            true => {
                for spike in 0..12 {
                    let turn = 2.0 * PI * f64::from(spike) / 12.0;
                    let (s, c) = turn.sin_cos();
                    pen.path(&[
                        (head.0 + 0.9 * c, head.1 + 0.9 * s),
                        (head.0 + 1.4 * c, head.1 + 1.4 * s),
                    ]);
                }
            }
            // A horn.
            false => pen.path(&[
                (head.0 - 0.3, head.1 - 0.7),
                (head.0 - 1.3, head.1 - 2.9),
                (head.0 + 0.2, head.1 - 0.8),
            ]),
        }
    }
}

fn crown(pen: &mut Pen, cx: f64, base: f64, w: f64) {
    pen.path(&[(cx - w / 2.0, base), (cx + w / 2.0, base)]);
    pen.path(&[(cx - w / 2.0, base - 0.6), (cx + w / 2.0, base - 0.6)]);
    for side in [-1.0, 1.0] {
        pen.arc(cx + side * w / 4.0, base - 0.6, w / 4.0, 1.7, 0.5, 1.0);
    }
    pen.arc(cx, base - 2.6, 0.35, 0.35, 0.0, 1.0);
    pen.path(&[(cx, base - 3.9), (cx, base - 2.9)]);
    pen.path(&[(cx - 0.4, base - 3.5), (cx + 0.4, base - 3.5)]);
}

fn ribbon(pen: &mut Pen, cx: f64, y: f64, w: f64) {
    for down in [0.0, 1.5] {
        let points: Vec<(f64, f64)> = (0..=24)
            .map(|i| {
                let t = f64::from(i) / 24.0 - 0.5;
                (cx + w * t, y + down - 1.6 * (2.0 * t).powi(2) + 0.8)
            })
            .collect();
        pen.path(&points);
    }
    for side in [-0.5, 0.5] {
        let x = cx + w * side;
        pen.path(&[(x, y - 0.8), (x, y + 0.7)]);
    }
}
