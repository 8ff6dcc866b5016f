//! What the columns `mark` and `registered` say.

use crate::case::expert::Expert;
use crate::case::heard;
use crate::case::said::{self, printable};
use crate::core::axes::Year;
use crate::core::evidence::{Entry, Seen, Sure};
use crate::marks::numbers;

/// A registered number that leaves more years than this open says nothing
/// (common practice, no source).
const OPEN_YEARS: i16 = 5;

/// Findings of a mark's wording and of a registration, the registration last.
///
/// `registered` is a year, an ISO date or `Rd` and a number, `-` or `?` for a lost figure.
pub fn mark_findings(expert: &Expert, mark: &str, registered: &str) -> Result<Vec<Entry>, String> {
    let base = &expert.base;
    // A record seldom says that nothing else stands in the mark.
    let mut out = heard::mark(expert, mark, false).entries;
    let Some(clue) = base.clue_id("registered") else {
        return Ok(out);
    };
    let number = registered
        .get(..2)
        .filter(|rd| rd.eq_ignore_ascii_case("rd"))
        .map(|_| registered[2..].trim_start_matches(['.', ' ']));
    let Some(number) = number else {
        if !registered.is_empty() {
            out.push(said::parse(base, &format!("registered={registered}"))?);
        }
        return Ok(out);
    };
    let number = number.trim_start_matches(|c: char| c.is_alphabetic() || ". ".contains(c));
    let decoded = numbers::decode(&base.registry, &number.replace('-', "?"));
    let Some((first, last)) = decoded.years() else {
        let problem = decoded
            .problem
            .unwrap_or_else(|| "no such number".to_owned());
        return Err(format!("registered '{}': {problem}", printable(registered)));
    };
    if last - first <= OPEN_YEARS {
        out.push(Entry {
            clue,
            seen: Seen::Year(Year((first + last) / 2)),
            sure: if first == last {
                Sure::Sure
            } else {
                Sure::Unsure
            },
        });
    }
    Ok(out)
}
