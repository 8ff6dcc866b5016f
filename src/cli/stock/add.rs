//! `stock add`: a piece judged and put into the book.

use std::io::Write;

use anyhow::Result;

use super::args::AddArgs;
use super::decide::decide;
use super::desk::Desk;
use super::facts;
use crate::cli::outcome::Outcome;
use crate::cli::told::{Told, read_sighting};
use crate::piece::sighting_file::Sighting;
use crate::rulebase::ids::SettingId;
use crate::stock::entry::Entry;
use crate::stock::store::{Change, Store};
use crate::stock::{keep, objects};

/// Judges, keeps, and says what was kept: whatever is said is on the disk.
pub(super) fn run(desk: &mut Desk, args: &AddArgs, out: &mut dyn Write) -> Result<Outcome> {
    let sighting = match &args.file {
        Some(path) => read_sighting(&desk.expert, path)?,
        None => Sighting::default(),
    };
    let told = Told::new(&desk.expert, &sighting, &args.seen, SettingId::default())?;
    let mut entry = Entry {
        id: desk.new_id()?,
        added: Some(desk.today),
        title: sighting.title.clone(),
        draft: args.draft,
        sighting: keep::sighting(
            &told.piece,
            &joined(&sighting.mark, args.seen.mark.as_deref(), " / "),
            sighting.mark_complete || args.seen.mark_complete,
            &joined(&sighting.notes, args.seen.notes.as_deref(), ", "),
        ),
        // What nothing was seen of is not judged: what turns up in general is no verdict on it.
        verdict: (!told.piece.evidence().says_nothing()).then(|| keep::verdict(&told.piece)),
        ..Entry::default()
    };
    facts::put(&mut entry, &args.facts, desk.today)?;
    entry.decision = decide(desk, &entry, &told.piece)?;
    let entry = entry.cleaned();
    desk.book.write(vec![Change::New(entry.clone())])?;
    if args.json {
        writeln!(out, "{}", objects::one(&entry))?;
        return Ok(Outcome::Yes);
    }
    for line in told.lines() {
        writeln!(out, "{line}")?;
    }
    desk.say(if args.draft { "Kept" } else { "Added" }, &entry, out)?;
    Ok(Outcome::Yes)
}

/// What the file and the command line say, one after the other.
pub(super) fn joined(file: &str, said: Option<&str>, between: &str) -> String {
    let parts = [file, said.unwrap_or_default()];
    let parts: Vec<&str> = parts.into_iter().filter(|p| !p.trim().is_empty()).collect();
    parts.join(between)
}
