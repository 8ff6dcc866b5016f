//! Glaze in the angle of the foot, marks of the kiln's supports, and the foot cut through.

use std::f64::consts::PI;

use super::chance::{Chance, Noise};
use super::layer::{Field, Layer, Rgb, arc, printed, white};
use super::outline::circle;
use super::raster::Picture;
use super::technique::{COBALT, leaf_at};

/// Glaze pool: the angle between foot and underside, seen from below.
pub(super) fn glaze_pool(finding: &str, chance: &mut Chance) -> Option<Picture> {
    // The middle of each range of sRGB values, from memory; "grey-blue all over" has little more in
    // the pool than elsewhere.
    let (ground, pool): (Rgb, Rgb) = match finding {
        "blue" => ([233.0, 237.0, 240.0], [160.0, 190.0, 214.0]),
        "yellow-green" => ([238.0, 229.0, 205.0], [206.0, 208.0, 150.0]),
        "colourless" => ([242.0, 240.0, 234.0], [226.0, 226.0, 221.0]),
        "grey-blue" => ([203.0, 211.0, 219.0], [184.0, 195.0, 208.0]),
        _ => return None,
    };
    let field = Field::wide(24.0);
    let (w, h) = field.mm();
    let vary = chance.normal(3.0);
    let noise = Noise::new(chance, 2.0);
    let uneven = Noise::new(chance, 5.0);
    let (cx, cy) = (w * chance.between(0.35, 0.65), h * chance.between(2.6, 3.4));
    let inner = cy - h * chance.between(0.5, 0.6);
    // A foot ring is 2 to 4 mm wide (from memory).
    let foot = chance.between(3.0, 3.6);
    // A pool is 1 to 3 mm wide (from memory).
    let reach = chance.between(1.1, 1.6);
    let light = move |x: f64, y: f64| {
        let away = (x - cx).hypot(y - cy) - inner;
        // The ring stands from 0 to `foot`, bare and rubbed on its top; glaze lies in both angles.
        let top = foot * 0.36..foot * 0.64;
        if top.contains(&away) {
            let body = [214.0, 203.0, 186.0];
            return body.map(|c: f64| c + 7.0 * noise.at(4.0 * x, 4.0 * y));
        }
        let (near, wall) = match away {
            a if a < 0.0 => (-a, 0.0),
            a if a > foot => (a - foot, 0.0),
            a if a < foot / 2.0 => (a * 1.4, 1.0),
            a => ((foot - a) * 1.4, 1.0),
        };
        let deep = (-(near / reach).powi(2)).exp() * (0.9 + 0.25 * uneven.at(x, y));
        let mut out = [0.0; 3];
        for (i, out) in out.iter_mut().enumerate() {
            let side = if away < foot / 2.0 { 10.0 } else { -14.0 };
            *out = ground[i]
                + (pool[i] - ground[i]) * deep
                + vary
                + side * wall
                + 1.5 * noise.at(x, y);
        }
        out
    };
    Some(printed(field, &light, &[]))
}

/// Stilt marks: a whole plate, its back or its front; the points are drawn larger than life.
pub(super) fn stilt_marks(finding: &str, chance: &mut Chance) -> Option<Picture> {
    // A plate of 240 mm (museum plates: 222 to 267).
    let field = Field::wide(340.0);
    let (w, h) = field.mm();
    let (cx, cy, radius) = (w / 2.0, h / 2.0, 120.0);
    let mut lines = Layer::new(field);
    let mut print = Layer::new(field);
    let mut scars = Layer::new(field);
    lines.line(&circle(cx, cy, radius, 1.6), 0.5, 1.0);
    let front = finding == "front" || finding == "none" && chance.happens(0.4);
    // A foot is 55 to 62 % of the plate, a rim 14 to 18 % of it (from memory).
    let foot = 0.58 * radius;
    if front {
        lines.line(&circle(cx, cy, 0.68 * radius, 0.8), 0.5, 0.5);
        let motifs = 14 + chance.below(5);
        let begin = chance.unit();
        for i in 0..motifs {
            let turn = 2.0 * PI * (i as f64 + begin) / motifs as f64;
            let at = (
                cx + 0.72 * radius * turn.cos(),
                cy + 0.72 * radius * turn.sin(),
            );
            let leaf = leaf_at(chance, at.0, at.1, turn + 0.4, 26.0);
            print.line(&leaf.spine, 0.6, 0.8);
        }
        for r in [0.7, 0.97] {
            print.line(&circle(cx, cy, r * radius, 1.3), 0.5, 0.8);
        }
        let centre = leaf_at(chance, cx - 38.0, cy + 8.0, -0.2, 70.0);
        print.line(&centre.spine, 0.6, 0.8);
    } else {
        lines.line(&circle(cx, cy, foot, 1.4), 0.5, 0.9);
        lines.line(&circle(cx, cy, foot - 6.0, 1.4), 0.5, 0.9);
    }
    let first = chance.between(0.0, 2.0 * PI);
    let point = |layer: &mut Layer, x: f64, y: f64| {
        layer.dot(x, y, 4.8, 0.8, 1.0);
        layer.dot(x, y, 2.0, 0.8, -0.75);
    };
    for arm in 0..3 {
        // 120 degrees apart, 8 more or less (from memory).
        let turn = first + 2.0 * PI * f64::from(arm) / 3.0 + chance.normal(0.07);
        let (far, group) = match finding {
            "three-groups" => (0.83, true),
            "single-back" => (if chance.happens(0.5) { 0.84 } else { 0.4 }, false),
            "front" => (0.83, false),
            "none" => continue,
            _ => return None,
        };
        let (x, y) = (
            cx + far * radius * turn.cos(),
            cy + far * radius * turn.sin(),
        );
        match group {
            true => {
                // The points of one group: a triangle of 4 to 10 mm (from memory), drawn double.
                for corner in 0..3 {
                    let corner = turn + 2.0 * PI * f64::from(corner) / 3.0;
                    let (dx, dy) = (9.5 * corner.cos(), 9.5 * corner.sin());
                    point(
                        &mut scars,
                        x + dx + chance.normal(0.6),
                        y + dy + chance.normal(0.6),
                    );
                }
            }
            false => point(&mut scars, x, y),
        }
    }
    let white = white(chance);
    let ground = move |x: f64, y: f64| match (x - cx).hypot(y - cy) < radius {
        true => white(x / 20.0, y / 20.0),
        false => [252.0; 3],
    };
    let inks = [
        (&lines, [120.0, 122.0, 126.0]),
        (&print, [90.0, 118.0, 170.0]),
        (&scars, [92.0, 52.0, 24.0]),
    ];
    Some(printed(field, &ground, &inks))
}

