//! `challenge`: a guess put to what was seen.

use std::io::Write;

use anyhow::{Result, anyhow};

use super::args::ChallengeArgs;
use super::outcome::{Outcome, expert};
use super::told::{Told, read_sighting};
use crate::claim::{Claim, challenge, read};
use crate::piece::expert::Expert;
use crate::piece::sighting_file::Sighting;
use crate::report;
use crate::say;
use crate::setup::Setup;

/// Judges the guess and prints; a guess that is ruled out is a "no".
pub(super) fn run(setup: &Setup, args: &ChallengeArgs, out: &mut dyn Write) -> Result<Outcome> {
    let expert = expert(setup)?;
    let claim = claim(&expert, &args.guess)?;
    let sighting = match &args.file {
        Some(path) => read_sighting(&expert, path)?,
        None => Sighting::default(),
    };
    let told = Told::new(&expert, &sighting, &args.seen, expert.base.neutral())?;
    let answer = challenge(&told.piece, claim);
    if args.json {
        writeln!(out, "{}", report::challenge::json(&told.piece, &answer))?;
    } else {
        for line in told.lines_with_opinion() {
            writeln!(out, "{line}")?;
        }
        write!(out, "{}", report::challenge::text(&told.piece, &answer))?;
    }
    Ok(if answer.refuted() {
        Outcome::No
    } else {
        Outcome::Yes
    })
}

/// Reads a guess, or says why it can't be read.
pub(super) fn claim(expert: &Expert, guess: &str) -> Result<Claim> {
    read(expert, guess)
        .map_err(|problem| anyhow!("GUESS: {}", say::claim_read::unread(expert, &problem)))
}
