//! A spray of leaves, the same for every technique: what differs is how it was put on.

use std::f64::consts::PI;

use super::chance::Chance;
use super::layer::{Field, Layer, Node, arc};

/// A leaf as a line of changing width.
#[derive(Clone, Debug)]
pub(super) struct Leaf {
    pub spine: Vec<Node>,
    pub length: f64,
}

impl Leaf {
    pub(super) fn new(from: (f64, f64), angle: f64, length: f64, width: f64, bend: f64) -> Leaf {
        let to = (from.0 + length * angle.cos(), from.1 + length * angle.sin());
        let half = |t: f64| 0.02 + width / 2.0 * (PI * t.powf(0.8)).sin().max(0.0);
        Leaf {
            spine: arc(from, to, bend, half),
            length,
        }
    }

    /// The point so far along (0 to 1) and across (−1 to 1).
    pub(super) fn at(&self, along: f64, across: f64) -> (f64, f64) {
        let last = self.spine.len() - 1;
        let place = along.clamp(0.0, 1.0) * last as f64;
        let i = (place as usize).min(last - 1);
        let (a, b) = (self.spine[i], self.spine[i + 1]);
        let share = place - i as f64;
        let (dx, dy) = (b.x - a.x, b.y - a.y);
        let length = dx.hypot(dy).max(1e-9);
        let half = a.half + (b.half - a.half) * share;
        (
            a.x + dx * share - dy / length * half * across,
            a.y + dy * share + dx / length * half * across,
        )
    }

    /// The outline of one side.
    pub(super) fn side(&self, across: f64, half: impl Fn(f64) -> f64) -> Vec<Node> {
        let point = |i: usize| {
            let t = i as f64 / 24.0;
            let (x, y) = self.at(t, across);
            Node::new(x, y, half(t))
        };
        (0..=24).map(point).collect()
    }
}

/// Leaves on a stem.
#[derive(Clone, Debug)]
pub(super) struct Spray {
    pub stem: Vec<Node>,
    pub leaves: Vec<Leaf>,
}

impl Spray {
    /// Across a field so many mm wide and high: leaves nearly half as long as that is
    /// high, in pairs.
    pub(super) fn new(chance: &mut Chance, field: Field) -> Spray {
        let (w, h) = field.mm();
        let lean = chance.between(-0.12, 0.12) * h;
        let bend = chance.between(-0.12, 0.12);
        let from = (-0.05 * w, h / 2.0 - lean);
        let to = (1.05 * w, h / 2.0 + lean);
        let stem = arc(from, to, bend, |_| 0.011 * w);
        let mut leaves = Vec::new();
        let first = chance.between(0.03, 0.1);
        for i in 0..4 {
            let t = first + 0.25 * i as f64;
            let place = stem[((t * 24.0) as usize).min(24)];
            for side in [-1.0, 1.0] {
                let angle = side * chance.between(0.75, 1.1);
                let length = h * chance.between(0.4, 0.5);
                let width = h * chance.between(0.17, 0.23);
                let bend = -side * chance.between(0.05, 0.16);
                let from = (place.x + 0.01 * w * side, place.y);
                leaves.push(Leaf::new(from, angle, length, width, bend));
            }
        }
        Spray { stem, leaves }
    }

    /// All that is covered, at density 1.
    pub(super) fn mask(&self, field: Field) -> Layer {
        let mut layer = Layer::new(field);
        layer.line(&self.stem, 0.0, 1.0);
        for leaf in &self.leaves {
            layer.line(&leaf.spine, 0.0, 1.0);
        }
        layer.capped(1.0)
    }
}
