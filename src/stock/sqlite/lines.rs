//! Rows to the lines of a list. A list goes through the whole book, so rows are read without a copy or a
//! search more than needed.

use rusqlite::types::FromSql;
use rusqlite::{Connection, Row};

use super::super::entry::Stage;
use super::super::id::EntryId;
use super::super::line::Line;
use super::rows::{decision, meant, unread};
use crate::buy::Currency;
use crate::registry::calendar::Date;

/// Lines of all entries that were not removed, in the order they were added.
pub(super) fn lines(reading: &Connection) -> rusqlite::Result<Vec<Line>> {
    let mut pieces = reading.prepare(
        "SELECT id, added, title, draft, quantity, kind, first_year, last_year, currency, paid, asking,
         channel, sold_on, sold_for, sold_channel, bought_on, search,
         advice, most_to_pay
         FROM pieces WHERE removed_on IS NULL ORDER BY seq",
    )?;
    let mut rows = pieces.query([])?;
    let mut lines = Vec::new();
    while let Some(row) = rows.next()? {
        lines.push(line(row)?);
    }
    Ok(lines)
}

/// Columns of a row one after another: to find each by its name takes most of the time of a long list.
struct Columns<'r> {
    row: &'r Row<'r>,
    at: usize,
}

impl Columns<'_> {
    fn next<T: FromSql>(&mut self) -> rusqlite::Result<T> {
        self.at += 1;
        self.row.get(self.at - 1)
    }

    /// A text read without a copy of it.
    fn read<T>(
        &mut self,
        column: &str,
        read: impl Fn(&str) -> Option<T>,
    ) -> rusqlite::Result<Option<T>> {
        self.at += 1;
        let text = self.row.get_ref(self.at - 1)?.as_str_or_null()?;
        meant(column, text, read)
    }

    /// One that every row has.
    fn required<T>(
        &mut self,
        column: &str,
        read: impl Fn(&str) -> Option<T>,
    ) -> rusqlite::Result<T> {
        let read = self.read(column, read)?;
        read.map_or_else(|| unread(column, ""), Ok)
    }

    fn date(&mut self, column: &str) -> rusqlite::Result<Option<Date>> {
        self.read(column, Date::from_iso)
    }
}

/// The columns in the order that `lines` asks for them.
fn line(row: &Row) -> rusqlite::Result<Line> {
    let mut columns = Columns { row, at: 0 };
    let id = columns.required("id", EntryId::read)?;
    let added = columns.date("added")?;
    let title = columns.next()?;
    let draft = columns.next()?;
    let quantity = columns.next()?;
    let kind: Option<String> = columns.next()?;
    let (from, to): (Option<i16>, Option<i16>) = (columns.next()?, columns.next()?);
    let currency = columns.required("currency", Currency::new)?;
    let (paid, asking) = (columns.next()?, columns.next()?);
    let channel: String = columns.next()?;
    let sold_on = columns.date("sold_on")?;
    let sold_for = columns.next()?;
    let sold_at: Option<String> = columns.next()?;
    let bought_on = columns.date("bought_on")?;
    Ok(Line {
        id,
        added,
        title,
        stage: match (sold_on, draft) {
            (Some(_), _) => Stage::Sold,
            (None, true) => Stage::Draft,
            (None, false) => Stage::Held,
        },
        quantity,
        kind: kind.unwrap_or_default(),
        years: from.zip(to),
        currency,
        paid,
        asking,
        channel: sold_at.filter(|c| !c.is_empty()).unwrap_or(channel),
        since: bought_on.or(added),
        sold_on,
        sold_for,
        search: columns.next()?,
        decision: decision(columns.next()?, columns.next()?),
    })
}
