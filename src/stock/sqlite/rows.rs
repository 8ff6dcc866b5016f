//! Entries to rows and back.

use std::collections::HashMap;
use std::path::Path;

use rusqlite::types::Type;
use rusqlite::{Connection, Error, OptionalExtension, Row, Transaction, named_params, params};

use super::super::columns::ORIGINS;
use super::super::entry::{
    Entry, KeptDecision, KeptFinding, KeptSighting, KeptVerdict, Sale, TurnedOut,
};
use super::super::id::EntryId;
use super::super::line::search_text;
use super::super::store::{Held, Trouble};
use super::troubles::trouble;
use crate::buy::Currency;
use crate::core::observation::Origin;
use crate::registry::calendar::Date;

/// Number and revision of an entry.
pub(super) fn stamp(reading: &Connection, id: &EntryId) -> rusqlite::Result<Option<(i64, u64)>> {
    let sql = "SELECT seq, revision FROM pieces WHERE id = ?1";
    let stamp = reading.query_row(sql, [id.as_str()], |row| {
        Ok((row.get(0)?, row.get::<_, i64>(1)?))
    });
    Ok(stamp
        .optional()?
        .map(|(seq, revision)| (seq, revision.unsigned_abs())))
}

/// The number of an entry that is still as it was seen.
pub(super) fn expect(
    reading: &Connection,
    id: &EntryId,
    seen: u64,
    path: &Path,
) -> Result<i64, Trouble> {
    match stamp(reading, id).map_err(|e| trouble(path, &e))? {
        None => Err(Trouble::Gone(id.clone())),
        Some((_, revision)) if revision != seen => Err(Trouble::Changed(id.clone())),
        Some((seq, _)) => Ok(seq),
    }
}

const INSERT: &str = "INSERT INTO pieces (seq, revision, removed_on, id, added, title, draft, quantity, setting, mark,
    mark_complete, notes, kind, kind_p, first_year, last_year, median_year, rules, advice, most_to_pay, place, bought_on,
    currency, paid, asking, channel, sold_on, sold_for, sold_channel, remark, turned_out_kind,
    turned_out_from, turned_out_to, turned_out_by, search)
    VALUES (:seq, :revision, :removed_on, :id, :added, :title, :draft, :quantity, :setting, :mark, :mark_complete, :notes, :kind,
    :kind_p, :first_year, :last_year, :median_year, :rules, :advice, :most_to_pay, :place, :bought_on, :currency, :paid,
    :asking, :channel, :sold_on, :sold_for, :sold_channel, :remark, :turned_out_kind,
    :turned_out_from, :turned_out_to, :turned_out_by, :search)";

/// Adds an entry at the end.
pub(super) fn insert(writing: &Transaction, entry: &Entry) -> rusqlite::Result<()> {
    insert_at(writing, entry, None, 1, None)
}

/// Puts an entry in the place of the one with this number.
pub(super) fn replace(writing: &Transaction, seq: i64, entry: &Entry) -> rusqlite::Result<()> {
    let kept = "SELECT revision, removed_on FROM pieces WHERE seq = ?1";
    let (revision, removed_on): (i64, Option<String>) =
        writing.query_row(kept, [seq], |row| Ok((row.get(0)?, row.get(1)?)))?;
    // The lists go with it.
    writing.execute("DELETE FROM pieces WHERE seq = ?1", [seq])?;
    insert_at(writing, entry, Some(seq), revision + 1, removed_on)
}

