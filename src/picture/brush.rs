//! Strokes of a loaded brush: blunt where they begin, drawn out where they end, darker at their edges
//! and where they overlap, streaked along; and no two the same.

use super::chance::{Chance, Noise};
use super::design::{Leaf, Spray};
use super::layer::{Field, Layer, Node};

/// Strokes until the brush is dipped again (3 to 6, from memory).
const A_LOAD: usize = 5;

/// A brush and what is left on it.
#[derive(Debug)]
pub(super) struct Brush {
    strokes: usize,
}

impl Brush {
    pub(super) fn new(chance: &mut Chance) -> Brush {
        Brush {
            strokes: chance.below(A_LOAD),
        }
    }

    /// One stroke along a path, `width` mm at its widest.
    pub(super) fn stroke(
        &mut self,
        layer: &mut Layer,
        chance: &mut Chance,
        path: &[(f64, f64)],
        width: f64,
    ) {
        self.strokes = (self.strokes + 1) % A_LOAD;
        // The load falls from stroke to stroke (from memory); by how much is chosen by eye.
        let load = 0.85 - 0.09 * self.strokes as f64;
        let wobble = Noise::new(chance, 0.28);
        let streaks = Noise::new(chance, 1.0);
        let last = (path.len() - 1) as f64;
        // Blunt at the start, drawn out over the last 40 % (from memory: 20 to 40 %).
        let profile = |t: f64| match t {
            t if t < 0.14 => 0.45 + 0.55 * (t / 0.14).sqrt(),
            t if t < 0.6 => 1.0,
            t => (1.0 - (t - 0.6) / 0.4).max(0.0).powf(0.75),
        };
        let node = |(i, p): (usize, &(f64, f64))| {
            let t = i as f64 / last;
            let half = width / 2.0 * profile(t) * (1.0 + 0.1 * wobble.at(t, 0.0));
            Node::new(p.0, p.1, half.max(0.015))
        };
        let line: Vec<Node> = path.iter().enumerate().map(node).collect();
        layer.ribbon(&line, 0.05, |along, across| {
            // 20 to 60 % more at the edges and the tail; streaks differ by 5 to 25 % (from memory).
            let edge = 0.35 * across.abs().powi(4);
            let tail = 0.35 * ((along - 0.75) / 0.25).clamp(0.0, 1.0);
            // Streaks of hairs, stretched fifteen times along (from memory).
            let streak = 0.2 * streaks.at(along * 2.0, across * width * 3.2);
            (load * (0.75 + edge + tail + streak)).max(0.1)
        });
    }
}

/// The spray painted: every leaf of two strokes that overlap, the stem of several.
pub(super) fn spray(chance: &mut Chance, field: Field, spray: &Spray) -> Layer {
    let mut layer = Layer::new(field);
    let mut brush = Brush::new(chance);
    let nodes = &spray.stem;
    for part in nodes.chunks(7) {
        let end = nodes.iter().find(|n| n.x > part[part.len() - 1].x);
        let path: Vec<(f64, f64)> = part
            .iter()
            .chain(end)
            .map(|n| (n.x, n.y + chance.normal(0.04)))
            .collect();
        if path.len() > 2 {
            brush.stroke(&mut layer, chance, &path, 0.32);
        }
    }
    for leaf in &spray.leaves {
        painted_leaf(&mut layer, chance, &mut brush, leaf);
    }
    layer
}

/// A leaf of two strokes that overlap in the middle.
pub(super) fn painted_leaf(layer: &mut Layer, chance: &mut Chance, brush: &mut Brush, leaf: &Leaf) {
    let widest = leaf.spine.iter().map(|n| n.half).fold(0.0, f64::max);
    for side in [-1.0, 1.0] {
        let reach = chance.between(0.86, 1.06);
        let across = side * chance.between(0.38, 0.55);
        let path: Vec<(f64, f64)> = (0..=16)
            .map(|i| {
                let t = f64::from(i) / 16.0;
                leaf.at(t * reach.min(1.0), across * (1.0 - 0.25 * t))
            })
            .collect();
        let width = widest * chance.between(1.05, 1.35);
        brush.stroke(layer, chance, &path, width);
    }
}
