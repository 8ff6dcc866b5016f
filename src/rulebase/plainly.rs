//! Rule files that are written plainly, read in one pass.
//!
//! ron reads a value that is to know its place twice, and looks at every number four times: some 400
//! instructions a byte, and there is a megabyte of rules at every start. This reads the same records from the
//! same text. Whatever it finds wrong, or does not know (escapes and raw strings, block comments, maps,
//! variants with fields), is left to ron, which reads the whole file and says what there is to say: so a text is
//! never read here that ron refuses.

use std::fmt;

use serde::de::{self, Deserialize, DeserializeSeed, Visitor};
use serde::forward_to_deserialize_any;

use super::source::SLICE;

/// Reads a file; nothing where ron has to.
pub(super) fn read<'a, T: Deserialize<'a>>(text: &'a str) -> Option<T> {
    let mut reader = Reader { text, at: 0 };
    let read = T::deserialize(&mut reader).ok()?;
    (reader.next().ok()?.is_none()).then_some(read)
}

/// Something that ron has to read.
#[derive(Debug)]
struct Otherwise;

impl fmt::Display for Otherwise {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("not written plainly")
    }
}

impl std::error::Error for Otherwise {}

impl de::Error for Otherwise {
    fn custom<T: fmt::Display>(_: T) -> Otherwise {
        Otherwise
    }
}

/// A text, and how far it is read.
struct Reader<'de> {
    text: &'de str,
    at: usize,
}

impl<'de> Reader<'de> {
    /// The next byte that is neither white nor part of a comment, which is not taken.
    fn next(&mut self) -> Result<Option<u8>, Otherwise> {
        let bytes = self.text.as_bytes();
        loop {
            match bytes.get(self.at) {
                Some(b' ' | b'\n' | b'\r' | b'\t') => self.at += 1,
                Some(b'/') if bytes.get(self.at + 1) == Some(&b'/') => {
                    let rest = &bytes[self.at..];
                    let line = rest.iter().position(|b| *b == b'\n');
                    self.at += line.unwrap_or(rest.len());
                }
                Some(b'/') => return Err(Otherwise),
                other => return Ok(other.copied()),
            }
        }
    }

    /// Takes a sign if it comes next.
    fn takes(&mut self, sign: u8) -> Result<bool, Otherwise> {
        let there = self.next()? == Some(sign);
        self.at += usize::from(there);
        Ok(there)
    }

    fn needs(&mut self, sign: u8) -> Result<(), Otherwise> {
        self.takes(sign)?.then_some(()).ok_or(Otherwise)
    }

    /// The longest run of such bytes from here on, which may be empty.
    fn run(&mut self, of: impl Fn(u8) -> bool) -> &'de str {
        let (text, from) = (self.text, self.at);
        let rest = &text.as_bytes()[from..];
        let length = rest.iter().position(|b| !of(*b)).unwrap_or(rest.len());
        self.at += length;
        &text[from..self.at]
    }

    fn word(&mut self) -> Result<&'de str, Otherwise> {
        match self.next()? {
            Some(b'a'..=b'z' | b'A'..=b'Z' | b'_') => {
                Ok(self.run(|b| b.is_ascii_alphanumeric() || b == b'_'))
            }
            _ => Err(Otherwise),
        }
    }

    /// A text with its quotes.
    fn quoted(&mut self) -> Result<&'de str, Otherwise> {
        self.needs(b'"')?;
        let from = self.at - 1;
        self.run(|b| b != b'"' && b != b'\\');
        match self.text.as_bytes().get(self.at) {
            Some(b'"') => self.at += 1,
            _ => return Err(Otherwise),
        }
        Ok(&self.text[from..self.at])
    }

    /// A decimal number as both ron and Rust write it.
    fn number(&mut self) -> Result<&'de str, Otherwise> {
        self.next()?;
        let written = self.run(|b| b.is_ascii_digit() || b"+-.eE".contains(&b));
        let figures = written.strip_prefix('-').unwrap_or(written).as_bytes();
        let plain = match figures {
            [b'0', b'0'..=b'9', ..] => false,
            [b'0'..=b'9'] | [b'0'..=b'9', .., b'0'..=b'9'] => written.parse::<f64>().is_ok(),
            _ => false,
        };
        plain.then_some(written).ok_or(Otherwise)
    }

    /// A leaf as it is written: a text, a number or a word.
    fn leaf(&mut self) -> Result<&'de str, Otherwise> {
        match self.next()? {
            Some(b'"') => self.quoted(),
            Some(b'0'..=b'9' | b'-') => self.number(),
            _ => self.word(),
        }
    }
}

macro_rules! numbers {
    ($($read:ident $visit:ident),*) => {$(
        fn $read<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Otherwise> {
            visitor.$visit(self.number()?.parse().map_err(|_| Otherwise)?)
        }
    )*};
}

