//! Which kinds a finding speaks for: its likelihood kind by kind, the years and places averaged out.

use super::eras::{era, scaled};
use super::grid::{KindId, Year};
use super::model::Model;
use super::observation::{Evidence, Observation};
use super::posterior::{Inference, Posterior, Prior};

/// One finding's likelihood over years and over kinds, given all the others.
#[derive(Clone, Debug)]
pub struct Leaning {
    pub observation: Observation,
    /// By year offset, the highest being 1.
    pub years: Vec<f64>,
    /// P(finding | kind, others) by kind id; `None` for kinds the others leave no room.
    pub kinds: Vec<Option<f64>>,
}

impl Leaning {
    /// First and last year in which the finding is at least `share` of its highest.
    pub fn span(&self, first: Year, share: f64) -> Option<(Year, Year)> {
        let from = self.years.iter().position(|h| *h >= share)?;
        let to = self.years.iter().rposition(|h| *h >= share)?;
        Some((Year(first.0 + from as i16), Year(first.0 + to as i16)))
    }
}

/// A kind the other findings leave less than this is out of the running
/// (common practice, no source).
const IN_THE_RUNNING: f64 = 0.005;

/// Leanings of all findings that speak, in the order given.
pub fn leanings(model: &Model, prior: &Prior, evidence: &Evidence) -> Vec<Leaning> {
    let inference = Inference::new(model, prior, evidence);
    let likelihoods = inference.likelihoods();
    let of = |observation: &Observation| {
        let i = likelihoods
            .iter()
            .position(|v| v.observation.clue == observation.clue)?;
        let rest = inference.without(i);
        Some(Leaning {
            observation: observation.clone(),
            years: scaled(era(model, rest.cells(), observation)?),
            kinds: kinds(model, &rest, observation)?,
        })
    };
    evidence.observations().iter().filter_map(of).collect()
}

/// P(finding | kind) with the weights of `rest`.
fn kinds(model: &Model, rest: &Posterior, observation: &Observation) -> Option<Vec<Option<f64>>> {
    let grid = &model.grid;
    let table = &model.clue(observation.clue).table;
    let rows = table.likelihood(&observation.seen, observation.sure)?;
    let mut sums = vec![(0.0, 0.0); grid.kinds()];
    for (pair, (KindId(kind), _)) in grid.pairs().iter().enumerate() {
        let row = &rows[table.row(pair) * grid.years()..][..grid.years()];
        let sum = &mut sums[usize::from(*kind)];
        for (likelihood, weight) in row.iter().zip(&rest.cells()[grid.cells_of(pair)]) {
            sum.0 += weight * likelihood;
            sum.1 += weight;
        }
    }
    let running = |(seen, all): &(f64, f64)| (*all >= IN_THE_RUNNING).then(|| seen / all);
    Some(sums.iter().map(running).collect())
}
