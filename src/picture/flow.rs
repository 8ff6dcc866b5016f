//! How far cobalt has run into the glaze.

use super::chance::Chance;
use super::design::Spray;
use super::engraved;
use super::layer::{Field, Layer, printed, white};
use super::raster::Picture;
use super::technique::COBALT;

/// Width of the picture, mm (common practice, no source).
const ACROSS: f64 = 12.0;

/// How a grade of flow is drawn. All from memory.
struct Flow {
    /// Softness of the lines themselves, mm.
    blur: (f64, f64),
    /// Share of the colour that has stayed where it was printed.
    core: (f64, f64),
    /// How far the rest has run: standard deviation of its spread, mm.
    halo: (f64, f64),
    /// Density of blue all over.
    tint: (f64, f64),
}

/// One print, run further from finding to finding.
pub(super) fn edge(finding: &str, chance: &mut Chance) -> Option<Picture> {
    let flow = match finding {
        "crisp" => Flow {
            blur: (0.02, 0.04),
            core: (1.0, 1.0),
            halo: (0.0, 0.0),
            tint: (0.0, 0.01),
        },
        "soft" => Flow {
            blur: (0.09, 0.13),
            core: (0.75, 0.82),
            halo: (0.35, 0.5),
            tint: (0.02, 0.04),
        },
        "clouded" => Flow {
            blur: (0.13, 0.17),
            core: (0.45, 0.52),
            halo: (0.9, 1.3),
            tint: (0.07, 0.13),
        },
        "flooded" => Flow {
            blur: (0.25, 0.35),
            core: (0.15, 0.25),
            halo: (2.0, 3.0),
            tint: (0.25, 0.4),
        },
        _ => return None,
    };
    let field = Field::wide(ACROSS);
    let design = Spray::new(chance, field);
    let mut sharp = Layer::new(field);
    let stem: Vec<(f64, f64)> = design.stem.iter().map(|n| (n.x, n.y)).collect();
    // Outlines 0.3 to 0.8 wide, shading 0.15 to 0.35 and 0.5 to 1.1 apart (from memory): coarse cutting
    // of prints without stipple.
    engraved::cut(&mut sharp, chance, &stem, 0.4);
    for leaf in &design.leaves {
        engraved::outline(&mut sharp, chance, leaf, 0.32);
        engraved::hatch(&mut sharp, chance, leaf, 0.7, 0.2, 1.0);
        engraved::hatch(&mut sharp, chance, leaf, 0.7, 0.2, -1.0);
    }
    let mut range = |of: (f64, f64)| chance.between(of.0, of.1);
    let (blur, core, halo, tint) = (
        range(flow.blur),
        range(flow.core),
        range(flow.halo),
        range(flow.tint),
    );
    // Strongest beside dense parts, drifting down a wall by up to 1 mm (from memory).
    let drift = chance.between(0.0, 0.6) * halo / 3.0;
    let lines = sharp.capped(1.4).blurred(blur);
    let run = lines.blurred(halo);
    let mut layer = Layer::new(field);
    layer.flood(|x, y| {
        let spread = if halo > 0.0 {
            run.at(x, (y - drift).max(0.0))
        } else {
            0.0
        };
        core * lines.at(x, y) + 1.25 * (1.0 - core) * spread + tint
    });
    Some(printed(field, &white(chance), &[(&layer, COBALT)]))
}
