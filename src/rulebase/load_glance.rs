//! The first glance: what strikes the eye at arm's length.

use super::base::RuleBase;
use super::definitions::Striking;
use super::ids::ClueId;
use super::parse::{Files, each};
use super::problem::Check;
use super::resolve::Resolver;
use super::schema::{GlanceFile, StrikingEntry, Text};
use super::source::SourceFile;

/// Most letters of a line: two columns of them fit a phone of 44 cells.
const MOST_LETTERS: usize = 17;

/// Loads `glance.ron`.
pub(super) fn glance<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, GlanceFile<'a>>,
) {
    for (file, entry) in each(files, |f| f.strikes) {
        let striking = striking(r, base, file, entry);
        base.glance.extend(striking);
    }
}

fn striking<'a>(
    r: &mut Resolver<'a>,
    base: &RuleBase,
    file: &'a SourceFile,
    entry: StrikingEntry<'a>,
) -> Option<Striking> {
    brief(r, file, &entry.words);
    let because = r.because(file, entry.because, entry.words.src);
    let sources = r.sources(file, &entry.source, Some(entry.words.src));
    let clue = r.lookup::<ClueId>(file, &entry.clue)?;
    let findings = base.clue(clue).finding_ids();
    let finding = r.finding(file, &entry.finding, findings.clone());
    let unticked = match &entry.unticked {
        Some(name) => Some(r.finding(file, name, findings)?),
        None => None,
    };
    let finding = finding?;
    let mut with = Vec::new();
    for (of, shown) in &entry.with {
        let of_clue = r.lookup::<ClueId>(file, of)?;
        if of_clue == clue {
            let message = format!("{} is the clue of the line itself", of.value);
            let help = "a clue has one finding: name another clue, or leave it out";
            r.problem(file, of.src, Check::BadWord, message, help);
            return None;
        }
        let shown = r.finding(file, shown, base.clue(of_clue).finding_ids())?;
        with.push((of_clue, shown));
    }
    let same = |s: &Striking| s.clue == clue && s.finding == finding;
    if base.glance.iter().any(same) {
        let message = format!("{} is on the first glance already", entry.finding.value);
        let help = "one line a finding: delete one of the two";
        r.problem(file, entry.finding.src, Check::DuplicateId, message, help);
        return None;
    }
    Some(Striking {
        clue,
        finding,
        words: entry.words.value,
        unsure: entry.unsure,
        unticked,
        with,
        because,
        sources,
    })
}

/// Refuses words that two columns on a phone have no room for.
fn brief(r: &mut Resolver, file: &SourceFile, words: &Text) {
    let letters = words.value.chars().count();
    if letters == 0 || letters > MOST_LETTERS {
        let message = format!("{letters} letters; a line has 1 to {MOST_LETTERS}");
        let help = "the finding's own words say it in full; this is what the eye takes in";
        r.problem(file, words.src, Check::BadWord, message, help);
    }
}
