//! Before and after a trial change, in words.

use super::reasons::{capital, kind_name};
use super::scales::percent;
use crate::case::expert::Expert;
use crate::case::what_if::{KindShift, Side, WhatIf};

/// Kinds that have at least this chance on either side are named.
const NAMED: f64 = 0.01;

/// Which kind would lead.
pub fn lead(expert: &Expert, what_if: &WhatIf) -> String {
    let then = capital(kind_name(expert, what_if.after.leading));
    if what_if.other_kind() {
        let now = kind_name(expert, what_if.before.leading);
        format!("{then} would lead instead of {now}")
    } else {
        format!("{then} would still lead")
    }
}

/// Kinds worth naming: not those that are unlikely before and after.
pub fn named(what_if: &WhatIf) -> impl Iterator<Item = &KindShift> {
    let worth = |shift: &&KindShift| shift.before.max(shift.after) >= NAMED;
    what_if.kinds.iter().filter(worth)
}

/// The headline of the change, then a line a kind.
pub fn lines(expert: &Expert, what_if: &WhatIf) -> Vec<String> {
    let years = |side: &Side| {
        format!(
            "{} to {} (middle year {})",
            side.band.from.0, side.band.to.0, side.median.0
        )
    };
    let mut out = vec![
        lead(expert, what_if),
        format!(
            "{} now, {} then",
            years(&what_if.before),
            years(&what_if.after)
        ),
    ];
    out.extend(named(what_if).map(|shift| {
        format!(
            "{}: {} now, {} then",
            kind_name(expert, shift.kind),
            percent(shift.before),
            percent(shift.after)
        )
    }));
    out
}
