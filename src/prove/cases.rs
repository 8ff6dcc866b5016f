//! CASES.csv: pieces with known dates, one a row.
//!
//! Columns `case_id, museum, from, to, kind, place, setting, mark, registered`, one column a clue id,
//! and `object_number, url, notes`, which are passed over. Only `from` and `to` must be filled.

use std::io::Read;

use crate::core::grid::{ClueId, KindId, PlaceId, Year};
use crate::core::observation::{Evidence, Observation, Origin};
use crate::piece::expert::Expert;
use crate::piece::intake::{Told, intake};
use crate::piece::notation::{self, printable};
use crate::rulebase::RuleBase;
use crate::rulebase::ids::{Id, SettingId};
use crate::rulebase::problem::near;

/// A catalogued span longer than this says too little about the date (common practice, no source).
pub const WIDEST_SPAN: i16 = 40;

/// Years a catalogued date may name.
const YEARS: std::ops::RangeInclusive<i16> = 1700..=2100;

const IGNORED: [&str; 3] = ["object_number", "url", "notes"];

/// One known piece.
#[derive(Clone, Debug, PartialEq)]
pub struct Known {
    pub id: String,
    /// The museum that keeps it; empty when the table does not say.
    pub museum: String,
    pub from: Year,
    pub to: Year,
    pub kind: Option<KindId>,
    pub place: Option<PlaceId>,
    /// Index into the rule base's settings.
    pub setting: SettingId,
    pub evidence: Evidence,
    /// False when the middle of the catalogued span lies outside the years that are judged: no band
    /// can hold it.
    pub within: bool,
}

impl Known {
    /// Which collection it belongs to: its museum; without one it is a collection of its own.
    pub fn collection(&self) -> &str {
        if self.museum.is_empty() {
            &self.id
        } else {
            &self.museum
        }
    }

    /// Middle of the catalogued span; may fall between two years.
    pub fn midpoint(&self) -> f64 {
        (f64::from(self.from.0) + f64::from(self.to.0)) / 2.0
    }

    /// False when the span is so wide, or lies so far out, that it only tells the kind.
    pub fn datable(&self) -> bool {
        self.within && self.to.0 - self.from.0 <= WIDEST_SPAN
    }
}

/// What a column holds.
enum Column {
    Id,
    Museum,
    From,
    To,
    Kind,
    Place,
    Setting,
    Mark,
    Registered,
    /// A clue's own column.
    Clue(ClueId),
    Ignored,
}

/// Reads the cases, or gives every bad row as one line with its number.
///
/// `setting` is used where the row names none.
///
/// # Errors
/// Every bad row as one line with its number.
pub fn read(
    expert: &Expert,
    setting: SettingId,
    input: impl Read,
) -> Result<Vec<Known>, Vec<String>> {
    let base = &expert.base;
    let mut reader = csv::ReaderBuilder::new().flexible(true).from_reader(input);
    let header = match reader.headers() {
        Ok(header) => header.clone(),
        Err(e) => return Err(vec![format!("line 1: {}", plain(&e))]),
    };
    let columns = columns(base, &header)?;
    let (mut cases, mut problems) = (Vec::new(), Vec::new());
    for record in reader.records() {
        match record {
            Err(e) => {
                let line = e.position().map_or(0, csv::Position::line);
                problems.push(format!("line {line}: {}", plain(&e)));
            }
            Ok(record) => {
                let line = record.position().map_or(0, csv::Position::line);
                match row(expert, setting, &columns, &record) {
                    Ok(mut case) => {
                        if case.id.is_empty() {
                            case.id = format!("line {line}");
                        }
                        cases.push(case);
                    }
                    Err(found) => {
                        problems.extend(found.into_iter().map(|p| format!("line {line}: {p}")));
                    }
                }
            }
        }
    }
    if problems.is_empty() && cases.is_empty() {
        problems.push("line 1: no cases; write one row a piece below the column names".to_owned());
    }
    if problems.is_empty() {
        Ok(cases)
    } else {
        Err(problems)
    }
}

/// The library's message without its own line number.
fn plain(error: &csv::Error) -> String {
    match error.kind() {
        csv::ErrorKind::Utf8 { .. } => "not UTF-8 text; save the table as UTF-8".to_owned(),
        _ => error.to_string(),
    }
}

fn columns(base: &RuleBase, header: &csv::StringRecord) -> Result<Vec<Column>, Vec<String>> {
    let (mut columns, mut problems) = (Vec::new(), Vec::new());
    for (at, name) in header.iter().enumerate() {
        let name = name.trim().trim_start_matches('\u{feff}');
        if header.iter().take(at).any(|earlier| earlier.trim() == name) {
            problems.push(format!("line 1: column '{}' stands twice", printable(name)));
        }
        columns.push(match name {
            "case_id" => Column::Id,
            "museum" => Column::Museum,
            "from" => Column::From,
            "to" => Column::To,
            "kind" => Column::Kind,
            "place" => Column::Place,
            "setting" => Column::Setting,
            "mark" => Column::Mark,
            // Also a clue of that id, but with more ways to write it.
            "registered" => Column::Registered,
            _ if IGNORED.contains(&name) => Column::Ignored,
            _ => base.clue_id(name).map_or_else(
                || {
                    problems.push(unknown_column(base, name));
                    Column::Ignored
                },
                Column::Clue,
            ),
        });
    }
    for must in ["from", "to"] {
        if !header
            .iter()
            .any(|h| h.trim().trim_start_matches('\u{feff}') == must)
        {
            problems.push(format!(
                "line 1: column '{must}' is missing; from and to hold the catalogued years"
            ));
        }
    }
    if problems.is_empty() {
        Ok(columns)
    } else {
        Err(problems)
    }
}

