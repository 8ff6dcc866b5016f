//! Shapes in outline: rims from above, handles from the side.

use std::f64::consts::PI;

use super::chance::Chance;
use super::layer::{Field, Layer, Node, Rgb, arc, printed, white};
use super::raster::Picture;

/// Ink of the drawings (common practice, no source).
const INK: Rgb = [60.0, 66.0, 84.0];

/// A circle as a line, `half` mm wide to either side.
pub(super) fn circle(cx: f64, cy: f64, radius: f64, half: f64) -> Vec<Node> {
    turned(cx, cy, half, |_| radius)
}

/// A short stroke.
fn stroke(layer: &mut Layer, from: (f64, f64), to: (f64, f64), half: f64, ink: f64) {
    layer.line(
        &[Node::new(from.0, from.1, half), Node::new(to.0, to.1, half)],
        0.3,
        ink,
    );
}

/// A closed line at a distance that changes with the turn.
fn turned(cx: f64, cy: f64, half: f64, radius: impl Fn(f64) -> f64) -> Vec<Node> {
    let point = |i: i32| {
        let turn = 2.0 * PI * f64::from(i) / 360.0;
        let r = radius(turn);
        Node::new(cx + r * turn.cos(), cy + r * turn.sin(), half)
    };
    (0..=360).map(point).collect()
}

/// Rim: a plate seen from above.
pub(super) fn rim(finding: &str, chance: &mut Chance) -> Option<Picture> {
    let field = Field::wide(340.0);
    let (w, h) = field.mm();
    // A plate of 240 mm (museum plates: 222 to 267).
    let (cx, cy, radius) = (w / 2.0, h / 2.0, 120.0);
    let mut lines = Layer::new(field);
    let phase = chance.between(0.0, 2.0 * PI);
    // A rim takes 14 to 18 % of the diameter either side (from memory).
    let well = radius * (1.0 - 2.0 * chance.between(0.14, 0.18));
    lines.line(&circle(cx, cy, well, 0.8), 0.5, 0.6);
    let edge: Box<dyn Fn(f64) -> f64> = match finding {
        "round" | "pierced" | "moulded-relief" => Box::new(move |_| radius),
        "scalloped" => {
            // Lobes larger than those of a shell edge (from memory).
            let lobes = (8 + 2 * chance.below(3)) as f64;
            Box::new(move |t| {
                radius - 9.0 + 9.0 * (lobes / 2.0 * (t + phase)).sin().abs().powf(0.7)
            })
        }
        "panelled" => {
            let sides = [8.0, 10.0, 12.0][chance.below(3)];
            let half = PI / sides;
            Box::new(move |t| {
                let within = (t + phase).rem_euclid(2.0 * half) - half;
                radius * half.cos() / within.cos()
            })
        }
        "shell-edge" => {
            // Scallops 12 to 20 mm apart and 1 to 2 deep (from memory), drawn 3 deep.
            let lobes = (2.0 * PI * radius / chance.between(15.0, 20.0)).round();
            Box::new(move |t| radius - 3.0 + 3.0 * (lobes / 2.0 * (t + phase)).sin().abs())
        }
        _ => return None,
    };
    lines.line(&turned(cx, cy, 1.3, &edge), 0.5, 1.0);
    let polar = |r: f64, t: f64| (cx + r * t.cos(), cy + r * t.sin());
    match finding {
        "pierced" => {
            let count = 26 + 2 * chance.below(5);
            let round = chance.happens(0.5);
            for i in 0..count {
                let t = phase + 2.0 * PI * i as f64 / count as f64;
                let (inner, outer) = (0.8 * radius, 0.93 * radius);
                match round {
                    true => {
                        let (x, y) = polar(0.87 * radius, t);
                        lines.dot(x, y, 6.6, 0.6, 1.0);
                    }
                    false => stroke(&mut lines, polar(inner, t), polar(outer, t), 4.2, 1.0),
                }
            }
        }
        "shell-edge" => {
            let count = 110 + chance.below(30);
            for i in 0..count {
                let t = phase + 2.0 * PI * i as f64 / count as f64;
                let from = polar(edge(t) - 1.0, t);
                let to = polar(radius * chance.between(0.84, 0.9), t + 0.05);
                stroke(&mut lines, from, to, 0.6, 0.8);
            }
        }
        "moulded-relief" => {
            let beads = chance.happens(0.5);
            let count = if beads { 72 } else { 48 };
            for i in 0..count {
                let t = phase + 2.0 * PI * f64::from(i) / f64::from(count);
                match beads {
                    true => {
                        let (x, y) = polar(radius - 6.5, t);
                        lines.line(&circle(x, y, 3.6, 0.6), 0.4, 0.9);
                    }
                    // Gadroons: slanting lobes.
                    false => {
                        let (a, b) = (polar(radius - 1.0, t), polar(radius - 16.0, t + 0.1));
                        let bent = arc(a, b, 0.25, |_| 1.0);
                        lines.line(&bent, 0.4, 0.9);
                    }
                }
            }
            lines.line(
                &circle(cx, cy, radius - if beads { 13.0 } else { 17.0 }, 0.8),
                0.5,
                0.9,
            );
        }
        _ => {}
    }
    let layer = lines.capped(1.0);
    Some(printed(field, &white(chance), &[(&layer, INK)]))
}

