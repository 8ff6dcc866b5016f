//! The command line: one file a command. Prints to the writer it is given; never exits.

mod args;
mod ask;
mod challenge;
mod clean;
mod generate;
mod judge;
mod marks;
mod page_file;
mod prove;
mod rules;

use std::ffi::OsString;
use std::io::Write;
use std::sync::Arc;

use anyhow::{Result, anyhow, bail};
use clap::error::ErrorKind;
use clap::{CommandFactory, Parser};

use crate::piece::expert::Expert;
use crate::rulebase::ids::SettingId;
use crate::rulebase::problem::{Problem, near};
use crate::setup::Setup;
use args::{Command, Line};

/// How a command ended, when it could be carried out at all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Done, or the answer is yes.
    Yes,
    /// Asked, and the answer is no.
    No,
}

/// What to do after the arguments were read.
pub enum NextStep {
    /// Open the screens, in the theme named.
    Screens(Arc<Expert>, Option<String>),
    Done(Outcome),
}

/// Reads the arguments and carries the command out.
///
/// Errors are one line: what, where, what was allowed.
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

/// The expert, or all problems of the rules, a line each.
fn expert(setup: &Setup) -> Result<Arc<Expert>> {
    match setup.expert()? {
        Ok(expert) => Ok(Arc::new(expert)),
        Err(problems) => Err(anyhow!("{}", lines(&problems))),
    }
}

fn lines(problems: &[Problem]) -> String {
    let all: Vec<String> = problems.iter().map(ToString::to_string).collect();
    all.join("\n")
}

/// A setting by id or unique beginning.
fn setting(expert: &Expert, name: &str) -> Result<SettingId> {
    if let Some(at) = expert.base.setting(name) {
        return Ok(at);
    }
    let ids: Vec<&str> = expert.base.settings.iter().map(|s| s.id.as_str()).collect();
    let close = near(name, ids.iter().copied(), 2);
    let shown = crate::piece::notation::printable(name);
    if close.is_empty() {
        bail!("unknown setting '{shown}'; use {}", ids.join(", "));
    }
    bail!("unknown setting '{shown}'; nearest: {}", close.join(", "));
}
