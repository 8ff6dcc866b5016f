//! What each column of the table holds, and what the columns of the answers are called.

use crate::core::grid::ClueId;
use crate::piece::notation::printable;
use crate::rulebase::RuleBase;
use crate::rulebase::problem::near;

/// The columns of the answers, in order.
pub const ANSWERS: [&str; 11] = [
    "kind",
    "kind_p",
    "from",
    "to",
    "median",
    "edtf",
    "rarity",
    "at_odds",
    "advice",
    "most_to_pay",
    "problem",
];

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Column {
    Notes,
    Mark,
    /// A registration by itself; also a clue of that id, but with more ways to write it.
    Registered,
    Setting,
    /// What is asked for the piece.
    Asking,
    /// Defects, parted by commas.
    Condition,
    Clue(ClueId),
    /// Anything else: it comes out as it went in.
    PassedOn,
}

/// Columns that hold something else than one clue.
const NAMED: [(&str, Column); 6] = [
    ("notes", Column::Notes),
    ("mark", Column::Mark),
    ("registered", Column::Registered),
    ("setting", Column::Setting),
    ("asking", Column::Asking),
    ("condition", Column::Condition),
];

/// The columns of a table.
#[derive(Clone, Debug)]
pub struct Columns {
    pub holds: Vec<Column>,
    /// Names as they come out: one that is an answer's name gets `in_` before it.
    pub names: Vec<String>,
    /// Columns that nearly have the name of a clue, a line each.
    pub warnings: Vec<String>,
}

impl Columns {
    /// Reads the first line of a table.
    ///
    /// # Errors
    /// One line when a column stands twice.
    pub fn new<'h>(
        base: &RuleBase,
        header: impl Iterator<Item = &'h str>,
    ) -> Result<Columns, String> {
        let mut out = Columns {
            holds: Vec::new(),
            names: Vec::new(),
            warnings: Vec::new(),
        };
        let mut seen: Vec<&str> = Vec::new();
        for name in header {
            let bare = name.trim().trim_start_matches('\u{feff}');
            if !bare.is_empty() && seen.contains(&bare) {
                return Err(format!(
                    "line 1: column '{}' stands twice; name one of them otherwise",
                    printable(bare)
                ));
            }
            seen.push(bare);
            let named = NAMED.iter().find(|(name, _)| *name == bare);
            let clue = || base.clue_id(bare).map_or(Column::PassedOn, Column::Clue);
            let holds = named.map_or_else(clue, |(_, column)| *column);
            if holds == Column::PassedOn && !bare.is_empty() && !ANSWERS.contains(&bare) {
                out.warnings.extend(near_miss(base, bare));
            }
            out.holds.push(holds);
            out.names.push(match ANSWERS.contains(&bare) {
                true => format!("in_{bare}"),
                false => name.trim_start_matches('\u{feff}').to_owned(),
            });
        }
        Ok(out)
    }
}

/// A line for a column that may have been meant for a clue.
fn near_miss(base: &RuleBase, name: &str) -> Option<String> {
    let known = base.clues.iter().map(|c| c.id.as_str());
    let known = known.chain(NAMED.iter().map(|(name, _)| *name));
    let folded = name.to_lowercase().replace(['_', ' '], "-");
    let close = near(&folded, known, 1);
    let close = close.first()?;
    let far = strsim::osa_distance(&folded, close);
    // Two slips in a name of eight letters are a slip; in a short one another word (common practice, no
    // source).
    (far <= 2.min(close.len() / 4)).then(|| {
        format!(
            "column '{}' is no clue and comes out as it is; did you mean '{close}'?",
            printable(name)
        )
    })
}
