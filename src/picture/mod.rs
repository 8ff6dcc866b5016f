//! Pictures of findings, drawn from a seed: what a 10x loupe, or the eye, shows.
//!
//! Findings of one clue share colours, size and how full the picture is, so that only what is to be
//! seen tells them apart. Lengths are in mm. Nearly all of them are from memory: hardly a source prints
//! what a loupe shows in figures; where one does, it is named beside the figure. How wide the picture is,
//! where things stand in it, and whatever is given as a share of something else is only the layout of a
//! drawing, chosen by eye: it says nothing of any ware.
//!
//! | file | what |
//! |---|---|
//! | `chance` | the seed's numbers, even and normal, and noise |
//! | `raster` | the pixels |
//! | `layer` | ink in mm: dots, lines of changing width, spreading, light through layers |
//! | `design` | a spray of leaves, the same for every technique |
//! | `engraved`, `brush`, `screen` | cut lines and dots; strokes; screens of dots |
//! | `cells` | a picture in characters, for a terminal |
//! | `technique` | line-make and stipple |
//! | `flow` | how far cobalt has run: edge |
//! | `border` | join, repeats, overrun |
//! | `underside` | glaze pool, foot sections, stilt marks |
//! | `outline` | rims, handles |
//! | `device` | royal arms, registration marks |

mod border;
mod brush;
pub mod cells;
mod chance;
mod design;
mod device;
mod engraved;
mod flow;
mod layer;
mod outline;
mod raster;
mod screen;
mod technique;
mod underside;

use chance::Chance;
pub use raster::{HEIGHT, Picture, WIDTH};

type Draw = fn(&str, &mut Chance) -> Option<Picture>;

/// Clues that have pictures, their findings, and what draws them.
const DRAWN: &[(&str, &[&str], Draw)] = &[
    (
        "line-make",
        &[
            "engraved",
            "brush-strokes",
            "rosette-dots",
            "flat-edge",
            "sponge",
            "spray",
            "filled-outline",
            "moulded-edge",
            "none",
        ],
        technique::line_make,
    ),
    (
        "stipple",
        &["lines", "lines-dots", "dots"],
        technique::stipple,
    ),
    ("edge", &["crisp", "soft", "clouded", "flooded"], flow::edge),
    ("join", &["seen", "none"], border::join),
    (
        "repeats",
        &["identical", "nearly", "single"],
        border::repeats,
    ),
    (
        "overrun",
        &["strays", "inside", "nothing-filled"],
        border::overrun,
    ),
    (
        "glaze-pool",
        &["blue", "yellow-green", "colourless", "grey-blue"],
        underside::glaze_pool,
    ),
    (
        "stilt-marks",
        &["three-groups", "single-back", "front", "none"],
        underside::stilt_marks,
    ),
    (
        "foot-ring",
        &["flat", "single-low", "double", "deep", "dry"],
        underside::foot_ring,
    ),
    (
        "rim",
        &[
            "round",
            "scalloped",
            "panelled",
            "pierced",
            "shell-edge",
            "moulded-relief",
        ],
        outline::rim,
    ),
    (
        "cup",
        &["no-handle", "loop", "angular", "fancy"],
        outline::cup,
    ),
    (
        "registration",
        &["none", "diamond", "rd-no", "registered-words"],
        device::registration,
    ),
    (
        "royal-arms",
        &[
            "none",
            "central-shield",
            "quartered",
            "lion-unicorn",
            "unclear",
        ],
        device::royal_arms,
    ),
];

/// Ids of the clues that have pictures.
pub fn clues() -> impl Iterator<Item = &'static str> {
    DRAWN.iter().map(|(clue, _, _)| *clue)
}

/// Ids of the findings of a clue that have pictures; none for a clue without.
pub fn findings(clue: &str) -> &'static [&'static str] {
    let found = DRAWN.iter().find(|(id, _, _)| *id == clue);
    found.map_or(&[], |(_, findings, _)| findings)
}

/// True for a clue whose findings differ in nothing but their colours.
pub fn needs_colour(clue: &str) -> bool {
    clue == "glaze-pool"
}

/// The picture of a finding; `None` where there is none. Every seed gives another example.
pub fn draw(clue: &str, finding: &str, seed: u64) -> Option<Picture> {
    let (_, findings, draw) = DRAWN.iter().find(|(id, _, _)| *id == clue)?;
    if !findings.contains(&finding) {
        return None;
    }
    draw(finding, &mut Chance::new(seed, &[clue, finding]))
}
