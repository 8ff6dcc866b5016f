//! What each finding speaks for and against.

use super::names::kind_name;
use crate::core::grid::KindId;
use crate::core::leaning::Leaning;
use crate::core::observation::Observation;
use crate::piece::Piece;
use crate::piece::expert::Expert;

/// What each finding speaks for and against, in the order given.
pub fn leanings_of(piece: &Piece) -> Vec<(Leaning, String)> {
    let all = piece.leanings().iter();
    all.map(|l| {
        let words = leaning(piece.expert(), l);
        (l.clone(), words)
    })
    .collect()
}

/// What one of the findings speaks for and against; empty when it says nothing.
pub fn leaning_of<'a>(leanings: &'a [(Leaning, String)], entry: &Observation) -> &'a str {
    let found = leanings.iter().find(|(l, _)| l.observation == *entry);
    found.map_or("", |(_, words)| words)
}

/// "Commonest on flow blue, rarest on decal; above all from 1887 to 1926."
pub fn leaning(expert: &Expert, leaning: &Leaning) -> String {
    let mut kinds: Vec<(KindId, f64)> = leaning
        .kinds
        .iter()
        .enumerate()
        .filter_map(|(k, p)| p.map(|p| (KindId(k as u8), p)))
        .collect();
    kinds.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    let first = expert.engine().model.grid.first();
    let mut out = match (kinds.first(), kinds.last()) {
        (Some(most), Some(least)) if most.1 >= 2.0 * least.1 => format!(
            "Commonest on {}, rarest on {}",
            kind_name(expert, most.0),
            kind_name(expert, least.0)
        ),
        _ => "About as common on every kind still in question".to_owned(),
    };
    // Half as common as in its best years: where a finding is at home.
    let last = expert.present();
    match leaning.span(first, 0.5) {
        Some((from, to)) if from > first || to < last => {
            // Nearly the whole axis is not worth saying (a tenth of it: common practice, no source).
            let wide = 10 * (to.0 - from.0) >= 9 * (last.0 - first.0);
            out += &match wide {
                true => ".".to_owned(),
                false => format!("; above all from {} to {}.", from.0, to.0),
            };
        }
        _ => out += "; tells little of the year.",
    }
    out
}
