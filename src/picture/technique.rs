//! How a line is made, and what makes the grey of an engraving.

use std::f64::consts::PI;

use super::brush::{self, Brush};
use super::chance::{Chance, Noise};
use super::design::{Leaf, Spray};
use super::layer::{Field, Layer, Node, Rgb, arc, printed, white};
use super::raster::Picture;
use super::{engraved, screen};

/// Cobalt at its full density (the range of mid to dark blue, from memory).
pub(super) const COBALT: Rgb = [38.0, 62.0, 128.0];

/// Width of the picture, mm (common practice, no source).
const ACROSS: f64 = 8.0;

/// Line-make: one spray of leaves, put on in nine ways.
pub(super) fn line_make(finding: &str, chance: &mut Chance) -> Option<Picture> {
    let field = Field::wide(ACROSS);
    let design = Spray::new(chance, field);
    let layer = match finding {
        "engraved" => engraved::spray(chance, field, &design),
        "brush-strokes" => brush::spray(chance, field, &design),
        "rosette-dots" => return Some(screen::halftone(chance, field, &design.mask(field))),
        "flat-edge" => flat(chance, field, &design),
        "sponge" => sponge(chance, field, &design),
        "spray" => specks(chance, field, &design),
        "filled-outline" => filled(chance, field, &design),
        "moulded-edge" => return Some(moulded(chance, field)),
        "none" => Layer::new(field),
        _ => return None,
    };
    Some(printed(field, &white(chance), &[(&layer, COBALT)]))
}

/// Flat colour through a mesh: even, its edge stepped by 0.02 to 0.06 mm (from memory); ribs of leaves
/// left out, no narrower than 0.4 mm gaps can be (a decal printer's own rule) but at their tips.
fn flat(chance: &mut Chance, field: Field, design: &Spray) -> Layer {
    let mut layer = design.mask(field);
    let mut gaps = Layer::new(field);
    for leaf in &design.leaves {
        gaps.line(&leaf.side(0.0, |t| 0.1 * (1.0 - t).max(0.1)), 0.0, 1.0);
    }
    // Meshes of 77 to 120 threads a cm (promotionalmugs.co.uk, "Screen Mesh Explained", 2020; it says an
    // inch; that the trade counts by the cm is common practice, no source).
    let mesh = chance.between(0.083, 0.13);
    layer.each(|_, _, d| d.min(1.0));
    let whole = layer.clone();
    // Each cell of the mesh lets ink through or not.
    layer.each(|x, y, _| {
        let middle = |v: f64| ((v / mesh).floor() + 0.5) * mesh;
        let stepped = 0.5 * whole.at(x, y) + 0.5 * whole.at(middle(x), middle(y));
        let gap = gaps.at(x, y);
        if stepped >= 0.75 && gap < 0.5 {
            0.9
        } else {
            0.0
        }
    });
    layer.blurred(0.012)
}

/// A stamp cut from sponge: fuzzy, with holes of 0.3 to 1.5 mm and a darker rim (from memory).
fn sponge(chance: &mut Chance, field: Field, design: &Spray) -> Layer {
    let ragged = Noise::new(chance, 0.2);
    let holes = Noise::new(chance, 0.36);
    let fine = Noise::new(chance, 0.14);
    let patches = Noise::new(chance, 1.5);
    let inside = design.mask(field).blurred(0.13);
    let mut layer = Layer::new(field);
    layer.flood(|x, y| {
        let edge = inside.at(x, y) + 0.2 * ragged.at(x, y);
        let pore = holes.nearest(x, y) + 0.25 * fine.at(x, y);
        let full = ((edge - 0.45) / 0.12).clamp(0.0, 1.0);
        // The walls of the sponge print, its pores do not.
        let wall = ((pore - 0.3) / 0.12).clamp(0.0, 1.0);
        let rim = 0.25 * (1.0 - ((edge - 0.5) / 0.3).abs()).max(0.0);
        full * wall * (0.72 + rim + 0.3 * patches.at(x, y) + 0.15 * fine.at(x, y))
    });
    layer.blurred(0.025)
}

