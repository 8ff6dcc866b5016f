//! Learners to rows and back.

use rusqlite::{Connection, OptionalExtension, Row, Transaction, params};

use crate::learn::learner::{Confusion, Learner, Stated};
use crate::learn::memory::{Day, Memory};

/// Puts a learner's rows in place of those there are.
pub(super) fn keep(writing: &Transaction, name: &str, learner: &Learner) -> rusqlite::Result<()> {
    writing.execute("INSERT OR IGNORE INTO learners (name) VALUES (?1)", [name])?;
    let sql = "SELECT seq FROM learners WHERE name = ?1";
    let seq: i64 = writing.query_row(sql, [name], |row| row.get(0))?;
    for table in ["memories", "confusions", "confidences", "lessons_done"] {
        writing.execute(&format!("DELETE FROM {table} WHERE learner = ?1"), [seq])?;
    }
    let mut insert = writing.prepare("INSERT INTO memories VALUES (?1, ?2, ?3, ?4, ?5)")?;
    for (item, m) in &learner.memories {
        insert.execute(params![seq, item, m.stability, m.difficulty, m.last.0])?;
    }
    let sql = "INSERT INTO confusions VALUES (?1, ?2, ?3, ?4, ?5, ?6)";
    let mut insert = writing.prepare(sql)?;
    for (place, c) in learner.confusions.iter().enumerate() {
        insert.execute(params![
            seq,
            place as i64,
            c.about,
            c.right,
            c.said,
            c.times
        ])?;
    }
    let mut insert = writing.prepare("INSERT INTO confidences VALUES (?1, ?2, ?3, ?4)")?;
    for (percent, stated) in &learner.stated {
        insert.execute(params![seq, percent, stated.answers, stated.right])?;
    }
    let mut insert = writing.prepare("INSERT INTO lessons_done VALUES (?1, ?2, ?3)")?;
    for (lesson, day) in &learner.lessons {
        insert.execute(params![seq, lesson, day.0])?;
    }
    Ok(())
}

/// The learner of this name, or all of them by name.
pub(super) fn named(
    reading: &Connection,
    name: Option<&str>,
) -> rusqlite::Result<Vec<(String, Learner)>> {
    let of = |row: &Row| Ok((row.get::<_, i64>(0)?, row.get::<_, String>(1)?));
    let found: Vec<(i64, String)> = match name {
        Some(name) => {
            let sql = "SELECT seq, name FROM learners WHERE name = ?1";
            reading
                .query_row(sql, [name], of)
                .optional()?
                .into_iter()
                .collect()
        }
        None => {
            let mut all = reading.prepare("SELECT seq, name FROM learners ORDER BY name")?;
            all.query_map([], of)?.collect::<rusqlite::Result<_>>()?
        }
    };
    let whole = |(seq, name)| Ok((name, learner(reading, seq)?));
    found.into_iter().map(whole).collect()
}

fn learner(reading: &Connection, seq: i64) -> rusqlite::Result<Learner> {
    let mut learner = Learner::default();
    let sql = "SELECT item, stability, difficulty, last_day FROM memories WHERE learner = ?1";
    each(reading, sql, seq, |row| {
        let memory = Memory {
            stability: row.get(1)?,
            difficulty: row.get(2)?,
            last: Day(row.get(3)?),
        };
        learner.memories.insert(row.get(0)?, memory);
        Ok(())
    })?;
    let sql = "SELECT about, was, said, times FROM confusions WHERE learner = ?1 ORDER BY place";
    each(reading, sql, seq, |row| {
        learner.confusions.push(Confusion {
            about: row.get(0)?,
            right: row.get(1)?,
            said: row.get(2)?,
            times: row.get(3)?,
        });
        Ok(())
    })?;
    let sql = "SELECT percent, answers, hits FROM confidences WHERE learner = ?1";
    each(reading, sql, seq, |row| {
        let stated = Stated {
            answers: row.get(1)?,
            right: row.get(2)?,
        };
        learner.stated.insert(row.get(0)?, stated);
        Ok(())
    })?;
    let sql = "SELECT lesson, day FROM lessons_done WHERE learner = ?1";
    each(reading, sql, seq, |row| {
        learner.lessons.insert(row.get(0)?, Day(row.get(1)?));
        Ok(())
    })?;
    Ok(learner)
}

fn each(
    reading: &Connection,
    sql: &str,
    seq: i64,
    mut take: impl FnMut(&Row) -> rusqlite::Result<()>,
) -> rusqlite::Result<()> {
    let mut all = reading.prepare(sql)?;
    let mut rows = all.query([seq])?;
    while let Some(row) = rows.next()? {
        take(row)?;
    }
    Ok(())
}
