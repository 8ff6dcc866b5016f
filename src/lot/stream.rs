//! Rows in, a block at a time over all cores, answers out in the same order. No more than a block is
//! held at once.

use std::io::{self, Read, Write};
use std::sync::Arc;

use rayon::iter::{IndexedParallelIterator, IntoParallelRefIterator, ParallelIterator};

use super::answers::{Form, Writer};
use super::columns::Columns;
use super::mean_date::MeanDate;
use super::row::{Answer, Decide, Rows, judge};
use crate::core::bulk::Scratch;
use crate::piece::brief::Briefs;
use crate::piece::expert::Expert;
use crate::rulebase::ids::SettingId;

/// Rows judged together: enough to keep the cores busy, few enough to hold (common practice, no
/// source).
const BLOCK: usize = 1024;

/// Rows that one core takes at a time: its room to work in is made once for each (common practice, no source).
const RUN: usize = 64;

/// How a lot went.
#[derive(Clone, Debug, Default)]
pub struct Done {
    pub rows: u64,
    /// Rows with something wrong in them.
    pub problems: u64,
    /// The first of them, a line each with its line number.
    pub first_problems: Vec<String>,
    /// Cells and words that gave way to others of their row, and the first of them by line.
    pub not_counted: u64,
    pub first_not_counted: Vec<String>,
    pub mean_date: MeanDate,
}

/// Problems told by line; the rest stand in the table.
const TOLD: usize = 20;

/// How to judge a lot.
pub struct Lot<'l> {
    pub expert: &'l Arc<Expert>,
    /// Where a row names none.
    pub setting: SettingId,
    pub decide: &'l Decide<'l>,
    pub form: Form,
}

/// A table whose first line was read.
pub struct Table<R> {
    reader: csv::Reader<R>,
    pub columns: Columns,
}

/// Reads the first line.
///
/// # Errors
/// One line: a column that stands twice, or what can't be read.
pub fn open<R: Read>(expert: &Expert, input: R) -> Result<Table<R>, String> {
    let mut reader = csv::ReaderBuilder::new().flexible(true).from_reader(input);
    let header = match reader.headers() {
        Ok(header) => header.clone(),
        Err(e) => return Err(format!("line 1: {}", plain(&e))),
    };
    if header.iter().all(|name| name.trim().is_empty()) {
        return Err("line 1: no columns; the first line names them".to_owned());
    }
    let columns = Columns::new(&expert.base, header.iter())?;
    Ok(Table { reader, columns })
}

/// The library's message for people.
fn plain(error: &csv::Error) -> String {
    match error.kind() {
        csv::ErrorKind::Utf8 { .. } => "not UTF-8 text; save the table as UTF-8".to_owned(),
        _ => error.to_string(),
    }
}

/// Judges all rows. `told` hears how many are done.
///
/// # Errors
/// What can't be read or written.
pub fn run<R: Read>(
    lot: &Lot,
    table: Table<R>,
    out: &mut dyn Write,
    told: &dyn Fn(u64),
) -> io::Result<Done> {
    let Table {
        mut reader,
        columns,
    } = table;
    let mut done = Done::default();
    let mut writer = Writer::new(out, lot.form, &columns)?;
    let briefs = Briefs::new(lot.expert);
    let rows = Rows {
        expert: lot.expert,
        briefs: &briefs,
        columns: &columns,
        setting: lot.setting,
        decide: lot.decide,
    };
    let mut block: Vec<csv::ByteRecord> = Vec::with_capacity(BLOCK);
    loop {
        block.clear();
        for record in reader.byte_records().take(BLOCK) {
            block.push(record.map_err(io::Error::other)?);
        }
        if block.is_empty() {
            break;
        }
        let answers: Vec<Result<Answer, String>> = block
            .par_iter()
            .with_min_len(RUN)
            .map_init(Scratch::default, |scratch, r| judge_row(&rows, r, scratch))
            .collect();
        for (cells, answer) in block.iter().zip(&answers) {
            done.rows += 1;
            let line = cells.position().map_or(0, csv::Position::line);
            match answer {
                Ok(answer) => {
                    done.mean_date.add(answer);
                    for lost in &answer.not_counted {
                        done.not_counted += 1;
                        if done.first_not_counted.len() < TOLD {
                            done.first_not_counted.push(format!("line {line}: {lost}"));
                        }
                    }
                }
                Err(problem) => {
                    done.problems += 1;
                    if done.first_problems.len() < TOLD {
                        done.first_problems.push(format!("line {line}: {problem}"));
                    }
                }
            }
            writer.row((cells, answer))?;
        }
        told(done.rows);
    }
    writer.finish()?;
    Ok(done)
}

fn judge_row(
    rows: &Rows,
    record: &csv::ByteRecord,
    scratch: &mut Scratch,
) -> Result<Answer, String> {
    let cells: Result<Vec<&str>, _> = record.iter().map(std::str::from_utf8).collect();
    let cells = cells.map_err(|_| "not UTF-8 text; save the table as UTF-8".to_owned())?;
    judge(rows, &cells, scratch)
}
