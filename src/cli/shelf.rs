//! `shelf`: buy it, offer less, leave it, or look again.

use std::io::Write;

use anyhow::{Result, anyhow};

use super::args::ShelfArgs;
use super::outcome::{Outcome, expert};
use super::prices::Prices;
use super::told::{Told, read_sighting};
use crate::buy::Money;
use crate::piece::sighting_file::Sighting;
use crate::report;
use crate::rulebase::ids::SettingId;
use crate::setup::Setup;

/// Weighs the piece against what is asked, and prints.
pub(super) fn run(setup: &Setup, args: &ShelfArgs, out: &mut dyn Write) -> Result<Outcome> {
    let expert = expert(setup)?;
    let prices = Prices::open(&expert, &args.prices)?;
    let asking = Money::read_in(&args.asking, prices.terms.currency)
        .map_err(|e| anyhow!("--asking: {e}"))?;
    let sighting = match &args.file {
        Some(path) => read_sighting(&expert, path)?,
        None => Sighting::default(),
    };
    let told = Told::new(&expert, &sighting, &args.seen, SettingId::default())?;
    let listed = args.condition.as_deref().unwrap_or_default();
    let (piece, answer) = prices
        .weigh(&told.piece, listed, asking)
        .map_err(|e| anyhow!("--condition: {e}"))?;
    if args.json {
        writeln!(out, "{}", report::shelf::json(&piece, &answer))?;
        return Ok(Outcome::Yes);
    }
    for line in told.lines() {
        writeln!(out, "{line}")?;
    }
    write!(out, "{}", report::shelf::text(&piece, &answer))?;
    Ok(Outcome::Yes)
}
