//! Why a look is proposed: what it is worth and what each finding would lead to.

use super::reasons::{clue_name, kind_name};
use super::scales::percent;
use crate::core::grid::{ClueId, FindingId, KindId, Year};
use crate::core::interval::quantile;
use crate::core::observation::{Observation, Observed, Sure};
use crate::core::posterior::posterior;
use crate::core::question::Look;
use crate::piece::Piece;
use crate::piece::expert::Expert;

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
    let (model, prior) = (&expert.engine.model, &expert.engine.priors[piece.setting()]);
    let grid = &model.grid;
    let mut others = piece.evidence().clone();
    others.forget(clue);
    let now = posterior(model, prior, &others);
    let chances = model
        .clue(clue)
        .table
        .predictive(grid, now.cells(), Sure::Sure);
    let mut out: Vec<Prospect> = (0..expert.base.clue(clue).findings.len())
        .map(|i| {
            let finding = FindingId(i as u16);
            let mut seen = others.clone();
            seen.say(Observation {
                clue,
                seen: Observed::Finding(finding),
                sure: Sure::Sure,
            });
            let then = posterior(model, prior, &seen);
            let (kind, kind_p) = then.leading(grid);
            Prospect {
                finding,
                p: chances[i],
                kind,
                kind_p,
                median: quantile(&then.years(grid), grid, 0.5),
            }
        })
        .collect();
    out.sort_by(|a, b| b.p.total_cmp(&a.p).then(a.finding.cmp(&b.finding)));
    out
}

/// One finding and what it would lead to.
pub fn prospect(expert: &Expert, clue: ClueId, prospect: &Prospect) -> String {
    format!(
        "{} (expected {}): then {} {}, middle year {}",
        expert.base.finding(clue, prospect.finding).words,
        percent(prospect.p),
        kind_name(expert, prospect.kind),
        percent(prospect.kind_p),
        prospect.median.0
    )
}

/// What a look is worth.
pub fn worth(look: &Look) -> String {
    format!(
        "Expected to tell {:.2} bits about kind and decade in about {:.0} seconds: {:.3} bits a second.",
        look.bits,
        look.seconds,
        look.bits_per_second()
    )
}

/// Another look and what it is worth, in short.
pub fn other(expert: &Expert, look: &Look) -> String {
    format!(
        "{}: {:.2} bits, about {:.0} seconds",
        clue_name(expert, look.clue),
        look.bits,
        look.seconds
    )
}
