//! What the place of the find adds to what is seen: the same findings judged where every year
//! counts alike.

use super::account::Piece;
use crate::core::grid::KindId;
use crate::core::interval::Band;

/// The odds of the kind must change by more than this factor before the setting is said to decide
/// (common practice, no source).
const DECIDES: f64 = 2.0;

/// The middle year must move by so many years before the setting is said to move it (design figure;
/// common practice, no source).
pub const MOVES: i16 = 15;

/// What the place of the find does to the years.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct YearsEffect {
    /// The usual band by the findings alone.
    pub alone: Band,
    /// Years from the middle year of the findings alone to that in the piece's setting.
    pub moved: i16,
    /// Probability, after the findings, that the piece is one of those the setting is thought to
    /// hold, and not one of which it tells nothing.
    pub trusted: f64,
}

/// `None` when nothing is seen, in the neutral setting, or when the middle year moves by less than
/// `MOVES`.
pub fn years_effect(piece: &Piece) -> Option<YearsEffect> {
    let neutral = piece.expert().base.neutral();
    if piece.setting() == neutral || piece.evidence().says_nothing() {
        return None;
    }
    let without = piece.alone();
    let alone = without.judgement();
    let moved = piece.judgement().median.0 - alone.median.0;
    (moved.abs() >= MOVES).then(|| YearsEffect {
        alone: alone.band(),
        moved,
        trusted: trusted(piece),
    })
}

/// P(the setting tells of this piece | findings) = 1 − Σ posterior · α · wide / prior.
pub fn trusted(piece: &Piece) -> f64 {
    let (expert, setting) = (piece.expert(), piece.setting());
    let doubt = expert.base.settings[setting].doubt;
    let prior = expert.engine().priors[setting].cells();
    let after = piece.judgement().posterior.cells();
    let cells = after.iter().zip(prior).zip(expert.engine().priors.wide());
    let possible = cells.filter(|((_, prior), _)| **prior > 0.0);
    1.0 - possible
        .map(|((after, prior), wide)| after * doubt * wide / prior)
        .sum::<f64>()
}

/// The findings judged by themselves, and the same kinds in the piece's own setting.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SettingEffect {
    /// The leading kind of the findings alone, and its probability by them.
    pub alone: (KindId, f64),
    /// Its probability in the piece's setting.
    pub alone_here: f64,
    /// The kind to which the setting adds most, and its probability in the piece's setting.
    pub gains: (KindId, f64),
}

/// `None` when nothing is seen, when the piece is judged in the neutral setting anyway, or when the
/// setting neither changes the leading kind nor its odds by more than a factor of 2.
pub fn setting_effect(piece: &Piece) -> Option<SettingEffect> {
    let neutral = piece.expert().base.neutral();
    if piece.setting() == neutral || piece.evidence().says_nothing() {
        return None;
    }
    let without = piece.alone();
    let (alone, here) = (without.judgement(), piece.judgement());
    let of = |kinds: &[(KindId, f64)], kind: KindId| {
        let found = kinds.iter().find(|(k, _)| *k == kind);
        found.map_or(0.0, |(_, p)| *p)
    };
    let (kind, p) = alone.leading();
    let alone_here = of(&here.kinds, kind);
    let moved = odds(alone_here) / odds(p);
    let decides = here.leading().0 != kind || !(1.0 / DECIDES..=DECIDES).contains(&moved);
    let gain = |(k, p): &(KindId, f64)| p - of(&alone.kinds, *k);
    let gains = here
        .kinds
        .iter()
        .max_by(|a, b| gain(a).total_cmp(&gain(b)))?;
    decides.then_some(SettingEffect {
        alone: (kind, p),
        alone_here,
        gains: *gains,
    })
}

fn odds(p: f64) -> f64 {
    p / (1.0 - p).max(f64::MIN_POSITIVE)
}