/// Half-sections of cups: radius and height, the mouth's radius 1. Bute and London after the forms of
/// an archaeological handbook (EAMC profile forms, 2006), the others from memory.
const CUPS: [&[(f64, f64)]; 4] = [
    &[(0.42, 0.0), (0.75, 0.15), (0.95, 0.55), (1.0, 1.3)],
    &[
        (0.52, 0.0),
        (0.48, 0.18),
        (0.8, 0.42),
        (0.84, 0.5),
        (1.0, 1.35),
    ],
    &[(0.9, 0.0), (0.9, 0.1), (0.95, 1.0), (1.0, 1.5)],
    &[(0.5, 0.0), (0.8, 0.4), (0.75, 0.9), (1.0, 1.4)],
];

/// Cup: from the side, its handle to the right. Any shape of cup may have any handle here.
pub(super) fn cup(finding: &str, chance: &mut Chance) -> Option<Picture> {
    let field = Field::wide(140.0);
    let (w, h) = field.mm();
    let profile = CUPS[chance.below(CUPS.len())];
    let bowl = finding == "no-handle";
    // Museum cups are 84 and 100 mm across the mouth; here 80 to 92. A tea bowl is drawn lower.
    let mouth = chance.between(40.0, 46.0);
    let squat = if bowl { 0.72 } else { 0.9 };
    let (cx, foot) = (w * if bowl { 0.5 } else { 0.42 }, 0.82 * h);
    let at = |p: &(f64, f64), side: f64| (cx + side * p.0 * mouth, foot - p.1 * mouth * squat);
    let mut lines = Layer::new(field);
    let body = if bowl { CUPS[0] } else { profile };
    let smooth = rounded(body);
    for side in [-1.0, 1.0] {
        let nodes: Vec<Node> = smooth
            .iter()
            .map(|p| at(p, side))
            .map(|(x, y)| Node::new(x, y, 0.8))
            .collect();
        lines.line(&nodes, 0.3, 1.0);
    }
    let (bottom, top) = (body[0], body[body.len() - 1]);
    for p in [bottom, top] {
        stroke(&mut lines, at(&p, -1.0), at(&p, 1.0), 0.8, 1.0);
    }
    // Where the handle joins: the wall at a share of its height.
    let wall = |share: f64| {
        let y = top.1 * share;
        let p = smooth
            .iter()
            .min_by(|a, b| (a.1 - y).abs().total_cmp(&(b.1 - y).abs()));
        at(p.unwrap_or(&top), 1.0)
    };
    let (a, b) = (wall(0.86), wall(0.34));
    // How far a handle stands out (from memory).
    let reach = chance.between(22.0, 27.0);
    let path: Vec<(f64, f64)> = match finding {
        "no-handle" => Vec::new(),
        "loop" => (0..=40)
            .map(|i| {
                let t = f64::from(i) / 40.0;
                let turn = PI * t;
                let x = a.0 + (b.0 - a.0) * t + reach * turn.sin().powf(0.8);
                (x, a.1 + (b.1 - a.1) * (0.5 - 0.55 * turn.cos()) - 1.0)
            })
            .collect(),
        // A spur at the bend, as on the London shape.
        "angular" => {
            let corner = (a.0 + reach, a.1 - 3.0);
            let spur = (corner.0 + 7.0, corner.1 - 5.0);
            vec![
                a,
                (a.0 + 6.0, a.1 - 3.0),
                corner,
                spur,
                corner,
                (b.0 + 13.0, b.1 - 6.0),
                b,
            ]
        }
        "fancy" => {
            let mut path = Vec::new();
            let out = |x: f64, y: f64| (a.0 + x * reach, a.1 + y * (b.1 - a.1));
            let knots = [
                (0.0, 0.0),
                (0.35, -0.28),
                (0.85, -0.32),
                (1.15, -0.05),
                (0.95, 0.18),
                (0.72, 0.02),
                (0.9, -0.1),
                (1.1, 0.2),
                (0.98, 0.45),
                (1.25, 0.5),
                (0.92, 0.62),
                (0.72, 0.85),
                (0.35, 1.1),
                (0.05, 1.0),
            ];
            for pair in knots.windows(2) {
                for i in 0..6 {
                    let t = f64::from(i) / 6.0;
                    let (p, q) = (pair[0], pair[1]);
                    path.push(out(p.0 + (q.0 - p.0) * t, p.1 + (q.1 - p.1) * t));
                }
            }
            path.push(b);
            soften(&path)
        }
        _ => return None,
    };
    if !path.is_empty() {
        // A strap of 5 to 8 mm (from memory), drawn as two lines with the white between.
        let strap = chance.between(2.6, 3.2);
        let nodes =
            |half: f64| -> Vec<Node> { path.iter().map(|p| Node::new(p.0, p.1, half)).collect() };
        let mut outer = Layer::new(field);
        outer.line(&nodes(strap), 0.2, 1.0);
        let mut inner = Layer::new(field);
        inner.line(&nodes(strap - 1.3), 0.2, 1.0);
        let wall_at = |x: f64, y: f64| {
            let height = (foot - y) / (mouth * squat);
            let p = smooth
                .iter()
                .min_by(|a, b| (a.1 - height).abs().total_cmp(&(b.1 - height).abs()));
            p.is_some_and(|p| x < cx + p.0 * mouth - 0.6)
        };
        lines.each(|x, y, d| {
            let hidden = height_within(y, foot, top.1 * mouth * squat) && wall_at(x, y);
            if hidden {
                d
            } else {
                d + (outer.at(x, y) - inner.at(x, y)).max(0.0)
            }
        });
        if finding == "fancy" {
            let leaf = super::design::Leaf::new(
                (a.0 + 0.5 * reach, a.1 - 0.4 * (b.1 - a.1)),
                -0.7,
                12.0,
                6.0,
                0.2,
            );
            lines.line(&leaf.spine, 0.3, 0.8);
        }
    }
    let layer = lines.capped(1.0);
    Some(printed(field, &white(chance), &[(&layer, INK)]))
}

