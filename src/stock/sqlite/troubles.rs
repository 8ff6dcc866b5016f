//! What SQLite reports, as one of the things that can go wrong.

use std::path::Path;

use rusqlite::{Error, ErrorCode};

use super::super::store::Trouble;

/// The trouble with this file.
pub(super) fn trouble(path: &Path, error: &Error) -> Trouble {
    let file = path.display().to_string();
    let Some(code) = error.sqlite_error_code() else {
        return match error {
            // A value of a type no version ever wrote there.
            Error::InvalidColumnType(..) | Error::FromSqlConversionFailure(..) => {
                Trouble::Damaged(file)
            }
            other => Trouble::Failed(file, first_line(&other.to_string())),
        };
    };
    match code {
        ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked => Trouble::Busy(file),
        ErrorCode::DatabaseCorrupt => Trouble::Damaged(file),
        ErrorCode::NotADatabase => Trouble::NotABook(file),
        ErrorCode::DiskFull => Trouble::Full(file),
        ErrorCode::ReadOnly | ErrorCode::PermissionDenied => Trouble::ReadOnly(file),
        ErrorCode::CannotOpen => Trouble::CantOpen(file, first_line(&error.to_string())),
        _ => Trouble::Failed(file, first_line(&error.to_string())),
    }
}

fn first_line(text: &str) -> String {
    text.lines().next().unwrap_or_default().to_owned()
}