/// `seq`: the place in the order of adding; the last where there is none.
fn insert_at(
    writing: &Transaction,
    entry: &Entry,
    seq: Option<i64>,
    revision: i64,
    removed_on: Option<String>,
) -> rusqlite::Result<()> {
    let verdict = entry.verdict.as_ref();
    let sale = entry.sale.as_ref();
    let turned = entry.turned_out.as_ref();
    let date = |d: Option<Date>| d.map(|d| d.to_string());
    writing.execute(
        INSERT,
        named_params! {
            ":seq": seq,
            ":revision": revision,
            ":removed_on": removed_on,
            ":id": entry.id.as_str(),
            ":added": date(entry.added),
            ":title": entry.title,
            ":draft": entry.draft,
            ":quantity": entry.count(),
            ":setting": entry.sighting.setting,
            ":mark": entry.sighting.mark,
            ":mark_complete": entry.sighting.mark_complete,
            ":notes": entry.sighting.notes,
            ":kind": verdict.map(|v| &v.kind),
            ":kind_p": verdict.map(|v| v.kind_p),
            ":first_year": verdict.map(|v| v.from),
            ":last_year": verdict.map(|v| v.to),
            ":median_year": verdict.map(|v| v.median),
            ":rules": verdict.map(|v| &v.rules),
            ":advice": entry.decision.as_ref().map(|d| &d.advice),
            ":most_to_pay": entry.decision.as_ref().map(|d| d.most_to_pay),
            ":place": entry.place,
            ":bought_on": date(entry.bought_on),
            ":currency": entry.currency.code(),
            ":paid": entry.paid,
            ":asking": entry.asking,
            ":channel": entry.channel,
            ":sold_on": date(sale.map(|s| s.on)),
            ":sold_for": sale.map(|s| s.price),
            ":sold_channel": sale.map(|s| &s.channel),
            ":remark": entry.remark,
            ":turned_out_kind": turned.map(|t| &t.kind),
            ":turned_out_from": turned.and_then(|t| t.from),
            ":turned_out_to": turned.and_then(|t| t.to),
            ":turned_out_by": turned.map(|t| &t.by),
            ":search": search_text(entry),
        },
    )?;
    insert_lists(writing, writing.last_insert_rowid(), entry)
}

fn insert_lists(writing: &Transaction, seq: i64, entry: &Entry) -> rusqlite::Result<()> {
    let mut finding = writing.prepare("INSERT INTO findings VALUES (?1, ?2, ?3, ?4)")?;
    for (i, kept) in entry.sighting.findings.iter().enumerate() {
        let origin = ORIGINS.iter().find(|(o, _)| *o == kept.origin);
        finding.execute(params![
            seq,
            i as i64,
            kept.said,
            origin.map_or("hand", |(_, w)| w)
        ])?;
    }
    let mut text = writing.prepare("INSERT INTO texts VALUES (?1, ?2, ?3, ?4)")?;
    let lists = [
        ("photo", &entry.photos),
        ("condition", &entry.condition),
        ("history", &entry.history),
    ];
    for (sort, list) in lists {
        for (i, line) in list.iter().enumerate() {
            text.execute(params![seq, sort, i as i64, line])?;
        }
    }
    Ok(())
}

/// Entries whose id begins so, in the order they were added; removed ones too.
pub(super) fn held(reading: &Connection, beginning: &str) -> rusqlite::Result<Vec<Held>> {
    let mut pieces =
        reading.prepare("SELECT * FROM pieces WHERE id GLOB ?1 || '*' ORDER BY seq")?;
    let mut found: Vec<Held> = Vec::new();
    let mut at: HashMap<i64, usize> = HashMap::new();
    let mut rows = pieces.query([beginning])?;
    while let Some(row) = rows.next()? {
        at.insert(row.get("seq")?, found.len());
        found.push(piece(row)?);
    }
    let of = "JOIN pieces ON seq = piece WHERE id GLOB ?1 || '*' ORDER BY piece";
    let sql = format!("SELECT piece, said, origin FROM findings {of}, findings.place");
    let mut findings = reading.prepare(&sql)?;
    let mut rows = findings.query([beginning])?;
    while let Some(row) = rows.next()? {
        let word: String = row.get(2)?;
        let origin = ORIGINS.iter().find(|(_, w)| *w == word).map(|(o, _)| *o);
        let kept = KeptFinding {
            said: row.get(1)?,
            origin: origin.unwrap_or(Origin::Hand),
        };
        if let Some(i) = at.get(&row.get(0)?) {
            found[*i].entry.sighting.findings.push(kept);
        }
    }
    let sql = format!("SELECT piece, sort, text FROM texts {of}, sort, texts.place");
    let mut texts = reading.prepare(&sql)?;
    let mut rows = texts.query([beginning])?;
    while let Some(row) = rows.next()? {
        let Some(i) = at.get(&row.get(0)?) else {
            continue;
        };
        let entry = &mut found[*i].entry;
        let list = match row.get::<_, String>(1)?.as_str() {
            "photo" => &mut entry.photos,
            "condition" => &mut entry.condition,
            _ => &mut entry.history,
        };
        list.push(row.get(2)?);
    }
    Ok(found)
}

