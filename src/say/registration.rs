//! What a registration dates.

use crate::registry::calendar::DateRange;

/// Said wherever a registration is decoded.
pub const REGISTRATION_IS_A_FLOOR: &str = "A registration dates the design, not the piece: nothing \
    can be older, but good sellers were made for years after (1, 1, 13 and 21 years on record).";

/// "registered 1845-03-12 to 1845-03-31 (a note)".
pub fn registered(date: &DateRange) -> String {
    let span = match date.from == date.to {
        true => date.from.to_string(),
        false => format!("{} to {}", date.from, date.to),
    };
    let note = date.note.as_ref().map(|n| format!(" ({n})"));
    format!("registered {span}{}", note.unwrap_or_default())
}
