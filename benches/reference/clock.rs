//! How long the engine takes, on one thread.
//!
//! A sample is a whole round over the pieces, divided by their number: pieces differ, and the fastest of
//! single ones would only be the easiest. What the engine keeps from piece to piece (likelihoods it has
//! looked up before) is kept, but for `posterior, nothing kept`.

use std::hint::black_box;
use std::time::Instant;

use printseam::internals::core::bulk::{Ground, Scratch};
use printseam::internals::core::grid::Grid;
use printseam::internals::core::model::Model;
use printseam::internals::core::observation::Evidence;
use printseam::internals::core::posterior::{Posterior, Prior, posterior};
use printseam::internals::core::question::rank;

use crate::network::Network;

/// The pieces of a long table.
const MANY: usize = 10_000;

/// Microseconds: the fastest round, and the one in the middle.
pub struct Time {
    pub fastest: f64,
    pub median: f64,
    pub rounds: usize,
}

impl Time {
    /// So many rounds of this, each of so many pieces; the first round is not counted.
    fn of(rounds: usize, pieces: usize, mut round: impl FnMut()) -> Time {
        round();
        let mut each: Vec<f64> = Vec::new();
        for _ in 0..rounds {
            let start = Instant::now();
            round();
            each.push(start.elapsed().as_secs_f64() * 1e6 / pieces as f64);
        }
        Time::among(each)
    }

    fn among(mut each: Vec<f64>) -> Time {
        each.sort_by(f64::total_cmp);
        Time {
            fastest: each[0],
            median: each[each.len() / 2],
            rounds: each.len(),
        }
    }
}

/// All times by name; those of 10,000 pieces are of all of them, the others of one.
pub fn times(network: &Network, questions: usize) -> Vec<(&'static str, Time)> {
    let (model, prior, pieces) = (&network.model, &network.prior, &network.pieces);
    let all = pieces.len();
    let one_round = || pieces.iter().for_each(|e| judged(model, prior, e));
    let after: Vec<(&Evidence, Posterior)> = pieces
        .iter()
        .take(questions)
        .map(|e| (e, posterior(model, prior, e)))
        .collect();
    let asked = |(e, after): &(&Evidence, Posterior)| {
        black_box(rank(model, black_box(after), e, None));
    };
    let ground = Ground::new(model, prior);
    let mut scratch = Scratch::default();
    vec![
        ("posterior", Time::of(50, all, one_round)),
        ("posterior, nothing kept", nothing_kept(network)),
        (
            "next question",
            Time::of(50, questions, || after.iter().for_each(asked)),
        ),
        (
            "10,000 singly",
            Time::of(7, 1, || {
                let long = pieces.iter().cycle().take(MANY);
                long.for_each(|e| judged(model, prior, e));
            }),
        ),
        (
            "10,000 in outline",
            Time::of(7, 1, || {
                for e in pieces.iter().cycle().take(MANY) {
                    black_box(ground.outline(black_box(e), &mut scratch));
                }
            }),
        ),
    ]
}

/// P(kind) and P(year) of one piece.
fn judged(model: &Model, prior: &Prior, evidence: &Evidence) {
    let grid: &Grid = &model.grid;
    let after = posterior(model, prior, black_box(evidence));
    black_box((after.kinds(grid), after.years(grid)));
}

/// The first piece that a program just started is asked about; the copy of the model is not counted. Here
/// a sample is a piece, so the fastest is that of the easiest one.
fn nothing_kept(network: &Network) -> Time {
    let of = |evidence: &Evidence| {
        let fresh = network.model.clone();
        let start = Instant::now();
        judged(&fresh, &network.prior, evidence);
        start.elapsed().as_secs_f64() * 1e6
    };
    Time::among(network.pieces.iter().map(of).collect())
}
