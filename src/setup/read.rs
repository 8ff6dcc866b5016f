//! Texts and tables, never more of them than the program can use.

use std::fs;
use std::io::{self, ErrorKind, Read};
use std::path::Path;

use anyhow::{Context, Result, bail};

/// Largest text file read, in bytes: far more than any sighting or rule file has (common
/// practice, no source).
pub const MOST_BYTES: u64 = 1_000_000;

/// Largest table of many pieces read, in bytes (common practice, no source).
const MOST_TABLE_BYTES: u64 = 50_000_000;

/// A whole text file, refused when too long or not UTF-8.
///
/// # Errors
/// The file by name, with what is wrong.
pub fn read_text(path: &Path) -> Result<String> {
    text_of(open(path)?, &path.display().to_string())
}

/// The bytes of a table, refused when longer than `MOST_TABLE_BYTES`.
///
/// # Errors
/// The file by name, with what is wrong.
pub fn read_table(path: &Path) -> Result<Vec<u8>> {
    bytes_of(open(path)?, &path.display().to_string(), MOST_TABLE_BYTES)
}

/// The same from a pipe; `shown` names it.
///
/// # Errors
/// As `read_table`.
pub fn table_of(input: impl Read, shown: &str) -> Result<Vec<u8>> {
    bytes_of(input, shown, MOST_TABLE_BYTES)
}

const BYTE_ORDER_MARK: char = '\u{feff}';

fn open(path: &Path) -> Result<fs::File> {
    fs::File::open(path).with_context(|| format!("{}: can't be read", path.display()))
}

/// The whole of a file or pipe as text.
///
/// # Errors
/// Too long, no text, or not to be read; `shown` names it.
pub fn text_of(input: impl Read, shown: &str) -> Result<String> {
    let text = String::from_utf8(bytes_of(input, shown, MOST_BYTES)?).map_err(|e| {
        let at = e.utf8_error().valid_up_to();
        anyhow::anyhow!("{shown}: not UTF-8 text (byte {at}); save it as UTF-8")
    })?;
    Ok(without_mark(text))
}

/// Why a line of standard input could not be read.
pub fn not_read(e: io::Error) -> anyhow::Error {
    match e.kind() {
        ErrorKind::InvalidData => anyhow::anyhow!("standard input: not UTF-8 text"),
        ErrorKind::IsADirectory => anyhow::anyhow!("standard input: is a folder"),
        _ => anyhow::Error::new(e).context("standard input: can't be read"),
    }
}

/// The text without the byte order mark that some editors put before it.
fn without_mark(mut text: String) -> String {
    if text.starts_with(BYTE_ORDER_MARK) {
        text.drain(..BYTE_ORDER_MARK.len_utf8());
    }
    text
}

/// The length is counted while reading: devices and pipes don't tell it beforehand.
fn bytes_of(input: impl Read, shown: &str, most: u64) -> Result<Vec<u8>> {
    let mut bytes = Vec::new();
    input
        .take(most + 1)
        .read_to_end(&mut bytes)
        .with_context(|| format!("{shown}: can't be read"))?;
    if bytes.len() as u64 > most {
        bail!("{shown}: too long; at most {most} bytes are read");
    }
    Ok(bytes)
}