/// Drops of 0.05 to 0.4 mm, thinner and thinner outwards (from memory).
fn specks(chance: &mut Chance, field: Field, design: &Spray) -> Layer {
    let (w, h) = field.mm();
    let thick = design.mask(field).blurred(0.5);
    let mut layer = thick.clone();
    layer.each(|_, _, d| 0.22 * d);
    for _ in 0..16_000 {
        let (x, y) = (chance.between(0.0, w), chance.between(0.0, h));
        if chance.happens(thick.at(x, y).powf(1.4) + 0.012) {
            let radius = 0.014 + 0.05 * chance.unit().powi(6) + 0.012 * chance.unit();
            layer.dot(x, y, radius, 0.03, chance.between(0.5, 1.0));
        }
    }
    layer.capped(1.3)
}

/// Printed outlines, filled in by brush beyond and short of them.
fn filled(chance: &mut Chance, field: Field, design: &Spray) -> Layer {
    let mut layer = Layer::new(field);
    let mut fill = Layer::new(field);
    let mut brush = Brush::new(chance);
    let stem: Vec<(f64, f64)> = design.stem.iter().map(|n| (n.x, n.y)).collect();
    brush.stroke(&mut fill, chance, &stem, 0.3);
    for leaf in &design.leaves {
        // Out of place by 0.4 mm on the whole ware, less on leaves as small as these (from memory).
        let shift = (chance.normal(0.09), chance.normal(0.09));
        let mut moved = leaf.clone();
        for node in &mut moved.spine {
            node.x += shift.0;
            node.y += shift.1;
            node.half *= chance.between(0.85, 1.1);
        }
        brush::painted_leaf(&mut fill, chance, &mut brush, &moved);
    }
    fill.each(|_, _, d| 0.42 * d);
    for leaf in &design.leaves {
        engraved::outline(&mut layer, chance, leaf, 0.2);
    }
    for shift in [-0.12, 0.12] {
        let moved: Vec<(f64, f64)> = stem.iter().map(|p| (p.0, p.1 + shift)).collect();
        engraved::cut(&mut layer, chance, &moved, 0.16);
    }
    layer = engraved::papered(layer.capped(1.4), chance);
    layer.each(|x, y, d| d + fill.at(x, y));
    layer
}

/// An edge moulded in ridges, colour brushed over it from the rim inwards: in a picture as wide as the
/// others of this clue, so drawn several times smaller than life (scallops of a shell edge are 12 to
/// 20 mm apart, from memory).
fn moulded(chance: &mut Chance, field: Field) -> Picture {
    let (w, h) = field.mm();
    let pitch = chance.between(0.62, 0.85);
    let (phase, lean) = (chance.unit(), chance.between(-0.35, 0.35));
    let waves = chance.between(2.2, 3.2);
    let rim = move |x: f64| 0.1 * h + 0.05 * h * (2.0 * PI * (x / waves + phase)).sin().abs();
    let inner = 0.9 * h;
    let mut layer = Layer::new(field);
    let mut brush = Brush::new(chance);
    let mut x = -0.3;
    while x < w + 0.3 {
        let (from, to) = (rim(x) - 0.1, chance.between(0.5, 0.58) * h);
        let path: Vec<(f64, f64)> = (0..=10)
            .map(|i| {
                let t = f64::from(i) / 10.0;
                (x + lean * t, from + (to - from) * t)
            })
            .collect();
        brush.stroke(&mut layer, chance, &path, 0.95);
        x += chance.between(0.5, 0.7);
    }
    // Colour gathers in the furrows.
    let ridge = move |x: f64, y: f64| (2.0 * PI * ((x - lean * y / h) / pitch + phase)).sin();
    let fade = move |y: f64| ((inner - y) / (0.15 * h)).clamp(0.0, 1.0);
    layer.each(|x, y, d| match y > rim(x) {
        true => 0.6 * d.min(0.9) * (1.0 - 0.55 * ridge(x, y) * fade(y)),
        false => 0.0,
    });
    let white = white(chance);
    let ground = move |x: f64, y: f64| {
        if y < rim(x) {
            return [120.0, 118.0, 114.0];
        }
        // Light from the left: the slope of the ridge.
        let slope = (2.0 * PI * ((x - lean * y / h) / pitch + phase)).cos();
        let lip = 18.0 * (1.0 - ((y - rim(x)) / 0.25).min(1.0));
        white(x, y).map(|c| c - 34.0 - lip + 40.0 * slope * fade(y))
    };
    printed(field, &ground, &[(&layer, COBALT)])
}

