//! What every command of the stock book works with: the book opened, the rules, the day.

use std::io::Write;
use std::path::Path;
use std::sync::Arc;

use anyhow::{Result, anyhow, bail};

use crate::buy::{Currency, Money};
use crate::cli::outcome::expert;
use crate::piece::expert::Expert;
use crate::piece::notation::printable;
use crate::registry::calendar::Date;
use crate::setup::Setup;
use crate::setup::surroundings::{chance, stock_file, today};
use crate::stock::entry::Entry;
use crate::stock::id::EntryId;
use crate::stock::line::Line;
use crate::stock::sqlite::Sqlite;
use crate::stock::store::{Change, Held, Store};
use crate::stock::words;

/// At most so many entries are named when a beginning fits several.
const NAMED: usize = 5;

/// The book, the rules, the day.
pub(super) struct Desk {
    pub book: Sqlite,
    pub expert: Arc<Expert>,
    pub today: Date,
}

impl Desk {
    /// Opens the book named, or the usual one.
    pub(super) fn open(setup: &Setup, file: Option<&Path>, day: Option<Date>) -> Result<Desk> {
        let expert = expert(setup)?;
        let book = Sqlite::open(&stock_file(file)?)?;
        Ok(Desk {
            book,
            expert,
            today: day.unwrap_or_else(today),
        })
    }

    /// The entry a person means, removed or not.
    pub(super) fn find(&mut self, typed: &str) -> Result<Held> {
        let beginning = EntryId::beginning(typed).map_err(|why| anyhow!(why))?;
        let mut found = self.book.find(&beginning)?;
        if found.len() > 1 {
            let ids = found.iter().take(NAMED).map(|h| h.entry.id.as_str());
            let ids = ids.collect::<Vec<_>>().join(", ");
            let more = if found.len() > NAMED { " and more" } else { "" };
            bail!("several pieces begin with '{beginning}': {ids}{more}; write more of the id");
        }
        found.pop().ok_or_else(|| {
            anyhow!(
                "no piece '{}' in the stock book; printseam stock list shows all",
                printable(typed)
            )
        })
    }

    /// The entry a person means, which was not removed.
    pub(super) fn piece(&mut self, typed: &str) -> Result<Held> {
        let held = self.find(typed)?;
        let id = &held.entry.id;
        if let Some(on) = held.removed_on {
            bail!("{id} was removed on {on}; printseam stock remove {id} --undo puts it back");
        }
        Ok(held)
    }

    /// Writes one entry in the place of what was seen, and shows it.
    pub(super) fn replace(
        &mut self,
        entry: Entry,
        seen: &Held,
        what: &str,
        out: &mut dyn Write,
    ) -> Result<()> {
        let entry = entry.cleaned();
        self.book
            .write(vec![Change::Replace(entry.clone(), seen.revision)])?;
        self.say(what, &entry, out)
    }

    /// "Sold: …" and the line of the entry.
    pub(super) fn say(&self, what: &str, entry: &Entry, out: &mut dyn Write) -> Result<()> {
        writeln!(
            out,
            "{what}: {}",
            words::line(&self.expert.base, &Line::of(entry))
        )?;
        Ok(())
    }

    /// A name no entry has.
    pub(super) fn new_id(&mut self) -> Result<EntryId> {
        loop {
            let id = EntryId::from_bits(chance());
            if self.book.find(id.as_str())?.is_empty() {
                return Ok(id);
            }
        }
    }
}

/// An amount as typed; `option` is named when it can't be read.
pub(super) fn amount(option: &str, text: &str, usual: Currency) -> Result<Money> {
    Money::read(text, usual).map_err(|why| anyhow!("{option}: {why}"))
}
