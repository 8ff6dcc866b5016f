//! `rules new clue` and `rules compare`: the author's bench.

use std::io::Write;
use std::path::Path;

use anyhow::{Result, bail};

use super::args::{CompareArgs, NewClueArgs};
use super::faults::Faults;
use super::outcome::{Outcome, progress, setting_of_known};
use crate::piece::expert::Expert;
use crate::piece::notation::printable;
use crate::prove::cases::{Known, read};
use crate::prove::compare::compare as judge_both;
use crate::rulebase::source::SourceFile;
use crate::rulebase::{shipped, skeleton};
use crate::setup::Setup;
use crate::setup::read::read_table;
use crate::setup::rules::read_rules;

/// The rules built into the program, and those in use, where a folder is asked for.
const BUILT_IN: &str = "built-in";
const IN_USE: &str = "in-use";

/// Prints a clue that has everything a clue needs, with what each part is for.
pub(super) fn new_clue(args: &NewClueArgs, out: &mut dyn Write) -> Result<Outcome> {
    let id = &args.id;
    let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    if id.is_empty() || !id.chars().all(plain) || id.starts_with('-') || id.ends_with('-') {
        bail!(
            "'{}': an id has lower-case letters, digits and single hyphens",
            printable(id)
        );
    }
    write!(out, "{}", skeleton::clue(id))?;
    Ok(Outcome::Yes)
}

/// Judges the same pieces by two rule bases.
pub(super) fn compare(setup: &Setup, args: &CompareArgs, out: &mut dyn Write) -> Result<Outcome> {
    let [before, after] = [&args.old, &args.new].map(|named| expert(setup, named));
    let (before, after) = (before?, after?);
    let table = read_table(&args.cases)?;
    let known = |expert: &Expert, named: &Path| -> Result<Vec<Known>> {
        let setting = setting_of_known(expert);
        let shown = format!("{} by {}", args.cases.display(), named.display());
        Ok(read(expert, setting, table.as_slice())
            .map_err(|problems| Faults::of_table(&shown, &problems))?)
    };
    let (was, is) = (known(&before, &args.old)?, known(&after, &args.new)?);
    let both = judge_both((&before, &was), (&after, &is), &progress);
    write!(out, "{}", both.text())?;
    Ok(Outcome::Yes)
}

/// `built-in`, `in-use`, a folder with a whole rule base, or one that adds to the built-in rules.
fn expert(setup: &Setup, named: &Path) -> Result<Expert> {
    let files = match named.to_str() {
        Some(BUILT_IN) => shipped::files(),
        Some(IN_USE) => setup.files()?,
        _ if named.join("kinds.ron").is_file() => read_rules(named)?,
        _ => {
            let mut files = shipped::files();
            files.extend(read_rules(named)?.into_iter().map(|file| SourceFile {
                name: format!("overlay/{}", file.name),
                ..file
            }));
            files
        }
    };
    let expert = Expert::load(&files, setup.present());
    Ok(expert.map_err(|problems| Faults::of_rules(&problems))?)
}
