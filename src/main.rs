//! The program: arguments in, screens or a command, exit code out.

use std::io::{BufWriter, ErrorKind, IsTerminal, Write, stdin, stdout};
use std::process::ExitCode;
use std::sync::Arc;

use printseam::internals::cli::{self, Beginning, NextStep, Outcome};
use printseam::internals::piece::expert::Expert;
use printseam::internals::screens::app::App;
use printseam::internals::screens::kit::ascii::Letters;
use printseam::internals::screens::{self, terminal};
use printseam::internals::setup::display::Display;
use printseam::internals::setup::settings;

fn main() -> ExitCode {
    let mut out = BufWriter::new(stdout().lock());
    let wish = cli::run(std::env::args_os(), &mut out).and_then(|wish| {
        out.flush()?;
        Ok(wish)
    });
    drop(out);
    let done = match wish {
        Ok(NextStep::Done(answer)) => Ok(answer),
        Ok(NextStep::Screens(expert, theme, beginning)) => {
            screens(expert, theme.as_deref(), beginning)
        }
        Err(e) => Err(e),
    };
    match done {
        Ok(Outcome::Yes) => ExitCode::SUCCESS,
        Ok(Outcome::No) => ExitCode::from(1),
        Err(e) => failed(&e),
    }
}

/// Opens the screens in the theme named.
fn screens(
    expert: Arc<Expert>,
    named: Option<&str>,
    beginning: Beginning,
) -> anyhow::Result<Outcome> {
    if !(stdin().is_terminal() && stdout().is_terminal()) {
        anyhow::bail!(
            "the screens need a terminal; through a pipe use 'printseam ask' or 'printseam judge'"
        );
    }
    let display = Display::of_process();
    if let Some(why) = display.refuses() {
        anyhow::bail!(why);
    }
    let theme = screens::theme_for(named, display.plain);
    let letters = match display.ascii_only {
        true => Letters::Ascii,
        false => Letters::All,
    };
    let (mut sitting, mut named_book) = (None, None);
    let mut app = match beginning {
        Beginning::Welcome => App::new(expert.clone(), theme),
        Beginning::Sighting(o) => App::of_file(expert.clone(), theme, o.setting, &o.taken),
        Beginning::Drill(wanted, book) => {
            (sitting, named_book) = (Some(wanted), book);
            App::new(expert.clone(), theme)
        }
    };
    if let Some(guesses) = &expert.base.prices {
        app.set_terms(Some(settings::terms(guesses, None, None)?));
    }
    let keeper = |save: &screens::state::save::Save| cli::keep(&save.name, &save.text);
    #[cfg(feature = "stock")]
    {
        let mut book = stock_book::Lazily::new(named_book);
        let mut clerk = |ask| book.answer(ask);
        let mut app = app.with_stock(stock_book::at_hand());
        if let Some(sitting) = sitting {
            app = app.drilling(sitting);
        }
        terminal::run(app, letters, &keeper, &mut clerk)?;
    }
    #[cfg(not(feature = "stock"))]
    drop((sitting, named_book));
    #[cfg(not(feature = "stock"))]
    terminal::run(app, letters, &keeper, &mut |_| {
        Ok(printseam::internals::stock::store::Answer::Written)
    })?;
    Ok(Outcome::Yes)
}

/// The stock book of the screens, opened when it is first asked for.
#[cfg(feature = "stock")]
mod stock_book {
    use std::path::PathBuf;

    use printseam::internals::cli::WithFiles;
    use printseam::internals::screens::state::session::AtHand;
    use printseam::internals::setup::surroundings::{chance, seconds, stock_file, today};
    use printseam::internals::stock::sqlite::Sqlite;
    use printseam::internals::stock::store::{Answer, Ask, Store, Trouble};

    /// What the screens are handed for it.
    pub fn at_hand() -> AtHand {
        AtHand {
            today: today(),
            chance,
            seconds,
        }
    }

    pub struct Lazily {
        book: Option<WithFiles<Sqlite>>,
        named: Option<PathBuf>,
    }

    impl Lazily {
        /// The book named, else that of the environment, else the usual one.
        pub fn new(named: Option<PathBuf>) -> Lazily {
            let of_environment = || std::env::var_os("PRINTSEAM_STOCK").map(PathBuf::from);
            Lazily {
                book: None,
                named: named.or_else(of_environment),
            }
        }

        pub fn answer(&mut self, ask: Ask) -> Result<Answer, Trouble> {
            let book = match &mut self.book {
                Some(book) => book,
                None => {
                    let file = stock_file(self.named.as_deref()).map_err(|e| {
                        Trouble::CantOpen("stock book".to_owned(), format!("{e:#}"))
                    })?;
                    self.book.insert(WithFiles::of_user(Sqlite::open(&file)?))
                }
            };
            book.answer(ask)
        }
    }
}

/// One line on standard error and exit code 2; a reader that went away is no error.
fn failed(e: &anyhow::Error) -> ExitCode {
    let gone = |e: &std::io::Error| e.kind() == ErrorKind::BrokenPipe;
    if e.downcast_ref::<std::io::Error>().is_some_and(gone) {
        return ExitCode::SUCCESS;
    }
    let _ = writeln!(std::io::stderr(), "printseam: {}", cli::shown(e));
    ExitCode::from(2)
}
