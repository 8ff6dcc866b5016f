//! Learners as an earlier version kept them: one JSON file each in `learners` of the program's data
//! folder. They are read, never written: the stock book keeps learners now.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use etcetera::AppStrategy;

use super::read::read_text;
use super::rules::folders;
use crate::learn::learner::{Learner, name_problem};

/// The folder of the user's own files; `None` when the system tells of none.
pub fn folder_of_user() -> Option<PathBuf> {
    folders().map(|s| s.in_data_dir("learners"))
}

/// Names of the learners in a folder; none where there is no such folder.
pub fn names(folder: &Path) -> Vec<String> {
    let Ok(entries) = fs::read_dir(folder) else {
        return Vec::new();
    };
    let name = |path: PathBuf| {
        let name = path.file_stem()?.to_str()?.to_owned();
        let ours = path.extension()? == "json" && name_problem(&name).is_none();
        (ours && path.is_file()).then_some(name)
    };
    let mut out: Vec<String> = entries.flatten().filter_map(|e| name(e.path())).collect();
    out.sort();
    out
}

/// The learner of this name, where the folder has one.
///
/// # Errors
/// When there is a file that can't be read, or is no learner's record.
pub fn learner(folder: &Path, name: &str) -> Result<Option<Learner>> {
    if let Some(problem) = name_problem(name) {
        bail!("{problem}");
    }
    let path = folder.join(format!("{name}.json"));
    if !path.exists() {
        return Ok(None);
    }
    read(&path).map(Some)
}

fn read(path: &Path) -> Result<Learner> {
    let shown = path.display().to_string();
    let learner: Learner = serde_json::from_str(&read_text(path)?)
        .with_context(|| format!("{shown}: no learner's record"))?;
    if !learner.readable() {
        bail!("{shown}: written by a newer program");
    }
    Ok(learner)
}
