//! What the program needs from its surroundings: rule files and the present year.
//!
//! Rules come from the program itself, or from `--rules DIR` in their place; files in the user's
//! overlay folder are added to the shipped ones.

use std::fs;
use std::io::Read;
use std::path::{Path, PathBuf};
use std::time::{SystemTime, UNIX_EPOCH};

use anyhow::{Context, Result, bail};
use etcetera::{AppStrategy, AppStrategyArgs, choose_app_strategy};

use crate::core::grid::Year;
use crate::piece::expert::Expert;
use crate::rulebase::problem::Problem;
use crate::rulebase::shipped;
use crate::rulebase::source::SourceFile;

/// Largest text file read, in bytes: far more than any sighting or rule file has.
pub const MOST_BYTES: u64 = 1_000_000;

/// Largest table of many pieces read, in bytes.
const MOST_TABLE_BYTES: u64 = 50_000_000;

/// Rule files stand at most this deep (`clues/front.ron` is 2), so that a folder named by mistake
/// or links that lead in a circle can't keep the program busy.
const DEEPEST: usize = 3;

/// Mean length of a Gregorian year in seconds (365.2425 days).
const YEAR_SECONDS: u64 = 31_556_952;

/// Where the rules come from and which year it is.
#[derive(Clone, Debug, Default)]
pub struct Setup {
    /// Replaces the shipped rules.
    pub rules: Option<PathBuf>,
    /// Overrides the clock.
    pub now: Option<i16>,
}

impl Setup {
    /// The newest year a piece can have been made; within a day of New Year it may be one off.
    pub fn present(&self) -> Year {
        let clock = || {
            let seconds = SystemTime::now()
                .duration_since(UNIX_EPOCH)
                .map_or(0, |d| d.as_secs());
            i16::try_from(1970 + seconds / YEAR_SECONDS).unwrap_or(2100)
        };
        Year(self.now.unwrap_or_else(clock))
    }

    /// All rule files, shipped and added, or those of `--rules DIR` alone.
    ///
    /// # Errors
    /// A folder or file that can not be read, by name.
    pub fn files(&self) -> Result<Vec<SourceFile>> {
        if let Some(dir) = &self.rules {
            return read_rules(dir, "");
        }
        let mut files = shipped::files();
        if let Some(overlay) = overlay_folder().filter(|dir| dir.is_dir()) {
            files.extend(read_rules(&overlay, "overlay/")?);
        }
        Ok(files)
    }

    /// Rule base and engine. Problems of the rules come back apart from problems of reading.
    ///
    /// # Errors
    /// As `files`.
    pub fn expert(&self) -> Result<Result<Expert, Vec<Problem>>> {
        let plain = self.rules.is_none() && !overlay_folder().is_some_and(|dir| dir.is_dir());
        if plain {
            return Ok(Expert::shipped(self.present()));
        }
        Ok(Expert::load(&self.files()?, self.present()))
    }
}

/// The user's own rules: `rules` in the program's configuration folder.
pub fn overlay_folder() -> Option<PathBuf> {
    let names = AppStrategyArgs {
        top_level_domain: String::new(),
        author: String::new(),
        app_name: "printseam".to_owned(),
    };
    choose_app_strategy(names)
        .ok()
        .map(|s| s.in_config_dir("rules"))
}

/// All `.ron` files below a folder, in order of name, named relative to it after `prefix`.
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
        bail!("{}: holds no .ron file", dir.display());
    }
    Ok(files)
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
        } else if path.extension().is_some_and(|e| e == "ron") {
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

/// A whole text file, refused when too long or not UTF-8.
///
/// # Errors
/// The file by name, with what is wrong.
pub fn read_text(path: &Path) -> Result<String> {
    text_of(open(path)?, &path.display().to_string())
}

/// The bytes of a table, refused when longer than `MOST_TABLE_BYTES`.
///
/// # Errors
/// The file by name, with what is wrong.
pub fn read_table(path: &Path) -> Result<Vec<u8>> {
    bytes_of(open(path)?, &path.display().to_string(), MOST_TABLE_BYTES)
}

fn open(path: &Path) -> Result<fs::File> {
    fs::File::open(path).with_context(|| format!("{}: can't be read", path.display()))
}

/// The whole of a file or pipe as text.
///
/// # Errors
/// Too long, no text, or not to be read; `shown` names it.
pub fn text_of(input: impl Read, shown: &str) -> Result<String> {
    String::from_utf8(bytes_of(input, shown, MOST_BYTES)?).map_err(|e| {
        let at = e.utf8_error().valid_up_to();
        anyhow::anyhow!("{shown}: not UTF-8 text (byte {at}); save it as UTF-8")
    })
}

/// The length is counted while reading: devices and pipes don't tell it beforehand.
fn bytes_of(input: impl Read, shown: &str, most: u64) -> Result<Vec<u8>> {
    let mut bytes = Vec::new();
    input
        .take(most + 1)
        .read_to_end(&mut bytes)
        .with_context(|| format!("{shown}: can't be read"))?;
    if bytes.len() as u64 > most {
        bail!("{shown}: too long; at most {most} bytes are read");
    }
    Ok(bytes)
}
