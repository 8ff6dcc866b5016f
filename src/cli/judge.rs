//! `judge`: one piece, from a sighting file and the command line together.

use std::io::Write;
use std::path::Path;
use std::sync::Arc;

use anyhow::{Context, Result, anyhow};

use super::args::{JudgeArgs, SeenArgs};
use super::page_file::{self, PageKind};
use super::{Outcome, expert, setting};
use crate::claim::challenge;
use crate::core::observation::Observation;
use crate::piece::expert::Expert;
use crate::piece::intake::{self, Taken};
use crate::piece::sighting_file::{self, Sighting};
use crate::piece::{Piece, notation};
use crate::report;
use crate::report::sheet::Sheet;
use crate::rulebase::source::SourceFile;
use crate::say;
use crate::setup::{Setup, read_text, text_of};

/// Judges and prints.
pub fn run(setup: &Setup, args: &JudgeArgs, out: &mut dyn Write) -> Result<Outcome> {
    let plan = page_file::plan(args)?;
    let expert = expert(setup)?;
    let sighting = match &plan.sighting {
        Some(path) => read_sighting(&expert, path)?,
        None => Sighting::default(),
    };
    let guess = match &args.guess {
        Some(text) => Some(super::challenge::claim(&expert, text)?),
        None => None,
    };
    let told = Told::new(&expert, &sighting, &args.seen, 0)?;
    if args.json {
        let mut value = report::json::verdict(&told.piece);
        value["notes"] = serde_json::json!({
            "heard": say::taken::heard(&expert, &told.taken),
            "not_understood": say::taken::not_understood(&told.taken),
        });
        writeln!(out, "{value}")?;
        return Ok(Outcome::Yes);
    }
    let guess = guess.map(|claim| challenge(&told.piece, claim));
    if let Some((form, file)) = plan.page {
        let sheet = Sheet::new(&told.piece, &sighting.title, guess.as_ref());
        let page = match form {
            PageKind::Html => report::html::page(&sheet).context("HTML page")?,
            PageKind::Markdown => report::markdown::page(&sheet),
        };
        page_file::put(form, &page, file.as_deref(), out)?;
        return Ok(Outcome::Yes);
    }
    for line in told.lines() {
        writeln!(out, "{line}")?;
    }
    write!(out, "{}", report::text::verdict(&told.piece))?;
    if let Some(guess) = &guess {
        write!(out, "\n{}", report::challenge::text(&told.piece, guess))?;
    }
    Ok(Outcome::Yes)
}

/// A piece with what was made of all that was told of it.
pub struct Told {
    pub piece: Piece,
    pub taken: Taken,
}

impl Told {
    /// A sighting and the command line together. `unsaid`: the setting when none is named.
    pub fn new(
        expert: &Arc<Expert>,
        sighting: &Sighting,
        args: &SeenArgs,
        unsaid: usize,
    ) -> Result<Told> {
        let chosen = match &args.setting {
            Some(named) => setting(expert, named)?,
            None => sighting.setting.unwrap_or(unsaid),
        };
        let saw = args
            .saw
            .iter()
            .map(|text| notation::parse(&expert.base, text));
        let saw: Vec<Observation> = saw
            .collect::<Result<_, _>>()
            .map_err(|e| anyhow!("--saw: {e}"))?;
        let told = intake::Told {
            sighting: Some(sighting),
            mark: args.mark.as_deref().unwrap_or_default(),
            mark_complete: args.mark_complete,
            notes: args.notes.as_deref().unwrap_or_default(),
            saw: &saw,
            ..intake::Told::default()
        };
        let taken = intake::intake(expert, &told).map_err(|e| anyhow!("{e}"))?;
        Ok(Told {
            piece: Piece::new(expert.clone(), chosen, taken.evidence.clone()),
            taken,
        })
    }

    /// What was understood and what was not, for people; with an empty line after it if anything.
    pub fn lines(&self) -> Vec<String> {
        let mut out = say::taken::lines(self.piece.expert(), &self.taken);
        if !out.is_empty() {
            out.push(String::new());
        }
        out
    }
}

/// Reads a sighting file, or standard input for `-`.
pub fn read_sighting(expert: &Expert, path: &Path) -> Result<Sighting> {
    let (name, text) = if path == Path::new("-") {
        let name = "standard input".to_owned();
        let text = text_of(std::io::stdin().lock(), &name)?;
        (name, text)
    } else {
        (path.display().to_string(), read_text(path)?)
    };
    let file = SourceFile { name, text };
    sighting_file::read(&expert.base, &file).map_err(|problem| anyhow!("{problem}"))
}
