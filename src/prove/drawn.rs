//! What the rules would expect of themselves: pieces drawn from them, looked at as the known ones were.
//!
//! Whoever sorts pieces by when they really were made finds the early ones judged too late and the late
//! ones too early, however right the rules: a band that is not sure leans to what is common. So a bias
//! by half century is no fault in itself; what counts is how far it lies from that of drawn pieces.
//! A year that a record has is there to read on the drawn piece too, however seldom the rules say one is.
//! Sureness and soft findings are not drawn, and a drawn piece may show that there is nothing (no mark)
//! where the record tells of something.

use super::calibration::{Held, by_period};
use super::cases::Known;
use super::judge::{Judged, judge};
use super::measures::Measures;
use super::ordered::{self, Progress};
use crate::core::model::Model;
use crate::core::posterior::posterior;
use crate::core::seeded::Seeded;
use crate::learn::hidden::{Eyes, Hidden};
use crate::piece::expert::Expert;

/// Pieces drawn for each known one (common practice, no source).
pub const DRAWS: u64 = 20;

/// Seed of all draws.
const SEED: u64 = 1800;

/// Drawn pieces judged as the known ones are.
#[derive(Clone, Debug)]
pub struct Drawn {
    pub all: Measures,
    pub calibration: Vec<Held>,
}

/// Draws for each case that counts for dating pieces from its setting's prior, shows of each what the case's
/// clues show, and judges them.
pub fn drawn(expert: &Expert, cases: &[Known], progress: Progress) -> Drawn {
    let mut readable = expert.engine().model.clone();
    readable.clues.iter_mut().for_each(|c| c.present = 1.0);
    let datable: Vec<(u64, &Known)> = (0..).zip(cases.iter().filter(|c| c.datable())).collect();
    let pieces = ordered::map(&datable, "drawing", progress, |(at, case)| {
        let mut seeds = Seeded::part(SEED, *at);
        let draw = |_| like(expert, &readable, case, seeds.number());
        (0..DRAWS).filter_map(draw).collect::<Vec<_>>()
    });
    let (cases, judged): (Vec<Known>, Vec<Judged>) = pieces.into_iter().flatten().unzip();
    Drawn {
        all: Measures::of(judged.iter()),
        calibration: by_period(&cases, &judged),
    }
}

/// A piece drawn in place of a known one; `readable`: the rules, where every piece has something to read.
fn like(expert: &Expert, readable: &Model, case: &Known, seed: u64) -> Option<(Known, Judged)> {
    let engine = expert.engine();
    let (model, prior) = (&engine.model, &engine.priors[case.setting]);
    let piece = Hidden::draw(model, prior, seed, Eyes::Slipping)?;
    let looked_at: Vec<_> = case
        .evidence
        .observations()
        .iter()
        .map(|o| o.clue)
        .collect();
    let known = Known {
        from: piece.year,
        to: piece.year,
        kind: case.kind.map(|_| piece.kind),
        place: case.place.map(|_| piece.place),
        evidence: piece.seen(readable, &looked_at, looked_at.len()),
        within: true,
        ..case.clone()
    };
    let judged = judge(
        &model.grid,
        &posterior(model, prior, &known.evidence),
        &known,
    );
    Some((known, judged))
}