/// The foot cut through: the body grey, glaze a blue line on it.
pub(super) fn foot_ring(finding: &str, chance: &mut Chance) -> Option<Picture> {
    let field = Field::wide(44.0);
    let (w, h) = field.mm();
    let thick = chance.between(4.0, 5.2);
    let floor = 0.4 * h;
    let vary = |chance: &mut Chance, of: f64| of * chance.between(0.88, 1.12);
    // Height × width of the ring in mm, from memory: 1 to 3 × 2 to 4 on plates to about 1830, 2 to 4 ×
    // 4 to 7 on white granite. Of the deep foot of export porcelain museum notes on excavated plates
    // tell that some are undercut; it is 4 to 8 high (from memory), drawn higher so that it is seen.
    let rings: Vec<(f64, f64, f64, f64)> = match finding {
        "flat" => Vec::new(),
        "single-low" | "dry" => vec![(0.62, vary(chance, 3.0), vary(chance, 4.5), 0.0)],
        "double" => vec![
            (0.46, vary(chance, 3.2), vary(chance, 3.6), 0.0),
            (0.72, vary(chance, 3.2), vary(chance, 3.6), 0.0),
        ],
        "deep" => vec![(
            0.62,
            vary(chance, 10.5),
            vary(chance, 4.4),
            chance.between(1.6, 2.6),
        )],
        _ => return None,
    };
    let recess = chance.between(0.5, 1.2);
    let flat = finding == "flat";
    // How far the underside lies below the floor, and the wall rising at the right.
    let inside = |x: f64, y: f64| {
        let rise = ((x / w - 0.78) / 0.22).max(0.0).powi(2) * 0.24 * h;
        let (upper, mut lower) = (floor - rise, floor + thick - rise);
        if flat && x < 0.66 * w {
            lower -= recess * (1.0 - ((x / w - 0.6) / 0.06).clamp(0.0, 1.0));
        }
        if y >= upper && y <= lower {
            return true;
        }
        rings.iter().any(|(at, tall, wide, undercut)| {
            let deep = (y - lower.min(floor + thick)) / tall;
            if y < lower || deep > 1.0 {
                return false;
            }
            let half = wide / 2.0 * (1.0 - 0.3 * deep.powi(3));
            (x - at * w + undercut * deep).abs() < half
        })
    };
    let mut body = Layer::new(field);
    body.flood(|x, y| if inside(x, y) { 1.0 } else { 0.0 });
    let near = body.blurred(0.35);
    let dry = finding == "dry";
    let tip = |x: f64, y: f64| {
        let (at, tall, wide, _) = rings.first().copied().unwrap_or((2.0, 0.0, 0.0, 0.0));
        (x - at * w).abs() < wide && y > floor + thick + 0.3 * tall
    };
    let mut glaze = Layer::new(field);
    glaze.flood(|x, y| {
        let bare = dry && tip(x, y);
        let skin = near.at(x, y);
        if skin > 0.04 && skin < 0.6 && !bare {
            1.0
        } else {
            0.0
        }
    });
    let grain = Noise::new(chance, 0.5);
    body.each(|x, y, d| d * (1.0 + 0.3 * grain.at(x, y)));
    let mut table = Layer::new(field);
    let lowest = rings.iter().map(|r| r.1).fold(0.0, f64::max);
    let ground = floor + thick + lowest + if finding == "dry" { 0.15 } else { 0.45 };
    table.line(&arc((0.0, ground), (w, ground), 0.0, |_| 0.15), 0.1, 0.5);
    let paper = white(chance);
    let body_ink = [196.0, 176.0, 146.0];
    Some(printed(
        field,
        &paper,
        &[(&table, [90.0; 3]), (&body, body_ink), (&glaze, COBALT)],
    ))
}
