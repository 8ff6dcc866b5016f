//! The arguments read, and the command they name carried out.

use std::ffi::OsString;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use anyhow::{Result, anyhow, bail};
use clap::error::ErrorKind;
use clap::{CommandFactory, Parser};

use super::args::{Command, Line};
use super::outcome::{Outcome, expert};
use super::seen_args::SeenArgs;
use super::told::{Told, read_sighting};
use super::{
    ask, challenge, clean, doctor, drill, generate, guide, judge, lot, marks, prove, rules, shelf,
};
use crate::learn::round::Sitting;
use crate::piece::expert::Expert;
use crate::piece::intake::Taken;
use crate::rulebase::RuleBase;
use crate::rulebase::ids::SettingId;
use crate::setup::Setup;

/// What to do after the arguments were read.
pub enum NextStep {
    /// Open the screens, in the theme named.
    Screens(Arc<Expert>, Option<String>, Beginning),
    Done(Outcome),
}

/// What the screens begin with.
pub enum Beginning {
    Welcome,
    Sighting(Box<Opened>),
    /// A drill, with the stock book named.
    Drill(Sitting, Option<PathBuf>),
}

/// What a sighting file told.
pub struct Opened {
    pub setting: SettingId,
    pub taken: Taken,
}

/// Reads the arguments and carries the command out.
///
/// # Errors
/// When the command could not be carried out: one line, what, where, what was allowed.
pub fn run(arguments: impl IntoIterator<Item = OsString>, out: &mut dyn Write) -> Result<NextStep> {
    let out: &mut dyn Write = &mut clean::Clean::new(out);
    let line = match Line::try_parse_from(arguments) {
        Ok(line) => line,
        Err(e) if e.kind() == ErrorKind::DisplayVersion => {
            let rules = RuleBase::shipped_version();
            writeln!(out, "{} (rules {rules})", e.render().to_string().trim())?;
            return Ok(NextStep::Done(Outcome::Yes));
        }
        Err(e) if !e.use_stderr() => {
            write!(out, "{}", e.render())?;
            return Ok(NextStep::Done(Outcome::Yes));
        }
        Err(e) => return Err(one_line(&e)),
    };
    let setup = Setup {
        rules: line.rules,
        now: line.now,
    };
    let answer = match line.command {
        None => {
            let expert = expert(&setup)?;
            let beginning = match line.file {
                Some(file) => Beginning::Sighting(Box::new(opened(&expert, &file)?)),
                None => Beginning::Welcome,
            };
            return Ok(NextStep::Screens(expert, line.theme, beginning));
        }
        Some(_) if line.file.is_some() => bail!(
            "a sighting file opens on the screens, without a command; name it after the command to \
             have it judged"
        ),
        Some(Command::Judge(a)) => judge::run(&setup, &a, out)?,
        Some(Command::Ask(a)) => ask::run(&setup, &a, std::io::stdin().lock(), out)?,
        Some(Command::Mark(a)) => marks::mark(&setup, &a, out)?,
        Some(Command::Registered(a)) => marks::registered(&setup, &a, out)?,
        Some(Command::Challenge(a)) => challenge::run(&setup, &a, out)?,
        Some(Command::Shelf(a)) => shelf::run(&setup, &a, out)?,
        Some(Command::Prove(a)) => prove::run(&setup, &a, out)?,
        Some(Command::Lot(a)) => lot::run(&setup, &a, out)?,
        Some(Command::Guide(a)) => guide::run(&setup, &a, out)?,
        #[cfg(feature = "stock")]
        Some(Command::Stock(a)) => super::stock::run(&setup, &a, out)?,
        Some(Command::Drill(a)) => match drill::run(&setup, &a, std::io::stdin().lock(), out)? {
            drill::Leads::Done(outcome) => outcome,
            drill::Leads::Screens(expert, sitting, stock) => {
                let beginning = Beginning::Drill(sitting, stock);
                return Ok(NextStep::Screens(expert, line.theme, beginning));
            }
        },
        Some(Command::Rules(a)) => rules::run(&setup, &a, out)?,
        Some(Command::Generate(a)) => generate::run(&setup, &a, out)?,
        Some(Command::Doctor) => doctor::run(&setup, out)?,
    };
    Ok(NextStep::Done(answer))
}

/// A sighting file for the screens.
fn opened(expert: &Arc<Expert>, file: &Path) -> Result<Opened> {
    let sighting = read_sighting(expert, file)?;
    let told = Told::new(
        expert,
        &sighting,
        &SeenArgs::default(),
        SettingId::default(),
    )?;
    Ok(Opened {
        setting: told.piece.setting(),
        taken: told.taken,
    })
}

/// clap's message without its usage block: what was wrong and what was allowed, in one line.
fn one_line(e: &clap::Error) -> anyhow::Error {
    let text = e.render().to_string();
    let mut said = String::new();
    for line in text.lines().map(str::trim).filter(|l| {
        !l.is_empty()
            && !["Usage", "For more", "tip: to pass"]
                .iter()
                .any(|w| l.starts_with(w))
    }) {
        // After a colon comes what it announces, else another remark.
        said += match said.chars().last() {
            None => "",
            Some(':') => " ",
            Some(_) => "; ",
        };
        said += line;
    }
    // What a value parser says of a command that is none says all.
    if let Some((_, all)) = said.split_once("for '[FILE.ron]': ") {
        return anyhow!("{all}");
    }
    let known = match e.kind() {
        ErrorKind::InvalidSubcommand if !said.contains("; tip") => {
            let names: Vec<String> = Line::command()
                .get_subcommands()
                .map(|c| c.get_name().to_owned())
                .collect();
            format!("; use {}", names.join(", "))
        }
        ErrorKind::UnknownArgument if !said.contains("; tip") => {
            "; --help after the command lists what it takes".to_owned()
        }
        _ => String::new(),
    };
    anyhow!("{}{known}", said.trim_start_matches("error: "))
}
