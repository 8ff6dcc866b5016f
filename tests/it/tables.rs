//! The tables of `tests/data` that published sources gave, as tests read them.

use std::path::Path;

use csv::{ReaderBuilder, StringRecord};

/// A table of `tests/data`, a row at a time, fields by name. Lines that begin with `#` are remarks.
pub struct Table {
    heads: StringRecord,
    rows: Vec<StringRecord>,
}

/// One row.
pub struct Row<'a>(&'a StringRecord, &'a StringRecord);

pub fn table(name: &str) -> Table {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests")
        .join(name);
    let mut reader = ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_path(path)
        .unwrap();
    Table {
        heads: reader.headers().unwrap().clone(),
        rows: reader.records().map(Result::unwrap).collect(),
    }
}

impl Table {
    pub fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.rows.iter().map(|row| Row(&self.heads, row))
    }
}

impl<'a> Row<'a> {
    pub fn text(&self, head: &str) -> &'a str {
        let at = self.0.iter().position(|h| h == head);
        &self.1[at.unwrap_or_else(|| panic!("no column {head}"))]
    }

    /// `None` for an empty field.
    pub fn number(&self, head: &str) -> Option<f64> {
        let text = self.text(head);
        (!text.is_empty()).then(|| text.parse().unwrap())
    }

    pub fn year(&self, head: &str) -> Option<i16> {
        let text = self.text(head);
        (!text.is_empty()).then(|| text.parse().unwrap())
    }
}
