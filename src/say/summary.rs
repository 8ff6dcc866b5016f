//! Bands, ends and rarity in words.

use super::reasons::{capital, clue_name, kind_name};
use super::scales::{chance, percent};
use crate::core::explanation::{End, Explanation, Step};
use crate::core::interval::Band;
use crate::core::observation::{Observation, Observed};
use crate::piece::expert::Expert;
use crate::piece::verdict::Verdict;
use crate::rulebase::ids::SourceId;

/// "1842 to 1867", or the single year.
pub fn years(band: &Band) -> String {
    if band.from == band.to {
        band.from.0.to_string()
    } else {
        format!("{} to {}", band.from.0, band.to.0)
    }
}

/// A band with its share and its EDTF text.
pub fn band(band: &Band) -> String {
    format!(
        "{} of the chance: {} (EDTF {})",
        percent(band.share),
        years(band),
        band.edtf()
    )
}

/// Both ends in one line.
pub fn ends(expert: &Expert, account: &Explanation) -> String {
    capital(&format!(
        "{}; {}",
        earliest(expert, &account.earliest),
        latest(expert, &account.latest)
    ))
}

/// The earliest possible year and the finding that sets it.
pub fn earliest(expert: &Expert, end: &End) -> String {
    format!("earliest possible: {}, {}", end.year.0, set_by(expert, end))
}

/// The latest likely year and the finding that sets it.
pub fn latest(expert: &Expert, end: &End) -> String {
    format!("latest likely: {}, {}", end.year.0, set_by(expert, end))
}

fn set_by(expert: &Expert, end: &End) -> String {
    match end.because {
        Some(clue) => format!("set by {}", clue_name(expert, clue)),
        None => "set by no single finding".to_owned(),
    }
}

/// The score, what it means, and the bits each feature adds.
pub fn rarity(expert: &Expert, verdict: &Verdict) -> Vec<String> {
    let rarity = &verdict.rarity;
    let mut out = vec![
        format!(
            "{:.0} of 100: that share of the pieces found in such a place are commoner than this one; not a price",
            rarity.score
        ),
        format!("kind and age add {:.1} bits", rarity.kind_and_age),
    ];
    for (feature, bits) in expert.base.market.iter().zip(&rarity.features) {
        out.push(match bits {
            Some(bits) => format!("{} adds {bits:.1} bits", feature.name),
            None => format!("{} not seen, left out", feature.name),
        });
    }
    out
}

/// The same in one line.
pub fn rarity_line(expert: &Expert, verdict: &Verdict) -> String {
    format!("Rarity {}", rarity(expert, verdict).join("; "))
}

/// What the verdict would lose without one finding.
pub fn leave_one_out(expert: &Expert, verdict: &Verdict, step: &Step) -> String {
    let kind = kind_name(expert, verdict.explanation.kind);
    let moved = if step.leave_one_out < 0.0 {
        "gain"
    } else {
        "lose"
    };
    format!(
        "without it {kind} would {moved} {:.1} decibans",
        step.leave_one_out.abs()
    )
}

/// Where a rule comes from, each source with its standing.
pub fn sources(expert: &Expert, sources: &[SourceId]) -> String {
    let lines: Vec<String> = sources
        .iter()
        .map(|s| expert.base.sources[*s].line())
        .collect();
    lines.join("; ")
}

/// Where what is said of a finding comes from: the finding's own sources, else the clue's.
pub fn sources_of(expert: &Expert, entry: &Observation) -> String {
    let clue = expert.base.clue(entry.clue);
    let own = match entry.seen {
        Observed::Finding(f) => &expert.base.finding(entry.clue, f).sources,
        Observed::Year(_) | Observed::CantTell => &clue.sources,
    };
    sources(expert, if own.is_empty() { &clue.sources } else { own })
}

/// A name with its chance in words and number.
pub fn likely(name: &str, p: f64) -> String {
    format!("{name}: {} ({})", chance(p), percent(p))
}

#[cfg(test)]
mod tests {
    use super::{band, years};
    use crate::core::grid::Year;
    use crate::core::interval::Band;

    #[test]
    fn a_band_is_said_with_its_edtf() {
        let mut b = Band {
            share: 0.8,
            from: Year(1842),
            to: Year(1867),
        };
        assert_eq!(
            band(&b),
            "80 % of the chance: 1842 to 1867 (EDTF 1842~/1867~)"
        );
        b.to = b.from;
        assert_eq!(years(&b), "1842");
    }
}
