//! Before and after a trial change, in words.

use super::reasons::{capital, kind_name};
use super::scales::percent;
use crate::case::expert::Expert;
use crate::case::what_if::{Side, WhatIf};

/// Kinds that have at least this chance on either side are named.
const NAMED: f64 = 0.01;

/// The headline of the change, then a line a kind.
pub fn lines(expert: &Expert, what_if: &WhatIf) -> Vec<String> {
    let years = |side: &Side| {
        format!(
            "{} to {} (middle year {})",
            side.band.from.0, side.band.to.0, side.median.0
        )
    };
    let lead = if what_if.other_kind() {
        format!(
            "{} would lead instead of {}",
            capital(kind_name(expert, what_if.after.leading)),
            kind_name(expert, what_if.before.leading)
        )
    } else {
        format!(
            "{} would still lead",
            capital(kind_name(expert, what_if.after.leading))
        )
    };
    let mut out = vec![
        lead,
        format!(
            "{} now, {} then",
            years(&what_if.before),
            years(&what_if.after)
        ),
    ];
    let named = |shift: &&crate::case::what_if::KindShift| shift.before.max(shift.after) >= NAMED;
    out.extend(what_if.kinds.iter().filter(named).map(|shift| {
        format!(
            "{}: {} now, {} then",
            kind_name(expert, shift.kind),
            percent(shift.before),
            percent(shift.after)
        )
    }));
    out
}
