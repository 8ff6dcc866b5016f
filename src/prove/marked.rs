//! What the columns `mark` and `registered` say.

use crate::core::grid::Year;
use crate::core::observation::{Observation, Observed, Sure};
use crate::piece::expert::Expert;
use crate::piece::intake;
use crate::piece::notation::{self, printable};
use crate::registry::numbers;
use crate::say::registration;

/// A registered number that leaves more years than this open says nothing
/// (common practice, no source).
const OPEN_YEARS: i16 = 5;

/// Findings of a mark's wording and of a registration, the registration last.
///
/// `registered` is a year, an ISO date or `Rd` and a number, `-` or `?` for a lost figure.
pub fn mark_findings(
    expert: &Expert,
    mark: &str,
    registered: &str,
) -> Result<Vec<Observation>, String> {
    let base = &expert.base;
    // A record seldom says that nothing else stands in the mark.
    let mut out = intake::mark(expert, mark, false).entries;
    let Some(clue) = base.clue_id("registered") else {
        return Ok(out);
    };
    let number = registered
        .get(..2)
        .filter(|rd| rd.eq_ignore_ascii_case("rd"))
        .map(|_| registered[2..].trim_start_matches(['.', ' ']));
    let Some(number) = number else {
        if !registered.is_empty() {
            out.push(notation::parse(base, &format!("registered={registered}"))?);
        }
        return Ok(out);
    };
    let number = number.trim_start_matches(|c: char| c.is_alphabetic() || ". ".contains(c));
    let decoded = numbers::decode(&base.registry, &number.replace('-', "?"));
    let Some((first, last)) = decoded.years() else {
        let problem = registration::problem(&decoded);
        let problem = problem.unwrap_or_else(|| "no such number".to_owned());
        return Err(format!("registered '{}': {problem}", printable(registered)));
    };
    if last - first <= OPEN_YEARS {
        out.push(Observation {
            clue,
            seen: Observed::Year(Year((first + last) / 2)),
            sure: if first == last {
                Sure::Sure
            } else {
                Sure::Unsure
            },
        });
    }
    Ok(out)
}
