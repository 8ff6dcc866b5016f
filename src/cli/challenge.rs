//! `challenge`: a guess put to what was seen.

use std::io::Write;

use anyhow::{Result, anyhow};

use super::args::ChallengeArgs;
use super::judge::{Piece, read_sighting};
use super::{Answer, expert};
use crate::case::expert::Expert;
use crate::case::sighting::Sighting;
use crate::challenge::{Claim, challenge, read};
use crate::report;
use crate::setup::Setup;
use crate::words;

/// Judges the guess and prints; a guess that is ruled out is a "no".
pub fn run(setup: &Setup, args: &ChallengeArgs, out: &mut dyn Write) -> Result<Answer> {
    let expert = expert(setup)?;
    let claim = claim(&expert, &args.guess)?;
    let sighting = match &args.file {
        Some(path) => read_sighting(&expert, path)?,
        None => Sighting::default(),
    };
    let piece = Piece::new(&expert, sighting, &args.seen, expert.base.neutral())?;
    let answer = challenge(&piece.case, claim);
    if args.json {
        writeln!(out, "{}", report::challenge::json(&piece.case, &answer))?;
    } else {
        for line in piece.said() {
            writeln!(out, "{line}")?;
        }
        write!(out, "{}", report::challenge::text(&piece.case, &answer))?;
    }
    Ok(if answer.refuted() {
        Answer::No
    } else {
        Answer::Yes
    })
}

/// Reads a guess, or says why it can't be read.
pub fn claim(expert: &Expert, guess: &str) -> Result<Claim> {
    read(expert, guess)
        .map_err(|problem| anyhow!("GUESS: {}", words::understood::unread(expert, &problem)))
}
