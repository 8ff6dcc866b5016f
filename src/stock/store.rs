//! What can be asked of a store of the stock book, and what can go wrong.
//!
//! A store takes one message and gives one answer. The command line waits for it; the screens put
//! messages into an `Outbox` and take the answers when they come, so that they need not know what
//! kind of store it is, nor how slow.

use std::fmt;

use super::entry::Entry;
use super::find::{Listing, Query};
use super::id::EntryId;
use crate::learn::learner::Learner;
use crate::registry::calendar::Date;

/// An entry as a store holds it.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    pub entry: Entry,
    /// Goes up with every change: who changes an entry says which one was seen, so that two copies of
    /// the program can't undo each other's work unseen.
    pub revision: u64,
    pub removed_on: Option<Date>,
}

/// A message to a store.
#[derive(Clone, Debug, PartialEq)]
pub enum Ask {
    /// Carries out all of these changes, or none.
    Write(Vec<Change>),
    /// Entries whose id begins so, removed ones too.
    Find(String),
    /// Lines of a list.
    List(Query),
    /// Everything in the order it was added, removed ones too.
    All,
    /// The record of the learner of this name.
    Learner(String),
    /// All learners.
    Learners,
    /// Keeps a learner's record in place of the one before.
    KeepLearner(String, Box<Learner>),
}

/// One change.
#[derive(Clone, Debug, PartialEq)]
pub enum Change {
    New(Entry),
    /// In place of this revision.
    Replace(Entry, u64),
    /// Out of all lists; kept, so that it can be put back.
    Remove(EntryId, u64, Date),
    PutBack(EntryId, u64),
}

/// A store's answer.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// On the disk, whatever happens from now on.
    Written,
    Held(Vec<Held>),
    Listed(Listing),
    /// By name, in its order; of one asked for by name at most one.
    Learners(Vec<(String, Learner)>),
}

/// Why a store could not do it; one sentence each. Nothing was changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Trouble {
    /// Written by a newer version of the program: which format, and which is known here.
    Newer {
        file: String,
        format: i64,
        known: i64,
    },
    /// Something else than a stock book.
    NotABook(String),
    Damaged(String),
    /// Another copy of the program has been writing for too long.
    Busy(String),
    Full(String),
    ReadOnly(String),
    /// The file, and what the system says.
    CantOpen(String, String),
    Failed(String, String),
    /// Two entries of one name.
    There(EntryId),
    /// Changed by another copy of the program since it was looked at.
    Changed(EntryId),
    Gone(EntryId),
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Trouble::Newer {
                file,
                format,
                known,
            } => write!(
                f,
                "{file}: written by a newer printseam (format {format}; this one knows {known}); use that one, or another file with --stock FILE"
            ),
            Trouble::NotABook(file) => write!(
                f,
                "{file}: is no stock book of printseam; name another file with --stock FILE"
            ),
            Trouble::Damaged(file) => write!(
                f,
                "{file}: is damaged; move it away and put your last backup in its place, or import your last export into a new book"
            ),
            Trouble::Busy(file) => write!(
                f,
                "{file}: another copy of printseam is writing to it; nothing was changed, try again"
            ),
            Trouble::Full(file) => write!(
                f,
                "{file}: the disk is full; nothing was changed, make room and try again"
            ),
            Trouble::ReadOnly(file) => write!(
                f,
                "{file}: you may not write there; nothing was changed, use --stock FILE in a folder of your own"
            ),
            Trouble::CantOpen(file, why) => write!(
                f,
                "{file}: can't be opened ({why}); is its folder there, and may you write in it?"
            ),
            Trouble::Failed(file, why) => write!(f, "{file}: {why}; nothing was changed"),
            Trouble::There(id) => write!(f, "a piece {id} is in the stock book already"),
            Trouble::Changed(id) => write!(
                f,
                "{id} was changed by another copy of printseam in the meantime; nothing was changed, look at it and try again"
            ),
            Trouble::Gone(id) => write!(f, "no piece {id} in the stock book"),
        }
    }
}

impl std::error::Error for Trouble {}

/// Where entries are kept.
pub trait Store {
    /// Does what was asked, wholly or not at all.
    ///
    /// # Errors
    /// Why it could not be done; then nothing has changed.
    fn answer(&mut self, ask: Ask) -> Result<Answer, Trouble>;

    /// Carries out changes.
    ///
    /// # Errors
    /// As `answer`.
    fn write(&mut self, changes: Vec<Change>) -> Result<(), Trouble> {
        self.answer(Ask::Write(changes)).map(|_| ())
    }

    /// Entries whose id begins so.
    ///
    /// # Errors
    /// As `answer`.
    fn find(&mut self, beginning: &str) -> Result<Vec<Held>, Trouble> {
        self.answer(Ask::Find(beginning.to_owned())).map(held)
    }

    /// Everything, removed ones too.
    ///
    /// # Errors
    /// As `answer`.
    fn all(&mut self) -> Result<Vec<Held>, Trouble> {
        self.answer(Ask::All).map(held)
    }

    /// Lines of a list.
    ///
    /// # Errors
    /// As `answer`.
    fn list(&mut self, query: &Query) -> Result<Listing, Trouble> {
        self.answer(Ask::List(query.clone()))
            .map(|answer| match answer {
                Answer::Listed(listing) => listing,
                Answer::Written | Answer::Held(_) | Answer::Learners(_) => Listing::default(),
            })
    }

    /// The learner of this name; a fresh one when there is none.
    ///
    /// # Errors
    /// As `answer`.
    fn learner(&mut self, name: &str) -> Result<Learner, Trouble> {
        let found = self.answer(Ask::Learner(name.to_owned())).map(learners)?;
        Ok(found
            .into_iter()
            .next()
            .map_or_else(Learner::default, |(_, learner)| learner))
    }

    /// All learners by name.
    ///
    /// # Errors
    /// As `answer`.
    fn learners(&mut self) -> Result<Vec<(String, Learner)>, Trouble> {
        self.answer(Ask::Learners).map(learners)
    }

    /// Keeps a learner's record.
    ///
    /// # Errors
    /// As `answer`.
    fn keep_learner(&mut self, name: &str, learner: &Learner) -> Result<(), Trouble> {
        let ask = Ask::KeepLearner(name.to_owned(), Box::new(learner.clone()));
        self.answer(ask).map(|_| ())
    }
}

fn held(answer: Answer) -> Vec<Held> {
    match answer {
        Answer::Held(held) => held,
        Answer::Written | Answer::Listed(_) | Answer::Learners(_) => Vec::new(),
    }
}

fn learners(answer: Answer) -> Vec<(String, Learner)> {
    match answer {
        Answer::Learners(learners) => learners,
        Answer::Written | Answer::Held(_) | Answer::Listed(_) => Vec::new(),
    }
}

/// Names one message, so that its answer is known when it comes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Ticket(u64);

/// Messages on their way to a store.
#[derive(Debug, Default)]
pub struct Outbox {
    next: u64,
    waiting: Vec<(Ticket, Ask)>,
}

impl Outbox {
    /// Puts a message in; the ticket will stand on its answer.
    pub fn ask(&mut self, ask: Ask) -> Ticket {
        let ticket = Ticket(self.next);
        self.next += 1;
        self.waiting.push((ticket, ask));
        ticket
    }

    /// Takes all messages out, the oldest first.
    pub fn collect(&mut self) -> Vec<(Ticket, Ask)> {
        std::mem::take(&mut self.waiting)
    }
}
