//! The three looks that would tell most, given what was seen.
//!
//! `cargo run --release --example next_looks -- line-make=engraved print-colour=blue`

use std::error::Error;
use std::sync::Arc;

use printseam::{Expert, Piece, SettingId, Year, parse};

fn main() -> Result<(), Box<dyn Error>> {
    let expert = Expert::shipped(Year(2026)).map_err(|problems| problems[0].clone())?;
    let expert = Arc::new(expert);
    let mut piece = Piece::unseen(expert.clone(), SettingId(0));
    for said in std::env::args().skip(1) {
        piece = piece.with(parse(&expert.base, &said)?);
    }
    for look in piece.advice().looks.iter().take(3) {
        let clue = expert.base.clue(look.clue);
        println!(
            "{:.2} bits in {} s: {}",
            look.bits, look.seconds, clue.question
        );
    }
    if piece.advice().stop.is_some() {
        println!("None of them is worth the time any more.");
    }
    Ok(())
}
