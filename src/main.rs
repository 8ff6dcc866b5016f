//! The program: arguments in, screens or a command, exit code out.

use std::io::{BufWriter, ErrorKind, IsTerminal, Write, stdin, stdout};
use std::process::ExitCode;
use std::sync::Arc;

use printseam::internals::cli::{self, NextStep, Opened, Outcome};
use printseam::internals::piece::expert::Expert;
use printseam::internals::piece::notation::printable;
use printseam::internals::screens::app::App;
use printseam::internals::screens::{self, terminal};

fn main() -> ExitCode {
    let mut out = BufWriter::new(stdout().lock());
    let wish = cli::run(std::env::args_os(), &mut out).and_then(|wish| {
        out.flush()?;
        Ok(wish)
    });
    drop(out);
    let done = match wish {
        Ok(NextStep::Done(answer)) => Ok(answer),
        Ok(NextStep::Screens(expert, theme, opened)) => screens(expert, theme.as_deref(), opened),
        Err(e) => Err(e),
    };
    match done {
        Ok(Outcome::Yes) => ExitCode::SUCCESS,
        Ok(Outcome::No) => ExitCode::from(1),
        Err(e) => failed(&e),
    }
}

/// Opens the screens in the theme named, with what a file told.
fn screens(
    expert: Arc<Expert>,
    named: Option<&str>,
    opened: Option<Opened>,
) -> anyhow::Result<Outcome> {
    if !(stdin().is_terminal() && stdout().is_terminal()) {
        anyhow::bail!(
            "the screens need a terminal; through a pipe use 'printseam ask' or 'printseam judge'"
        );
    }
    // Such a terminal writes on and on: it can't put anything in its place.
    let term = std::env::var("TERM").unwrap_or_default();
    if cfg!(unix) && (term == "dumb" || term.is_empty()) {
        anyhow::bail!(
            "this terminal can't show the screens (TERM is '{term}'); use 'printseam ask', which asks \
             the same questions line by line"
        );
    }
    let plain = std::env::var_os("NO_COLOR").is_some_and(|v| !v.is_empty());
    let theme = screens::theme_for(named, plain);
    let app = match opened {
        None => App::new(expert, theme),
        Some(o) => App::opened(expert, theme, o.setting, &o.findings)
            .remarking("What the file says", o.remarks),
    };
    terminal::run(app, &|save| cli::keep(&save.name, &save.text))?;
    Ok(Outcome::Yes)
}

/// One line on standard error and exit code 2; a reader that went away is no error.
fn failed(e: &anyhow::Error) -> ExitCode {
    let gone = |e: &std::io::Error| e.kind() == ErrorKind::BrokenPipe;
    if e.downcast_ref::<std::io::Error>().is_some_and(gone) {
        return ExitCode::SUCCESS;
    }
    // Names of files and things may hold anything; only problems of rules take several lines.
    let lines: Vec<String> = format!("{e:#}").lines().map(printable).collect();
    let _ = writeln!(std::io::stderr(), "printseam: {}", lines.join("\n"));
    ExitCode::from(2)
}
