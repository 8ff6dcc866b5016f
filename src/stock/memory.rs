//! A stock book in memory: drives tests, and screens that have no file.

use std::collections::BTreeMap;

use super::entry::Entry;
use super::find;
use super::id::EntryId;
use super::line::Line;
use super::store::{Answer, Ask, Change, Held, Store, Trouble};
use crate::learn::learner::Learner;

/// Entries in the order they were added.
#[derive(Clone, Debug, Default)]
pub struct Memory {
    held: Vec<Held>,
    learners: BTreeMap<String, Learner>,
}

impl Memory {
    /// An empty book.
    pub fn new() -> Memory {
        Memory::default()
    }

    /// A book with these in it, in the order they were added, and these learners by name.
    pub fn holding(held: Vec<Held>, learners: BTreeMap<String, Learner>) -> Memory {
        Memory { held, learners }
    }

    fn change(&mut self, change: Change) -> Result<(), Trouble> {
        match change {
            Change::New(entry) => self.add(entry),
            Change::Replace(entry, revision) => {
                let at = self.at(&entry.id, revision)?;
                at.entry = entry;
                Ok(())
            }
            Change::Remove(id, revision, on) => {
                self.at(&id, revision)?.removed_on = Some(on);
                Ok(())
            }
            Change::PutBack(id, revision) => {
                self.at(&id, revision)?.removed_on = None;
                Ok(())
            }
        }
    }

    fn add(&mut self, entry: Entry) -> Result<(), Trouble> {
        if self.held.iter().any(|h| h.entry.id == entry.id) {
            return Err(Trouble::There(entry.id));
        }
        self.held.push(Held {
            entry,
            revision: 1,
            removed_on: None,
        });
        Ok(())
    }

    /// The entry to be changed, its revision counted on.
    fn at(&mut self, id: &EntryId, revision: u64) -> Result<&mut Held, Trouble> {
        let found = self.held.iter_mut().find(|h| h.entry.id == *id);
        let held = found.ok_or_else(|| Trouble::Gone(id.clone()))?;
        if held.revision != revision {
            return Err(Trouble::Changed(id.clone()));
        }
        held.revision += 1;
        Ok(held)
    }
}

impl Store for Memory {
    fn answer(&mut self, ask: Ask) -> Result<Answer, Trouble> {
        Ok(match ask {
            Ask::Write(changes) => {
                let mut after = self.clone();
                changes.into_iter().try_for_each(|c| after.change(c))?;
                *self = after;
                Answer::Written
            }
            Ask::Find(beginning) => {
                let fits = |h: &&Held| h.entry.id.as_str().starts_with(&beginning);
                Answer::Held(self.held.iter().filter(fits).cloned().collect())
            }
            Ask::List(query) => {
                let there = self.held.iter().filter(|h| h.removed_on.is_none());
                let lines = there.map(|h| Line::of(&h.entry));
                Answer::Listed(find::list(lines, &query))
            }
            Ask::All => Answer::Held(self.held.clone()),
            Ask::Learner(name) => {
                let found = self.learners.get_key_value(&name);
                let found = found.map(|(name, learner)| (name.clone(), learner.clone()));
                Answer::Learners(found.into_iter().collect())
            }
            Ask::Learners => Answer::Learners(self.learners.clone().into_iter().collect()),
            Ask::KeepLearner(name, learner) => {
                self.learners.insert(name, *learner);
                Answer::Written
            }
        })
    }
}
