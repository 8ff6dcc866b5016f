//! An error that takes several lines, a fault or more of one thing: only so many are listed, and no
//! name of a file or a thing can make one line pass for two.

use std::fmt;

use crate::piece::notation::printable;
use crate::rulebase::problem::Problem;

/// Faults listed at most; the rest is counted (common practice, no source).
const MOST: usize = 50;

/// Several faults, a line or two each.
#[derive(Debug)]
pub(super) struct Faults {
    lines: Vec<String>,
}

impl Faults {
    /// Those of rules: where, what, and what to do.
    pub(super) fn of_rules(problems: &[Problem]) -> Faults {
        let faults = problems.iter().map(|p| p.lines());
        Faults::listing(faults, "problems")
    }

    /// Rows of a table; `shown` names it.
    pub(super) fn of_table(shown: &str, problems: &[String]) -> Faults {
        let faults = problems.iter().map(|p| vec![format!("{shown}: {p}")]);
        Faults::listing(faults, "problems")
    }

    /// Bad rows, each with its place already.
    #[cfg(feature = "stock")]
    pub(super) fn of_rows(rows: &[String]) -> Faults {
        Faults::listing(rows.iter().map(|r| vec![r.clone()]), "bad rows")
    }

    /// As many as are listed, with the number of those that are not.
    fn listing(faults: impl ExactSizeIterator<Item = Vec<String>>, what: &str) -> Faults {
        let more = faults.len().saturating_sub(MOST);
        let listed = faults.take(MOST).flatten();
        let mut lines: Vec<String> = listed.map(|line| printable(&line)).collect();
        if more > 0 {
            lines.push(format!("and {more} more {what}"));
        }
        Faults { lines }
    }

    /// The same with a last line that says what to do about all of them.
    #[cfg(feature = "stock")]
    pub(super) fn and(mut self, line: &str) -> Faults {
        self.lines.push(line.to_owned());
        self
    }
}

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(&self.lines.join("\n"))
    }
}

impl std::error::Error for Faults {}

/// An error as it is shown: one line, unless it says itself that it takes several.
pub fn shown(error: &anyhow::Error) -> String {
    match error.downcast_ref::<Faults>() {
        Some(faults) => faults.to_string(),
        None => printable(&format!("{error:#}")),
    }
}

#[cfg(test)]
mod tests {
    use super::{Faults, MOST, shown};

    #[test]
    fn a_name_can_not_make_a_line_of_its_own() {
        let forged = Faults::of_table("a\nprintseam: b", &["line 2: bad".to_owned()]);
        let said = shown(&forged.into());
        assert_eq!(said, "a\u{fffd}printseam: b: line 2: bad");
        let said = shown(&anyhow::anyhow!("a\nb: can't be read"));
        assert_eq!(said, "a\u{fffd}b: can't be read");
    }

    #[test]
    fn only_so_many_are_listed() {
        let problems: Vec<String> = (0..MOST + 3).map(|i| format!("line {i}: bad")).collect();
        let said = Faults::of_table("t", &problems)
            .and("mend them")
            .to_string();
        let lines: Vec<&str> = said.lines().collect();
        assert_eq!(lines.len(), MOST + 2);
        assert_eq!(lines[MOST - 1], "t: line 49: bad");
        assert_eq!(lines[MOST..], ["and 3 more problems", "mend them"]);
        let few = Faults::of_table("t", &problems[..MOST]).to_string();
        assert_eq!(few.lines().count(), MOST);
    }
}
