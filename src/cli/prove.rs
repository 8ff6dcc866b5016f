//! `prove`: how right and how rightly sure, on pieces with known dates.

use std::io::{IsTerminal, Write};

use anyhow::{Result, anyhow, bail};

use super::args::ProveArgs;
use super::outcome::{Outcome, expert, setting};
use crate::prove::{self, Parts};
use crate::setup::Setup;
use crate::setup::read::read_table;

/// Judges all cases and prints the measures.
pub(super) fn run(setup: &Setup, args: &ProveArgs, out: &mut dyn Write) -> Result<Outcome> {
    let expert = expert(setup)?;
    let setting = match &args.setting {
        None => expert.base.setting("museum-drawer").unwrap_or_default(),
        Some(named) => setting(&expert, named)?,
    };
    let (shown, table) = table(setup, args)?;
    let cases = prove::cases::read(&expert, setting, table.as_slice())
        .map_err(|problems| anyhow!("{shown}: {}", problems.join(&format!("\n{shown}: "))))?;
    let bar = std::io::stderr().is_terminal();
    let progress = |what: &str, done: usize, of: usize| {
        if bar && (done.is_multiple_of(10) || done == of) {
            let end = if done == of { "\n" } else { "" };
            // A progress line that can't be written is no reason to stop.
            let _ = write!(std::io::stderr(), "\r{what} {done} of {of}{end}");
        }
    };
    let parts = Parts {
        by_clue: args.by_clue,
        economy: args.economy,
        fit: args.fit,
    };
    let report = prove::report(&expert, cases, parts, &progress);
    if args.json {
        writeln!(out, "{}", prove::json::json(&expert, &report))?;
    } else {
        write!(out, "{}", prove::text::text(&expert, &report))?;
    }
    Ok(Outcome::Yes)
}

/// The cases, and what they are called: a file, or what is known of the stock book's own pieces.
fn table(setup: &Setup, args: &ProveArgs) -> Result<(String, Vec<u8>)> {
    if let Some(file) = &args.cases {
        return Ok((file.display().to_string(), read_table(file)?));
    }
    #[cfg(feature = "stock")]
    if let Some(file) = &args.stock {
        let known = super::stock::known_pieces(setup, file.as_deref())?;
        return Ok(("stock book".to_owned(), known.into_bytes()));
    }
    let _ = setup;
    bail!("name a table of known pieces; printseam prove --help tells its columns")
}
