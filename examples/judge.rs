//! Judges one piece from a line of notes and, if given, what stands on its back.
//!
//! `cargo run --release --example judge -- "dark blue willow, clouded edges" "ENGLAND"`

use std::error::Error;
use std::sync::Arc;

use printseam::{Expert, Piece, SettingId, Told, Year, intake, verdict_text};

fn main() -> Result<(), Box<dyn Error>> {
    let mut words = std::env::args().skip(1);
    let notes = words.next().unwrap_or_default();
    let mark = words.next().unwrap_or_default();
    let expert = Expert::shipped(Year(2026)).map_err(|problems| problems[0].clone())?;
    let expert = Arc::new(expert);
    let told = Told {
        notes: &notes,
        mark: &mark,
        ..Told::default()
    };
    let taken = intake(&expert, &told)?;
    for left in &taken.not_understood {
        eprintln!("not understood: {}", left.text);
    }
    let piece = Piece::new(expert, SettingId(0), taken.evidence);
    println!("{}", verdict_text(&piece));
    Ok(())
}
