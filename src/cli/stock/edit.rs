//! `stock edit` and `stock remove`: everything can be corrected.

use std::io::Write;

use anyhow::{Result, anyhow, bail};

use super::add::joined;
use super::args::EditArgs;
use super::decide::decide;
use super::desk::Desk;
use super::facts;
use crate::cli::challenge::claim;
use crate::cli::outcome::{Outcome, setting};
use crate::piece::notation::{self, printable};
use crate::stock::again;
use crate::stock::columns;
use crate::stock::entry::{Entry, KeptFinding, TurnedOut};
use crate::stock::line::Line;
use crate::stock::store::{Change, Store};
use crate::stock::words;

/// Corrects what is said; with something seen, judges the piece anew.
pub(super) fn run(desk: &mut Desk, args: &EditArgs, out: &mut dyn Write) -> Result<Outcome> {
    let held = desk.piece(&args.id)?;
    let mut entry = held.entry.clone();
    facts::put(&mut entry, &args.facts, desk.today)?;
    if args.bought {
        if !entry.draft {
            bail!("{} is in the stock already", entry.id);
        }
        entry.draft = false;
        entry.bought_on = entry.bought_on.or(Some(desk.today));
    }
    if let Some(text) = &args.turned_out {
        entry.turned_out = turned_out(desk, text, args.by.as_deref())?;
    }
    if see(desk, &mut entry, args)? {
        let judged = again::judge(&desk.expert, &entry)?;
        entry.sighting = judged.sighting;
        entry.verdict = (!judged.piece.evidence().says_nothing()).then_some(judged.now);
    }
    let money = |e: &Entry| (e.paid, e.asking, e.condition.clone(), e.sighting.clone());
    if money(&entry) != money(&held.entry) {
        let piece = again::judge(&desk.expert, &entry)?.piece;
        entry.decision = decide(desk, &entry, &piece)?;
    }
    let entry = entry.cleaned();
    if entry == held.entry {
        bail!("nothing to change was named; printseam stock edit --help lists what can be");
    }
    let mut entry = entry;
    entry.history.push(format!(
        "{} edited: {}",
        desk.today,
        changed(&held.entry, &entry)
    ));
    desk.replace(entry, &held, "Now", out)?;
    Ok(Outcome::Yes)
}

/// Names of the columns that differ.
fn changed(before: &Entry, after: &Entry) -> String {
    let names = columns::COLUMNS.iter().map(|(name, _)| *name);
    let names = names.filter(|n| *n != "history" && !columns::DERIVED.contains(n));
    let differ = names.filter(|n| columns::write(before, n) != columns::write(after, n));
    differ.collect::<Vec<_>>().join(", ")
}

/// Puts what was seen into the sighting; false when nothing was.
fn see(desk: &Desk, entry: &mut Entry, args: &EditArgs) -> Result<bool> {
    let (seen, base) = (&args.seen, &desk.expert.base);
    let told = &mut entry.sighting;
    for clue in &args.forget {
        let of = |f: &KeptFinding| f.said.split('=').next() == Some(clue.as_str());
        if !told.findings.iter().any(of) {
            bail!("--forget: nothing is kept of '{}'", printable(clue));
        }
        told.findings.retain(|f| !of(f));
    }
    for text in &seen.saw {
        let new = notation::parse(base, text).map_err(|e| anyhow!("--saw: {e}"))?;
        let clue = base.clue(new.clue).id.as_str();
        told.findings
            .retain(|f| f.said.split('=').next() != Some(clue));
        told.findings.push(KeptFinding {
            said: notation::write(base, &new),
            origin: new.origin,
        });
    }
    if let Some(named) = &seen.setting {
        told.setting
            .clone_from(&base.settings[setting(&desk.expert, named)?].id);
    }
    // A mark or notes given again stand for the old ones, unless they go on from them with a +.
    for (said, kept, between) in [
        (&seen.mark, &mut told.mark, " / "),
        (&seen.notes, &mut told.notes, ", "),
    ] {
        match said.as_deref().map(|s| (s, s.strip_prefix('+'))) {
            Some((_, Some(more))) => *kept = joined(kept, Some(more.trim()), between),
            Some((whole, None)) => *kept = whole.to_owned(),
            None => {}
        }
    }
    told.mark_complete |= seen.mark_complete;
    Ok(!args.forget.is_empty()
        || !seen.saw.is_empty()
        || seen.setting.is_some()
        || seen.mark.is_some()
        || seen.notes.is_some()
        || seen.mark_complete)
}

/// "flow blue, 1905" as kind and years; none for an empty text.
fn turned_out(desk: &Desk, text: &str, by: Option<&str>) -> Result<Option<TurnedOut>> {
    if text.trim().is_empty() {
        return Ok(None);
    }
    let read = claim(&desk.expert, text)?;
    let kind = match read.kinds[..] {
        [] => String::new(),
        [kind, ..] => desk.expert.base.kinds[usize::from(kind.0)].id.clone(),
    };
    Ok(Some(TurnedOut {
        kind,
        from: read.from,
        to: read.to,
        by: by.unwrap_or_default().to_owned(),
    }))
}

/// Takes a piece out of all lists, or puts it back.
pub(super) fn remove(
    desk: &mut Desk,
    id: &str,
    undo: bool,
    out: &mut dyn Write,
) -> Result<Outcome> {
    let held = if undo {
        desk.find(id)?
    } else {
        desk.piece(id)?
    };
    let id = held.entry.id.clone();
    let line = words::line(&desk.expert.base, &Line::of(&held.entry));
    if undo {
        if held.removed_on.is_none() {
            bail!("{id} was not removed");
        }
        desk.book.write(vec![Change::PutBack(id, held.revision)])?;
        writeln!(out, "Put back: {line}")?;
    } else {
        desk.book
            .write(vec![Change::Remove(id.clone(), held.revision, desk.today)])?;
        writeln!(out, "Removed: {line}")?;
        writeln!(out, "printseam stock remove {id} --undo puts it back")?;
    }
    Ok(Outcome::Yes)
}