/// Stipple: what makes the grey of a rounded shape.
pub(super) fn stipple(finding: &str, chance: &mut Chance) -> Option<Picture> {
    let (lines, dots) = match finding {
        "lines" => (true, false),
        "lines-dots" => (true, true),
        "dots" => (false, true),
        _ => return None,
    };
    let field = Field::wide(ACROSS);
    let (w, h) = field.mm();
    let mut layer = Layer::new(field);
    let lean = chance.between(-0.5, 0.5);
    let (cx, cy) = (
        w * chance.between(0.42, 0.58),
        h * chance.between(0.45, 0.55),
    );
    let swing = chance.between(0.10, 0.2) * if chance.happens(0.5) { 1.0 } else { -1.0 };
    // Dark at one side of the shape, white at the other.
    let tone = |x: f64, y: f64| {
        let (dx, dy) = ((x - cx) / (0.47 * w), (y - cy) / (0.44 * h));
        let round = dx.hypot(dy);
        let shade = 0.55 + 0.55 * (dx * lean.cos() + dy * lean.sin());
        if round < 1.0 {
            shade.clamp(0.0, 1.0)
        } else {
            0.0
        }
    };
    // Pitch of lines 0.25 to 0.6 mm with dots between, 0.5 to 1.1 without; one pitch for all here, so
    // that the dots alone tell the findings apart (from memory).
    let pitch = chance.between(0.46, 0.54);
    let rows = (2.4 * h / pitch) as i32;
    for row in 0..rows {
        let y = (f64::from(row) - f64::from(rows) / 2.0) * pitch + cy + chance.normal(0.06 * pitch);
        let path = arc((-0.2 * w, y), (1.2 * w, y), swing, |_| 0.0);
        let at = |t: f64| {
            let place = t * (path.len() - 1) as f64;
            let i = (place as usize).min(path.len() - 2);
            let share = place - i as f64;
            (
                path[i].x + (path[i + 1].x - path[i].x) * share,
                path[i].y + (path[i + 1].y - path[i].y) * share,
            )
        };
        // With both, every other row is dots.
        let dotted = dots && (!lines || row % 2 == 1);
        if !dotted {
            let nodes: Vec<Node> = (0..=160)
                .map(|i| {
                    let (x, y) = at(f64::from(i) / 160.0);
                    Node::new(x, y, (0.30 * pitch * tone(x, y)).max(0.0))
                })
                .collect();
            for run in nodes.split(|n| n.half < 0.012).filter(|r| r.len() > 3) {
                layer.line(run, 0.05, 1.0 + chance.normal(0.05));
            }
        }
        if dotted {
            let step = pitch * 0.85;
            let mut t = chance.between(0.0, step / w);
            while t < 1.0 {
                let (x, y) = at(t);
                let radius = 0.33 * pitch * tone(x, y).sqrt() * (1.0 + chance.normal(0.15));
                if radius > 0.03 {
                    let (dx, dy) = (chance.normal(0.12 * step), chance.normal(0.12 * step));
                    layer.dot(x + dx, y + dy, radius, 0.05, 1.0);
                }
                t += step / (1.4 * w);
            }
        }
    }
    // The outline of the shape.
    let outline: Vec<(f64, f64)> = (0..=60)
        .map(|i| {
            let turn = lean - 2.0 + 4.0 * f64::from(i) / 60.0;
            (cx + 0.47 * w * turn.cos(), cy + 0.44 * h * turn.sin())
        })
        .collect();
    engraved::cut(&mut layer, chance, &outline, 0.16);
    let layer = engraved::papered(layer.capped(1.3), chance);
    Some(printed(field, &white(chance), &[(&layer, COBALT)]))
}

/// A leaf somewhere, for other clues.
pub(super) fn leaf_at(chance: &mut Chance, x: f64, y: f64, angle: f64, length: f64) -> Leaf {
    Leaf::new(
        (x, y),
        angle,
        length,
        0.42 * length,
        chance.between(-0.15, 0.15),
    )
}
