//! The network, the answers and the times as files: a header in JSON, and figures as they lie in memory.
//!
//! Figures are little-endian doubles, so that none loses a digit on the way.

use std::fs;
use std::io::Result;
use std::path::Path;

use printseam::internals::core::grid::{ClueId, FindingId};
use printseam::internals::core::observation::{Evidence, Observed, Sure};
use serde_json::{Value, json};

use crate::clock::Time;
use crate::network::Network;

/// What the engine said.
#[derive(Default)]
pub struct Answers {
    /// P(kind) of each piece.
    pub kinds: Vec<f64>,
    /// P(year) of each piece.
    pub years: Vec<f64>,
    /// Bits of each clue about (kind, decade), of each of the first pieces; no number for a clue answered.
    pub bits: Vec<f64>,
}

/// Writes all; the folder is made if it is not there.
pub fn write(
    folder: &Path,
    network: &Network,
    answers: &Answers,
    times: &[(&'static str, Time)],
) -> Result<()> {
    fs::create_dir_all(folder)?;
    let (clues, likelihoods) = clues(network);
    let figures = [
        ("prior.f64", network.prior.cells()),
        ("likelihoods.f64", &likelihoods),
        ("kinds.f64", &answers.kinds),
        ("years.f64", &answers.years),
        ("bits.f64", &answers.bits),
    ];
    for (name, figures) in figures {
        let bytes: Vec<u8> = figures.iter().flat_map(|x| x.to_le_bytes()).collect();
        fs::write(folder.join(name), bytes)?;
    }
    let grid = &network.model.grid;
    let header = json!({
        "setting": network.setting,
        "kinds": grid.kinds(),
        "first_year": grid.first().0,
        "years": grid.years(),
        "pairs": grid.pairs().iter().map(|(k, l)| [k.0, l.0]).collect::<Vec<_>>(),
        "clues": clues,
        "pieces": network.pieces.iter().map(said).collect::<Vec<_>>(),
        "times_us": times.iter().map(time).collect::<serde_json::Map<String, Value>>(),
    });
    fs::write(folder.join("network.json"), header.to_string())
}

/// The clues, and P(finding | row, year) of each at `(finding · rows + row) · years + year`, misreading
/// included: (1 − ε) · share + ε / n.
fn clues(network: &Network) -> (Vec<Value>, Vec<f64>) {
    let (model, mut likelihoods) = (&network.model, Vec::new());
    let pairs = model.grid.pairs().len();
    let mut one = |clue: ClueId| {
        let table = &model.clue(clue).table;
        let from = likelihoods.len();
        for finding in 0..table.breadth() as u16 {
            let seen = Observed::Finding(FindingId(finding));
            likelihoods.extend(table.likelihood(&seen, Sure::Sure).unwrap_or_default());
        }
        json!({
            "id": network.names[usize::from(clue.0)],
            "findings": table.breadth(),
            "rows": table.rows(),
            "row_of_pair": (0..pairs).map(|pair| table.row(pair)).collect::<Vec<_>>(),
            "from": from,
        })
    };
    let clues = model.clue_ids().map(&mut one).collect();
    (clues, likelihoods)
}

/// (clue, finding) of each finding.
fn said(evidence: &Evidence) -> Vec<[u16; 2]> {
    let each = evidence.observations().iter();
    each.filter_map(|o| Some([o.clue.0, o.seen.finding()?.0]))
        .collect()
}

fn time((name, time): &(&'static str, Time)) -> (String, Value) {
    let of = json!({"fastest": time.fastest, "median": time.median, "rounds": time.rounds});
    ((*name).to_owned(), of)
}
