//! Bands of years, the first year and the last.

use super::names::{capital, clue_name};
use super::scales::percent;
use crate::core::explanation::{End, Explanation};
use crate::core::grid::Year;
use crate::core::interval::Band;
use crate::piece::expert::Expert;

/// "1842 to 1867", or the single year.
pub fn years(from: Year, to: Year) -> String {
    match from == to {
        true => from.0.to_string(),
        false => format!("{} to {}", from.0, to.0),
    }
}

/// A band with its share and its EDTF text.
pub fn band(band: &Band) -> String {
    format!(
        "{} of the chance: {} (EDTF {})",
        percent(band.share),
        years(band.from, band.to),
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

/// The first year: known ("not before") or only usual ("hardly before"), and what says so.
pub fn earliest(expert: &Expert, end: &End) -> String {
    format!(
        "{} before {}{}",
        firmness(end),
        end.year.0,
        told_by(expert, end)
    )
}

/// The last year, in the same way.
pub fn latest(expert: &Expert, end: &End) -> String {
    format!(
        "{} after {}{}",
        firmness(end),
        end.year.0,
        told_by(expert, end)
    )
}

/// A known end is said firmly, a usual one is not.
pub(super) fn firmness(end: &End) -> &'static str {
    match end.hard {
        true => "not",
        false => "hardly",
    }
}

fn told_by(expert: &Expert, end: &End) -> String {
    match end.because {
        Some(clue) => format!(" ({})", clue_name(expert, clue)),
        None => String::new(),
    }
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
        assert_eq!(years(b.from, b.to), "1842");
    }
}
