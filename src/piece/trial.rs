//! What if one finding were another? Before and after side by side; the case itself stays as it is.

use super::Piece;
use crate::core::grid::{ClueId, KindId, Year};
use crate::core::interval::{Band, quantile};
use crate::core::observation::{Evidence, Observation};
use crate::core::posterior::posterior;

use super::verdict::SHARE;

/// One change that is tried out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Change {
    /// This finding in place of what was said of its clue, or in addition.
    Say(Observation),
    /// As if the clue had not been looked at.
    Forget(ClueId),
}

/// What can be compared.
#[derive(Clone, Debug, PartialEq)]
pub struct Side {
    pub band: Band,
    pub median: Year,
    pub leading: KindId,
}

/// A kind with its probability before and after.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct KindShift {
    pub kind: KindId,
    pub before: f64,
    pub after: f64,
}

/// Before and after.
#[derive(Clone, Debug, PartialEq)]
pub struct WhatIf {
    pub before: Side,
    pub after: Side,
    /// Every kind, by the greater of its two probabilities.
    pub kinds: Vec<KindShift>,
    /// P(year), by year offset.
    pub years: (Vec<f64>, Vec<f64>),
}

impl WhatIf {
    /// Tries changes out. To accept them say them to the case (`accept`).
    pub fn new(piece: &Piece, changes: &[Change]) -> WhatIf {
        let mut changed = piece.evidence().clone();
        make(&mut changed, changes);
        let (before, old_kinds, old_years) = side(piece, piece.evidence());
        let (after, new_kinds, new_years) = side(piece, &changed);
        let mut kinds: Vec<KindShift> = old_kinds
            .iter()
            .zip(&new_kinds)
            .enumerate()
            .map(|(k, (before, after))| KindShift {
                kind: KindId(k as u8),
                before: *before,
                after: *after,
            })
            .collect();
        let most = |s: &KindShift| s.before.max(s.after);
        kinds.sort_by(|a, b| most(b).total_cmp(&most(a)).then(a.kind.cmp(&b.kind)));
        WhatIf {
            before,
            after,
            kinds,
            years: (old_years, new_years),
        }
    }

    /// True when another kind would lead.
    pub fn other_kind(&self) -> bool {
        self.before.leading != self.after.leading
    }
}

/// Makes the changes, in one step that can be undone.
pub fn accept(piece: &mut Piece, changes: &[Change]) {
    piece.change(|evidence| make(evidence, changes));
}

fn make(evidence: &mut Evidence, changes: &[Change]) {
    for change in changes {
        match change {
            Change::Say(entry) => evidence.say(*entry),
            Change::Forget(clue) => {
                evidence.forget(*clue);
            }
        }
    }
}

fn side(piece: &Piece, evidence: &Evidence) -> (Side, Vec<f64>, Vec<f64>) {
    let engine = &piece.expert().engine;
    let grid = &engine.model.grid;
    let after = posterior(&engine.model, &engine.priors[piece.setting()], evidence);
    let years = after.years(grid);
    let side = Side {
        band: Band::shortest(&years, grid, SHARE),
        median: quantile(&years, grid, 0.5),
        leading: after.leading(grid).0,
    };
    (side, after.kinds(grid), years)
}
