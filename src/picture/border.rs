//! Borders laid from strips: joins, motifs that come again, and colour over printed outlines.

use std::f64::consts::PI;

use super::brush::Brush;
use super::chance::Chance;
use super::design::Leaf;
use super::engraved::{self, cut};
use super::layer::{Field, Layer, Rgb, arc, printed, white};
use super::raster::Picture;
use super::technique::{COBALT, leaf_at};

/// A closed curve as a path.
fn ring(cx: f64, cy: f64, radius: f64, lobes: f64, deep: f64) -> Vec<(f64, f64)> {
    let point = |i: i32| {
        let turn = 2.0 * PI * f64::from(i) / 72.0;
        let r = radius * (1.0 + deep * (lobes * turn).cos());
        (cx + r * turn.cos(), cy + r * turn.sin())
    };
    (0..=72).map(point).collect()
}

/// A flower of a border: petals, heart and two leaves, cut in copper.
fn engraved_flower(layer: &mut Layer, chance: &mut Chance, cx: f64, cy: f64, size: f64) {
    let petals = 5 + chance.below(3);
    let turn = chance.between(0.0, 1.0);
    for i in 0..petals {
        let angle = turn + 2.0 * PI * i as f64 / petals as f64;
        let from = (
            cx + 0.16 * size * angle.cos(),
            cy + 0.16 * size * angle.sin(),
        );
        let petal = Leaf::new(
            from,
            angle,
            0.36 * size,
            0.26 * size,
            chance.between(-0.1, 0.1),
        );
        engraved::outline(layer, chance, &petal, 0.026 * size);
        engraved::hatch(layer, chance, &petal, 0.05 * size, 0.02 * size, 1.0);
    }
    cut(
        layer,
        chance,
        &ring(cx, cy, 0.13 * size, 5.0, 0.06),
        0.03 * size,
    );
    layer.dot(cx, cy, 0.06 * size, 0.05, 1.0);
    for i in 0..3 {
        let angle = turn + 0.6 + 2.1 * f64::from(i);
        let from = (
            cx + 0.52 * size * angle.cos(),
            cy + 0.42 * size * angle.sin(),
        );
        layer.dot(from.0, from.1, 0.035 * size, 0.05, 1.0);
    }
}

/// A flower in strokes: how it is meant to be, before the hand.
struct Strokes(Vec<(f64, f64, f64, f64, f64)>);

impl Strokes {
    /// Distance from the middle, direction, length, width, bend; in sizes.
    fn new(chance: &mut Chance) -> Strokes {
        let petals = 6 + chance.below(2);
        let turn = chance.between(0.0, 1.0);
        let petal = |i| {
            (
                0.12,
                turn + 2.0 * PI * i as f64 / petals as f64,
                0.33,
                0.15,
                0.12,
            )
        };
        let mut strokes: Vec<(f64, f64, f64, f64, f64)> = (0..petals).map(petal).collect();
        let leaf = turn + 0.25;
        strokes.extend([
            (0.3, leaf, 0.26, 0.07, 0.3),
            (0.3, leaf + PI, 0.26, 0.07, -0.3),
        ]);
        strokes.push((0.0, leaf, 0.07, 0.12, 0.0));
        Strokes(strokes)
    }

    /// Painted once. `loose` = 1 as a hand repeats it: length by 10 to 20 %, angle by 5 to 10 degrees,
    /// place by 0.5 to 2 mm on large ware (from memory); 0 as it is meant.
    fn paint(
        &self,
        layer: &mut Layer,
        chance: &mut Chance,
        cx: f64,
        cy: f64,
        size: f64,
        loose: f64,
    ) {
        let mut brush = Brush::new(chance);
        for (away, angle, length, width, bend) in &self.0 {
            let angle = angle + chance.normal(0.13) * loose;
            let length = length * size * (1.0 + chance.normal(0.17) * loose);
            let width = width * size * (1.0 + chance.normal(0.16) * loose);
            let aside = (
                chance.normal(0.022) * size * loose,
                chance.normal(0.022) * size * loose,
            );
            let from = (
                cx + away * size * angle.cos() + aside.0,
                cy + away * size * angle.sin() + aside.1,
            );
            let to = (from.0 + length * angle.cos(), from.1 + length * angle.sin());
            let bend = bend * (1.0 + chance.normal(0.5) * loose);
            let nodes = arc(from, to, bend, |_| 0.0);
            let path: Vec<(f64, f64)> = nodes.iter().map(|n| (n.x, n.y)).collect();
            brush.stroke(layer, chance, &path, width);
        }
    }
}