fn height_within(y: f64, foot: f64, tall: f64) -> bool {
    (foot - tall..=foot).contains(&y)
}

/// Corners of a profile rounded by cutting them four times (Chaikin, "An algorithm for high speed
/// curve generation", 1974).
fn rounded(profile: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut out = profile.to_vec();
    for _ in 0..4 {
        let (first, last) = (out[0], out[out.len() - 1]);
        let mix =
            |a: (f64, f64), b: (f64, f64), t: f64| (a.0 + (b.0 - a.0) * t, a.1 + (b.1 - a.1) * t);
        let mut next = vec![first];
        for pair in out.windows(2) {
            next.extend([mix(pair[0], pair[1], 0.25), mix(pair[0], pair[1], 0.75)]);
        }
        next.push(last);
        out = next;
    }
    out
}

/// A path whose bends are eased.
fn soften(path: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let reach = 4_usize;
    let mean = |i: usize| {
        let reach = reach.min(i).min(path.len() - 1 - i);
        let part = &path[i - reach..=i + reach];
        let sum = part.iter().fold((0.0, 0.0), |s, p| (s.0 + p.0, s.1 + p.1));
        (sum.0 / part.len() as f64, sum.1 / part.len() as f64)
    };
    (0..path.len()).map(mean).collect()
}
