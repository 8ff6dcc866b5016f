//! The learners of the stock book, and those an earlier version kept in files.

use std::path::PathBuf;

use anyhow::Result;

use super::args::DrillArgs;
use crate::learn::learner::Learner;
use crate::setup::learners;
#[cfg(feature = "stock")]
use crate::setup::surroundings::stock_file;
#[cfg(feature = "stock")]
use crate::stock::sqlite::Sqlite;
use crate::stock::store::{Answer, Ask, Store, Trouble};

/// The stock book named.
#[cfg(feature = "stock")]
pub(super) fn named(args: &DrillArgs) -> Option<PathBuf> {
    args.stock.clone()
}

#[cfg(not(feature = "stock"))]
pub(super) fn named(_: &DrillArgs) -> Option<PathBuf> {
    None
}

/// Where learners are kept: the stock book, and the files of an earlier version.
#[cfg(feature = "stock")]
pub(super) fn open(args: &DrillArgs) -> Result<impl Store> {
    let book = Sqlite::open(&stock_file(args.stock.as_deref())?)?;
    Ok(WithFiles::of_user(book))
}

/// Without a stock book a learner is known as long as the program runs.
#[cfg(not(feature = "stock"))]
pub(super) fn open(_: &DrillArgs) -> Result<impl Store> {
    Ok(WithFiles::of_user(crate::stock::memory::Memory::new()))
}

/// A store that also knows the learners in files: one that the store does not have is read from its
/// file, and is in the store as soon as it is kept. The files stay as they are.
#[derive(Debug)]
pub struct WithFiles<S> {
    store: S,
    folder: Option<PathBuf>,
}

impl<S: Store> WithFiles<S> {
    /// The store with the files of the user's own folder.
    pub fn of_user(store: S) -> WithFiles<S> {
        WithFiles::of(store, learners::folder_of_user())
    }

    /// The store with the files of a folder.
    pub fn of(store: S, folder: Option<PathBuf>) -> WithFiles<S> {
        WithFiles { store, folder }
    }

    fn in_file(&self, name: &str) -> Result<Option<(String, Learner)>, Trouble> {
        let Some(folder) = &self.folder else {
            return Ok(None);
        };
        let read = learners::learner(folder, name);
        // What went wrong names the file already.
        let read =
            read.map_err(|e| Trouble::Failed(format!("learner {name}"), format!("{e:#}")))?;
        Ok(read.map(|learner| (name.to_owned(), learner)))
    }

    /// All of them, by name.
    fn all(&mut self) -> Result<Vec<(String, Learner)>, Trouble> {
        let mut all = self.store.learners()?;
        let filed = self.folder.as_deref().map(learners::names);
        for name in filed.unwrap_or_default() {
            if all.iter().all(|(known, _)| *known != name) {
                all.extend(self.in_file(&name)?);
            }
        }
        all.sort_by(|a, b| a.0.cmp(&b.0));
        Ok(all)
    }
}

impl<S: Store> Store for WithFiles<S> {
    fn answer(&mut self, ask: Ask) -> Result<Answer, Trouble> {
        match ask {
            Ask::Learner(name) => {
                let known = self.store.answer(Ask::Learner(name.clone()))?;
                match known {
                    Answer::Learners(found) if found.is_empty() => {
                        let found = self.in_file(&name)?;
                        Ok(Answer::Learners(found.into_iter().collect()))
                    }
                    known => Ok(known),
                }
            }
            Ask::Learners => self.all().map(Answer::Learners),
            ask => self.store.answer(ask),
        }
    }
}
