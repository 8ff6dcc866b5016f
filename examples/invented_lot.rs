//! Prints an invented table for `printseam lot`: a column for each clue, twelve findings a row.
//!
//! `cargo run --release --example invented_lot -- 1000000 | printseam lot - > answers.csv`; a second word
//! `random` draws findings without sense, a third `asking` adds what is asked for each piece.

use std::error::Error;
use std::io::{BufWriter, Write, stdout};

use printseam::{Expert, Year};

#[path = "../benches/invented_rows.rs"]
mod invented_rows;
use invented_rows::{Rows, table};

/// Rows made at a time.
const SOME: u64 = 1000;

fn main() -> Result<(), Box<dyn Error>> {
    let mut words = std::env::args().skip(1);
    let count: u64 = words.next().unwrap_or("1000".to_owned()).parse()?;
    let words: Vec<String> = words.collect();
    let said = |word: &str| words.iter().any(|w| w == word);
    let rows = match said("random") {
        true => Rows::Random,
        false => Rows::Drawn,
    };
    let expert = Expert::shipped(Year(2026)).map_err(|problems| problems[0].clone())?;
    let mut out = BufWriter::new(stdout().lock());
    for from in (0..count).step_by(SOME as usize) {
        let text = table(
            &expert,
            rows,
            (from, count.min(from + SOME)),
            said("asking"),
        );
        let first = text.find('\n').map_or(0, |end| end + 1);
        // One first line is enough.
        out.write_all(&text.as_bytes()[if from == 0 { 0 } else { first }..])?;
    }
    out.flush()?;
    Ok(())
}
