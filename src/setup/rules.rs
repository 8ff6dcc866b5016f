//! Folders of rule files.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use etcetera::{AppStrategy, AppStrategyArgs, choose_app_strategy};

use super::read::read_text;
use crate::rulebase::source::SourceFile;

/// Rule files stand at most this deep (`clues/front.ron` is 2), so that a folder named by mistake
/// or links that lead in a circle can't keep the program busy.
const DEEPEST: usize = 3;

/// A user's own list of makers.
const MAKERS: &str = "makers.csv";

/// The user's own rules: `rules` in the program's configuration folder.
pub fn overlay_folder() -> Option<PathBuf> {
    configured("rules")
}

/// A file or folder of this name in the program's configuration folder.
pub(super) fn configured(name: &str) -> Option<PathBuf> {
    folders().map(|s| s.in_config_dir(name))
}

/// Where the user's own things lie.
pub(super) fn folders() -> Option<impl AppStrategy> {
    let names = AppStrategyArgs {
        top_level_domain: String::new(),
        author: String::new(),
        app_name: "printseam".to_owned(),
    };
    choose_app_strategy(names).ok()
}

/// All `.ron` files and `makers.csv` below a folder, in order of name, named relative to it after `prefix`.
///
/// # Errors
/// A folder that is none, is empty or can not be listed; a file that can not be read.
pub fn read_rules(dir: &Path, prefix: &str) -> Result<Vec<SourceFile>> {
    if !dir.is_dir() {
        bail!("{}: no such folder of rules", dir.display());
    }
    let mut files = Vec::new();
    walk(dir, dir, prefix, DEEPEST, &mut files)?;
    if files.is_empty() {
        bail!("{}: holds no .ron file and no makers.csv", dir.display());
    }
    Ok(files)
}

/// Rules, and the user's own list of makers.
fn is_rule_file(path: &Path) -> bool {
    path.extension().is_some_and(|e| e == "ron") || path.file_name().is_some_and(|n| n == MAKERS)
}

fn walk(
    root: &Path,
    dir: &Path,
    prefix: &str,
    levels: usize,
    out: &mut Vec<SourceFile>,
) -> Result<()> {
    let entries =
        fs::read_dir(dir).with_context(|| format!("{}: can't be listed", dir.display()))?;
    let mut paths = entries
        .map(|e| e.map(|e| e.path()))
        .collect::<std::io::Result<Vec<_>>>()
        .with_context(|| format!("{}: can't be listed", dir.display()))?;
    paths.sort();
    for path in paths {
        if path.is_dir() {
            if levels > 1 {
                walk(root, &path, prefix, levels - 1, out)?;
            }
        } else if is_rule_file(&path) {
            let name = path.strip_prefix(root).unwrap_or(&path);
            let name = name.to_string_lossy().replace('\\', "/");
            out.push(SourceFile {
                name: format!("{prefix}{name}"),
                text: read_text(&path)?,
            });
        }
    }
    Ok(())
}
