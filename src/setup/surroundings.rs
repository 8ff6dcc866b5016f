//! Where the stock book lies, which day it is, and a number nobody else has.

use std::collections::hash_map::RandomState;
use std::fs;
use std::hash::{BuildHasher, Hash, Hasher};
use std::path::{Path, PathBuf};
use std::sync::OnceLock;
use std::time::{Instant, SystemTime, UNIX_EPOCH};

use anyhow::{Context, Result, anyhow};
use etcetera::AppStrategy;

use super::rules::folders;
use crate::registry::calendar::Date;

/// The usual name of the stock book.
const BOOK: &str = "stock.db";

const DAY_SECONDS: u64 = 86_400;

/// The file of the stock book: the one named, or `stock.db` in the program's folder of data, which is
/// made when it is not there.
///
/// # Errors
/// When the folder can't be made, or the system has no home for it.
pub fn stock_file(named: Option<&Path>) -> Result<PathBuf> {
    if let Some(named) = named {
        return Ok(named.to_owned());
    }
    let folder = data_folder()
        .ok_or_else(|| anyhow!("no home folder is known; name the stock book with --stock FILE"))?;
    fs::create_dir_all(&folder).with_context(|| {
        format!(
            "{}: can't be made; name the stock book with --stock FILE",
            folder.display()
        )
    })?;
    Ok(folder.join(BOOK))
}

/// The same where a file is there already; nothing is made.
pub fn stock_file_there(named: Option<&Path>) -> Option<PathBuf> {
    stock_place(named).filter(|f| f.is_file())
}

/// Where the stock book is, or would be; nothing is made.
pub fn stock_place(named: Option<&Path>) -> Option<PathBuf> {
    let usual = || Some(data_folder()?.join(BOOK));
    named.map(Path::to_owned).or_else(usual)
}

fn data_folder() -> Option<PathBuf> {
    Some(folders()?.data_dir())
}

/// Today in UTC: the standard library knows no time zones, so late in the evening of an American
/// day it is tomorrow already.
pub fn today() -> Date {
    let seconds = SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .map_or(0, |d| d.as_secs());
    let days = i32::try_from(seconds / DAY_SECONDS).ok();
    days.and_then(Date::from_days)
        .unwrap_or(Date::first_of(1970))
}

/// Seconds of a clock that never goes back; where it begins means nothing.
pub fn seconds() -> u64 {
    static BEGUN: OnceLock<Instant> = OnceLock::new();
    BEGUN.get_or_init(Instant::now).elapsed().as_secs()
}

/// 64 bits nobody else has: the standard library's hash keys, which the system's random source
/// gives, over clock and process.
pub fn chance() -> u64 {
    let mut hasher = RandomState::new().build_hasher();
    SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .map_or(0, |d| d.as_nanos())
        .hash(&mut hasher);
    std::process::id().hash(&mut hasher);
    hasher.finish()
}
