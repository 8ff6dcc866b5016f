//! The eras picture: one timeline, a lane a finding, their product below with the band marked, and the
//! guess in a lane of its own. The same file stands by itself and within a page.

use super::timeline::{self, Lane, Shape};
use crate::claim::Challenge;
use crate::piece::Piece;
use crate::say::band::years;
use crate::say::names::{capital, clue_name};
use crate::say::observation::seen;

/// Height of a finding's area, and of the guess.
const AREA: f64 = 15.0;
const PRODUCT: f64 = 66.0;

/// What the picture shows, for those who can't see it.
pub fn alt(piece: &Piece) -> String {
    let judgement = piece.judgement();
    let band = judgement.band();
    format!(
        "Timeline from {} to {}: a row for the era of each finding, and below them the years they \
         leave, {}, middle year {}",
        piece.expert().engine().model.grid.first().0,
        piece.expert().present().0,
        years(band.from, band.to),
        judgement.median.0
    )
}

/// The picture.
pub fn eras(piece: &Piece, guess: Option<&Challenge>) -> String {
    let (expert, judgement) = (piece.expert(), piece.judgement());
    let findings = piece.leanings().iter();
    let mut lanes: Vec<Lane> = findings
        .map(|l| {
            let name = capital(&clue_name(expert, l.observation.clue));
            Lane {
                label: format!("{name}: {}", seen(expert, &l.observation)),
                shape: Shape::Heights(l.years.clone()),
                tall: AREA,
            }
        })
        .collect();
    let years_found = judgement.years.iter().copied();
    let most = years_found.clone().fold(f64::MIN_POSITIVE, f64::max);
    let band = judgement.band();
    let together = match lanes.len() {
        0 | 1 => "What that leaves",
        _ => "All together",
    };
    lanes.push(Lane {
        label: format!("{together}: {}", years(band.from, band.to)),
        shape: Shape::Banded(years_found.map(|p| p / most).collect(), band.from, band.to),
        tall: PRODUCT,
    });
    lanes.extend(guess.map(|guess| Lane {
        label: format!("The guess: {}", guess.claim.text),
        shape: Shape::Frame(guess.from, guess.to),
        tall: AREA,
    }));
    timeline::draw(&expert.engine().model.grid, &alt(piece), &lanes)
}
