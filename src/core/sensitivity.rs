//! Turning points: the fewest changed findings that would change the answer.
//!
//! Every single change is tried first (another finding at the same clue, or none at all); when no
//! single change does it, pairs of changes are tried among the findings the verdict leans on most.

use super::foreseen::{Bins, Foreseen};
use super::grid::{FindingId, KindId, Year};
use super::interval::{Band, quantile};
use super::model::Model;
use super::observation::{Evidence, Observation, Observed};
use super::posterior::{Inference, Prior, leading};
use super::table::Answers;

/// At most this many single changes are paired, the strongest first.
const PAIRED: usize = 10;

/// One set of changes and what it would do.
#[derive(Clone, Debug)]
pub struct Turn {
    /// New observations; `Observed::CantTell` means "had this not been seen".
    pub changes: Vec<Observation>,
    pub kind: KindId,
    pub median: Year,
    /// True when the leading kind changes (else only the median left the band).
    pub new_kind: bool,
}

/// The fewest changes that change the leading kind (`leader`) or move the median out of the `band`.
///
/// At most one turn a clue is returned, for single changes: the one that needs no other finding
/// ("not seen") where that is enough, else the most probable alternative.
pub fn turning_points(
    model: &Model,
    prior: &Prior,
    evidence: &Evidence,
    answer: (KindId, Band),
) -> Vec<Turn> {
    let weighed = Weighed {
        inference: Inference::new(model, prior, evidence),
        kinds: (0..model.grid.kinds()).collect(),
        answer,
    };
    let mut found = Vec::new();
    let mut near: Vec<(f64, Observation)> = Vec::new();
    let speaking = evidence
        .observations()
        .iter()
        .filter(|e| model.speaks(e, evidence));
    for observation in speaking {
        found.extend(weighed.single_turn(observation, &mut near));
    }
    if !found.is_empty() {
        return found;
    }
    near.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.clue.cmp(&b.1.clue)));
    near.truncate(PAIRED);
    for (i, (_, one)) in near.iter().enumerate() {
        let others = near.iter().skip(i + 1).map(|(_, two)| two);
        for two in others.filter(|two| two.clue != one.clue) {
            let turn = weighed.pair(one, two);
            if weighed.turns(&turn) {
                return vec![turn];
            }
        }
    }
    found
}

/// The evidence weighed once, with the answer that changes are held against.
struct Weighed<'w> {
    inference: Inference<'w>,
    /// Every kind by itself.
    kinds: Vec<usize>,
    answer: (KindId, Band),
}

impl Weighed<'_> {
    fn turns(&self, turn: &Turn) -> bool {
        turn.new_kind || !self.answer.1.holds(turn.median)
    }

    fn turn(&self, changes: Vec<Observation>, kinds: &[f64], years: &[f64]) -> Turn {
        let kind = leading(kinds).0;
        Turn {
            changes,
            kind,
            median: quantile(years, &self.inference.model().grid, 0.5),
            new_kind: kind != self.answer.0,
        }
    }

    /// The first change of one finding that turns the answer. "Not seen" is tried first, then each other
    /// finding of the clue, the likeliest given all the rest first (the earlier one on a tie). All that
    /// were tried are put to `near`, with the probability that they leave to the leading kind.
    ///
    /// What is left without the finding is weighed once, and each alternative multiplied into it.
    fn single_turn(
        &self,
        observation: &Observation,
        near: &mut Vec<(f64, Observation)>,
    ) -> Option<Turn> {
        let model = self.inference.model();
        let grid = &model.grid;
        let with = |seen| Observation {
            seen,
            ..observation.clone()
        };
        let mut fewer = self.inference.evidence().clone();
        fewer.forget(observation.clue);
        let without = self.inference.given(&fewer);
        let rest = without.posterior();
        let mut judge = |change: Observation, kinds: &[f64], years: &[f64]| {
            near.push((kinds[usize::from(self.answer.0.0)], change.clone()));
            Some(self.turn(vec![change], kinds, years)).filter(|turn| self.turns(turn))
        };
        let unseen = with(Observed::CantTell);
        if let Some(turn) = judge(unseen, &rest.kinds(grid), &rest.years(grid)) {
            return Some(turn);
        }
        let table = &model.clue(observation.clue).table;
        let Answers::Listed { .. } = table.answers() else {
            return None;
        };
        let bins = Bins {
            group_of_kind: &self.kinds,
            groups: self.kinds.len(),
            span_of_year: &[],
            spans: 0,
        };
        let look = (observation.clue, observation.sure);
        let foreseen = Foreseen::new(&without, look, bins);
        let chances = table.predictive(grid, rest.cells(), observation.sure);
        let mut others: Vec<(f64, FindingId)> =
            chances.into_iter().zip((0..).map(FindingId)).collect();
        others.sort_by(|a, b| b.0.total_cmp(&a.0));
        let others = others.into_iter().map(|(_, other)| other);
        others
            .filter(|other| observation.seen != Observed::Finding(*other))
            .find_map(|other| {
                let (kinds, years) = foreseen.marginals(other);
                judge(with(Observed::Finding(other)), &kinds, &years)
            })
    }

    /// Two changes at once.
    fn pair(&self, one: &Observation, two: &Observation) -> Turn {
        let mut changed = self.inference.evidence().clone();
        changed.add(one.clone());
        changed.add(two.clone());
        let after = self.inference.given(&changed).into_posterior();
        let grid = &self.inference.model().grid;
        let changes = vec![one.clone(), two.clone()];
        self.turn(changes, &after.kinds(grid), &after.years(grid))
    }
}
