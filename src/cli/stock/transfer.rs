//! `stock export`, `stock import` and `stock backup`.

use std::io::Write;
use std::path::Path;

use anyhow::{Result, bail};

use super::desk::Desk;
use crate::cli::faults::Faults;
use crate::cli::outcome::Outcome;
use crate::setup::read::{read_table, table_of};
use crate::setup::write::{Over, filled, write};
use crate::stock::entry::Entry;
use crate::stock::incoming::{Conflict, plan};
use crate::stock::store::{Change, Held, Store};
use crate::stock::{cases, file, objects, table};

/// How entries are written.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Form {
    Table,
    Objects,
}

/// By the file's ending; a table where it is printed.
fn form(file: &Path) -> Result<Form> {
    if file == Path::new("-") {
        return Ok(Form::Table);
    }
    let ending = file.extension().map(|e| e.to_ascii_lowercase());
    match ending.as_deref().and_then(|e| e.to_str()) {
        Some("csv") => Ok(Form::Table),
        Some("json") => Ok(Form::Objects),
        _ => bail!("{}: name a file that ends in .csv or .json", file.display()),
    }
}

/// Writes or prints everything that was not removed.
pub(super) fn export(
    desk: &mut Desk,
    file: &Path,
    only_cases: bool,
    force: bool,
    out: &mut dyn Write,
) -> Result<Outcome> {
    let form = form(file)?;
    let entries = there(desk)?;
    let (text, count) = match (only_cases, form) {
        (true, Form::Objects) => bail!(
            "{}: cases are a table; name a file that ends in .csv",
            file.display()
        ),
        (true, Form::Table) => cases::write(&desk.expert.base, &entries),
        (false, Form::Table) => (table::write(&entries), entries.len()),
        (false, Form::Objects) => (objects::write(&entries), entries.len()),
    };
    if file == Path::new("-") {
        write!(out, "{text}")?;
        return Ok(Outcome::Yes);
    }
    // An export begins like every other: with the names of the columns, or with the format.
    let begins = text
        .split_inclusive(['\n', '['])
        .next()
        .unwrap_or_default()
        .to_owned();
    let ours = |old: &str| old.starts_with(&begins);
    let over = if force { Over::Any } else { Over::Ours(&ours) };
    write(file, &text, over)?;
    writeln!(out, "{count} written to {}", file.display())?;
    Ok(Outcome::Yes)
}

/// Entries that were not removed.
pub(super) fn there(desk: &mut Desk) -> Result<Vec<Entry>> {
    let all = desk.book.all()?.into_iter();
    Ok(all
        .filter(|h| h.removed_on.is_none())
        .map(|h| h.entry)
        .collect())
}

/// Takes a file in: all of it, or nothing; or all but the bad rows. `how`: skip bad rows, and let
/// the file win over the book.
pub(super) fn import(
    desk: &mut Desk,
    file: &Path,
    how: (bool, bool),
    out: &mut dyn Write,
) -> Result<Outcome> {
    let (skip_bad, replace) = how;
    let shown = file.display();
    let bytes = match file == Path::new("-") {
        true => table_of(std::io::stdin().lock(), "standard input")?,
        false => read_table(file)?,
    };
    let rows =
        file::read(&bytes).map_err(|problems| Faults::of_table(&shown.to_string(), &problems))?;
    let plan = plan(&desk.expert, rows, desk.book.all()?);
    let bad: Vec<String> = plan
        .bad
        .iter()
        .map(|(place, problems)| format!("{shown}: {place}: {}", problems.join("; ")))
        .collect();
    if !bad.is_empty() && !skip_bad {
        let faults = Faults::of_rows(&bad);
        return Err(faults
            .and("nothing was imported; mend these rows, or leave them out with --skip-bad")
            .into());
    }
    let mut changes: Vec<Change> = plan.new.iter().cloned().map(Change::New).collect();
    if replace {
        let taken = plan.conflicts.iter().flat_map(|c| {
            let Held {
                revision,
                removed_on,
                ..
            } = c.held;
            let back = removed_on.map(|_| Change::PutBack(c.entry.id.clone(), revision));
            let revision = revision + u64::from(removed_on.is_some());
            back.into_iter()
                .chain([Change::Replace(c.entry.clone(), revision)])
        });
        changes.extend(taken);
    }
    desk.book.write(changes)?;
    for line in &bad {
        writeln!(out, "Left out: {line}")?;
    }
    for conflict in &plan.conflicts {
        conflict_lines(&shown.to_string(), conflict, replace, out)?;
    }
    writeln!(
        out,
        "{} new, {} as they were, {} told otherwise, {} bad.",
        plan.new.len(),
        plan.same,
        plan.conflicts.len(),
        bad.len()
    )?;
    let all_taken = bad.is_empty() && (replace || plan.conflicts.is_empty());
    Ok(if all_taken { Outcome::Yes } else { Outcome::No })
}

fn conflict_lines(
    file: &str,
    conflict: &Conflict,
    replaced: bool,
    out: &mut dyn Write,
) -> Result<()> {
    let id = &conflict.entry.id;
    let place = &conflict.place;
    let what = match (conflict.held.removed_on, replaced) {
        (_, true) => "the book said otherwise; the file was taken",
        (Some(_), false) => "was removed from the book and stays so",
        (None, false) => "the book says otherwise and stays as it is; --replace takes the file",
    };
    writeln!(out, "{file}: {place}: {id}: {what}")?;
    for (name, book, told) in conflict.differing() {
        let flat = |text: &str| text.replace('\n', " / ");
        writeln!(
            out,
            "  {name}: book '{}', file '{}'",
            flat(&book),
            flat(&told)
        )?;
    }
    Ok(())
}

/// Copies the whole book.
pub(super) fn backup(
    desk: &mut Desk,
    file: &Path,
    force: bool,
    out: &mut dyn Write,
) -> Result<Outcome> {
    if desk.book.is_made_of(file) {
        bail!(
            "{}: is the stock book itself; name another file",
            file.display()
        );
    }
    filled(file, force, |part| desk.book.copy_to(part))??;
    writeln!(out, "The stock book was copied to {}", file.display())?;
    Ok(Outcome::Yes)
}
