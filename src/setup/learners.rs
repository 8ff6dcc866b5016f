//! Learners, one JSON file each in `learners` of the program's data folder.

use std::fs;
use std::path::PathBuf;

use anyhow::{Context, Result, anyhow, bail};
use etcetera::AppStrategy;

use super::read::read_text;
use super::rules::folders;
use super::write::{Over, write};
use crate::learn::learner::{Learner, LearnerStore};

/// Characters of a learner's name, at most (common practice, no source).
const LONGEST: usize = 40;

/// Learners kept in files.
#[derive(Clone, Debug)]
pub struct LearnerFiles {
    folder: PathBuf,
}

impl LearnerFiles {
    /// Those of the user's own folder.
    ///
    /// # Errors
    /// When the system tells of no such folder.
    pub fn of_user() -> Result<LearnerFiles> {
        let folder = folders().map(|s| s.in_data_dir("learners"));
        let folder = folder.ok_or_else(|| anyhow!("no home folder to keep learners in"))?;
        Ok(LearnerFiles { folder })
    }

    /// Those of a folder.
    pub fn of(folder: PathBuf) -> LearnerFiles {
        LearnerFiles { folder }
    }

    fn file(&self, name: &str) -> Result<PathBuf> {
        let plain = |c: char| c.is_alphanumeric() || c == '-' || c == '_';
        let count = name.chars().count();
        if count == 0 || count > LONGEST || !name.chars().all(plain) {
            bail!("a learner's name has 1 to {LONGEST} letters, figures, - and _");
        }
        Ok(self.folder.join(format!("{name}.json")))
    }
}

impl LearnerStore for LearnerFiles {
    type Refusal = anyhow::Error;

    fn load(&self, name: &str) -> Result<Learner> {
        let path = self.file(name)?;
        if !path.exists() {
            return Ok(Learner::default());
        }
        let shown = path.display().to_string();
        let learner: Learner = serde_json::from_str(&read_text(&path)?)
            .with_context(|| format!("{shown}: no learner's record"))?;
        if !learner.readable() {
            bail!("{shown}: written by a newer program");
        }
        Ok(learner)
    }

    fn save(&mut self, name: &str, learner: &Learner) -> Result<()> {
        let path = self.file(name)?;
        fs::create_dir_all(&self.folder).with_context(|| self.folder.display().to_string())?;
        let text = serde_json::to_string_pretty(learner)? + "\n";
        let ours = |text: &str| serde_json::from_str::<Learner>(text).is_ok();
        Ok(write(&path, &text, Over::Ours(&ours))?)
    }
}
