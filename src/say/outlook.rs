//! Why a look is proposed: what it is worth and what each finding would lead to.

use super::reasons::{clue_name, kind_name};
use super::scales::percent;
use crate::core::grid::ClueId;
use crate::core::question::Look;
use crate::piece::expert::Expert;
use crate::piece::prospect::Prospect;

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
