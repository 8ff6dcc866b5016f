//! `generate`: manual page and shell completions, from the same definition as the arguments, and a
//! settings file from the rules.

use std::io::Write;

use anyhow::{Result, bail};
use clap::{Command, CommandFactory};
use clap_complete::Shell;
use clap_mangen::Man;

use super::args::{GenerateArgs, Generated, Line};
use super::outcome::{Outcome, expert};
use crate::setup::Setup;
use crate::setup::settings::template;

/// Writes what was asked for.
pub(super) fn run(setup: &Setup, args: &GenerateArgs, out: &mut dyn Write) -> Result<Outcome> {
    let mut command = Line::command();
    let shell = match args.what {
        Generated::Man => {
            man(command, out)?;
            return Ok(Outcome::Yes);
        }
        Generated::Settings => {
            let expert = expert(setup)?;
            let Some(guesses) = &expert.base.prices else {
                bail!("these rules have no market.ron to take the usual terms from");
            };
            write!(out, "{}", template(guesses))?;
            return Ok(Outcome::Yes);
        }
        Generated::Bash => Shell::Bash,
        Generated::Zsh => Shell::Zsh,
        Generated::Fish => Shell::Fish,
    };
    let mut text = Vec::new();
    clap_complete::generate(shell, &mut command, "printseam", &mut text);
    out.write_all(&text)?;
    Ok(Outcome::Yes)
}

/// One page for everything: the program's own sections, then a section a command.
fn man(mut command: Command, out: &mut dyn Write) -> Result<()> {
    command.build();
    let page = Man::new(command.clone());
    let mut text = Vec::new();
    page.render_title(&mut text)?;
    page.render_name_section(&mut text)?;
    page.render_synopsis_section(&mut text)?;
    page.render_description_section(&mut text)?;
    page.render_options_section(&mut text)?;
    sections(&command, &mut text)?;
    page.render_version_section(&mut text)?;
    out.write_all(&text)?;
    Ok(())
}

/// The commands below `command`, and theirs below them.
fn sections(command: &Command, text: &mut Vec<u8>) -> Result<()> {
    for below in command
        .get_subcommands()
        .filter(|c| c.get_name() != "help")
        .filter(|c| !c.is_hide_set())
    {
        let name = below.get_bin_name().unwrap_or(below.get_name());
        writeln!(text, ".SH \"{}\"", name.to_uppercase())?;
        let page = Man::new(below.clone());
        let mut parts = Vec::new();
        page.render_description_section(&mut parts)?;
        page.render_synopsis_section(&mut parts)?;
        page.render_options_section(&mut parts)?;
        // The page's sections become parts of the command's own.
        text.extend(String::from_utf8(parts)?.replace(".SH ", ".SS ").bytes());
        sections(below, text)?;
    }
    Ok(())
}
