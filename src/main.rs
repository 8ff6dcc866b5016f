//! The program: arguments in, screens or a command, exit code out.

use std::io::{BufWriter, ErrorKind, Write, stdout};
use std::process::ExitCode;
use std::sync::Arc;

use printseam::case::expert::Expert;
use printseam::cli::{self, Answer, Wish};
use printseam::tui::app::App;
use printseam::tui::terminal;
use printseam::tui::theme::Theme;

fn main() -> ExitCode {
    let mut out = BufWriter::new(stdout().lock());
    let wish = cli::run(std::env::args(), &mut out).and_then(|wish| {
        out.flush()?;
        Ok(wish)
    });
    drop(out);
    match wish {
        Ok(Wish::Done(Answer::Yes)) => ExitCode::SUCCESS,
        Ok(Wish::Done(Answer::No)) => ExitCode::from(1),
        Ok(Wish::Screens(expert)) => screens(expert),
        Err(e) => failed(&e),
    }
}

/// Opens the screens; without colours where `NO_COLOR` is set.
fn screens(expert: Arc<Expert>) -> ExitCode {
    let plain = std::env::var_os("NO_COLOR").is_some_and(|v| !v.is_empty());
    let theme = if plain {
        Theme::mono()
    } else {
        Theme::default()
    };
    match terminal::run(App::new(expert, theme)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(e) => failed(&e),
    }
}

/// One line on standard error and exit code 2; a reader that went away is no error.
fn failed(e: &anyhow::Error) -> ExitCode {
    let gone = |e: &std::io::Error| e.kind() == ErrorKind::BrokenPipe;
    if e.downcast_ref::<std::io::Error>().is_some_and(gone) {
        return ExitCode::SUCCESS;
    }
    let _ = writeln!(std::io::stderr(), "printseam: {e:#}");
    ExitCode::from(2)
}
