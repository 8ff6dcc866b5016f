//! Rows of a file against the book: which are new, which it has, and which say something else of a
//! piece it has. Importing twice changes nothing.

use std::collections::HashMap;
use std::sync::Arc;

use super::again::{self, Difference};
use super::columns::{self, COLUMNS, DERIVED};
use super::entry::Entry;
use super::id::EntryId;
use super::store::Held;
use crate::piece::expert::Expert;
use crate::piece::notation;

/// One row, or piece, of a file.
#[derive(Debug)]
pub struct Row {
    /// "line 4", "piece 3".
    pub place: String,
    /// The entry, or everything that is wrong with it.
    pub entry: Result<Entry, Vec<String>>,
}

/// A piece the book has and the file tells otherwise.
#[derive(Debug)]
pub struct Conflict {
    pub place: String,
    pub held: Held,
    pub entry: Entry,
}

impl Conflict {
    /// Columns that differ: name, in the book, in the file.
    pub fn differing(&self) -> Vec<(&'static str, String, String)> {
        let names = COLUMNS
            .iter()
            .map(|(name, _)| *name)
            .filter(|n| !DERIVED.contains(n));
        let both = names.map(|name| {
            let of = |entry| columns::write(entry, name);
            (name, of(&self.held.entry), of(&self.entry))
        });
        both.filter(|(_, book, file)| book != file).collect()
    }
}

/// What importing would do.
#[derive(Debug, Default)]
pub struct Plan {
    pub new: Vec<Entry>,
    /// Pieces the book has just so.
    pub same: usize,
    pub conflicts: Vec<Conflict>,
    /// Bad rows: place and everything that is wrong.
    pub bad: Vec<(String, Vec<String>)>,
}

/// Sorts the rows of a file by what is to be done with them.
pub fn plan(expert: &Arc<Expert>, rows: Vec<Row>, book: Vec<Held>) -> Plan {
    let mut book: HashMap<EntryId, Held> = book
        .into_iter()
        .map(|held| (held.entry.id.clone(), held))
        .collect();
    let mut plan = Plan::default();
    let mut taken: HashMap<EntryId, usize> = HashMap::new();
    for Row { place, entry } in rows {
        let entry = match entry.and_then(|entry| settled(expert, entry)) {
            Ok(entry) => entry,
            Err(problems) => {
                plan.bad.push((place, problems));
                continue;
            }
        };
        if let Some(at) = taken.get(&entry.id) {
            match plan.new[*at] == entry {
                true => plan.same += 1,
                false => plan.bad.push((
                    place,
                    vec![format!(
                        "id {} stands in an earlier row with other things in it",
                        entry.id
                    )],
                )),
            }
        } else if let Some(held) = book.get(&entry.id) {
            if held.removed_on.is_none() && held.entry == entry {
                plan.same += 1;
            } else if let Some(held) = book.remove(&entry.id) {
                plan.conflicts.push(Conflict { place, held, entry });
            }
        } else {
            taken.insert(entry.id.clone(), plan.new.len());
            plan.new.push(entry);
        }
    }
    plan
}

/// Judges what comes without a verdict, and refuses findings that today's rules don't know where the
/// row does not say that it was judged by others.
fn settled(expert: &Arc<Expert>, mut entry: Entry) -> Result<Entry, Vec<String>> {
    let told = &entry.sighting;
    let nothing_told = told.mark.is_empty() && told.notes.is_empty() && told.findings.is_empty();
    match &entry.verdict {
        None if nothing_told => Ok(entry),
        None => {
            let judged = again::judge(expert, &entry).map_err(|e| vec![e.to_string()])?;
            let unknown: Vec<String> = judged
                .differences
                .iter()
                .filter_map(|d| match d {
                    Difference::NotKnown(finding, why) => Some(format!("{}: {why}", finding.said)),
                    Difference::Heard(_) | Difference::NotHeard(_) => None,
                })
                .collect();
            if !unknown.is_empty() {
                return Err(unknown);
            }
            entry.sighting = judged.sighting;
            entry.verdict = Some(judged.now);
            Ok(entry)
        }
        Some(verdict) if verdict.rules.is_empty() || verdict.rules == expert.base.version => {
            let unknown: Vec<String> = told
                .findings
                .iter()
                .filter_map(|f| notation::parse(&expert.base, &f.said).err())
                .map(|why| why.to_string())
                .collect();
            match unknown.is_empty() {
                true => Ok(entry),
                false => Err(unknown),
            }
        }
        Some(_) => Ok(entry),
    }
}