/// A row without its lists.
fn piece(row: &Row) -> rusqlite::Result<Held> {
    let kind: Option<String> = row.get("kind")?;
    let verdict = match kind {
        None => None,
        Some(kind) => Some(KeptVerdict {
            kind,
            kind_p: row.get("kind_p")?,
            from: row.get("first_year")?,
            to: row.get("last_year")?,
            median: row.get("median_year")?,
            rules: row.get("rules")?,
        }),
    };
    let turned_out: Option<String> = row.get("turned_out_by")?;
    let turned_out = match turned_out {
        None => None,
        Some(by) => Some(TurnedOut {
            kind: row.get("turned_out_kind")?,
            from: row.get("turned_out_from")?,
            to: row.get("turned_out_to")?,
            by,
        }),
    };
    let sale = match date(row, "sold_on")? {
        None => None,
        Some(on) => Some(Sale {
            on,
            price: row.get("sold_for")?,
            channel: row.get("sold_channel")?,
        }),
    };
    let entry = Entry {
        id: id(row)?,
        added: date(row, "added")?,
        title: row.get("title")?,
        draft: row.get("draft")?,
        quantity: row.get("quantity")?,
        sighting: KeptSighting {
            setting: row.get("setting")?,
            mark: row.get("mark")?,
            mark_complete: row.get("mark_complete")?,
            notes: row.get("notes")?,
            findings: Vec::new(),
        },
        verdict,
        decision: decision(row.get("advice")?, row.get("most_to_pay")?),
        photos: Vec::new(),
        place: row.get("place")?,
        bought_on: date(row, "bought_on")?,
        currency: currency(row)?,
        paid: row.get("paid")?,
        condition: Vec::new(),
        asking: row.get("asking")?,
        channel: row.get("channel")?,
        sale,
        remark: row.get("remark")?,
        turned_out,
        history: Vec::new(),
    };
    Ok(Held {
        entry,
        revision: row.get::<_, i64>("revision")?.unsigned_abs(),
        removed_on: date(row, "removed_on")?,
    })
}

/// What was decided, where anything was.
pub(super) fn decision(advice: Option<String>, most_to_pay: Option<i64>) -> Option<KeptDecision> {
    advice
        .zip(most_to_pay)
        .map(|(advice, most_to_pay)| KeptDecision {
            advice,
            most_to_pay,
        })
}

/// A text that no version of this program ever wrote: the file is damaged.
pub(super) fn unread<T>(column: &str, text: &str) -> rusqlite::Result<T> {
    let why = format!("{column} '{text}'").into();
    Err(Error::FromSqlConversionFailure(0, Type::Text, why))
}

/// What a column's text means, where it has one.
pub(super) fn meant<T>(
    column: &str,
    text: Option<&str>,
    read: impl Fn(&str) -> Option<T>,
) -> rusqlite::Result<Option<T>> {
    text.map(|text| read(text).map_or_else(|| unread(column, text), Ok))
        .transpose()
}

fn date(row: &Row, column: &str) -> rusqlite::Result<Option<Date>> {
    let text: Option<String> = row.get(column)?;
    meant(column, text.as_deref(), Date::from_iso)
}

fn id(row: &Row) -> rusqlite::Result<EntryId> {
    let text: String = row.get("id")?;
    EntryId::read(&text).map_or_else(|| unread("id", &text), Ok)
}

fn currency(row: &Row) -> rusqlite::Result<Currency> {
    let text: String = row.get("currency")?;
    Currency::new(&text).map_or_else(|| unread("currency", &text), Ok)
}
