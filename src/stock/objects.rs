//! Entries as JSON: `{"format":1,"pieces":[…]}`, one piece a line, the columns of the table as
//! names.

use serde_json::{Value, json};

use super::columns::{self, COLUMNS, Shape};
use super::entry::Entry;
use super::find::Listing;
use super::id::EntryId;
use super::incoming::Row;
use crate::buy::Currency;
use crate::piece::notation::printable;
use crate::rulebase::problem::near;

/// All entries.
pub fn write<'e>(entries: impl IntoIterator<Item = &'e Entry>) -> String {
    let lines: Vec<String> = entries.into_iter().map(object).collect();
    match lines.is_empty() {
        true => "{\"format\":1,\"pieces\":[]}\n".to_owned(),
        false => format!("{{\"format\":1,\"pieces\":[\n{}\n]}}\n", lines.join(",\n")),
    }
}

/// One entry, its names in the order of the columns.
pub fn object(entry: &Entry) -> String {
    let named = |(name, shape): &(&str, Shape)| {
        let value = value(&columns::write(entry, name), *shape);
        format!("\"{name}\":{value}")
    };
    let all: Vec<String> = COLUMNS.iter().map(named).collect();
    format!("{{{}}}", all.join(","))
}

/// One entry as an object of its own, with the format.
pub fn one(entry: &Entry) -> String {
    object(entry).replacen('{', "{\"format\":1,", 1)
}

/// `stock list --json`: the lines asked for and what all found add up to, in minor units.
pub fn listing(listing: &Listing) -> Value {
    let lines = listing.lines.iter().map(|line| {
        json!({"id": line.id.as_str(), "added": line.added, "title": line.title,
               "stage": line.stage.word(), "quantity": line.quantity, "kind": line.kind,
               "from": line.years.map(|y| y.0), "to": line.years.map(|y| y.1),
               "currency": line.currency.code(), "paid": line.paid, "asking": line.asking,
               "advice": line.decision.as_ref().map(|d| &d.advice),
               "most_to_pay": line.decision.as_ref().map(|d| d.most_to_pay),
               "channel": line.channel, "sold_on": line.sold_on, "sold_for": line.sold_for,
               "days_to_sell": line.days_to_sell()})
    });
    let sums = listing.totals.by_currency.iter().map(|(currency, sums)| {
        let channels = sums.channels.iter().map(|(name, channel)| {
            json!({"channel": name, "sales": channel.sales, "taken": channel.taken,
                   "gained": channel.gained, "median_days": channel.median_days()})
        });
        json!({"currency": currency.code(), "paid": sums.paid, "taken": sums.taken,
               "held": sums.held, "asked": sums.asked, "gained": sums.gained,
               "channels": channels.collect::<Vec<_>>()})
    });
    json!({"format": 1, "found": listing.found, "nearly": listing.nearly,
           "pieces": lines.collect::<Vec<_>>(),
           "totals": {"held": listing.totals.held, "sold": listing.totals.sold,
                      "by_currency": sums.collect::<Vec<_>>()}})
}

fn value(cell: &str, shape: Shape) -> Value {
    match shape {
        Shape::Text => Value::from(cell),
        Shape::Flag => Value::from(cell == "yes"),
        Shape::Number => serde_json::from_str(cell).unwrap_or(Value::Null),
        Shape::List(between) => {
            let parts = cell.split(between).filter(|p| !p.is_empty());
            parts.map(Value::from).collect()
        }
    }
}

/// Reads what `write` writes: every piece with its place, good or bad. Names may be missing.
///
/// # Errors
/// One line when the whole is no such object.
pub fn read(bytes: &[u8], usual: Currency) -> Result<Vec<Row>, Vec<String>> {
    let whole = |why: &str| vec![why.to_owned()];
    let read: Value = serde_json::from_slice(bytes)
        .map_err(|e| vec![format!("line {}: no JSON: {e}", e.line())])?;
    match read.get("format").and_then(Value::as_u64) {
        Some(1) => {}
        Some(n) => return Err(vec![format!("format {n}; this program reads format 1")]),
        None => return Err(whole("no \"format\":1; is it an export of the stock book?")),
    }
    let pieces = read.get("pieces").and_then(Value::as_array);
    let pieces = pieces.ok_or_else(|| whole("no list of \"pieces\""))?;
    let row = |(i, piece): (usize, &Value)| Row {
        place: format!("piece {}", i + 1),
        entry: entry(piece, usual, &pieces[..i]),
    };
    Ok(pieces.iter().enumerate().map(row).collect())
}

fn entry(piece: &Value, usual: Currency, before: &[Value]) -> Result<Entry, Vec<String>> {
    let Some(object) = piece.as_object() else {
        return Err(vec!["is no object".to_owned()]);
    };
    let mut problems = Vec::new();
    let mut cells: Vec<(&str, String)> = Vec::new();
    for (name, value) in object {
        let Some((name, shape)) = COLUMNS.iter().find(|(known, _)| known == name) else {
            let close = near(name, COLUMNS.iter().map(|(n, _)| *n), 3);
            let shown = printable(name);
            problems.push(format!(
                "unknown name '{shown}'; nearest: {}",
                close.join(", ")
            ));
            continue;
        };
        match cell(value, *shape) {
            Some(cell) => cells.push((name, cell)),
            None => problems.push(format!(
                "{name} holds what it can't hold: {}",
                printable(&value.to_string())
            )),
        }
    }
    let text = |name: &str| {
        let found = cells.iter().find(|(n, _)| *n == name);
        found.map_or("", |(_, cell)| cell.as_str())
    };
    match columns::read(text, usual) {
        Ok(mut entry) if problems.is_empty() => {
            if entry.id == EntryId::default() {
                let times = before.iter().filter(|other| *other == piece).count();
                entry.id = EntryId::from_text(&piece.to_string(), times);
            }
            Ok(entry)
        }
        Ok(_) => Err(problems),
        Err(more) => {
            problems.extend(more);
            Err(problems)
        }
    }
}

/// A value as the cell of a table; `None` when it is of the wrong sort.
fn cell(value: &Value, shape: Shape) -> Option<String> {
    match (value, shape) {
        (Value::Null, _) => Some(String::new()),
        (Value::String(text), Shape::Text) => Some(text.clone()),
        (Value::Bool(yes), Shape::Flag) => Some(if *yes { "yes" } else { "" }.to_owned()),
        (Value::Number(n), Shape::Number) => Some(n.to_string()),
        (Value::Array(parts), Shape::List(between)) => {
            let parts = parts.iter().map(Value::as_str);
            Some(parts.collect::<Option<Vec<_>>>()?.join(between))
        }
        _ => None,
    }
}
