//! Folders of rule files.

use std::ffi::OsStr;
use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use etcetera::{AppStrategy, AppStrategyArgs, choose_app_strategy};

use super::read::read_text;
use crate::rulebase::source::SourceFile;

/// Rule files stand at most this deep (`clues/front.ron` is 2), so that a folder named by mistake
/// or links that lead in a circle can't keep the program busy: deeper folders are refused.
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

/// All `.ron` files and `makers.csv` below a folder, in order of name, named relative to it.
///
/// # Errors
/// A folder that is none, is empty or can not be listed; a file that can not be read.
pub fn read_rules(dir: &Path) -> Result<Vec<SourceFile>> {
    if !dir.is_dir() {
        bail!("{}: no such folder of rules", dir.display());
    }
    let mut files = Vec::new();
    walk(dir, dir, "", DEEPEST, &mut files)?;
    if files.is_empty() {
        bail!("{}: holds no .ron file and no makers.csv", dir.display());
    }
    Ok(files)
}

/// The user's own rules, named after `overlay/`; none where there is no such folder, or nothing in it.
///
/// # Errors
/// Whatever stands there and can't be read: a verdict without rules that were meant to count is worse
/// than none.
pub fn read_overlay() -> Result<Vec<SourceFile>> {
    let Some(dir) = overlay_folder() else {
        return Ok(Vec::new());
    };
    let there = fs::symlink_metadata(&dir).and_then(|_| fs::metadata(&dir).map_err(leads_nowhere));
    match there {
        Ok(there) if there.is_dir() => {}
        Ok(_) => bail!(
            "{}: is no folder; rules of your own stand in one",
            dir.display()
        ),
        Err(e) if e.kind() == ErrorKind::NotFound => return Ok(Vec::new()),
        // A configuration folder that is a file holds no rules.
        Err(e) if e.kind() == ErrorKind::NotADirectory => return Ok(Vec::new()),
        Err(e) => {
            return Err(e)
                .with_context(|| format!("{}: your own rules can't be read", dir.display()));
        }
    }
    let mut files = Vec::new();
    walk(&dir, &dir, "overlay/", DEEPEST, &mut files)?;
    Ok(files)
}

/// A link to nothing is not the same as nothing.
fn leads_nowhere(e: std::io::Error) -> std::io::Error {
    match e.kind() {
        ErrorKind::NotFound => std::io::Error::other("a link that leads nowhere"),
        _ => e,
    }
}

/// Rules, and the user's own list of makers. A name in capitals is taken as well: what is wrong with
/// it is said, where a file passed over would be missed by nobody.
fn is_rule_file(path: &Path) -> bool {
    let is = |part: Option<&OsStr>, name: &str| part.is_some_and(|p| p.eq_ignore_ascii_case(name));
    is(path.extension(), "ron") || is(path.file_name(), MAKERS)
}

/// Editors, version control and other systems keep things of their own in such.
fn is_hidden(path: &Path) -> bool {
    path.file_name()
        .is_some_and(|n| n.to_string_lossy().starts_with('.'))
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
        if is_hidden(&path) {
            continue;
        }
        if path.is_dir() {
            if levels == 1 {
                let shown = path.display();
                bail!("{shown}: rules stand at most {DEEPEST} folders deep; move it up, or away");
            }
            walk(root, &path, prefix, levels - 1, out)?;
        } else if is_rule_file(&path) {
            // A pipe would be waited for.
            if !path.is_file() {
                bail!("{}: is no ordinary file", path.display());
            }
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
