//! The arguments read, and the command they name carried out.

use std::ffi::OsString;
use std::io::Write;
use std::sync::Arc;

use anyhow::{Result, anyhow};
use clap::error::ErrorKind;
use clap::{CommandFactory, Parser};

use super::args::{Command, Line};
use super::outcome::{Outcome, expert};
use super::{ask, challenge, clean, drill, generate, guide, judge, lot, marks, prove, rules};
use crate::piece::expert::Expert;
use crate::setup::Setup;

/// What to do after the arguments were read.
pub enum NextStep {
    /// Open the screens, in the theme named.
    Screens(Arc<Expert>, Option<String>),
    Done(Outcome),
}

/// Reads the arguments and carries the command out.
///
/// # Errors
/// When the command could not be carried out: one line, what, where, what was allowed.
pub fn run(arguments: impl IntoIterator<Item = OsString>, out: &mut dyn Write) -> Result<NextStep> {
    let out: &mut dyn Write = &mut clean::Clean::new(out);
    let line = match Line::try_parse_from(arguments) {
        Ok(line) => line,
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
        None => return Ok(NextStep::Screens(expert(&setup)?, line.theme)),
        Some(Command::Judge(a)) => judge::run(&setup, &a, out)?,
        Some(Command::Ask(a)) => ask::run(&setup, &a, std::io::stdin().lock(), out)?,
        Some(Command::Mark(a)) => marks::mark(&setup, &a, out)?,
        Some(Command::Registered(a)) => marks::registered(&setup, &a, out)?,
        Some(Command::Challenge(a)) => challenge::run(&setup, &a, out)?,
        Some(Command::Prove(a)) => prove::run(&setup, &a, out)?,
        Some(Command::Lot(a)) => lot::run(&setup, &a, out)?,
        Some(Command::Guide(a)) => guide::run(&setup, &a, out)?,
        Some(Command::Drill(a)) => drill::run(&setup, &a, std::io::stdin().lock(), out)?,
        Some(Command::Rules(a)) => rules::run(&setup, &a, out)?,
        Some(Command::Generate(a)) => generate::run(&a, out)?,
    };
    Ok(NextStep::Done(answer))
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
