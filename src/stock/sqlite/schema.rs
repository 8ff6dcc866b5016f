//! The tables, version by version (`user_version`), and bringing an older file up to date.
//!
//! A version that was ever released is never changed: the next one is added at the end.

use std::ffi::OsString;
use std::path::{Path, PathBuf};

use rusqlite::{Connection, Transaction, TransactionBehavior};

use super::super::store::Trouble;
use super::troubles::trouble;

/// Marks the file as a stock book of this program: "PSst" in `application_id`.
const APPLICATION: i64 = 0x5053_7374;

/// What each version adds to the one before.
pub const MIGRATIONS: &[&str] = &[
    "CREATE TABLE pieces (
        seq INTEGER PRIMARY KEY,
        id TEXT NOT NULL UNIQUE,
        revision INTEGER NOT NULL DEFAULT 1,
        removed_on TEXT,
        added TEXT,
        title TEXT NOT NULL,
        draft INTEGER NOT NULL CHECK (draft IN (0, 1)),
        quantity INTEGER NOT NULL CHECK (quantity > 0),
        setting TEXT NOT NULL,
        mark TEXT NOT NULL,
        mark_complete INTEGER NOT NULL CHECK (mark_complete IN (0, 1)),
        notes TEXT NOT NULL,
        kind TEXT,
        kind_p REAL,
        first_year INTEGER,
        last_year INTEGER,
        median_year INTEGER,
        rules TEXT,
        place TEXT NOT NULL,
        bought_on TEXT,
        currency TEXT NOT NULL CHECK (length(currency) = 3),
        paid INTEGER,
        asking INTEGER,
        channel TEXT NOT NULL,
        sold_on TEXT,
        sold_for INTEGER,
        sold_channel TEXT,
        remark TEXT NOT NULL,
        turned_out_kind TEXT,
        turned_out_from INTEGER,
        turned_out_to INTEGER,
        turned_out_by TEXT,
        search TEXT NOT NULL,
        CHECK ((sold_on IS NULL) = (sold_for IS NULL)),
        CHECK ((kind IS NULL) = (first_year IS NULL) AND (kind IS NULL) = (last_year IS NULL))
    ) STRICT;
    CREATE TABLE findings (
        piece INTEGER NOT NULL REFERENCES pieces (seq) ON DELETE CASCADE,
        place INTEGER NOT NULL,
        said TEXT NOT NULL,
        origin TEXT NOT NULL,
        PRIMARY KEY (piece, place)
    ) STRICT, WITHOUT ROWID;
    CREATE TABLE texts (
        piece INTEGER NOT NULL REFERENCES pieces (seq) ON DELETE CASCADE,
        sort TEXT NOT NULL CHECK (sort IN ('photo', 'condition', 'history')),
        place INTEGER NOT NULL,
        text TEXT NOT NULL,
        PRIMARY KEY (piece, sort, place)
    ) STRICT, WITHOUT ROWID;",
    "ALTER TABLE pieces ADD COLUMN advice TEXT;
    ALTER TABLE pieces ADD COLUMN most_to_pay INTEGER;",
    // What each learner answered in drills. Days are counted from 1 January 1970.
    "CREATE TABLE learners (
        seq INTEGER PRIMARY KEY,
        name TEXT NOT NULL UNIQUE CHECK (length(name) > 0)
    ) STRICT;
    CREATE TABLE memories (
        learner INTEGER NOT NULL REFERENCES learners (seq) ON DELETE CASCADE,
        item TEXT NOT NULL,
        stability REAL NOT NULL CHECK (stability > 0),
        difficulty REAL NOT NULL CHECK (difficulty BETWEEN 1 AND 10),
        last_day INTEGER NOT NULL,
        PRIMARY KEY (learner, item)
    ) STRICT, WITHOUT ROWID;
    CREATE TABLE confusions (
        learner INTEGER NOT NULL REFERENCES learners (seq) ON DELETE CASCADE,
        place INTEGER NOT NULL,
        about TEXT NOT NULL,
        was TEXT NOT NULL,
        said TEXT NOT NULL,
        times INTEGER NOT NULL CHECK (times > 0),
        PRIMARY KEY (learner, place),
        UNIQUE (learner, about, was, said)
    ) STRICT, WITHOUT ROWID;
    CREATE TABLE confidences (
        learner INTEGER NOT NULL REFERENCES learners (seq) ON DELETE CASCADE,
        percent INTEGER NOT NULL CHECK (percent BETWEEN 0 AND 100),
        answers INTEGER NOT NULL,
        hits INTEGER NOT NULL CHECK (hits BETWEEN 0 AND answers),
        PRIMARY KEY (learner, percent)
    ) STRICT, WITHOUT ROWID;
    CREATE TABLE lessons_done (
        learner INTEGER NOT NULL REFERENCES learners (seq) ON DELETE CASCADE,
        lesson TEXT NOT NULL,
        day INTEGER NOT NULL,
        PRIMARY KEY (learner, lesson)
    ) STRICT, WITHOUT ROWID;",
];

/// The version this program writes.
pub const FORMAT: i64 = MIGRATIONS.len() as i64;

