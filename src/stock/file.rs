//! A file of entries, whichever of the two forms it has.

use super::incoming::Row;
use super::{objects, table};
use crate::buy::Currency;

/// Reads a table, or objects where a brace begins it; amounts without a currency are in the usual one.
///
/// # Errors
/// What is wrong with the file as a whole, a line each.
pub fn read(bytes: &[u8]) -> Result<Vec<Row>, Vec<String>> {
    match bytes.trim_ascii_start().starts_with(b"{") {
        true => objects::read(bytes, Currency::default()),
        false => table::read(bytes, Currency::default()),
    }
}
