//! `stock again`: stored pieces judged with today's rules.

use std::io::Write;

use anyhow::Result;

use super::desk::Desk;
use crate::cli::outcome::Outcome;
use crate::stock::again::{Again, judge};
use crate::stock::entry::Entry;
use crate::stock::line::Line;
use crate::stock::store::{Change, Store};
use crate::stock::words;

/// One piece in full, or all whose answer changes, a line each.
pub(super) fn run(
    desk: &mut Desk,
    id: Option<&str>,
    keep: bool,
    out: &mut dyn Write,
) -> Result<Outcome> {
    match id {
        Some(id) => one(desk, id, keep, out),
        None => all(desk, keep, out),
    }
}

fn one(desk: &mut Desk, id: &str, keep: bool, out: &mut dyn Write) -> Result<Outcome> {
    let held = desk.piece(id)?;
    let again = judge(&desk.expert, &held.entry)?;
    if keep {
        let entry = kept(desk, &held.entry, &again).cleaned();
        desk.book
            .write(vec![Change::Replace(entry, held.revision)])?;
    }
    writeln!(
        out,
        "{}",
        words::line(&desk.expert.base, &Line::of(&held.entry))
    )?;
    for line in words::again(&desk.expert, &again) {
        writeln!(out, "{line}")?;
    }
    if keep {
        writeln!(out, "The new verdict is kept.")?;
    }
    Ok(Outcome::Yes)
}

fn all(desk: &mut Desk, keep: bool, out: &mut dyn Write) -> Result<Outcome> {
    let (mut changes, mut lines, mut count) = (Vec::new(), Vec::new(), 0);
    for held in desk.book.all()? {
        let entry = &held.entry;
        let seen = !entry.sighting.findings.is_empty() || entry.verdict.is_some();
        if held.removed_on.is_some() || !seen {
            continue;
        }
        count += 1;
        let again = judge(&desk.expert, entry)?;
        if again.answer_changed() {
            lines.push(words::line(&desk.expert.base, &Line::of(entry)));
            lines.push(format!(
                "  now {}",
                words::verdict(&desk.expert.base, &again.now)
            ));
        }
        if keep && (again.answer_changed() || again.rules_changed()) {
            changes.push(Change::Replace(
                kept(desk, entry, &again).cleaned(),
                held.revision,
            ));
        }
    }
    let others = lines.len() / 2;
    let kept = changes.len();
    desk.book.write(changes)?;
    for line in lines {
        writeln!(out, "{line}")?;
    }
    writeln!(out, "Judged again: {count}; with another answer: {others}.")?;
    if keep {
        writeln!(out, "New verdicts kept: {kept}.")?;
    }
    Ok(Outcome::Yes)
}

/// The entry with the new verdict, and the old one in its history.
fn kept(desk: &Desk, entry: &Entry, again: &Again) -> Entry {
    let mut entry = entry.clone();
    if let Some(then) = entry.verdict.as_ref().filter(|_| again.answer_changed()) {
        let was = words::verdict(&desk.expert.base, then);
        entry.history.push(format!(
            "{} judged again; was {was} (rules {})",
            desk.today, then.rules
        ));
    }
    entry.sighting = again.sighting.clone();
    entry.verdict = Some(again.now.clone());
    entry
}
