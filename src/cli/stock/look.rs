//! `stock list`, `stock today` and `stock show`.

use std::collections::BTreeMap;
use std::io::Write;

use anyhow::Result;

use super::args::ListArgs;
use super::desk::{Desk, amount};
use crate::buy::{Currency, Money};
use crate::cli::outcome::Outcome;
use crate::stock::entry::Stage;
use crate::stock::find::{Query, Sort};
use crate::stock::store::Store;
use crate::stock::{objects, words};

pub(super) fn list(desk: &mut Desk, args: &ListArgs, out: &mut dyn Write) -> Result<Outcome> {
    let stages = [
        (args.held, Stage::Held),
        (args.sold, Stage::Sold),
        (args.drafts, Stage::Draft),
    ];
    let query = Query {
        words: args.words.join(" "),
        stages: stages
            .into_iter()
            .filter(|(asked, _)| *asked)
            .map(|(_, s)| s)
            .collect(),
        kind: args.kind.clone().unwrap_or_default(),
        channel: args.channel.clone().unwrap_or_default(),
        sort: args
            .sort
            .as_deref()
            .and_then(Sort::named)
            .unwrap_or(Sort::Added),
        descending: args.descending,
        take: args.limit.unwrap_or(usize::MAX),
        ..Query::default()
    };
    let listing = desk.book.list(&query)?;
    if args.json {
        writeln!(out, "{}", objects::listing(&listing))?;
        return Ok(Outcome::Yes);
    }
    for line in words::listing(&desk.expert.base, &listing) {
        writeln!(out, "{line}")?;
    }
    Ok(Outcome::Yes)
}

/// What was entered today, in order, with a running total a currency.
pub(super) fn today(desk: &mut Desk, budget: Option<&str>, out: &mut dyn Write) -> Result<Outcome> {
    let budget = match budget {
        Some(text) => Some(amount("--budget", text, Currency::default())?),
        None => None,
    };
    let query = Query {
        added_on: Some(desk.today),
        ..Query::default()
    };
    let listing = desk.book.list(&query)?;
    if listing.lines.is_empty() {
        writeln!(out, "Nothing was entered on {}.", desk.today)?;
    }
    let mut spent: BTreeMap<Currency, i64> = BTreeMap::new();
    for (i, line) in listing.lines.iter().enumerate() {
        write!(out, "{}. {}", i + 1, words::line(&desk.expert.base, line))?;
        if let Some(decided) = &line.decision {
            let said = words::decision(decided, line.currency);
            write!(out, "; decided: {said}")?;
        }
        if let Some(paid) = line.paid.filter(|_| line.stage != Stage::Draft) {
            let sum = spent.entry(line.currency).or_default();
            *sum += paid;
            let so_far = Money {
                minor: *sum,
                currency: line.currency,
            };
            write!(out, "; {so_far} spent so far")?;
            if let Some(budget) = budget.filter(|b| b.currency == line.currency) {
                let left = budget.minor - *sum;
                let left = Money {
                    minor: left.abs(),
                    ..budget
                };
                let word = if *sum > budget.minor { "over" } else { "left" };
                write!(out, ", {left} {word}")?;
            }
        }
        writeln!(out)?;
    }
    if let Some(budget) = budget {
        let sum = spent.get(&budget.currency).copied().unwrap_or(0);
        let left = Money {
            minor: budget.minor - sum,
            ..budget
        };
        match left.minor < 0 {
            true => {
                let over = Money {
                    minor: -left.minor,
                    ..left
                };
                writeln!(out, "{over} over the budget of {budget}.")?;
            }
            false => writeln!(out, "{left} left of {budget}.")?,
        }
    }
    Ok(Outcome::Yes)
}

pub(super) fn show(desk: &mut Desk, id: &str, json: bool, out: &mut dyn Write) -> Result<Outcome> {
    let held = desk.find(id)?;
    if json {
        writeln!(out, "{}", objects::one(&held.entry))?;
        return Ok(Outcome::Yes);
    }
    for line in words::page(&desk.expert.base, &held) {
        writeln!(out, "{line}")?;
    }
    Ok(Outcome::Yes)
}
