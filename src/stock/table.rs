//! Entries as CSV, one a row.
//!
//! A spreadsheet takes a cell that begins with `=`, `+`, `-` or `@` for a formula. Such a cell is
//! written with an apostrophe before it, which reading takes off again; so is one that begins with an
//! apostrophe, or nobody could tell the two apart.

use std::collections::HashMap;

use super::columns::{self, COLUMNS};
use super::entry::Entry;
use super::id::EntryId;
use super::incoming::Row;
use crate::buy::Currency;
use crate::piece::notation::printable;
use crate::rulebase::problem::near;

const GUARDED: [char; 7] = ['=', '+', '-', '@', '\t', '\r', '\''];

/// A cell no spreadsheet takes for a formula.
pub fn guarded(cell: &str) -> String {
    match cell.starts_with(GUARDED) {
        true => format!("'{cell}"),
        false => cell.to_owned(),
    }
}

fn unguarded(cell: &str) -> &str {
    match cell.strip_prefix('\'') {
        Some(rest) if rest.starts_with(GUARDED) => rest,
        _ => cell,
    }
}

/// All entries with a row of column names above them.
pub fn write<'e>(entries: impl IntoIterator<Item = &'e Entry>) -> String {
    let mut out = csv::Writer::from_writer(Vec::new());
    let rows = entries.into_iter().map(|entry| {
        let cells = COLUMNS
            .iter()
            .map(|(name, _)| guarded(&columns::write(entry, name)));
        cells.collect::<Vec<String>>()
    });
    let names = COLUMNS.iter().map(|(name, _)| (*name).to_owned()).collect();
    for row in std::iter::once(names).chain(rows) {
        // Memory takes everything.
        let _ = out.write_record(&row);
    }
    let bytes = out.into_inner().unwrap_or_default();
    String::from_utf8(bytes).unwrap_or_default()
}

/// Reads a table: every row with its line, good or bad. Columns may come in any order and any of
/// them may be missing.
///
/// # Errors
/// What is wrong with the row of column names, a line each.
pub fn read(bytes: &[u8], usual: Currency) -> Result<Vec<Row>, Vec<String>> {
    let mut reader = csv::ReaderBuilder::new().flexible(true).from_reader(bytes);
    let header = reader
        .headers()
        .map_err(|e| vec![format!("line 1: {}", plain(&e))])?;
    let names: Vec<String> = header
        .iter()
        .map(|name| name.trim().trim_start_matches('\u{feff}').to_owned())
        .collect();
    let problems = problems_of_names(&names);
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut seen_before: HashMap<String, usize> = HashMap::new();
    let mut rows = Vec::new();
    for record in reader.records() {
        rows.push(match record {
            Ok(record) => {
                let line = record.position().map_or(0, csv::Position::line);
                let entry = entry(&names, &record, usual, &mut seen_before);
                Row {
                    place: format!("line {line}"),
                    entry,
                }
            }
            Err(e) => {
                let line = e.position().map_or(0, csv::Position::line);
                Row {
                    place: format!("line {line}"),
                    entry: Err(vec![plain(&e)]),
                }
            }
        });
    }
    Ok(rows)
}

fn entry(
    names: &[String],
    record: &csv::StringRecord,
    usual: Currency,
    seen_before: &mut HashMap<String, usize>,
) -> Result<Entry, Vec<String>> {
    if record.len() != names.len() {
        return Err(vec![format!(
            "{} cells where the first line has {} columns",
            record.len(),
            names.len()
        )]);
    }
    let cell = |name: &str| {
        let at = names.iter().position(|n| n == name);
        unguarded(at.and_then(|i| record.get(i)).unwrap_or_default())
    };
    let mut entry = columns::read(cell, usual)?;
    if entry.id == EntryId::default() {
        let all = record.iter().collect::<Vec<_>>().join("\u{1f}");
        let times = seen_before.entry(all.clone()).or_default();
        entry.id = EntryId::from_text(&all, *times);
        *times += 1;
    }
    Ok(entry)
}

fn problems_of_names(names: &[String]) -> Vec<String> {
    let known = || COLUMNS.iter().map(|(name, _)| *name);
    let mut problems = Vec::new();
    if let [only] = names
        && only.contains([';', '\t'])
    {
        return vec!["line 1: the columns are not parted by commas; save the table so".to_owned()];
    }
    for (i, name) in names.iter().enumerate() {
        let shown = printable(name);
        if names[..i].contains(name) {
            problems.push(format!("line 1: column '{shown}' stands twice"));
        } else if !known().any(|k| k == name) {
            let close = near(name, known(), 3);
            let help = match close.is_empty() {
                true => format!("known: {}", known().collect::<Vec<_>>().join(", ")),
                false => format!("nearest: {}", close.join(", ")),
            };
            problems.push(format!("line 1: unknown column '{shown}'; {help}"));
        }
    }
    problems
}

/// The library's message without its own line number.
fn plain(error: &csv::Error) -> String {
    match error.kind() {
        csv::ErrorKind::Utf8 { .. } => "not UTF-8 text; save the table as UTF-8".to_owned(),
        _ => error.to_string(),
    }
}
