//! The verdict in one sentence, and what is said before there is one.

use super::band::years;
use super::names::{capital, kind_name};
use super::scales::{chance, percent};
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::rulebase::ids::SettingId;

/// The job in one sentence, on the first screen.
pub const THE_JOB: &str = "Tells how an old printed plate was decorated, about when it was made, how \
    uncommon it is, and why: you say what you see, one look at a time.";

/// The verdict in one sentence.
pub fn headline(piece: &Piece) -> String {
    let (expert, judgement) = (piece.expert(), piece.judgement());
    let (kind, p) = judgement.leading();
    let band = judgement.band();
    format!(
        "{} ({}, {}), about {} ({} band, middle year {})",
        capital(kind_name(expert, kind)),
        chance(p),
        percent(p),
        years(band.from, band.to),
        percent(band.share),
        judgement.median.0
    )
}

/// Said of a verdict on no findings.
pub fn nothing_seen(expert: &Expert, setting: SettingId) -> String {
    format!(
        "Nothing has been seen: this is only what turns up in this setting ({}).",
        expert.base.settings[setting].name
    )
}
