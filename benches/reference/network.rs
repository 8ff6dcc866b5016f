//! The shipped rules as a plain network: what any Bayesian library can be given.
//!
//! Kind, place and year are hidden; every clue depends on them and on nothing else. So left out are dated
//! clues, whose answers are years, and clues that tell nothing of kind or year; gates are opened, families
//! count in full (δ = 0), and there is always something to read.

use printseam::internals::core::grid::ClueId;
use printseam::internals::core::model::Model;
use printseam::internals::core::observation::Evidence;
use printseam::internals::core::posterior::Prior;
use printseam::internals::core::seeded::Seeded;
use printseam::internals::core::table::Answers;
use printseam::internals::learn::hidden::{Eyes, Hidden};
use printseam::internals::piece::expert::Expert;

/// How many pieces are drawn.
const PIECES: u64 = 200;

/// Findings of each.
const FINDINGS: usize = 10;

/// The seed they are drawn by.
const SEED: u64 = 20_261_126;

/// A network with some pieces drawn from it.
pub struct Network {
    pub setting: String,
    pub model: Model,
    pub prior: Prior,
    /// Names of the clues, as the rules have them.
    pub names: Vec<String>,
    pub pieces: Vec<Evidence>,
}

impl Network {
    /// Of the first setting.
    pub fn plain(expert: &Expert) -> Network {
        let engine = expert.engine();
        let whole = &engine.model;
        let mut model = Model {
            grid: whole.grid.clone(),
            clues: Vec::new(),
            families: vec![0.0; whole.families.len()],
        };
        let mut names = Vec::new();
        for id in whole.clue_ids() {
            let mut clue = whole.clue(id).clone();
            if clue.is_mute() || matches!(clue.table.answers(), Answers::Dated { .. }) {
                continue;
            }
            clue.gate.clear();
            clue.present = 1.0;
            model.clues.push(clue);
            names.push(expert.base.clue(id).id.clone());
        }
        let prior = engine.priors[0].clone();
        let pieces = drawn(&model, &prior);
        Network {
            setting: expert.base.settings[0].id.clone(),
            model,
            prior,
            names,
            pieces,
        }
    }
}

/// Pieces drawn from the network itself, looked at in any order until ten looks have told something.
fn drawn(model: &Model, prior: &Prior) -> Vec<Evidence> {
    let piece = |n| {
        let mut stream = Seeded::part(SEED, n);
        let mut order: Vec<ClueId> = model.clue_ids().collect();
        stream.shuffle(&mut order);
        let hidden = Hidden::draw(model, prior, stream.number(), Eyes::Slipping);
        let seen = hidden.map(|piece| piece.seen(model, &order, FINDINGS));
        let Some(seen) = seen.filter(|e| e.observations().len() == FINDINGS) else {
            panic!("piece {n} has fewer findings");
        };
        seen
    };
    let pieces: Vec<Evidence> = (0..PIECES).map(piece).collect();
    for (n, one) in pieces.iter().enumerate() {
        assert!(!pieces[..n].contains(one), "piece {n} is there twice");
    }
    pieces
}