/// Repeats: one motif three times, or once. A print repeats whatever its maker drew, strokes of a brush
/// as well; a hand never does.
pub(super) fn repeats(finding: &str, chance: &mut Chance) -> Option<Picture> {
    let field = Field::wide(24.0);
    let (w, h) = field.mm();
    let size = 0.36 * w;
    let places: &[(f64, f64)] = match finding {
        "single" => &[(0.5, 0.5)],
        _ => &[(0.19, 0.3), (0.5, 0.69), (0.81, 0.3)],
    };
    let painted = match finding {
        "identical" => chance.happens(0.35),
        "nearly" => true,
        "single" => chance.happens(0.5),
        _ => return None,
    };
    let motif = Strokes::new(chance);
    let kept = chance.clone();
    let mut layer = Layer::new(field);
    for (x, y) in places {
        let mut own = match finding {
            "nearly" => Chance::new(chance.next(), &["hand"]),
            _ => kept.clone(),
        };
        // A copy begins at a whole pixel, so that it is the same to the last dot.
        let whole = |mm: f64| (mm * field.scale).round() / field.scale;
        let (x, y) = (whole(x * w), whole(y * h));
        match painted {
            true => {
                let loose = if finding == "nearly" { 1.0 } else { 0.0 };
                motif.paint(&mut layer, &mut own, x, y, size, loose);
            }
            false => engraved_flower(&mut layer, &mut own, x, y, size),
        }
    }
    let layer = layer.capped(1.6);
    Some(printed(field, &white(chance), &[(&layer, COBALT)]))
}

/// Width of a motif of the border, mm (from memory).
const MOTIF: f64 = 6.0;

/// Join: a border from one strip, or where two strips meet.
pub(super) fn join(finding: &str, chance: &mut Chance) -> Option<Picture> {
    let field = Field::wide(24.0);
    let (w, h) = field.mm();
    let strip = Strip::new(chance);
    let phase = chance.between(0.0, MOTIF);
    let mut layer = Layer::new(field);
    match finding {
        "none" => strip.lay(&mut layer, -1.0, w + 1.0, phase, 0.0, h),
        "seen" => {
            let at = w * chance.between(0.35, 0.65);
            // One strip lies 0.3 to 2 mm lower than the other (from memory): here what can be seen.
            let step = chance.between(0.5, 1.6) * if chance.happens(0.5) { 1.0 } else { -1.0 };
            // A gap of 0.3 to 3 mm or an overlap of 0.5 to 4 (from memory): those a beginner sees.
            let apart = match chance.happens(0.5) {
                true => chance.between(0.8, 2.2),
                false => -chance.between(1.2, 3.0),
            };
            let other = phase + MOTIF * chance.between(0.3, 0.7);
            strip.lay(&mut layer, -1.0, at - apart / 2.0, phase, -step / 2.0, h);
            strip.lay(&mut layer, at + apart / 2.0, w + 1.0, other, step / 2.0, h);
        }
        _ => return None,
    }
    let layer = layer.capped(2.2);
    Some(printed(field, &white(chance), &[(&layer, COBALT)]))
}

/// A border as it is engraved: the same motifs again and again.
struct Strip {
    kept: Chance,
    lean: f64,
}

impl Strip {
    fn new(chance: &mut Chance) -> Strip {
        let lean = chance.between(-0.5, 0.5);
        Strip {
            kept: chance.clone(),
            lean,
        }
    }

