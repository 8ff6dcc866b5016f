//! A registration as a table holds it, to an observation.

use super::expert::Expert;
use super::notation::{self, Refused, printable};
use crate::core::grid::Year;
use crate::core::observation::{Observation, Origin, Sure};
use crate::registry::numbers;

/// A registered number that leaves more years than this open says nothing
/// (common practice, no source).
const OPEN_YEARS: i16 = 5;

/// What a registration says: a year, an ISO date or `Rd` and a number, `-` or `?` for a lost figure.
///
/// `None` when nothing is given, when the rule base has no such clue, or when a number leaves too
/// many years open.
///
/// # Errors
/// One line when the text is no year, or no such number was ever given out.
pub fn registered(expert: &Expert, text: &str) -> Result<Option<Observation>, Refused> {
    let base = &expert.base;
    let Some(clue) = base.clue_id("registered").filter(|_| !text.is_empty()) else {
        return Ok(None);
    };
    let rd = text.get(..2).filter(|rd| rd.eq_ignore_ascii_case("rd"));
    let Some(rd) = rd else {
        let seen = notation::parse_said(base, clue, text)?;
        return Ok(Some(seen.from(Origin::Registration)));
    };
    let number = text[rd.len()..].trim_start_matches(['.', ' ']);
    let number = number.trim_start_matches(|c: char| c.is_alphabetic() || ". ".contains(c));
    let decoded = numbers::decode(&base.registry, &number.replace('-', "?"));
    let Some((first, last)) = decoded.years() else {
        return Err(Refused(format!(
            "registered '{}': no number that was given out; printseam registered --number says why",
            printable(text)
        )));
    };
    let sure = if first == last {
        Sure::Sure
    } else {
        Sure::Unsure
    };
    let year = Year((first + last) / 2);
    let said = Observation::year(clue, year)
        .sure(sure)
        .from(Origin::Registration);
    Ok((last - first <= OPEN_YEARS).then_some(said))
}
