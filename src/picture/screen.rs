//! Screens of dots: photographic halftones, each ink at an angle of its own.

use super::chance::{Chance, Noise};
use super::layer::{Field, Layer, Rgb, printed, white};
use super::raster::Picture;

/// An ink of a halftone.
#[derive(Clone, Copy, Debug)]
struct Ink {
    colour: Rgb,
    /// Angle of its rows, degrees (the-print-guide, "Rosettes", 2009).
    angle: f64,
    /// Pitch of its rows beside that of the others (the same source: yellow is ruled finer).
    ruling: f64,
    /// How much of it makes the blue of the pattern: chosen for the shared colour.
    share: f64,
}

const INKS: [Ink; 4] = [
    Ink {
        colour: [0.0, 150.0, 215.0],
        angle: 105.0,
        ruling: 1.0,
        share: 0.8,
    },
    Ink {
        colour: [205.0, 40.0, 140.0],
        angle: 75.0,
        ruling: 1.0,
        share: 0.42,
    },
    Ink {
        colour: [250.0, 225.0, 40.0],
        angle: 0.0,
        ruling: 1.08,
        share: 0.06,
    },
    Ink {
        colour: [45.0, 45.0, 50.0],
        angle: 45.0,
        ruling: 1.0,
        share: 0.3,
    },
];

/// Pitch of the screen in mm: 34 to 60 lines a cm on ware (from memory); the coarse end, so that a
/// small picture shows the dots.
pub(super) const PITCH: (f64, f64) = (0.25, 0.29);

/// A lattice of dots whose area is the tone: radius = pitch × √(tone / π).
fn lattice(
    chance: &mut Chance,
    field: Field,
    ink: Ink,
    pitch: f64,
    tone: &dyn Fn(f64, f64) -> f64,
) -> Layer {
    let pitch = pitch / ink.ruling;
    let (cos, sin) = (ink.angle.to_radians().cos(), ink.angle.to_radians().sin());
    let (w, h) = field.mm();
    let reach = ((w + h) / pitch) as i64;
    let (shift_x, shift_y) = (chance.unit(), chance.unit());
    let mut layer = Layer::new(field);
    for i in -reach..=reach {
        for j in -reach..=reach {
            let (u, v) = ((i as f64 + shift_x) * pitch, (j as f64 + shift_y) * pitch);
            let (x, y) = (u * cos - v * sin, u * sin + v * cos);
            if x < -pitch || y < -pitch || x > w + pitch || y > h + pitch {
                continue;
            }
            let tone = (tone(x, y) * ink.share).clamp(0.0, 0.95);
            if tone > 0.015 {
                let radius = pitch * (tone / std::f64::consts::PI).sqrt();
                // Each dot out of its place by a hundredth of the pitch (from memory).
                let (dx, dy) = (chance.normal(0.01 * pitch), chance.normal(0.01 * pitch));
                layer.dot(x + dx, y + dy, radius, 0.02, 1.0);
            }
        }
    }
    layer.capped(1.0)
}

/// A tone printed in four screens that together make rosettes.
pub(super) fn halftone(chance: &mut Chance, field: Field, mask: &Layer) -> Picture {
    let pitch = chance.between(PITCH.0, PITCH.1);
    let soft = mask.blurred(0.06);
    let shade = Noise::new(chance, 1.6);
    let tone = |x: f64, y: f64| soft.at(x, y) * (0.72 + 0.45 * shade.at(x, y));
    let layers = INKS.map(|ink| lattice(chance, field, ink, pitch, &tone));
    let inks: Vec<(&Layer, Rgb)> = layers
        .iter()
        .zip(INKS)
        .map(|(l, i)| (l, i.colour))
        .collect();
    printed(field, &white(chance), &inks)
}
