//! What the columns `mark` and `registered` say.

use crate::case::said::{self, printable};
use crate::core::axes::Year;
use crate::core::evidence::{Entry, Seen, Sure};
use crate::marks::numbers;
use crate::marks::registry::Registry;
use crate::marks::wording::Phrasebook;
use crate::rulebase::RuleBase;

/// A registered number that leaves more years than this open says nothing
/// (common practice, no source).
const OPEN_YEARS: i16 = 5;

/// The mark reader's tables.
#[derive(Clone, Copy, Debug)]
pub struct Books<'a> {
    pub phrases: &'a Phrasebook,
    pub registry: &'a Registry,
}

/// Findings of a mark's wording and of a registration, the registration last.
///
/// `registered` is a year, an ISO date or `Rd` and a number, `-` or `?` for a lost figure.
pub fn mark_findings(
    base: &RuleBase,
    books: Option<Books>,
    mark: &str,
    registered: &str,
) -> Result<Vec<Entry>, String> {
    let mut out: Vec<Entry> = Vec::new();
    if let (Some(books), false) = (books, mark.is_empty()) {
        for said in books.phrases.read(books.registry, mark).findings() {
            // A phrase may speak of a clue that a user's own rules leave out.
            if let Ok(entry) = said::parse(base, &format!("{}={}", said.clue, said.finding)) {
                out.push(Entry {
                    sure: said.sure,
                    ..entry
                });
            }
        }
    }
    let Some(clue) = base.clue_id("registered") else {
        return Ok(out);
    };
    let number = registered
        .get(..2)
        .filter(|rd| rd.eq_ignore_ascii_case("rd"))
        .map(|_| registered[2..].trim_start_matches(['.', ' ']));
    match (number, books) {
        (None, _) if registered.is_empty() => {}
        (None, _) => out.push(said::parse(base, &format!("registered={registered}"))?),
        (Some(number), Some(books)) => {
            let number = number.trim_start_matches(|c: char| c.is_alphabetic() || ". ".contains(c));
            let decoded = numbers::decode(books.registry, &number.replace('-', "?"));
            let Some((first, last)) = decoded.years() else {
                let problem = decoded
                    .problem
                    .unwrap_or_else(|| "no such number".to_owned());
                return Err(format!("registered '{}': {problem}", printable(registered)));
            };
            let sure = if first == last {
                Sure::Sure
            } else {
                Sure::Unsure
            };
            if last - first <= OPEN_YEARS {
                out.push(Entry {
                    clue,
                    seen: Seen::Year(Year((first + last) / 2)),
                    sure,
                });
            }
        }
        (Some(_), None) => {}
    }
    Ok(out)
}