/// Settings of the connection, and the file brought to this version.
pub(super) fn prepare(connection: &mut Connection, path: &Path) -> Result<(), Trouble> {
    let failed = |e: rusqlite::Error| trouble(path, &e);
    let set = |name: &str, value: &str| connection.pragma_update(None, name, value).map_err(failed);
    set("foreign_keys", "ON")?;
    set("trusted_schema", "OFF")?;
    set("cell_size_check", "ON")?;
    set("synchronous", "FULL")?;
    let (format, application) = stamps(connection).map_err(failed)?;
    if format == FORMAT && application == APPLICATION {
        return Ok(());
    }
    refuse_foreign(connection, path, format, application)?;
    into_wal(connection).map_err(failed)?;
    if format > 0 {
        check(connection, path)?;
        let copy = free_name(path, format);
        self::copy(connection, &copy).map_err(|e| trouble(&copy, &e))?;
    }
    migrate(connection, MIGRATIONS).map_err(failed)
}

fn stamps(connection: &Connection) -> rusqlite::Result<(i64, i64)> {
    let read = |name| connection.pragma_query_value(None, name, |row| row.get(0));
    Ok((read("user_version")?, read("application_id")?))
}

/// Nothing is ever written into a file of somebody else, or of a newer version.
fn refuse_foreign(
    connection: &Connection,
    path: &Path,
    format: i64,
    application: i64,
) -> Result<(), Trouble> {
    let file = path.display().to_string();
    if application == APPLICATION {
        return match format > FORMAT {
            true => Err(Trouble::Newer {
                file,
                format,
                known: FORMAT,
            }),
            false => Ok(()),
        };
    }
    let sql = "SELECT count(*) FROM sqlite_schema";
    let things: i64 = connection
        .query_row(sql, [], |row| row.get(0))
        .map_err(|e| trouble(path, &e))?;
    match things == 0 && format == 0 && application == 0 {
        true => Ok(()),
        false => Err(Trouble::NotABook(file)),
    }
}

/// Write-ahead logging, which is kept in the file. SQLite does not wait by itself when another
/// copy does the same at this moment; taking the lock for writing does.
fn into_wal(connection: &mut Connection) -> rusqlite::Result<()> {
    const TRIES: usize = 20;
    let set = |c: &Connection| c.pragma_update(None, "journal_mode", "WAL");
    for _ in 1..TRIES {
        if set(connection).is_ok() {
            return Ok(());
        }
        Transaction::new(connection, TransactionBehavior::Immediate)?.commit()?;
    }
    set(connection)
}

/// Brings the file to the last of these versions, in one transaction. Whoever waited for another
/// copy that did the same finds nothing left to do.
fn migrate(connection: &mut Connection, migrations: &[&str]) -> rusqlite::Result<()> {
    let writing = Transaction::new(connection, TransactionBehavior::Immediate)?;
    let (format, _) = stamps(&writing)?;
    for sql in migrations.iter().skip(usize::try_from(format).unwrap_or(0)) {
        writing.execute_batch(sql)?;
    }
    writing.pragma_update(None, "user_version", migrations.len() as i64)?;
    writing.pragma_update(None, "application_id", APPLICATION)?;
    writing.commit()
}

/// Reads the whole file for damage.
pub(super) fn check(connection: &Connection, path: &Path) -> Result<(), Trouble> {
    let said: String = connection
        .pragma_query_value(None, "quick_check", |row| row.get(0))
        .map_err(|e| trouble(path, &e))?;
    match said == "ok" {
        true => Ok(()),
        false => Err(Trouble::Damaged(path.display().to_string())),
    }
}

/// The whole book into a file that is empty or not there.
pub(super) fn copy(connection: &Connection, to: &Path) -> rusqlite::Result<()> {
    let name = to
        .to_str()
        .ok_or_else(|| rusqlite::Error::InvalidPath(to.to_owned()))?;
    connection.execute("VACUUM INTO ?1", [name]).map(|_| ())
}

/// `stock.db.format-1`, or with a number after it where that is there.
fn free_name(path: &Path, format: i64) -> PathBuf {
    let named = |ending: String| {
        let mut name = OsString::from(path.as_os_str());
        name.push(ending);
        PathBuf::from(name)
    };
    let mut copy = named(format!(".format-{format}"));
    for n in 2.. {
        if !copy.exists() {
            break;
        }
        copy = named(format!(".format-{format}-{n}"));
    }
    copy
}

#[cfg(test)]
mod tests {
    use rusqlite::Connection;

    use super::{MIGRATIONS, migrate, stamps};

    #[test]
    fn versions_are_added_one_after_another_and_only_once() {
        let mut connection = Connection::open_in_memory().unwrap();
        migrate(&mut connection, MIGRATIONS).unwrap();
        let insert =
            "INSERT INTO pieces (id, title, draft, quantity, setting, mark, mark_complete, notes,
            place, currency, channel, remark, search)
            VALUES ('a', '', 0, 1, '', '', 0, '', '', 'USD', '', '', '')";
        connection.execute(insert, []).unwrap();
        let next = [
            MIGRATIONS,
            &["ALTER TABLE pieces ADD COLUMN shelf TEXT NOT NULL DEFAULT 'new'"],
        ]
        .concat();
        for _ in 0..2 {
            migrate(&mut connection, &next).unwrap();
        }
        let shelf: String = connection
            .query_row("SELECT shelf FROM pieces WHERE id = 'a'", [], |row| {
                row.get(0)
            })
            .unwrap();
        assert_eq!(shelf, "new");
        assert_eq!(stamps(&connection).unwrap().0, next.len() as i64);
    }
}