fn unknown_column(base: &RuleBase, name: &str) -> String {
    let fixed = [
        "case_id",
        "museum",
        "from",
        "to",
        "kind",
        "place",
        "setting",
        "mark",
        "registered",
    ];
    let known = fixed
        .into_iter()
        .chain(IGNORED)
        .chain(base.clues.iter().map(|c| c.id.as_str()));
    let close = near(name, known, 3);
    let help = if close.is_empty() {
        "use a clue id (printseam rules list shows all), or notes for remarks".to_owned()
    } else {
        format!("nearest: {}", close.join(", "))
    };
    format!("line 1: unknown column '{}'; {help}", printable(name))
}

fn row(
    expert: &Expert,
    setting: SettingId,
    columns: &[Column],
    record: &csv::StringRecord,
) -> Result<Known, Vec<String>> {
    let (base, mut problems) = (&expert.base, Vec::new());
    if record.len() != columns.len() {
        return Err(vec![format!(
            "{} cells where the header has {} columns",
            record.len(),
            columns.len()
        )]);
    }
    let (mut id, mut museum, mut from, mut to) = (String::new(), "", None, None);
    let (mut kind, mut place, mut setting) = (None, None, setting);
    let (mut mark, mut registered) = ("", "");
    let mut own: Vec<Observation> = Vec::new();
    for (column, cell) in columns.iter().zip(record.iter()) {
        let cell = cell.trim();
        match column {
            Column::Id => id = printable(cell),
            Column::Museum => museum = cell,
            Column::From => from = year("from", cell, &mut problems),
            Column::To => to = year("to", cell, &mut problems),
            Column::Mark => mark = cell,
            Column::Registered => registered = cell,
            _ if cell.is_empty() => {}
            Column::Kind => {
                let ids = base.kinds.iter().map(|k| k.id.as_str());
                kind = named("kind", ids, cell, &mut problems).map(|k| KindId(k as u8));
            }
            Column::Place => {
                let ids = base.places.iter().map(|p| p.id.as_str());
                place = named("place", ids, cell, &mut problems).map(|p| PlaceId(p as u8));
            }
            Column::Setting => {
                let ids = base.settings.iter().map(|s| s.id.as_str());
                let found = named("setting", ids, cell, &mut problems);
                setting = found.and_then(SettingId::at).unwrap_or(setting);
            }
            Column::Clue(clue) => match notation::parse_said(base, *clue, cell) {
                Ok(seen) => own.push(seen.from(Origin::File)),
                Err(problem) => problems.push(problem.to_string()),
            },
            Column::Ignored => {}
        }
    }
    let told = Told {
        mark,
        registered,
        saw: &own,
        ..Told::default()
    };
    let mut evidence = Evidence::new();
    match intake(expert, &told) {
        Ok(taken) => evidence = taken.evidence,
        Err(problem) => problems.push(problem.to_string()),
    }
    match (from, to) {
        (Some(from), Some(to)) if from > to => {
            problems.push(format!("from {} comes after to {}", from.0, to.0));
        }
        (Some(from), Some(to)) if problems.is_empty() => {
            let grid = &expert.engine().model.grid;
            let middle = (f64::from(from.0) + f64::from(to.0)) / 2.0;
            let years = f64::from(grid.first().0)..=f64::from(grid.last().0);
            return Ok(Known {
                within: years.contains(&middle),
                id,
                museum: museum.to_owned(),
                from,
                to,
                kind,
                place,
                setting,
                evidence,
            });
        }
        _ => {}
    }
    Err(problems)
}

fn year(column: &str, cell: &str, problems: &mut Vec<String>) -> Option<Year> {
    let year = cell.parse().ok().filter(|y| YEARS.contains(y)).map(Year);
    if year.is_none() {
        problems.push(format!(
            "{column} '{}' is no year from {} to {}",
            printable(cell),
            YEARS.start(),
            YEARS.end()
        ));
    }
    year
}

fn named<'a>(
    sort: &str,
    ids: impl Iterator<Item = &'a str> + Clone,
    cell: &str,
    problems: &mut Vec<String>,
) -> Option<usize> {
    let found = ids.clone().position(|id| id == cell);
    if found.is_none() {
        let close = near(cell, ids.clone(), 3);
        let help = if close.is_empty() {
            format!("known: {}", ids.collect::<Vec<_>>().join(", "))
        } else {
            format!("nearest: {}", close.join(", "))
        };
        problems.push(format!("unknown {sort} '{}'; {help}", printable(cell)));
    }
    found
}
