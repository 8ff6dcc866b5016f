//! Answers written as a table or as JSON, a row for each row in.

use std::io::{self, Write};

use serde_json::{Map, Value, json};

use super::columns::{ANSWERS, Columns};
use super::row::Answer;

/// What the answers are written as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Form {
    Csv,
    /// One array, an object a line.
    Json,
}

/// Writes rows as they come.
pub struct Writer<'w, W: Write> {
    columns: &'w Columns,
    out: Out<W>,
    rows: u64,
}

enum Out<W: Write> {
    Csv(Box<csv::Writer<W>>),
    Json(W),
}

/// A row as it came in, and what became of it.
pub type Judged<'r> = (&'r csv::ByteRecord, &'r Result<Answer, String>);

impl<'w, W: Write> Writer<'w, W> {
    /// Begins with the first line.
    ///
    /// # Errors
    /// Those of `out`.
    pub fn new(out: W, form: Form, columns: &'w Columns) -> io::Result<Writer<'w, W>> {
        let out = match form {
            Form::Csv => {
                let builder = &mut csv::WriterBuilder::new();
                let mut csv = Box::new(builder.flexible(true).from_writer(out));
                let names = columns.names.iter().map(String::as_str);
                csv.write_record(names.chain(ANSWERS)).map_err(of_output)?;
                Out::Csv(csv)
            }
            Form::Json => {
                let mut out = out;
                out.write_all(b"[")?;
                Out::Json(out)
            }
        };
        Ok(Writer {
            columns,
            out,
            rows: 0,
        })
    }

    /// One row.
    ///
    /// # Errors
    /// Those of `out`.
    pub fn row(&mut self, (cells, answer): Judged) -> io::Result<()> {
        self.rows += 1;
        match &mut self.out {
            Out::Csv(out) => csv_row(out, self.columns, cells, answer),
            Out::Json(out) => {
                let comma: &[u8] = if self.rows == 1 { b"\n" } else { b",\n" };
                out.write_all(comma)?;
                serde_json::to_writer(out, &object(self.columns, cells, answer))?;
                Ok(())
            }
        }
    }

    /// Ends.
    ///
    /// # Errors
    /// Those of `out`.
    pub fn finish(mut self) -> io::Result<()> {
        match &mut self.out {
            Out::Csv(out) => out.flush(),
            Out::Json(out) => {
                out.write_all(b"\n]\n")?;
                out.flush()
            }
        }
    }
}

/// What the output said, and not a table's words for it: that a reader went away is to be known again.
fn of_output(e: csv::Error) -> io::Error {
    match e.into_kind() {
        csv::ErrorKind::Io(e) => e,
        other => io::Error::other(format!("{other:?}")),
    }
}

fn csv_row<W: Write>(
    out: &mut csv::Writer<W>,
    columns: &Columns,
    cells: &csv::ByteRecord,
    answer: &Result<Answer, String>,
) -> io::Result<()> {
    let width = columns.names.len();
    for at in 0..width {
        out.write_field(cells.get(at).unwrap_or_default())
            .map_err(of_output)?;
    }
    let fields = match answer {
        Ok(a) => [
            a.kind.clone(),
            format!("{:.4}", a.kind_p),
            a.from.to_string(),
            a.to.to_string(),
            a.median.to_string(),
            a.edtf.clone(),
            format!("{:.0}", a.rarity),
            a.at_odds.join("; "),
            a.money.advice.clone(),
            a.money.most_to_pay.clone(),
            String::new(),
        ],
        Err(problem) => {
            let mut fields: [String; ANSWERS.len()] = Default::default();
            fields[ANSWERS.len() - 1].clone_from(problem);
            fields
        }
    };
    out.write_record(&fields).map_err(of_output)?;
    Ok(())
}

fn object(columns: &Columns, cells: &csv::ByteRecord, answer: &Result<Answer, String>) -> Value {
    let mut object = Map::new();
    for (name, cell) in columns.names.iter().zip(cells) {
        object.insert(name.clone(), String::from_utf8_lossy(cell).into());
    }
    let values: [Value; ANSWERS.len()] = match answer {
        Ok(a) => [
            json!(a.kind),
            json!((a.kind_p * 1e4).round() / 1e4),
            json!(a.from),
            json!(a.to),
            json!(a.median),
            json!(a.edtf),
            json!(a.rarity),
            json!(a.at_odds),
            json!(a.money.advice),
            json!(a.money.most_to_pay),
            Value::Null,
        ],
        Err(problem) => {
            let mut values: [Value; ANSWERS.len()] = Default::default();
            values[ANSWERS.len() - 1] = json!(problem);
            values
        }
    };
    for (name, value) in ANSWERS.iter().zip(values) {
        object.insert((*name).to_owned(), value);
    }
    Value::Object(object)
}
