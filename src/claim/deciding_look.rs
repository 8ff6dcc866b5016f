//! The look that would decide between a claim and the nearest one that stands.

use super::region::Region;
use super::standing::Nearest;
use crate::core::model::{Gate, Model};
use crate::core::observation::{Evidence, Sure};
use crate::core::posterior::Posterior;
use crate::core::question::{Look, seconds};

/// A look that tells the two claims apart by less than this is not named: five hundredths of a bit
/// (common practice, no source).
const LEAST_BITS: f64 = 0.05;

/// The look with most bits about "the claim or the nearest one that stands", the two taken as
/// equally likely: I = H(A) − ½·H(A | claim) − ½·H(A | nearest). When the claim stands, it is
/// weighed against everything else.
pub(super) fn look(
    model: &Model,
    evidence: &Evidence,
    after: &Posterior,
    claim: &Region,
    nearest: &Nearest,
) -> Option<Look> {
    let grid = &model.grid;
    let one = claim.only(grid, after.cells());
    let other: Vec<f64> = if (nearest.from, nearest.to) == (claim.from, claim.to)
        && (!nearest.of_kind || claim.has(nearest.kind))
    {
        after
            .cells()
            .iter()
            .zip(&one)
            .map(|(all, c)| all - c)
            .collect()
    } else {
        let kinds = if nearest.of_kind {
            vec![nearest.kind]
        } else {
            Vec::new()
        };
        let cells = Region {
            kinds,
            from: nearest.from,
            to: nearest.to,
        };
        cells.only(grid, after.cells())
    };
    let mut best: Option<Look> = None;
    for id in model.clue_ids() {
        if evidence.of(id).is_some() || model.gate(id, evidence) != Gate::Open {
            continue;
        }
        let clue = model.clue(id);
        let chances = |cells: &[f64]| normalised(clue.table.predictive(grid, cells, Sure::Sure));
        let (Some(a), Some(b)) = (chances(&one), chances(&other)) else {
            return None;
        };
        let mixed: Vec<f64> = a.iter().zip(&b).map(|(x, y)| 0.5 * (x + y)).collect();
        let bits = entropy(&mixed) - 0.5 * entropy(&a) - 0.5 * entropy(&b);
        if bits >= LEAST_BITS && best.is_none_or(|have| bits > have.bits) {
            best = Some(Look::unranked(id, bits, seconds(clue, None)));
        }
    }
    best
}

fn normalised(mut p: Vec<f64>) -> Option<Vec<f64>> {
    let total: f64 = p.iter().sum();
    if total <= f64::MIN_POSITIVE {
        return None;
    }
    p.iter_mut().for_each(|x| *x /= total);
    Some(p)
}

fn entropy(p: &[f64]) -> f64 {
    p.iter().filter(|x| **x > 0.0).map(|x| -x * x.log2()).sum()
}