impl<'de> de::Deserializer<'de> for &mut Reader<'de> {
    type Error = Otherwise;

    /// How a leaf tells this reader from ron.
    fn is_human_readable(&self) -> bool {
        false
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        visitor: V,
    ) -> Result<V::Value, Otherwise> {
        match name {
            SLICE => visitor.visit_borrowed_str(self.leaf()?),
            _ => Err(Otherwise),
        }
    }

    numbers!(
        deserialize_f64 visit_f64, deserialize_u8 visit_u8, deserialize_u16 visit_u16,
        deserialize_u32 visit_u32, deserialize_i16 visit_i16, deserialize_i32 visit_i32
    );
    forward_to_deserialize_any! {
        i8 i64 u64 f32 char bytes byte_buf unit unit_struct tuple_struct map ignored_any
    }

    /// What is not known at once.
    fn deserialize_any<V: Visitor<'de>>(self, _: V) -> Result<V::Value, Otherwise> {
        Err(Otherwise)
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Otherwise> {
        match self.word()? {
            "true" => visitor.visit_bool(true),
            "false" => visitor.visit_bool(false),
            _ => Err(Otherwise),
        }
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Otherwise> {
        let quoted = self.quoted()?;
        visitor.visit_borrowed_str(&quoted[1..quoted.len() - 1])
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Otherwise> {
        self.deserialize_str(visitor)
    }

    fn deserialize_identifier<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Otherwise> {
        visitor.visit_borrowed_str(self.word()?)
    }

    /// What is there is written without `Some`.
    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Otherwise> {
        let from = self.at;
        match self.word() {
            Ok("None") => visitor.visit_none(),
            Ok("Some") => Err(Otherwise),
            _ => {
                self.at = from;
                visitor.visit_some(self)
            }
        }
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Otherwise> {
        self.listed(b'[', b']', |list| visitor.visit_seq(list))
    }

    fn deserialize_tuple<V: Visitor<'de>>(
        self,
        _: usize,
        visitor: V,
    ) -> Result<V::Value, Otherwise> {
        self.listed(b'(', b')', |list| visitor.visit_seq(list))
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Otherwise> {
        if self.next()? != Some(b'(') && self.word()? != name {
            return Err(Otherwise);
        }
        self.listed(b'(', b')', |list| visitor.visit_map(list))
    }

    /// Of variants without fields.
    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Otherwise> {
        let variant = de::value::BorrowedStrDeserializer::new(self.word()?);
        visitor.visit_enum(variant)
    }
}

/// What stands between two brackets, with a comma between one and the next.
struct Listed<'r, 'de> {
    reader: &'r mut Reader<'de>,
    close: u8,
    /// True at the start and behind a comma.
    open: bool,
}

impl<'de> Reader<'de> {
    fn listed<T>(
        &mut self,
        open: u8,
        close: u8,
        read: impl FnOnce(&mut Listed<'_, 'de>) -> Result<T, Otherwise>,
    ) -> Result<T, Otherwise> {
        self.needs(open)?;
        let read = read(&mut Listed {
            reader: self,
            close,
            open: true,
        })?;
        self.needs(close)?;
        Ok(read)
    }
}

impl<'de> Listed<'_, 'de> {
    fn ends(&mut self) -> Result<bool, Otherwise> {
        let closes = self.reader.next()? == Some(self.close);
        (closes || self.open).then_some(closes).ok_or(Otherwise)
    }

    fn element<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<S::Value, Otherwise> {
        let read = seed.deserialize(&mut *self.reader)?;
        self.open = self.reader.takes(b',')?;
        Ok(read)
    }
}

impl<'de> de::SeqAccess<'de> for &mut Listed<'_, 'de> {
    type Error = Otherwise;

    fn next_element_seed<S: DeserializeSeed<'de>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, Otherwise> {
        match self.ends()? {
            true => Ok(None),
            false => self.element(seed).map(Some),
        }
    }
}

impl<'de> de::MapAccess<'de> for &mut Listed<'_, 'de> {
    type Error = Otherwise;

    fn next_key_seed<S: DeserializeSeed<'de>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, Otherwise> {
        if self.ends()? {
            return Ok(None);
        }
        let key = seed.deserialize(&mut *self.reader)?;
        self.reader.needs(b':')?;
        Ok(Some(key))
    }

    fn next_value_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<S::Value, Otherwise> {
        self.element(seed)
    }
}

#[cfg(test)]
mod tests {
    use super::read;
    use crate::rulebase::schema::{GlossaryFile, KindsFile, SettingsFile};
    use crate::rulebase::schema_clues::CluesFile;
    use crate::rulebase::schema_counted::CountedFile;
    use crate::rulebase::schema_marks::WordingFile;
    use crate::rulebase::schema_words::WordsFile;
    use crate::rulebase::shipped;

    /// Without it the reader could leave everything to ron, and nobody would see more than a slow start.
    #[test]
    fn the_large_files_are_read_here() {
        let mut seen = 0;
        for file in shipped::files() {
            let text = file.text.as_str();
            let plain = match file.name.rsplit('/').next() {
                _ if file.name.starts_with("clues/") => read::<CluesFile>(text).is_some(),
                Some("counted.ron") => read::<CountedFile>(text).is_some(),
                Some("kinds.ron") => read::<KindsFile>(text).is_some(),
                Some("settings.ron") => read::<SettingsFile>(text).is_some(),
                Some("words.ron") => read::<WordsFile>(text).is_some(),
                Some("glossary.ron") => read::<GlossaryFile>(text).is_some(),
                Some("wording.ron") => read::<WordingFile>(text).is_some(),
                _ => continue,
            };
            assert!(plain, "{}", file.name);
            seen += 1;
        }
        assert!(seen >= 13, "{seen}");
    }
}