    /// Lays the strip from `left` to `right`, moved along by `phase` and down by `down`.
    fn lay(&self, onto: &mut Layer, left: f64, right: f64, phase: f64, down: f64, h: f64) {
        let field = onto.field;
        let (w, _) = field.mm();
        let (top, bottom) = (0.2 * h + down, 0.8 * h + down);
        let mut layer = Layer::new(field);
        let mut chance = self.kept.clone();
        // Outlines 0.2 to 0.8 wide (from memory).
        for (y, width) in [
            (top, 0.5),
            (top + 0.7, 0.2),
            (bottom, 0.5),
            (bottom - 0.7, 0.2),
        ] {
            let nodes = arc((-2.0, y), (w + 2.0, y), 0.0, |_| width / 2.0);
            layer.line(&nodes, 0.06, 1.0);
        }
        let mut x = phase - 3.0 * MOTIF;
        while x < w + MOTIF {
            let mut own = self.kept.clone();
            let middle = (top + bottom) / 2.0;
            engraved_flower(&mut layer, &mut own, x, middle, 0.66 * MOTIF);
            let leaf = leaf_at(
                &mut own,
                x + 0.5 * MOTIF,
                middle - 1.4,
                PI / 2.0 + self.lean,
                2.8,
            );
            engraved::outline(&mut layer, &mut own, &leaf, 0.14);
            engraved::hatch(&mut layer, &mut own, &leaf, 0.28, 0.12, 1.0);
            x += MOTIF;
        }
        // Upright lines as ground, which show any shift.
        let mut x = phase - 3.0 * MOTIF;
        while x < w + 2.0 {
            for (from, to) in [(top + 0.7, top + 2.0), (bottom - 2.0, bottom - 0.7)] {
                cut(
                    &mut layer,
                    &mut chance,
                    &[(x, from), (x, (from + to) / 2.0), (x, to)],
                    0.2,
                );
            }
            x += MOTIF / 12.0;
        }
        onto.each(|x, y, d| match (left..right).contains(&x) {
            true => d + layer.at(x, y).min(1.2),
            false => d,
        });
    }
}

/// Green enamel (its range from memory).
const GREEN: Rgb = [92.0, 150.0, 96.0];

/// Overrun: printed outlines, and where a second colour lies beside them.
pub(super) fn overrun(finding: &str, chance: &mut Chance) -> Option<Picture> {
    let field = Field::wide(12.0);
    let (w, h) = field.mm();
    let mut print = Layer::new(field);
    let mut fill = Layer::new(field);
    let places = [
        (0.12, 0.3, 0.35),
        (0.5, 0.2, 0.25),
        (0.16, 0.74, -0.2),
        (0.55, 0.76, -0.3),
    ];
    for (x, y, lean) in places {
        let angle = lean + chance.normal(0.15);
        let (x, y) = (x * w + chance.normal(0.25), y * h + chance.normal(0.2));
        let leaf = leaf_at(chance, x, y, angle, 0.36 * w);
        engraved::outline(&mut print, chance, &leaf, 0.3);
        if finding == "nothing-filled" {
            engraved::hatch(&mut print, chance, &leaf, 0.4, 0.16, 1.0);
        }
        let mut patch = leaf.clone();
        match finding {
            "strays" => {
                // Shifted by about 0.4 mm, 20 to 40 % of the edge wrong, up to 1.5 mm (from memory).
                let turn = chance.between(0.0, 2.0 * PI);
                let far = chance.between(0.35, 0.65);
                let mut wide = chance.between(0.9, 1.2);
                for node in &mut patch.spine {
                    wide = (wide + chance.normal(0.07)).clamp(0.75, 1.45);
                    node.x += far * turn.cos();
                    node.y += far * turn.sin();
                    node.half = node.half * wide + 0.05;
                }
            }
            "inside" => {
                for node in &mut patch.spine {
                    node.half = (node.half - 0.17 - chance.between(0.0, 0.08)).max(0.005);
                }
                let last = patch.spine.len() - 2;
                patch.spine = patch.spine[2..last].to_vec();
            }
            "nothing-filled" => continue,
            _ => return None,
        }
        let streaks = super::chance::Noise::new(chance, 0.4);
        fill.ribbon(&patch.spine, 0.08, |along, across| {
            0.8 + 0.3 * across.abs().powi(4) + 0.22 * streaks.at(along * 1.6, across * 1.8)
        });
    }
    let print = engraved::papered(print.capped(1.4), chance);
    Some(printed(
        field,
        &white(chance),
        &[(&fill, GREEN), (&print, COBALT)],
    ))
}
