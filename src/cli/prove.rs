//! `prove`: how right and how rightly sure, on pieces with known dates.

use std::io::Write;

use anyhow::{Result, bail};

use super::args::ProveArgs;
use super::faults::Faults;
use super::outcome::{Outcome, expert, progress, setting, setting_of_known};
use crate::prove::{self, Parts};
use crate::setup::Setup;
use crate::setup::read::read_table;

/// Judges all cases and prints the measures.
pub(super) fn run(setup: &Setup, args: &ProveArgs, out: &mut dyn Write) -> Result<Outcome> {
    let expert = expert(setup)?;
    let setting = match &args.setting {
        None => setting_of_known(&expert),
        Some(named) => setting(&expert, named)?,
    };
    let (mut cases, mut read_from) = (Vec::new(), Vec::new());
    for (shown, table) in tables(setup, args)? {
        let read = prove::cases::read(&expert, setting, table.as_slice())
            .map_err(|problems| Faults::of_table(&shown, &problems))?;
        cases.extend(read);
        read_from.push(shown);
    }
    if args.count {
        let found = prove::counts::fit(&expert, &cases, &progress);
        write!(
            out,
            "{}",
            prove::counts::written(&expert, &read_from, &found)
        )?;
        return Ok(Outcome::Yes);
    }
    let parts = Parts {
        by_clue: args.by_clue,
        drawn: args.drawn,
        economy: args.economy,
        fit: args.fit,
        doubt: args.doubt,
        counts: args.counts,
    };
    let report = prove::report(&expert, cases, parts, &progress);
    if args.json {
        writeln!(out, "{}", prove::json::json(&expert, &report))?;
    } else {
        write!(out, "{}", prove::text::text(&expert, &report))?;
    }
    Ok(Outcome::Yes)
}

/// The tables of cases, and what they are called: files, or what is known of the stock book's own
/// pieces.
fn tables(setup: &Setup, args: &ProveArgs) -> Result<Vec<(String, Vec<u8>)>> {
    #[cfg(feature = "stock")]
    if let Some(book) = &args.stock {
        let known = super::stock::known_pieces(setup, book.as_deref())?;
        return Ok(vec![("stock book".to_owned(), known.into_bytes())]);
    }
    let _ = setup;
    if args.cases.is_empty() {
        bail!("name a table of known pieces; printseam prove --help tells its columns");
    }
    let read = |path: &std::path::PathBuf| Ok((path.display().to_string(), read_table(path)?));
    args.cases.iter().map(read).collect()
}
