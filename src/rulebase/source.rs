//! Rule files as text, and values that know where in the text they stand.
//!
//! serde carries no positions, but RON lends slices of the text it reads, and a slice knows where
//! it is by its address. Traps, found by trying:
//! - wrap leaves only: inside a located record, errors are reported at the record's end;
//! - extensions are set in `options()`; an `#![enable]` line in a file is not seen inside a leaf;
//! - `Located<&str>` refuses escapes, so texts are `Located<String>`;
//! - no `flatten` or `untagged` around a located value: serde copies the text and the address is lost.

use std::fmt;

use ron::value::RawValue;
use serde::de::{Deserialize, Deserializer, Error, Visitor};

/// One rule file: its name as shown in messages, and its text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SourceFile {
    /// Path below the rules folder with forward slashes, such as `clues/front.ron`.
    pub name: String,
    pub text: String,
}

/// The format of rule files and sightings that this program reads.
pub const FORMAT: u32 = 1;

/// RON as rule files use it: optional values are written plainly.
pub fn options() -> ron::Options {
    ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME)
}

/// A value and the exact slice of the file it was read from.
#[derive(Clone, Debug)]
pub struct Located<'a, T> {
    pub value: T,
    pub src: &'a str,
}

/// Values read from the bare text of a leaf.
pub trait Leaf: Sized {
    /// Reads RON text; the error is what RON would say.
    ///
    /// # Errors
    /// What RON would say.
    fn read(text: &str) -> Result<Self, ron::Error>;
}

impl Leaf for String {
    fn read(text: &str) -> Result<String, ron::Error> {
        // Most texts have no escapes: no need to start a second parser for them.
        match text.strip_prefix('"').and_then(|t| t.strip_suffix('"')) {
            Some(plain) if !plain.contains(['\\', '"']) => Ok(plain.to_owned()),
            _ => options().from_str(text).map_err(|e| e.code),
        }
    }
}

impl Leaf for f64 {
    fn read(text: &str) -> Result<f64, ron::Error> {
        let plain = text
            .bytes()
            .all(|b| b.is_ascii_digit() || b"+-.eE".contains(&b));
        match text.parse() {
            Ok(number) if plain => Ok(number),
            _ => options().from_str(text).map_err(|e| e.code),
        }
    }
}

macro_rules! leaf {
    ($($plain:ty),*) => {$(
        impl Leaf for $plain {
            fn read(text: &str) -> Result<$plain, ron::Error> {
                options().from_str(text).map_err(|e| e.code)
            }
        }
    )*};
}
leaf!(char, bool);

impl<'de: 'a, 'a, T: Leaf> Deserialize<'de> for Located<'a, T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let src = slice(deserializer)?;
        let value = T::read(src).map_err(D::Error::custom)?;
        Ok(Located { value, src })
    }
}

/// The bare text of a leaf, for values with a syntax of their own (ladder words or numbers).
#[derive(Clone, Copy, Debug)]
pub struct Bare<'a>(pub &'a str);

impl<'de: 'a, 'a> Deserialize<'de> for Bare<'a> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        slice(deserializer).map(Bare)
    }
}

/// What `plainly` is asked for where a slice of the text is wanted.
pub(super) const SLICE: &str = "Slice";

/// The text of a leaf, from ron or from `plainly`, which says that it is for machines.
fn slice<'de, D: Deserializer<'de>>(deserializer: D) -> Result<&'de str, D::Error> {
    match deserializer.is_human_readable() {
        // A raw value includes the comments before it.
        true => <&'de RawValue>::deserialize(deserializer).map(|raw| raw.trim().get_ron()),
        false => deserializer.deserialize_newtype_struct(SLICE, Lent),
    }
}

/// Takes a slice as it is lent.
struct Lent;

impl<'de> Visitor<'de> for Lent {
    type Value = &'de str;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a leaf")
    }

    fn visit_borrowed_str<E: Error>(self, text: &'de str) -> Result<&'de str, E> {
        Ok(text)
    }
}

/// Line and column (from 1, in characters) of a slice of `file`.
///
/// A slice that is not part of `file` counts as its start.
pub fn line_col(file: &str, slice: &str) -> (usize, usize) {
    let at = (slice.as_ptr() as usize).wrapping_sub(file.as_ptr() as usize);
    let before = file.get(..at).unwrap_or("");
    (
        // Bytes and not a pattern: a file with thousands of faults is gone through for each.
        1 + before.bytes().filter(|b| *b == b'\n').count(),
        1 + before.chars().rev().take_while(|&c| c != '\n').count(),
    )
}
