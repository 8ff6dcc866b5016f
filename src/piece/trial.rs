//! What if one finding were another? Two accounts of a piece side by side.

use super::account::Piece;
use crate::core::grid::{ClueId, KindId, Year};
use crate::core::interval::Band;
use crate::core::observation::Observation;

/// One change that is tried out.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    /// This finding in place of what was said of its clue, or in addition.
    Add(Observation),
    /// As if the clue had not been looked at.
    Forget(ClueId),
}

impl Change {
    /// The clue it is about.
    pub fn clue(&self) -> ClueId {
        match self {
            Change::Add(observation) => observation.clue,
            Change::Forget(clue) => *clue,
        }
    }
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
    /// A piece before and after.
    pub fn new(before: &Piece, after: &Piece) -> WhatIf {
        let (old, new) = (before.judgement(), after.judgement());
        let chance = |kind: KindId| {
            let found = new.kinds.iter().find(|(k, _)| *k == kind);
            found.map_or(0.0, |(_, p)| *p)
        };
        let mut kinds: Vec<KindShift> = old
            .kinds
            .iter()
            .map(|(kind, p)| KindShift {
                kind: *kind,
                before: *p,
                after: chance(*kind),
            })
            .collect();
        let most = |s: &KindShift| s.before.max(s.after);
        kinds.sort_by(|a, b| most(b).total_cmp(&most(a)).then(a.kind.cmp(&b.kind)));
        WhatIf {
            before: side(before),
            after: side(after),
            kinds,
            years: (old.years.clone(), new.years.clone()),
        }
    }

    /// True when another kind would lead.
    pub fn other_kind(&self) -> bool {
        self.before.leading != self.after.leading
    }
}

/// The piece after the changes.
pub fn changed(piece: &Piece, changes: &[Change]) -> Piece {
    let make = |piece: Piece, change: &Change| match change {
        Change::Add(observation) => piece.with(observation.clone()),
        Change::Forget(clue) => piece.without(*clue),
    };
    changes.iter().fold(piece.clone(), make)
}

fn side(piece: &Piece) -> Side {
    let judgement = piece.judgement();
    Side {
        band: judgement.band(),
        median: judgement.median,
        leading: judgement.leading().0,
    }
}
