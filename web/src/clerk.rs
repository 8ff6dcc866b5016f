//! The stock book of the page: a book in memory, written to the browser's storage whole after each
//! change. Before each message it is read anew where another tab has written it.

use std::collections::BTreeMap;

use printseam::internals::buy::Currency;
use printseam::internals::learn::learner::Learner;
use printseam::internals::registry::calendar::Date;
use printseam::internals::stock::incoming::Row;
use printseam::internals::stock::memory::Memory;
use printseam::internals::stock::objects;
use printseam::internals::stock::store::{Answer, Ask, Held, Store, Trouble};
use serde_json::{Value, json};

use crate::kept::Kept;

/// What the book is called, in the storage and in sentences.
const NAME: &str = "stock book";

/// The store.
pub struct Clerk {
    kept: Kept,
    /// What was last read or written, and the book it is.
    text: Option<String>,
    book: Memory,
}

impl Clerk {
    pub fn new(kept: Kept) -> Clerk {
        Clerk {
            kept,
            text: None,
            book: Memory::new(),
        }
    }

    fn freshen(&mut self) -> Result<(), Trouble> {
        let text = self.kept.get(NAME);
        if text != self.text {
            self.book = match &text {
                Some(text) => read(text).ok_or_else(|| Trouble::Damaged(NAME.to_owned()))?,
                None => Memory::new(),
            };
            self.text = text;
        }
        Ok(())
    }
}

impl Store for Clerk {
    fn answer(&mut self, ask: Ask) -> Result<Answer, Trouble> {
        self.freshen()?;
        if !matches!(ask, Ask::Write(_) | Ask::KeepLearner(..)) {
            return self.book.answer(ask);
        }
        let mut after = self.book.clone();
        let answer = after.answer(ask)?;
        let text = write(&mut after)?;
        if !self.kept.set(NAME, &text) {
            return Err(Trouble::Full(NAME.to_owned()));
        }
        (self.book, self.text) = (after, Some(text));
        Ok(answer)
    }
}

/// The book as one text: entries as an export has them, beside each its revision and the day it was
/// removed, and the learners.
fn write(book: &mut Memory) -> Result<String, Trouble> {
    let held = book.all()?;
    let beside = held.iter().map(|h| {
        let removed_on = h.removed_on.map(|day| day.to_string());
        json!([h.revision, removed_on])
    });
    let beside: Vec<Value> = beside.collect();
    let learners: BTreeMap<String, Learner> = book.learners()?.into_iter().collect();
    let entries = objects::write(held.iter().map(|h| &h.entry));
    Ok(json!({"entries": entries, "held": beside, "learners": learners}).to_string())
}

/// `None` for what no book of this version wrote.
fn read(text: &str) -> Option<Memory> {
    let kept: Value = serde_json::from_str(text).ok()?;
    let rows = objects::read(kept["entries"].as_str()?.as_bytes(), Currency::default()).ok()?;
    let beside = kept["held"].as_array()?;
    if rows.len() != beside.len() {
        return None;
    }
    let one = |(row, beside): (Row, &Value)| {
        let removed_on = match &beside[1] {
            Value::Null => None,
            day => Some(Date::from_iso(day.as_str()?)?),
        };
        Some(Held {
            entry: row.entry.ok()?,
            revision: beside[0].as_u64()?,
            removed_on,
        })
    };
    let held: Option<Vec<Held>> = rows.into_iter().zip(beside).map(one).collect();
    let learners: BTreeMap<String, Learner> =
        serde_json::from_value(kept["learners"].clone()).ok()?;
    let readable = learners.values().all(Learner::readable);
    readable.then_some(Memory::holding(held?, learners))
}

#[cfg(test)]
mod tests {
    use super::{read, write};
    use printseam::internals::learn::learner::Learner;
    use printseam::internals::registry::calendar::Date;
    use printseam::internals::stock::entry::Entry;
    use printseam::internals::stock::id::EntryId;
    use printseam::internals::stock::memory::Memory;
    use printseam::internals::stock::store::{Change, Store};

    #[test]
    fn a_book_comes_back_with_revisions_removals_and_learners() {
        let id = |text: &str| EntryId::read(text).unwrap();
        let entry = |text: &str| Entry {
            id: id(text),
            quantity: 1,
            title: "Bowl, \"blue\"".to_owned(),
            ..Entry::default()
        };
        let (kept, gone) = ("0123456789", "9876543210");
        let mut book = Memory::new();
        let new = vec![Change::New(entry(kept)), Change::New(entry(gone))];
        book.write(new).unwrap();
        let on = Date::new(2026, 2, 3).unwrap();
        book.write(vec![Change::Remove(id(gone), 1, on)]).unwrap();
        book.keep_learner("me", &Learner::default()).unwrap();
        let mut again = read(&write(&mut book).unwrap()).unwrap();
        assert_eq!(again.all().unwrap(), book.all().unwrap());
        assert_eq!(again.learners().unwrap(), book.learners().unwrap());
        assert!(read("{}").is_none());
    }
}
