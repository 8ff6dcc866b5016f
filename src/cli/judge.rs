//! `judge`: one piece, from a sighting file and the command line together.

use std::io::Write;
use std::path::Path;
use std::sync::Arc;

use anyhow::{Context, Result, anyhow};

use super::args::{JudgeArgs, SeenArgs};
use super::page_file::{self, PageKind};
use super::{Outcome, expert, setting};
use crate::claim::challenge;
use crate::piece::expert::Expert;
use crate::piece::sighting_file::{self, Sighting};
use crate::piece::{Piece, intake, notation};
use crate::report;
use crate::report::sheet::Sheet;
use crate::rulebase::source::SourceFile;
use crate::setup::Setup;
use crate::setup::read::{read_text, text_of};

/// Judges and prints.
pub fn run(setup: &Setup, args: &JudgeArgs, out: &mut dyn Write) -> Result<Outcome> {
    let plan = page_file::plan(args)?;
    let expert = expert(setup)?;
    let sighting = match &plan.sighting {
        Some(path) => read_sighting(&expert, path)?,
        None => Sighting::default(),
    };
    let title = sighting.title.clone();
    let guess = match &args.guess {
        Some(text) => Some(super::challenge::claim(&expert, text)?),
        None => None,
    };
    let piece = ReadPiece::new(&expert, sighting, &args.seen, 0)?;
    if args.json {
        let mut value = report::json::verdict(&piece.case);
        value["notes"] = serde_json::json!({
            "heard": piece.heard,
            "not_understood": piece.not_understood,
        });
        writeln!(out, "{value}")?;
        return Ok(Outcome::Yes);
    }
    let guess = guess.map(|claim| challenge(&piece.case, claim));
    if let Some((form, file)) = plan.page {
        let sheet = Sheet::new(&piece.case, &title, guess.as_ref());
        let page = match form {
            PageKind::Html => report::html::page(&sheet).context("HTML page")?,
            PageKind::Markdown => report::markdown::page(&sheet),
        };
        page_file::put(form, &page, file.as_deref(), args.force, out)?;
        return Ok(Outcome::Yes);
    }
    for line in piece.said() {
        writeln!(out, "{line}")?;
    }
    write!(out, "{}", report::text::verdict(&piece.case))?;
    if let Some(guess) = &guess {
        write!(out, "\n{}", report::challenge::text(&piece.case, guess))?;
    }
    Ok(Outcome::Yes)
}

/// A case with what was made of its notes and mark.
pub struct ReadPiece {
    pub case: Piece,
    /// "text -> clue=finding" for notes and mark.
    pub heard: Vec<String>,
    pub not_understood: Vec<String>,
}

impl ReadPiece {
    /// A sighting and the command line together. What is said outright (`saw`) wins over notes,
    /// and notes over what the mark's wording gives. `unsaid`: the setting when none is named.
    pub fn new(
        expert: &Arc<Expert>,
        sighting: Sighting,
        seen: &SeenArgs,
        unsaid: usize,
    ) -> Result<ReadPiece> {
        let chosen = match &seen.setting {
            Some(named) => setting(expert, named)?,
            None => sighting.setting.unwrap_or(unsaid),
        };
        let mut piece = ReadPiece {
            case: Piece::new(expert.clone(), chosen),
            heard: Vec::new(),
            not_understood: Vec::new(),
        };
        let complete = sighting.mark_complete || seen.mark_complete;
        let marks = [Some(sighting.mark), seen.mark.clone()];
        for text in marks.into_iter().flatten().filter(|t| !t.trim().is_empty()) {
            let mark = intake::mark(expert, &text, complete);
            piece.case.say_all(&mark.entries);
            piece.heard.extend(
                mark.entries
                    .iter()
                    .map(|e| format!("mark -> {}", notation::write(&expert.base, e))),
            );
            let unread = mark.reading.unread.iter().filter(|u| !u.name);
            piece.not_understood.extend(unread.map(|u| u.text.clone()));
        }
        let notes = [Some(sighting.notes), seen.notes.clone()];
        for text in notes.into_iter().flatten().filter(|t| !t.trim().is_empty()) {
            let notes = intake::notes(expert, &text);
            for (words, entry) in &notes.heard {
                piece.case.say(*entry);
                piece.heard.push(format!(
                    "{words} -> {}",
                    notation::write(&expert.base, entry)
                ));
            }
            piece
                .not_understood
                .extend(notes.unread.iter().map(|u| u.text.clone()));
        }
        piece.case.say_all(&sighting.saw);
        for text in &seen.saw {
            let entry = notation::parse(&expert.base, text).map_err(|e| anyhow!("--saw: {e}"))?;
            piece.case.say(entry);
        }
        Ok(piece)
    }

    /// What was understood and what was not, for people.
    pub fn said(&self) -> Vec<String> {
        let mut out: Vec<String> = self
            .heard
            .iter()
            .map(|h| format!("Understood: {}", notation::printable(h)))
            .collect();
        out.extend(
            self.not_understood
                .iter()
                .map(|t| format!("Not understood: '{}'", notation::printable(t))),
        );
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
