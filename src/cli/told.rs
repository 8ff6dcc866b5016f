//! What is told of a piece on the command line and in a sighting file, taken in together.

use std::path::Path;
use std::sync::Arc;

use anyhow::{Result, anyhow};

use super::faults::Faults;
use super::outcome::{in_country, setting};
use super::seen_args::SeenArgs;
use crate::core::observation::Observation;
use crate::piece::expert::Expert;
use crate::piece::intake::{self, Taken};
use crate::piece::sighting_file::{self, Sighting};
use crate::piece::{Piece, notation};
use crate::rulebase::ids::SettingId;
use crate::rulebase::source::SourceFile;
use crate::say;
use crate::setup::read::{read_text, text_of};

/// A piece with what was made of all that was told of it.
pub(super) struct Told {
    pub piece: Piece,
    pub taken: Taken,
}

impl Told {
    /// A sighting and the command line together. `unsaid`: the setting when none is named.
    pub(super) fn new(
        expert: &Arc<Expert>,
        sighting: &Sighting,
        args: &SeenArgs,
        unsaid: SettingId,
    ) -> Result<Told> {
        let chosen = match &args.setting {
            Some(named) => setting(expert, named)?,
            None => sighting.setting.unwrap_or(unsaid),
        };
        let chosen = in_country(expert, chosen, args.country.as_deref())?;
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
    pub(super) fn lines(&self) -> Vec<String> {
        ended(say::taken::lines(self.piece.expert(), &self.taken))
    }

    /// The same, and the opinion in the notes: for where no verdict follows to set it beside.
    pub(super) fn lines_with_opinion(&self) -> Vec<String> {
        ended(say::taken::lines_with_opinion(
            self.piece.expert(),
            &self.taken,
        ))
    }
}

/// With an empty line after it, if there is anything.
fn ended(mut lines: Vec<String>) -> Vec<String> {
    if !lines.is_empty() {
        lines.push(String::new());
    }
    lines
}

/// Reads a sighting file, or standard input for `-`.
pub(super) fn read_sighting(expert: &Expert, path: &Path) -> Result<Sighting> {
    let (name, text) = if path == Path::new("-") {
        let name = "standard input".to_owned();
        let text = text_of(std::io::stdin().lock(), &name)?;
        (name, text)
    } else {
        (path.display().to_string(), read_text(path)?)
    };
    let file = SourceFile { name, text };
    sighting_file::read(&expert.base, &file).map_err(|problem| Faults::of_rules(&[problem]).into())
}
