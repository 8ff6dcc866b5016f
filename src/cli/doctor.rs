//! `doctor`: where everything lives, whether it can be read, and whether the terminal can show the
//! screens.

use std::fs;
use std::io::{IsTerminal, Write};
use std::path::Path;

use anyhow::Result;

use super::faults::{Faults, shown};
use super::outcome::Outcome;
use crate::piece::expert::Expert;
use crate::piece::notation::printable;
use crate::setup::Setup;
use crate::setup::display::Display;
use crate::setup::learners;
use crate::setup::rules::{overlay_folder, read_overlay};
use crate::setup::settings;
use crate::setup::surroundings::{stock_place, today};

/// What was looked at, and how it stands.
struct Line {
    what: &'static str,
    told: String,
    /// What is wrong with it, a line each.
    wrong: Vec<String>,
}

fn well(what: &'static str, told: String) -> Line {
    Line {
        what,
        told,
        wrong: Vec::new(),
    }
}

/// Prints where everything lives. The answer is no when something of it can't be used.
pub(super) fn run(setup: &Setup, out: &mut dyn Write) -> Result<Outcome> {
    let (rules, expert) = rules(setup);
    let lines = [
        well(
            "program",
            format!("printseam {}", env!("CARGO_PKG_VERSION")),
        ),
        rules,
        own_rules(setup),
        settings(expert.as_ref()),
        stock(),
        learners(),
        terminal(),
        well("today", format!("{} (UTC)", today())),
    ];
    let mut ill = 0;
    for Line { what, told, wrong } in &lines {
        writeln!(out, "{what:<10} {}", printable(told))?;
        for line in wrong {
            writeln!(out, "{:<10} ! {line}", "")?;
        }
        ill += usize::from(!wrong.is_empty());
    }
    Ok(match ill {
        0 => Outcome::Yes,
        _ => Outcome::No,
    })
}

fn rules(setup: &Setup) -> (Line, Option<Expert>) {
    let from = match &setup.rules {
        Some(dir) => format!("of {}", dir.display()),
        None => "built in".to_owned(),
    };
    let mut line = well("rules", from);
    match setup.expert() {
        Ok(Ok(expert)) => {
            let base = &expert.base;
            line.told = format!(
                "{}, version {}: {} kinds, {} clues",
                line.told,
                base.version,
                base.kinds.len(),
                base.clues.len()
            );
            (line, Some(expert))
        }
        Ok(Err(problems)) => {
            let faults = Faults::of_rules(&problems).to_string();
            line.wrong = faults.lines().map(str::to_owned).collect();
            (line, None)
        }
        Err(e) => {
            line.wrong = vec![shown(&e)];
            (line, None)
        }
    }
}

fn own_rules(setup: &Setup) -> Line {
    let Some(dir) = overlay_folder() else {
        return well("own rules", "no home folder is known".to_owned());
    };
    let place = dir.display();
    // What is wrong with them is said of the rules as a whole.
    let told = match read_overlay() {
        _ if setup.rules.is_some() => format!("{place} (--rules stands in their place)"),
        Ok(files) if files.is_empty() => format!("{place} (none)"),
        Ok(files) => format!("{place} ({} files)", files.len()),
        Err(_) => format!("{place} (can't be read)"),
    };
    well("own rules", told)
}

fn settings(expert: Option<&Expert>) -> Line {
    let Some(file) = settings::settings_file() else {
        return well("settings", "no home folder is known".to_owned());
    };
    let place = file.display();
    if !file.is_file() {
        return well(
            "settings",
            format!("{place} (not there: the usual terms; printseam generate settings writes one)"),
        );
    }
    let mut line = well("settings", place.to_string());
    let guesses = expert.and_then(|e| e.base.prices.as_ref());
    if let Some(Err(e)) = guesses.map(|g| settings::terms(g, None, None)) {
        line.wrong = vec![shown(&e)];
    }
    line
}

fn stock() -> Line {
    let told = match stock_place(
        std::env::var_os("PRINTSEAM_STOCK")
            .as_deref()
            .map(Path::new),
    ) {
        None => "no home folder is known".to_owned(),
        Some(file) => match fs::metadata(&file) {
            Ok(there) => format!("{} ({} kB)", file.display(), there.len().div_ceil(1000)),
            Err(_) => format!("{} (not there yet)", file.display()),
        },
    };
    well("stock book", told)
}

fn learners() -> Line {
    let folder = learners::folder_of_user().filter(|folder| folder.is_dir());
    let told = match folder {
        None => "in the stock book".to_owned(),
        Some(folder) => format!(
            "in the stock book; {} of an earlier version in {}",
            learners::names(&folder).len(),
            folder.display()
        ),
    };
    well("learners", told)
}

fn terminal() -> Line {
    let display = Display::of_process();
    let letters = match display.ascii_only {
        true => format!("drawn in ASCII ({}; UTF-8 is finer)", display.locale),
        false => format!("drawn in UTF-8 ({})", display.locale),
    };
    let colours = if display.plain {
        "no colours (NO_COLOR)"
    } else {
        "colours"
    };
    let mut line = well(
        "terminal",
        format!("TERM={}, {letters}, {colours}", display.term),
    );
    let piped = !(std::io::stdin().is_terminal() && std::io::stdout().is_terminal());
    match display.refuses() {
        // Through a pipe nobody asks for screens.
        _ if piped => line.told += "; this is a pipe: use judge or ask",
        Some(why) => line.wrong = vec![why],
        None => line.told += "; the screens need 44 columns and 14 rows",
    }
    line
}
