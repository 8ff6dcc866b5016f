//! Turning points: the fewest changed findings that would change the answer.
//!
//! Every single change is tried first (another finding at the same clue, or none at all); when no
//! single change does it, pairs of changes are tried among the findings the verdict leans on most.

use super::grid::{FindingId, KindId, Year};
use super::interval::Band;
use super::interval::quantile;
use super::likelihood::Answers;
use super::model::Model;
use super::observation::{Evidence, Observation, Observed};
use super::posterior::{Prior, posterior};

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
    (leader, band): (KindId, Band),
) -> Vec<Turn> {
    let judge = |changes: &[Observation]| -> (Turn, f64) {
        let mut changed = evidence.clone();
        changes.iter().for_each(|c| changed.add(c.clone()));
        let after = posterior(model, prior, &changed);
        let kinds = after.kinds(&model.grid);
        let (kind, _) = after.leading(&model.grid);
        let median = quantile(&after.years(&model.grid), &model.grid, 0.5);
        let turn = Turn {
            changes: changes.to_vec(),
            kind,
            median,
            new_kind: kind != leader,
        };
        (turn, kinds[usize::from(leader.0)])
    };
    let turns = |t: &Turn| t.new_kind || !band.holds(t.median);

    let mut found = Vec::new();
    let mut near: Vec<(f64, Observation)> = Vec::new();
    for observation in evidence
        .observations()
        .iter()
        .filter(|e| model.speaks(e, evidence))
    {
        for alternative in alternatives(model, prior, evidence, observation) {
            let (turn, left) = judge(std::slice::from_ref(&alternative));
            near.push((left, alternative));
            if turns(&turn) {
                found.push(turn);
                break;
            }
        }
    }
    if !found.is_empty() {
        return found;
    }
    near.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.clue.cmp(&b.1.clue)));
    near.truncate(PAIRED);
    for (i, (_, one)) in near.iter().enumerate() {
        for (_, two) in near
            .iter()
            .skip(i + 1)
            .filter(|(_, two)| two.clue != one.clue)
        {
            let (turn, _) = judge(&[one.clone(), two.clone()]);
            if turns(&turn) {
                return vec![turn];
            }
        }
    }
    found
}

/// "Not seen" first, then each other finding of the clue, the likeliest given all the rest first (the
/// earlier one on a tie).
fn alternatives(
    model: &Model,
    prior: &Prior,
    evidence: &Evidence,
    observation: &Observation,
) -> Vec<Observation> {
    let with = |seen| Observation {
        seen,
        ..observation.clone()
    };
    let unseen = with(Observed::CantTell);
    let table = &model.clue(observation.clue).table;
    let Answers::Listed { .. } = table.answers() else {
        return vec![unseen];
    };
    let mut rest = evidence.clone();
    rest.add(unseen.clone());
    let rest = posterior(model, prior, &rest);
    let chances = table.predictive(&model.grid, rest.cells(), observation.sure);
    let mut others: Vec<(f64, Observation)> = (0u16..)
        .zip(chances)
        .map(|(f, p)| (p, with(Observed::Finding(FindingId(f)))))
        .filter(|(_, other)| other.seen != observation.seen)
        .collect();
    others.sort_by(|a, b| b.0.total_cmp(&a.0));
    let others = others.into_iter().map(|(_, other)| other);
    std::iter::once(unseen).chain(others).collect()
}
