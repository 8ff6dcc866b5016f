//! The stock book of the page: a book in memory, written to the browser's storage whole after each
//! change. Before each message it is read anew where another tab has written it.

use printseam::internals::buy::Currency;
use printseam::internals::registry::calendar::Date;
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
            let held = match &text {
                Some(text) => read(text).ok_or_else(|| Trouble::Damaged(NAME.to_owned()))?,
                None => Vec::new(),
            };
            self.book = Memory::holding(held);
            self.text = text;
        }
        Ok(())
    }
}

impl Store for Clerk {
    fn answer(&mut self, ask: Ask) -> Result<Answer, Trouble> {
        self.freshen()?;
        if !matches!(ask, Ask::Write(_)) {
            return self.book.answer(ask);
        }
        let mut after = self.book.clone();
        let answer = after.answer(ask)?;
        let text = write(&after.all()?);
        if !self.kept.set(NAME, &text) {
            return Err(Trouble::Full(NAME.to_owned()));
        }
        (self.book, self.text) = (after, Some(text));
        Ok(answer)
    }
}

/// Entries as an export has them, and beside each its revision and the day it was removed.
fn write(held: &[Held]) -> String {
    let beside = held
        .iter()
        .map(|h| json!([h.revision, h.removed_on.map(|d| d.to_string())]));
    let beside: Vec<Value> = beside.collect();
    json!({"entries": objects::write(held.iter().map(|h| &h.entry)), "held": beside}).to_string()
}

fn read(text: &str) -> Option<Vec<Held>> {
    let kept: Value = serde_json::from_str(text).ok()?;
    let rows = objects::read(kept["entries"].as_str()?.as_bytes(), Currency::default()).ok()?;
    let beside = kept["held"].as_array()?;
    if rows.len() != beside.len() {
        return None;
    }
    let one = |(row, beside): (_, &Value)| {
        let row: printseam::internals::stock::incoming::Row = row;
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
    rows.into_iter().zip(beside).map(one).collect()
}
