//! Figures of clues changed by another file: an overlay need not copy a clue to think otherwise of it.

use super::base::RuleBase;
use super::definitions::{Change, Clue};
use super::ids::{ClueId, Id};
use super::numbers::{PRESENT, SECONDS, SLIP};
use super::parse::{Files, each};
use super::problem::Check;
use super::resolve::Resolver;
use super::schema::Text;
use super::schema_clues::{ChangeEntry, ChangesFile};
use super::source::{Located, SourceFile};

/// Loads `changes.ron`, in order: of two changes of one figure the later counts.
pub(super) fn changes<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, ChangesFile<'a>>,
) {
    for (file, entry) in each(files, |f| f.changes) {
        let change = change(r, base, file, entry);
        base.changes.extend(change);
    }
}

fn change<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    file: &'a SourceFile,
    entry: ChangeEntry<'a>,
) -> Option<Change> {
    let at = entry.clue.src;
    let because = r.because(file, entry.because, at);
    let sources = r.sources(file, &entry.source, Some(at));
    let clue = r.lookup::<ClueId>(file, &entry.clue)?;
    let finding = match &entry.finding {
        Some(name) => Some(r.finding(file, name, base.clue(clue).finding_ids())?),
        None => None,
    };
    let mut said = Vec::new();
    let changed = &mut base.clues[clue.index()];
    match (finding, &entry.case) {
        (Some(finding), Some(case)) => {
            let mut case = r.frequency(file, case);
            if case.sources.is_empty() {
                case.sources.clone_from(&sources);
            }
            let finding = &mut changed.findings[usize::from(finding.0)];
            said.push(format!("{} has another case before all others", finding.id));
            finding.cases.insert(0, case);
        }
        (None, None) => {}
        _ => {
            let help = "name the finding and its case: (weight: …), or neither";
            let what = "has a finding or a case, and not both";
            empty(r, file, &entry.clue, what, help);
            return None;
        }
    }
    said.extend(figures(
        r,
        file,
        changed,
        &entry.seconds,
        &entry.slip,
        &entry.present,
    ));
    if said.is_empty() {
        let help = "give a finding and its case, or seconds, slip or present";
        let what = "is to be changed, and no figure says how";
        empty(r, file, &entry.clue, what, help);
        return None;
    }
    Some(Change {
        clue,
        what: said.join(", "),
        file: file.name.clone(),
        because,
        sources,
    })
}

/// A change that changes nothing, or half of a frequency.
fn empty(r: &mut Resolver, file: &SourceFile, clue: &Text, what: &str, help: &str) {
    let message = format!("'{}' {what}", clue.value);
    r.problem(file, clue.src, Check::EmptyChange, message, help);
}

/// Puts new figures in a clue's own; what was changed, in words.
fn figures(
    r: &mut Resolver,
    file: &SourceFile,
    clue: &mut Clue,
    seconds: &Option<Located<f64>>,
    slip: &Option<Located<f64>>,
    present: &Option<Located<f64>>,
) -> Vec<String> {
    let figures = [
        ("seconds", seconds, SECONDS, &mut clue.seconds),
        ("slip", slip, SLIP, &mut clue.slip),
        ("present", present, PRESENT, &mut clue.present),
    ];
    let mut said = Vec::new();
    for (name, written, range, figure) in figures {
        if let Some(written) = written {
            let was = *figure;
            *figure = r.number(file, written.value, written.src, range, name);
            said.push(format!("{name} {figure}, was {was}"));
        }
    }
    said
}
