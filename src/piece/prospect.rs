//! What each finding of a look would lead to.

use super::account::Piece;
use crate::core::grid::{ClueId, FindingId, KindId, Year};
use crate::core::interval::quantile;
use crate::core::observation::{Observation, Sure};
use crate::core::posterior::posterior;

/// What one finding would lead to.
#[derive(Clone, Debug)]
pub struct Prospect {
    pub finding: FindingId,
    /// P(this finding | the findings so far).
    pub p: f64,
    pub kind: KindId,
    pub kind_p: f64,
    pub median: Year,
}

/// Every finding of a listed clue with what it would lead to, the likeliest first.
pub fn prospects(piece: &Piece, clue: ClueId) -> Vec<Prospect> {
    let expert = piece.expert();
    let (model, prior) = (
        &expert.engine().model,
        &expert.engine().priors[piece.setting()],
    );
    let grid = &model.grid;
    let mut others = piece.evidence().clone();
    others.forget(clue);
    let now = posterior(model, prior, &others);
    let table = &model.clue(clue).table;
    let chances = table.predictive(grid, now.cells(), Sure::Sure);
    let findings = (0..)
        .map(FindingId)
        .take(expert.base.clue(clue).findings.len());
    let mut out: Vec<Prospect> = findings
        .zip(chances)
        .map(|(finding, p)| {
            let mut seen = others.clone();
            seen.add(Observation::finding(clue, finding));
            let then = posterior(model, prior, &seen);
            let (kind, kind_p) = then.leading(grid);
            Prospect {
                finding,
                p,
                kind,
                kind_p,
                median: quantile(&then.years(grid), grid, 0.5),
            }
        })
        .collect();
    out.sort_by(|a, b| b.p.total_cmp(&a.p).then(a.finding.cmp(&b.finding)));
    out
}
