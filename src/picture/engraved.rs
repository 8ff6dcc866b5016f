//! Lines and dots cut into copper: they swell and end in points, tone comes from their width.

use std::f64::consts::PI;

use super::chance::{Chance, Noise};
use super::design::{Leaf, Spray};
use super::layer::{Field, Layer, Node};

/// Softness of a printed line's edge under the glaze, mm (0.05 to 0.15, from memory).
const SOFT: f64 = 0.06;

/// A stroke of the graver along a path: it swells to `width` and ends in points.
pub(super) fn cut(layer: &mut Layer, chance: &mut Chance, path: &[(f64, f64)], width: f64) {
    // Width differs by 8 % from line to line (from memory), density here by 5 %.
    let (width, strong) = (
        width * (1.0 + chance.normal(0.08)),
        1.0 + chance.normal(0.05),
    );
    let last = (path.len() - 1) as f64;
    let swell =
        |i: usize| width / 2.0 * (0.12 + 0.88 * (PI * i as f64 / last).sin().max(0.0).sqrt());
    let nodes = path.iter().enumerate();
    let line: Vec<Node> = nodes.map(|(i, p)| Node::new(p.0, p.1, swell(i))).collect();
    // A skip on 1 to 4 % of the length (from memory): here a pale place on every eighth line.
    let skip = chance.happens(0.12).then(|| chance.between(0.2, 0.8));
    layer.ribbon(&line, SOFT, |along, _| match skip {
        Some(at) => strong * (1.0 - 0.8 * (-((along - at) / 0.02).powi(2)).exp()),
        None => strong,
    });
    // A burr: a hair of 0.1 to 0.3 mm at an end, on fewer than 2 % of ends (from memory).
    if chance.happens(0.04) {
        let end = line[line.len() - 1];
        let turn = chance.between(0.0, 2.0 * PI);
        let length = chance.between(0.1, 0.3);
        let hair = [
            Node::new(end.x, end.y, 0.02),
            Node::new(
                end.x + length * turn.cos(),
                end.y + length * turn.sin(),
                0.01,
            ),
        ];
        layer.line(&hair, 0.02, 0.7);
    }
}

/// The outline of a leaf and its midrib.
pub(super) fn outline(layer: &mut Layer, chance: &mut Chance, leaf: &Leaf, width: f64) {
    for across in [-1.0, 1.0, 0.0] {
        let reach = if across == 0.0 { 0.86 } else { 1.0 };
        let path: Vec<(f64, f64)> = (0..=24)
            .map(|i| leaf.at(i as f64 / 24.0 * reach, across))
            .collect();
        let width = if across == 0.0 { width * 0.8 } else { width };
        cut(layer, chance, &path, width);
    }
}

/// Hatching from the midrib to one edge of a leaf.
pub(super) fn hatch(
    layer: &mut Layer,
    chance: &mut Chance,
    leaf: &Leaf,
    pitch: f64,
    width: f64,
    side: f64,
) {
    let mut at = 0.08;
    while at < 0.86 {
        let slope = 0.12;
        let path: Vec<(f64, f64)> = (0..=6)
            .map(|i| {
                let t = f64::from(i) / 6.0;
                leaf.at(at + slope * t, side * (0.04 + 0.92 * t))
            })
            .collect();
        cut(layer, chance, &path, width);
        // Pitch differs by 6 % (from memory).
        at += pitch / leaf.length * (1.0 + chance.normal(0.06));
    }
}

/// Punched dots in rows that follow one side of a leaf, bigger towards the midrib.
pub(super) fn stipple(layer: &mut Layer, chance: &mut Chance, leaf: &Leaf, pitch: f64, side: f64) {
    let rows = 4;
    for row in 1..=rows {
        let across = f64::from(row) / f64::from(rows + 1);
        let mut at = 0.12 + chance.between(0.0, 0.05);
        while at < 0.9 {
            let (x, y) = leaf.at(at, side * across);
            // Out of their places by 15 % of the pitch, as much in size (from memory).
            let jitter = 0.15 * pitch;
            let radius = pitch * (0.34 - 0.16 * across) * (1.0 + chance.normal(0.15));
            let (x, y) = (x + chance.normal(jitter), y + chance.normal(jitter));
            layer.dot(x, y, radius, SOFT, 1.0);
            at += pitch / leaf.length;
        }
    }
}

/// The whole spray: outlines, hatching on one side of each leaf, dots on the other.
pub(super) fn spray(chance: &mut Chance, field: Field, spray: &Spray) -> Layer {
    let mut layer = Layer::new(field);
    let stem: Vec<(f64, f64)> = spray.stem.iter().map(|n| (n.x, n.y)).collect();
    let middle = chance.between(-0.04, 0.04);
    for shift in [-0.1, 0.1 + middle] {
        let moved: Vec<(f64, f64)> = stem.iter().map(|p| (p.0, p.1 + shift)).collect();
        cut(&mut layer, chance, &moved, 0.12);
    }
    for leaf in &spray.leaves {
        // An outline is 0.2 to 0.5 wide (from memory): here finer, as the leaf is small.
        outline(&mut layer, chance, leaf, 0.15);
        // Shading lines 0.08 to 0.2 wide, 0.25 to 0.6 apart; dots 0.1 to 0.35 across, 0.25 to 0.8
        // apart (from memory).
        hatch(&mut layer, chance, leaf, 0.27, 0.13, -1.0);
        stipple(&mut layer, chance, leaf, 0.25, 1.0);
    }
    papered(layer.capped(1.5), chance)
}

/// Thin tissue lets ink through unevenly: grains of 0.3 mm, 15 % more or less (from memory).
pub(super) fn papered(mut layer: Layer, chance: &mut Chance) -> Layer {
    let grain = Noise::new(chance, 0.3);
    layer.each(|x, y, d| d * (1.0 + 0.15 * grain.at(x, y)));
    layer
}
