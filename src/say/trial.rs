//! Before and after a trial change, in words.

use super::names::{capital, kind_name};
use crate::piece::expert::Expert;
use crate::piece::trial::{KindShift, WhatIf};

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
