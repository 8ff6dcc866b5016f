//! Cards for the shelf and sheets for a class, of one piece or of all sightings named.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use anyhow::{Context, Result, bail};

use super::args::JudgeArgs;
use super::seen_args::SeenArgs;
use super::told::{Told, read_sighting};
use crate::piece::expert::Expert;
use crate::piece::sighting_file::Sighting;
use crate::report::card::{Card, Seller};
use crate::report::html;
use crate::report::lesson::Lesson;
use crate::rulebase::ids::SettingId;

/// A piece with its title.
pub(super) struct Titled {
    title: String,
    told: Told,
}

/// The pieces named; of one piece the command line may say more.
pub(super) fn pieces(
    expert: &Arc<Expert>,
    named: &[PathBuf],
    seen: &SeenArgs,
) -> Result<Vec<Titled>> {
    let files = sighting_files(named)?;
    let said = !seen.saw.is_empty() || seen.mark.is_some() || seen.notes.is_some();
    if files.len() > 1 && said {
        bail!(
            "--saw, --mark and --notes speak of one piece, and {} are named",
            files.len()
        );
    }
    let sightings = match files.is_empty() {
        true => vec![Sighting::default()],
        false => files
            .iter()
            .map(|file| read_sighting(expert, file))
            .collect::<Result<_>>()?,
    };
    let titled = |sighting: Sighting| {
        Ok(Titled {
            told: Told::new(expert, &sighting, seen, SettingId::default())?,
            title: sighting.title,
        })
    };
    sightings.into_iter().map(titled).collect()
}

/// Files as they are; of a folder all its sightings, by name.
fn sighting_files(named: &[PathBuf]) -> Result<Vec<PathBuf>> {
    let mut out = Vec::new();
    for path in named {
        if path.is_dir() {
            out.extend(in_folder(path)?);
        } else {
            out.push(path.clone());
        }
    }
    Ok(out)
}

fn in_folder(folder: &Path) -> Result<Vec<PathBuf>> {
    let entries = fs::read_dir(folder).with_context(|| folder.display().to_string())?;
    let mut files = Vec::new();
    for entry in entries {
        let path = entry.with_context(|| folder.display().to_string())?.path();
        let is_ron = path
            .extension()
            .is_some_and(|e| e.eq_ignore_ascii_case("ron"));
        if is_ron && path.is_file() {
            files.push(path);
        }
    }
    if files.is_empty() {
        bail!("{}: no sighting (.ron) in this folder", folder.display());
    }
    files.sort();
    Ok(files)
}

/// The cards, each as often as asked for.
pub(super) fn cards(pieces: &[Titled], args: &JudgeArgs) -> Result<String> {
    let seller = Seller {
        condition: args.condition.clone().unwrap_or_default(),
        price: args.price.clone().unwrap_or_default(),
    };
    let copies = usize::from(args.copies.unwrap_or(1));
    let mut cards = Vec::new();
    for piece in pieces {
        if piece.told.piece.evidence().says_nothing() {
            let name = match piece.title.as_str() {
                "" => "this piece",
                title => title,
            };
            bail!("--card: nothing has been seen of {name}, so a card would tell a buyer nothing");
        }
        let card = Card::new(&piece.told.piece, &piece.title, &seller);
        cards.extend(std::iter::repeat_n(card, copies));
    }
    html::cards(&cards).context("cards")
}

/// The sheets.
pub(super) fn lessons(pieces: &[Titled]) -> Result<String> {
    let sheet = |p: &Titled| Lesson::new(&p.told.piece, &p.title, p.told.taken.opinion.as_ref());
    let lessons: Vec<Lesson> = pieces.iter().map(sheet).collect();
    html::lessons(&lessons).context("sheets")
}
