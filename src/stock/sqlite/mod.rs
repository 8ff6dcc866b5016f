//! The stock book as one SQLite file.
//!
//! | file | what |
//! |---|---|
//! | `schema` | the tables, version by version, and bringing an older file up to date |
//! | `rows` | entries to rows and back |
//! | `learners` | learners to rows and back |
//! | `troubles` | what SQLite reports, as one of the things that can go wrong |
//!
//! Every message is one transaction, on the disk before it is answered (WAL, `synchronous = FULL`):
//! a kill or a power cut leaves all of it or nothing. Two copies of the program wait for each other.

mod learners;
mod lines;
mod rows;
mod schema;
mod troubles;

use std::path::{Path, PathBuf};

use rusqlite::{Connection, OpenFlags, Transaction, TransactionBehavior, params};

use super::find;
use super::store::{Answer, Ask, Change, Store, Trouble};
use crate::learn::learner::Learner;
use crate::registry::calendar::Date;
use troubles::trouble;

pub use schema::{FORMAT, MIGRATIONS};

/// How long one copy of the program waits for another's writing to end (common practice, no source).
const PATIENCE_MS: i64 = 5_000;

/// A stock book in a file.
#[derive(Debug)]
pub struct Sqlite {
    connection: Connection,
    path: PathBuf,
}

impl Sqlite {
    /// Opens the file, made when it is not there; its folder must be. An older one is copied beside
    /// itself and brought up to date.
    ///
    /// # Errors
    /// When it can't be opened, is damaged, of a newer format, or something else than a stock book.
    pub fn open(path: &Path) -> Result<Sqlite, Trouble> {
        let open = |path: &Path| -> rusqlite::Result<Connection> {
            // No URIs: a file is named by its name.
            let flags = OpenFlags::SQLITE_OPEN_READ_WRITE
                | OpenFlags::SQLITE_OPEN_CREATE
                | OpenFlags::SQLITE_OPEN_NO_MUTEX;
            let connection = Connection::open_with_flags(path, flags)?;
            connection.pragma_update(None, "busy_timeout", PATIENCE_MS)?;
            Ok(connection)
        };
        let mut connection = open(path).map_err(|e| trouble(path, &e))?;
        schema::prepare(&mut connection, path)?;
        Ok(Sqlite {
            connection,
            path: path.to_owned(),
        })
    }

    /// Whether this file is the book, or one of those SQLite keeps beside it: nothing else may be written there.
    pub fn is_made_of(&self, file: &Path) -> bool {
        let Some(own) = whole_name(&self.path) else {
            return false;
        };
        let beside = ["", "-wal", "-shm", "-journal"];
        let parts = beside.map(|ending| {
            let mut name = own.clone().into_os_string();
            name.push(ending);
            PathBuf::from(name)
        });
        whole_name(file).is_some_and(|name| parts.contains(&name))
    }

    /// Writes a copy of the whole book, as it is at this moment, into a file that is empty or not
    /// there; a damaged book is not copied.
    ///
    /// # Errors
    /// When the book is damaged or the copy can't be written.
    pub fn copy_to(&self, copy: &Path) -> Result<(), Trouble> {
        schema::check(&self.connection, &self.path)?;
        schema::copy(&self.connection, copy).map_err(|e| trouble(copy, &e))
    }

    fn carry_out(&mut self, changes: &[Change]) -> Result<(), Trouble> {
        let path = &self.path;
        let failed = |e: &rusqlite::Error| trouble(path, e);
        // At once for writing: two that first read and then want to write could wait for ever.
        let writing = Transaction::new(&mut self.connection, TransactionBehavior::Immediate);
        let writing = writing.map_err(|e| failed(&e))?;
        for change in changes {
            match change {
                Change::New(entry) => {
                    if rows::stamp(&writing, &entry.id)
                        .map_err(|e| failed(&e))?
                        .is_some()
                    {
                        return Err(Trouble::There(entry.id.clone()));
                    }
                    rows::insert(&writing, entry).map_err(|e| failed(&e))?;
                }
                Change::Replace(entry, seen) => {
                    let seq = rows::expect(&writing, &entry.id, *seen, path)?;
                    rows::replace(&writing, seq, entry).map_err(|e| failed(&e))?;
                }
                Change::Remove(id, seen, on) => {
                    let seq = rows::expect(&writing, id, *seen, path)?;
                    mark_removed(&writing, seq, Some(*on)).map_err(|e| failed(&e))?;
                }
                Change::PutBack(id, seen) => {
                    let seq = rows::expect(&writing, id, *seen, path)?;
                    mark_removed(&writing, seq, None).map_err(|e| failed(&e))?;
                }
            }
        }
        writing.commit().map_err(|e| failed(&e))
    }

    fn keep_learner(&mut self, name: &str, learner: &Learner) -> rusqlite::Result<()> {
        let immediate = TransactionBehavior::Immediate;
        let writing = Transaction::new(&mut self.connection, immediate)?;
        learners::keep(&writing, name, learner)?;
        writing.commit()
    }

    fn read(&self, ask: &Ask) -> rusqlite::Result<Answer> {
        // One transaction, so that what is read of several tables belongs together.
        let reading = self.connection.unchecked_transaction()?;
        Ok(match ask {
            Ask::Find(beginning) => Answer::Held(rows::held(&reading, beginning)?),
            Ask::All => Answer::Held(rows::held(&reading, "")?),
            Ask::List(query) => Answer::Listed(find::list(lines::lines(&reading)?, query)),
            Ask::Learner(name) => Answer::Learners(learners::named(&reading, Some(name))?),
            Ask::Learners => Answer::Learners(learners::named(&reading, None)?),
            Ask::Write(_) | Ask::KeepLearner(..) => Answer::Written,
        })
    }
}

/// The name of a file, there or not, without links and detours in its folder's; the file's own links are followed.
fn whole_name(file: &Path) -> Option<PathBuf> {
    if let Ok(whole) = file.canonicalize() {
        return Some(whole);
    }
    let folder = file.parent().filter(|p| !p.as_os_str().is_empty());
    let folder = folder.unwrap_or(Path::new(".")).canonicalize().ok()?;
    Some(folder.join(file.file_name()?))
}

fn mark_removed(writing: &Transaction, seq: i64, on: Option<Date>) -> rusqlite::Result<()> {
    let on = on.map(|d| d.to_string());
    let sql = "UPDATE pieces SET removed_on = ?2, revision = revision + 1 WHERE seq = ?1";
    writing.execute(sql, params![seq, on]).map(|_| ())
}

impl Store for Sqlite {
    fn answer(&mut self, ask: Ask) -> Result<Answer, Trouble> {
        match ask {
            Ask::Write(changes) => self.carry_out(&changes).map(|()| Answer::Written),
            Ask::KeepLearner(name, learner) => {
                let kept = self.keep_learner(&name, &learner);
                kept.map(|()| Answer::Written)
                    .map_err(|e| trouble(&self.path, &e))
            }
            ask => self.read(&ask).map_err(|e| trouble(&self.path, &e)),
        }
    }
}
