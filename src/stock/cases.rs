//! Pieces whose date has become known, as the table that `prove` reads.

use super::entry::Entry;
use super::table::guarded;
use crate::core::observation::Origin;
use crate::rulebase::RuleBase;

/// The table, and how many pieces are in it. A finding of a clue that the rules no longer have is
/// left out, as are marks' and notes' own findings: `prove` reads the mark again, and of the notes
/// what was heard in them stands in the clue's column.
pub fn write<'e>(base: &RuleBase, entries: impl IntoIterator<Item = &'e Entry>) -> (String, usize) {
    let clues: Vec<&str> = base.clues.iter().map(|c| c.id.as_str()).collect();
    let fixed = [
        "case_id",
        "from",
        "to",
        "kind",
        "place",
        "setting",
        "mark",
        "registered",
    ];
    let own = clues.iter().copied().filter(|c| !fixed.contains(c));
    let columns: Vec<&str> = fixed.into_iter().chain(own).collect();
    let mut out = csv::Writer::from_writer(Vec::new());
    let _ = out.write_record(&columns);
    let mut count = 0;
    for entry in entries {
        let Some(turned) = &entry.turned_out else {
            continue;
        };
        let (Some(from), Some(to)) = (turned.from.or(turned.to), turned.to.or(turned.from)) else {
            continue;
        };
        count += 1;
        let told = &entry.sighting;
        let cells = columns.iter().map(|column| match *column {
            "case_id" => entry.id.to_string(),
            "from" => from.to_string(),
            "to" => to.to_string(),
            "kind" => turned.kind.clone(),
            "setting" => told.setting.clone(),
            "mark" => told.mark.clone(),
            clue => {
                let said = told.findings.iter().filter(|f| f.origin != Origin::Mark);
                let mut said = said.filter_map(|f| f.said.split_once('='));
                said.find(|(c, _)| *c == clue)
                    .map_or(String::new(), |(_, f)| f.to_owned())
            }
        });
        // Memory takes everything.
        let _ = out.write_record(cells.map(|cell| guarded(&cell)));
    }
    let bytes = out.into_inner().unwrap_or_default();
    (String::from_utf8(bytes).unwrap_or_default(), count)
}
