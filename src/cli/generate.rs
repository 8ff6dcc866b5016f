//! `generate`: manual page and shell completions, from the same definition as the arguments.

use std::io::Write;

use anyhow::Result;
use clap::CommandFactory;
use clap_complete::Shell;

use super::Answer;
use super::args::{GenerateArgs, Generated, Line};

/// Writes what was asked for.
pub fn run(args: &GenerateArgs, out: &mut dyn Write) -> Result<Answer> {
    let mut command = Line::command();
    let shell = match args.what {
        Generated::Man => {
            clap_mangen::Man::new(command).render(&mut &mut *out)?;
            return Ok(Answer::Yes);
        }
        Generated::Bash => Shell::Bash,
        Generated::Zsh => Shell::Zsh,
        Generated::Fish => Shell::Fish,
    };
    let mut text = Vec::new();
    clap_complete::generate(shell, &mut command, "printseam", &mut text);
    out.write_all(&text)?;
    Ok(Answer::Yes)
}
