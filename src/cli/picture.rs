//! What a finding looks like: `guide --picture`, in characters or as a file, and drills.

use std::io::Write;
use std::path::Path;

use anyhow::{Context, Result, bail};

use super::args::GuideArgs;
use super::outcome::Outcome;
use crate::picture::cells::{Cell, Depth, cells, fitting};
use crate::picture::{self, Picture};
use crate::piece::expert::Expert;
use crate::piece::notation::printable;
use crate::report::picture_file;
use crate::rulebase::definitions::{Clue, Finding};
use crate::say::names::capital;
use crate::setup::write::{Over, write_with};

/// Columns and rows of a picture by itself: as wide as a narrow window allows (common practice, no
/// source).
const SIZE: (usize, usize) = (78, 30);

/// Columns and rows of a picture in a drill: question and answers must stay in sight below it (common
/// practice, no source).
const IN_DRILL: (usize, usize) = (60, 22);

/// Lines of a finding's picture for a drill; none where there is no picture, or without colours all
/// of that clue would look alike.
pub(super) fn in_drill(clue: &str, finding: &str, seed: u64) -> Vec<String> {
    let drawn = Some(clue).filter(|clue| !picture::needs_colour(clue));
    let Some(picture) = drawn.and_then(|clue| picture::draw(clue, finding, seed)) else {
        return Vec::new();
    };
    let text = text(&picture, IN_DRILL);
    text.trim_matches('\n').lines().map(str::to_owned).collect()
}

/// Draws one finding, or all of a clue.
pub(super) fn run(
    expert: &Expert,
    what: &str,
    args: &GuideArgs,
    out: &mut dyn Write,
) -> Result<Outcome> {
    let (clue_id, finding_id) = match what.split_once('=') {
        Some((clue, finding)) => (clue.trim(), Some(finding.trim())),
        None => (what.trim(), None),
    };
    let drawn = picture::findings(clue_id);
    let clue = expert.base.clue_id(clue_id).filter(|_| !drawn.is_empty());
    let Some(clue) = clue.map(|c| expert.base.clue(c)) else {
        let all: Vec<&str> = picture::clues().collect();
        bail!(
            "there are no pictures of '{}'; use {}",
            printable(clue_id),
            all.join(", ")
        );
    };
    let seed = args.seed.unwrap_or(1);
    let Some(finding_id) = finding_id else {
        if args.png.is_some() || args.svg.is_some() {
            bail!(
                "a file holds one finding; use {clue_id}={}",
                drawn.join(&format!(", {clue_id}="))
            );
        }
        for finding in &clue.findings {
            if let Some(picture) = picture::draw(clue_id, &finding.id, seed) {
                writeln!(out, "{}\n{}", heading(clue, finding), text(&picture, SIZE))?;
            }
        }
        return Ok(Outcome::Yes);
    };
    let finding = clue.findings.iter().find(|f| f.id == finding_id);
    let picture = picture::draw(clue_id, finding_id, seed);
    let (Some(finding), Some(picture)) = (finding, picture) else {
        bail!(
            "there is no picture of '{}'; use {}",
            printable(what),
            drawn.join(", ")
        );
    };
    if let Some(path) = &args.png {
        let bytes = picture_file::png(&picture).context("picture")?;
        put(path, args.force, &|_| false, &|to| to.write_all(&bytes))?;
    }
    if let Some(path) = &args.svg {
        let page = picture_file::svg(&picture, &heading(clue, finding)).context("picture")?;
        let ours = |text: &str| text.lines().next() == Some(picture_file::MARKER);
        put(path, args.force, &ours, &|to| to.write_all(page.as_bytes()))?;
    }
    if args.png.is_none() && args.svg.is_none() {
        writeln!(out, "{}\n{}", heading(clue, finding), text(&picture, SIZE))?;
    }
    Ok(Outcome::Yes)
}

fn put(
    path: &Path,
    force: bool,
    ours: &dyn Fn(&str) -> bool,
    fill: &dyn Fn(&mut dyn Write) -> std::io::Result<()>,
) -> Result<()> {
    let over = if force { Over::Any } else { Over::Ours(ours) };
    Ok(write_with(path, over, fill)?)
}

/// "How is the line made? Engraved lines, perhaps with dots".
fn heading(clue: &Clue, finding: &Finding) -> String {
    format!("{} {}", clue.question, capital(&finding.words))
}

/// The picture in characters without colour, in so many columns and rows at most.
fn text(picture: &Picture, (columns, rows): (usize, usize)) -> String {
    let (columns, rows) = fitting(picture, columns, rows);
    let line = |row: &Vec<Cell>| -> String {
        let text: String = row.iter().map(|c| c.sign).collect();
        text.trim_end().to_owned() + "\n"
    };
    cells(picture, columns, rows, Depth::Mono)
        .iter()
        .map(line)
        .collect()
}
