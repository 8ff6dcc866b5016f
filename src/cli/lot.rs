//! `lot`: a whole table of pieces.

use std::fs::File;
use std::io::{self, BufWriter, IsTerminal, Read, Write};
use std::path::Path;

use anyhow::{Context, Result, anyhow, bail};

use super::args::LotArgs;
use super::outcome::{Outcome, expert, setting};
use super::prices::Prices;
use crate::buy::Money;
use crate::core::interval::{Band, quantile};
use crate::lot::answers::Form;
use crate::lot::columns::Column;
use crate::lot::row::Decision;
use crate::lot::stream::{self, Done, Lot};
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::piece::judgement::SHARE;
use crate::say::shelf::advice_id;
use crate::setup::Setup;
use crate::setup::write::{Over, write_with};

/// Judges the table row by row.
pub(super) fn run(setup: &Setup, args: &LotArgs, out: &mut dyn Write) -> Result<Outcome> {
    let expert = expert(setup)?;
    let chosen = match &args.setting {
        Some(named) => setting(&expert, named)?,
        None => crate::rulebase::ids::SettingId::default(),
    };
    let shown = args.table.display().to_string();
    let pipe = Path::new("-");
    let input: Box<dyn Read> = match args.table == pipe {
        true => Box::new(io::stdin().lock()),
        false => {
            let file = File::open(&args.table);
            Box::new(file.with_context(|| format!("{shown}: can't be read"))?)
        }
    };
    let to = args.out.as_deref().unwrap_or(pipe);
    let form = match to.extension().and_then(|e| e.to_str()) {
        Some(e) if e.eq_ignore_ascii_case("json") => Form::Json,
        Some(e) if e.eq_ignore_ascii_case("csv") => Form::Csv,
        None if to == pipe && args.json => Form::Json,
        None if to == pipe => Form::Csv,
        _ => bail!("{}: name a .csv or .json file, or -", to.display()),
    };
    let table = stream::open(&expert, input).map_err(|e| anyhow!("{shown}: {e}"))?;
    for warning in &table.columns.warnings {
        aside(&format!("{shown}: {warning}"));
    }
    // Only where something is asked does anybody need prices.
    let asked = table.columns.holds.contains(&Column::Asking);
    let prices = match asked && expert.base.prices.is_some() {
        true => Some(Prices::open(&expert, &args.prices)?),
        false => None,
    };
    let decide = |piece: &Piece, asking: &str, listed: &str| {
        decision(prices.as_ref(), piece, asking, listed)
    };
    let lot = Lot {
        expert: &expert,
        setting: chosen,
        decide: &decide,
        form,
    };
    let bar = io::stderr().is_terminal();
    let told = |rows: u64| {
        if bar {
            // A progress line that can't be written is no reason to stop.
            let _ = write!(io::stderr(), "\r{rows} rows judged");
        }
    };
    let done = if to == pipe {
        match io::stdout().is_terminal() {
            // Past the cleaner of what a terminal shows: a table goes out as it came in.
            false => stream::run(&lot, table, &mut BufWriter::new(io::stdout().lock()), &told)?,
            true => stream::run(&lot, table, out, &told)?,
        }
    } else {
        let over = match args.force {
            true => Over::Any,
            false => Over::Ours(&ours),
        };
        let mut done = Done::default();
        write_with(to, over, |file| {
            done = stream::run(&lot, table, file, &told)?;
            Ok(())
        })?;
        done
    };
    if bar && done.rows > 0 {
        aside("");
    }
    for line in summary(&expert, &shown, &done) {
        aside(&line);
    }
    Ok(match done.problems {
        0 => Outcome::Yes,
        _ => Outcome::No,
    })
}

/// What `shelf` says of a piece; nothing where nothing is asked.
fn decision(
    prices: Option<&Prices>,
    piece: &Piece,
    asking: &str,
    listed: &str,
) -> Result<Decision, String> {
    let prices = prices.ok_or("these rules have no market.ron: nothing can be priced")?;
    let asking =
        Money::read_in(asking, prices.terms.currency).map_err(|e| format!("asking: {e}"))?;
    let gist = prices
        .gist(piece, listed, asking)
        .map_err(|e| format!("condition: {e}"))?;
    Ok(Decision {
        advice: advice_id(gist.advice).to_owned(),
        most_to_pay: gist.most_to_pay.amount(),
    })
}

/// A line beside the answers. One that can't be written is no reason to stop.
fn aside(line: &str) {
    let _ = writeln!(super::clean::Clean::new(&mut io::stderr()), "{line}");
}

/// A table of answers that this program wrote begins with a line that ends as ours do.
fn ours(text: &str) -> bool {
    let first = text.lines().next().unwrap_or_default();
    first.ends_with(&crate::lot::columns::ANSWERS.join(",")) || text.starts_with("[\n{")
}

/// How it went and how old the lot is, for standard error.
fn summary(expert: &Expert, shown: &str, done: &Done) -> Vec<String> {
    let mut out: Vec<String> = done
        .first_problems
        .iter()
        .map(|p| format!("{shown}: {p}"))
        .collect();
    let rest = done.problems - done.first_problems.len() as u64;
    if rest > 0 {
        out.push(format!(
            "{shown}: {rest} more rows have a problem; see the column problem"
        ));
    }
    let not_counted = done.first_not_counted.iter();
    out.extend(not_counted.map(|p| format!("{shown}: {p}")));
    let rest = done.not_counted - done.first_not_counted.len() as u64;
    if rest > 0 {
        out.push(format!("{shown}: {rest} more findings do not count"));
    }
    out.push(format!(
        "{} rows, {} with a problem",
        done.rows, done.problems
    ));
    let Some(south) = done.mean_date.south() else {
        return out;
    };
    let grid = &expert.engine().model.grid;
    let pooled = done.mean_date.pooled();
    let band = Band::shortest(&pooled, grid, SHARE);
    out.push(format!(
        "Mean date of the lot: {south:.0} by South's formula (middle of each piece's years); all chances \
         together have their middle year at {} and 80 % between {} and {}. Both date the lot, not a piece, \
         and both believe the setting.",
        quantile(&pooled, grid, 0.5).0,
        band.from.0,
        band.to.0
    ));
    out
}
