//! One row of a table to a piece and its answers.

use std::sync::Arc;

use super::columns::{Column, Columns};
use crate::core::bulk::Scratch;
use crate::core::observation::{Observation, Origin};
use crate::piece::Piece;
use crate::piece::brief::Briefs;
use crate::piece::expert::Expert;
use crate::piece::intake::{Told, intake};
use crate::piece::notation::{self, printable, write};
use crate::rulebase::ids::SettingId;
use crate::rulebase::problem::near;
use crate::say::taken::overridden;

/// What is said of the money, by whoever knows prices.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Decision {
    /// `buy`, `offer`, `leave` or `look-again`.
    pub advice: String,
    /// In units of the currency, with as many decimals as it has.
    pub most_to_pay: String,
}

/// Says what to pay for a piece of which something is asked: (the piece, what is asked, its condition as
/// written).
pub type Decide<'d> = dyn Fn(&Piece, &str, &str) -> Result<Decision, String> + Sync + 'd;

/// The answers of one row.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    pub kind: String,
    pub kind_p: f64,
    pub from: i16,
    pub to: i16,
    pub median: i16,
    pub edtf: String,
    pub rarity: f64,
    /// `clue=finding` of what the rest makes very unlikely.
    pub at_odds: Vec<String>,
    pub money: Decision,
    /// What was told and gave way to another cell or word, in words.
    pub not_counted: Vec<String>,
    /// P(year), by year offset.
    pub years: Vec<f64>,
}

/// How rows are judged.
pub struct Rows<'r> {
    pub expert: &'r Arc<Expert>,
    pub briefs: &'r Briefs<'r>,
    pub columns: &'r Columns,
    /// Where a row names none.
    pub setting: SettingId,
    pub decide: &'r Decide<'r>,
}

/// Judges one row as `judge` would, or says in one line what is wrong with it.
///
/// # Errors
/// What is wrong with the row, all of it in one line.
pub fn judge(rows: &Rows, cells: &[&str], scratch: &mut Scratch) -> Result<Answer, String> {
    let Rows {
        expert,
        columns,
        setting,
        ..
    } = *rows;
    if cells.len() != columns.holds.len() {
        return Err(format!(
            "{} cells where the first line has {}",
            cells.len(),
            columns.holds.len()
        ));
    }
    let (mut told, mut setting) = (Told::default(), setting);
    let (mut asking, mut condition) = ("", "");
    let mut saw: Vec<Observation> = Vec::new();
    let mut problems: Vec<String> = Vec::new();
    for (column, cell) in columns.holds.iter().zip(cells) {
        let cell = cell.trim();
        match column {
            Column::Notes => told.notes = cell,
            Column::Mark => told.mark = cell,
            Column::Registered => told.registered = cell,
            Column::Asking => asking = cell,
            Column::Condition => condition = cell,
            _ if cell.is_empty() => {}
            Column::Setting => match named_setting(expert, cell) {
                Ok(named) => setting = named,
                Err(problem) => problems.push(problem),
            },
            Column::Clue(clue) => match notation::parse_said(&expert.base, *clue, cell) {
                Ok(seen) => saw.push(seen.from(Origin::File)),
                Err(problem) => problems.push(problem.to_string()),
            },
            Column::PassedOn => {}
        }
    }
    told.saw = &saw;
    let taken = match intake(expert, &told) {
        Ok(taken) if problems.is_empty() => taken,
        Ok(_) => return Err(problems.join("; ")),
        Err(problem) => {
            problems.push(problem.to_string());
            return Err(problems.join("; "));
        }
    };
    let lost = taken.overridden().filter_map(|h| {
        let by = h.overridden_by.as_ref()?;
        Some(overridden(expert, &h.observation, by))
    });
    let not_counted = lost.collect();
    let evidence = taken.evidence;
    let money = match asking {
        "" => Decision::default(),
        _ => {
            let piece = Piece::new(expert.clone(), setting, evidence.clone());
            (rows.decide)(&piece, asking, condition)?
        }
    };
    let brief = rows.briefs.of(setting, &evidence, scratch);
    let odd = brief.unlikely.iter().filter_map(|clue| evidence.of(*clue));
    let (kind, kind_p) = brief.kind;
    Ok(Answer {
        kind: expert.base.kinds[kind].id.clone(),
        kind_p,
        from: brief.band.from.0,
        to: brief.band.to.0,
        median: brief.median.0,
        edtf: brief.band.edtf(),
        rarity: brief.rarity.round(),
        at_odds: odd.map(|o| write(&expert.base, o)).collect(),
        money,
        not_counted,
        years: brief.years,
    })
}

fn named_setting(expert: &Expert, name: &str) -> Result<SettingId, String> {
    if let Some(setting) = expert.base.setting(name) {
        return Ok(setting);
    }
    let ids = expert.base.settings.iter().map(|s| s.id.as_str());
    let close = near(name, ids.clone(), 2);
    let help = match close.as_slice() {
        [] => format!("use {}", ids.collect::<Vec<_>>().join(", ")),
        close => format!("nearest: {}", close.join(", ")),
    };
    Err(format!("unknown setting '{}'; {help}", printable(name)))
}
