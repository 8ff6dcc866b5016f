//! Clues, families, gates and grid together: everything the engine needs but the prior.

use super::grid::{ClueId, FamilyId, FindingId, Grid};
use super::observation::{Evidence, Observation, Observed, Weights};
use super::table::Table;

/// Where on the piece a clue is looked for; order = the order a hand would follow.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Station {
    Front,
    Shape,
    Back,
    Mark,
    Glaze,
    Loupe,
    Condition,
}

/// A gate: the clue is asked only when every clause holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Clause {
    pub clue: ClueId,
    pub any_of: Vec<FindingId>,
}

impl Clause {
    /// True when what was seen rules the findings wanted out.
    pub fn shut_by(&self, observation: &Observation) -> bool {
        observation.clue == self.clue
            && match &observation.seen {
                Observed::Finding(f) => !self.any_of.contains(f),
                Observed::Year(_) => true,
                Observed::Soft(weights) => !self.possible(weights),
                // What may be so does not rule it out: the dependent clue may still be looked at.
                Observed::CantTell => false,
            }
    }

    /// True when any of the findings wanted has weight.
    fn possible(&self, weights: &Weights) -> bool {
        let weight = |f: &FindingId| weights.by_finding().get(usize::from(f.0));
        self.any_of
            .iter()
            .any(|f| weight(f).is_some_and(|w| *w > 0.0))
    }
}

/// Whether a clue can be asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Gate {
    Open,
    /// A clue it depends on has not been answered.
    Waiting,
    /// A clue it depends on was answered otherwise: this one says nothing.
    Closed,
}

/// One clue as the engine sees it.
#[derive(Clone, Debug)]
pub struct ClueModel {
    pub table: Table,
    pub family: Option<FamilyId>,
    pub gate: Vec<Clause>,
    pub station: Station,
    /// Seconds one look takes once at the station.
    pub seconds: f64,
    /// How often there is anything to read at all, 0..=1: most pieces bear no year.
    pub present: f64,
}

impl ClueModel {
    /// True of a clue of condition that is as frequent everywhere: it is asked for the price, and says
    /// nothing of kind, place or year.
    pub fn is_mute(&self) -> bool {
        self.station == Station::Condition && self.table.is_flat()
    }
}

/// The compiled rule base.
#[derive(Clone, Debug)]
pub struct Model {
    pub grid: Grid,
    pub clues: Vec<ClueModel>,
    /// δ of each family, 0 (independent) to 1 (average).
    pub families: Vec<f64>,
}

impl Model {
    /// The clue with this id.
    pub fn clue(&self, id: ClueId) -> &ClueModel {
        &self.clues[usize::from(id.0)]
    }

    /// All clue ids in order.
    pub fn clue_ids(&self) -> impl Iterator<Item = ClueId> + use<> {
        (0..self.clues.len() as u16).map(ClueId)
    }

    /// Whether a clue can be asked, given what has been said.
    pub fn gate(&self, id: ClueId, evidence: &Evidence) -> Gate {
        let mut state = Gate::Open;
        for clause in &self.clue(id).gate {
            match evidence.of(clause.clue) {
                Some(seen) if clause.shut_by(seen) => return Gate::Closed,
                Some(_) => {}
                None => state = Gate::Waiting,
            }
        }
        state
    }

    /// True when this observation says anything: something was seen, its clue is not mute, and its
    /// gate is not closed.
    pub fn speaks(&self, observation: &Observation, evidence: &Evidence) -> bool {
        observation.seen != Observed::CantTell
            && !self.clue(observation.clue).is_mute()
            && self.gate(observation.clue, evidence) != Gate::Closed
    }

    /// λ = m^(−δ) for a clue of this family when m of its clues have been answered.
    pub fn damping(&self, family: Option<FamilyId>, answered: usize) -> f64 {
        match family {
            Some(f) if answered > 1 => (answered as f64).powf(-self.families[usize::from(f.0)]),
            _ => 1.0,
        }
    }
}

#[cfg(test)]
impl Model {
    /// One clue, asked at once and by itself.
    pub(super) fn of_one_clue(grid: Grid, table: Table) -> Model {
        let clue = ClueModel {
            table,
            family: None,
            gate: Vec::new(),
            station: Station::Front,
            seconds: 5.0,
            present: 1.0,
        };
        Model {
            grid,
            clues: vec![clue],
            families: Vec::new(),
        }
    }
}
