//! A judged piece to what is kept of it.

use super::entry::{KeptFinding, KeptSighting, KeptVerdict};
use crate::core::observation::Evidence;
use crate::piece::Piece;
use crate::piece::notation;
use crate::rulebase::RuleBase;

/// Six decimals of a probability: what a text holds is what is kept.
fn six_decimals(p: f64) -> f64 {
    (p * 1e6).round() / 1e6
}

/// The verdict in a few figures.
pub fn verdict(piece: &Piece) -> KeptVerdict {
    let (base, judgement) = (&piece.expert().base, piece.judgement());
    let (kind, p) = judgement.leading();
    let band = judgement.band();
    KeptVerdict {
        kind: base.kinds[usize::from(kind.0)].id.clone(),
        kind_p: six_decimals(p),
        from: band.from.0,
        to: band.to.0,
        median: judgement.median.0,
        rules: base.version.clone(),
    }
}

/// What was told of it, and what counted.
pub fn sighting(piece: &Piece, mark: &str, mark_complete: bool, notes: &str) -> KeptSighting {
    let base = &piece.expert().base;
    KeptSighting {
        setting: base.settings[piece.setting()].id.clone(),
        mark: mark.to_owned(),
        mark_complete,
        notes: notes.to_owned(),
        findings: findings(base, piece.evidence()),
    }
}

/// Observations as texts.
fn findings(base: &RuleBase, evidence: &Evidence) -> Vec<KeptFinding> {
    let kept = |o: &crate::core::observation::Observation| KeptFinding {
        said: notation::write(base, o),
        origin: o.origin,
    };
    evidence.observations().iter().map(kept).collect()
}
