//! The engine beside a general Bayesian library and a numpy script, on one and the same network.
//!
//! `cargo bench --bench reference -- FOLDER` makes a plain network of the shipped rules, answers and times
//! it, and writes network, answers and times to FOLDER. `beside.py` reads them, answers the same with
//! numpy and with pyAgrum, stops where they differ, and prints the times side by side. What is compared
//! and what is not: `README.md` here. Nothing here is a test.

use std::path::PathBuf;

use printseam::internals::core::posterior::posterior;
use printseam::internals::core::question::rank;
use printseam::internals::core::told::information;

mod clock;
mod folder;
mod network;
#[path = "../shipped_rules.rs"]
mod shipped_rules;

use folder::Answers;
use network::Network;

/// Where to, when nothing is said: from the folder of Cargo.toml, where cargo starts a bench.
const FOLDER: &str = "target/reference";

/// Pieces whose next question is worked out; the posterior is, of all.
const QUESTIONS: usize = 10;

fn main() {
    // Cargo hands over `--bench` as well.
    let said = std::env::args().skip(1).find(|a| !a.starts_with('-'));
    let folder = PathBuf::from(said.unwrap_or(FOLDER.to_owned()));
    let expert = shipped_rules::expert();
    let network = Network::plain(&expert);
    let answers = answers(&network);
    let times = clock::times(&network, QUESTIONS);
    for (name, time) in &times {
        println!("{name:28} {:12.1} {:12.1} µs", time.fastest, time.median);
    }
    match folder::write(&folder, &network, &answers, &times) {
        Ok(()) => println!("written to {}", folder.display()),
        Err(e) => panic!("{}: {e}", folder.display()),
    }
}

/// What the engine says of every piece.
fn answers(network: &Network) -> Answers {
    let (model, grid) = (&network.model, &network.model.grid);
    let mut out = Answers::default();
    for (n, evidence) in network.pieces.iter().enumerate() {
        let after = posterior(model, &network.prior, evidence);
        out.kinds.extend(after.kinds(grid));
        out.years.extend(after.years(grid));
        if n >= QUESTIONS {
            continue;
        }
        let looks = rank(model, &after, evidence, None);
        let open = model.clue_ids().filter(|c| evidence.of(*c).is_none());
        assert_eq!(looks.len(), open.count(), "every clue left is asked");
        for clue in model.clue_ids() {
            let Some(look) = looks.iter().find(|look| look.clue == clue) else {
                out.bits.push(f64::NAN);
                continue;
            };
            let told = information(grid, &model.clue(clue).table, &after);
            assert_eq!(told.bits, look.bits, "nothing is damped");
            out.bits.push(told.bits);
        }
    }
    out
}
