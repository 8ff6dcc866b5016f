//! `judge`: one piece, from a sighting file and the command line together.

use std::io::Write;

use anyhow::{Context, Result};

use super::args::JudgeArgs;
use super::handout;
use super::outcome::{Outcome, expert};
use super::page_file::{self, PageKind};
use super::told::{Told, read_sighting};
use crate::claim::{challenge, evenly};
use crate::piece::sighting_file::Sighting;
use crate::report;
use crate::report::sheet::Sheet;
use crate::rulebase::ids::SettingId;
use crate::setup::Setup;

/// Judges and prints.
pub(super) fn run(setup: &Setup, args: &JudgeArgs, out: &mut dyn Write) -> Result<Outcome> {
    let plan = page_file::plan(args)?;
    let expert = expert(setup)?;
    if let Some((form @ (PageKind::Card | PageKind::Sheet), file)) = &plan.page {
        let pieces = handout::pieces(&expert, &plan.sightings, &args.seen)?;
        let page = match form {
            PageKind::Card => handout::cards(&pieces, args)?,
            _ => handout::lessons(&pieces)?,
        };
        page_file::put_judged(*form, &page, file.as_deref(), args.force, out)?;
        return Ok(Outcome::Yes);
    }
    let sighting = match plan.sightings.first() {
        Some(path) => read_sighting(&expert, path)?,
        None => Sighting::default(),
    };
    let guess = match &args.guess {
        Some(text) => Some(super::challenge::claim(&expert, text)?),
        None => None,
    };
    let told = Told::new(&expert, &sighting, &args.seen, SettingId::default())?;
    if args.json {
        let value = report::json::judged(&told.piece, &told.taken);
        writeln!(out, "{value}")?;
        return Ok(Outcome::Yes);
    }
    // As `challenge` does: each year alike, unless it is said where the piece turned up.
    let said = args.seen.setting.is_some() || sighting.setting.is_some();
    let ground = match said {
        true => told.piece.clone(),
        false => evenly(&told.piece),
    };
    let guess = guess.map(|claim| challenge(&ground, claim));
    let opinion = told.taken.opinion.as_ref();
    if let Some((form, file)) = plan.page {
        let guess = guess.as_ref().map(|g| (&ground, g));
        let sheet = Sheet::beside(&told.piece, &sighting.title, opinion, guess);
        let page = match form {
            PageKind::Markdown => report::markdown::page(&sheet),
            _ => report::html::page(&sheet).context("HTML page")?,
        };
        page_file::put_judged(form, &page, file.as_deref(), args.force, out)?;
        return Ok(Outcome::Yes);
    }
    for line in told.lines() {
        writeln!(out, "{line}")?;
    }
    let text = match args.details {
        true => report::text::details_beside(&told.piece, opinion),
        false => report::text::verdict_beside(&told.piece, opinion),
    };
    write!(out, "{text}")?;
    if let Some(guess) = &guess {
        write!(out, "\n{}", report::challenge::text(&ground, guess))?;
    }
    Ok(Outcome::Yes)
}
