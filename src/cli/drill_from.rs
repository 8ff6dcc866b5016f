//! Pieces to be asked that somebody has written down: a table of known pieces, or the stock book.

use std::path::Path;
use std::sync::Arc;

use anyhow::{Context, Result, anyhow, bail};

use super::args::DrillArgs;
use super::learners;
use crate::core::grid::Year;
use crate::learn::recorded::{Recorded, Truth};
use crate::piece::expert::Expert;
use crate::prove::cases::{self, Known};
use crate::rulebase::RuleBase;
use crate::setup::read::read_table;
use crate::stock::again;
use crate::stock::entry::{Entry, TurnedOut};
use crate::stock::store::Store;

/// Fewest findings of a piece that is worth asking (common practice, no source).
const LEAST: usize = 3;

/// The word for the stock book where a file could stand.
const STOCK: &str = "stock";

/// The pieces of a file, or of the stock book, that are worth asking.
pub(super) fn pieces(expert: &Arc<Expert>, args: &DrillArgs, from: &Path) -> Result<Vec<Recorded>> {
    let all = match from == Path::new(STOCK) {
        true => of_stock(expert, args)?,
        false => of_table(expert, from)?,
    };
    let worth: Vec<Recorded> = all
        .into_iter()
        .filter(|p| p.seen.observations().len() >= LEAST)
        .collect();
    if worth.is_empty() {
        bail!(
            "--from {}: no piece with {LEAST} findings or more",
            from.display()
        );
    }
    Ok(worth)
}

fn of_table(expert: &Expert, file: &Path) -> Result<Vec<Recorded>> {
    let table = read_table(file)?;
    let known = cases::read(expert, expert.base.neutral(), table.as_slice());
    let shown = file.display();
    let known = known.map_err(|problems| match problems.as_slice() {
        [] => anyhow!("{shown}: not understood"),
        [first] => anyhow!("{shown}: {first}"),
        [first, rest @ ..] => anyhow!("{shown}: {first}; and {} more problems", rest.len()),
    })?;
    Ok(known.into_iter().map(of_known).collect())
}

fn of_known(known: Known) -> Recorded {
    Recorded {
        title: known.id,
        photos: Vec::new(),
        seen: known.evidence,
        truth: Truth {
            kind: known.kind,
            place: known.place,
            years: Some((known.from, known.to)),
        },
    }
}

/// Entries as they would be judged today, those taken out of the book left aside.
fn of_stock(expert: &Arc<Expert>, args: &DrillArgs) -> Result<Vec<Recorded>> {
    let held = learners::open(args)?.all()?;
    let there = held.into_iter().filter(|h| h.removed_on.is_none());
    there.map(|h| of_entry(expert, &h.entry)).collect()
}

fn of_entry(expert: &Arc<Expert>, entry: &Entry) -> Result<Recorded> {
    let judged = again::judge(expert, entry).with_context(|| entry.id.to_string())?;
    let turned_out = entry.turned_out.as_ref();
    Ok(Recorded {
        title: match entry.title.as_str() {
            "" => entry.id.to_string(),
            title => title.to_owned(),
        },
        photos: entry.photos.clone(),
        seen: judged.piece.evidence().clone(),
        truth: turned_out.map_or(Truth::default(), |t| truth(&expert.base, t)),
    })
}

fn truth(base: &RuleBase, turned: &TurnedOut) -> Truth {
    let ends = (turned.from.or(turned.to), turned.to.or(turned.from));
    Truth {
        kind: base.kind_id(&turned.kind),
        place: None,
        years: match ends {
            (Some(from), Some(to)) => Some((Year(from), Year(to))),
            _ => None,
        },
    }
}
