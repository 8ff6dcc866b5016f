//! What the program needs from its surroundings: rule files, the present year, files read and
//! written.
//!
//! | file | what |
//! |---|---|
//! | `rules` | folders of rule files: `--rules DIR`, and the user's overlay |
//! | `surroundings` | where the stock book lies, which day it is, and a number nobody else has |
//! | `display` | what the terminal can show |
//! | `learners` | learners as an earlier version kept them, a file each |
//! | `read` | texts and tables, up to a length |
//! | `settings` | the user's currency and terms of selling |
//! | `write` | the one writer of files: whole or not at all, and over nobody else's |
//!
//! Rules come from the program itself, or from `--rules DIR` in their place; files in the user's
//! overlay folder are added to the shipped ones.

pub mod display;
pub mod learners;
pub mod read;
pub mod rules;
pub mod settings;
pub mod surroundings;
pub mod write;

use std::path::PathBuf;
use std::time::{SystemTime, UNIX_EPOCH};

use anyhow::Result;

use crate::core::grid::Year;
use crate::piece::expert::Expert;
use crate::rulebase::problem::Problem;
use crate::rulebase::shipped;
use crate::rulebase::source::SourceFile;
use rules::{read_overlay, read_rules};

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
            return read_rules(dir);
        }
        let mut files = shipped::files();
        files.extend(read_overlay()?);
        Ok(files)
    }

    /// Rule base and engine. Problems of the rules come back apart from problems of reading.
    ///
    /// # Errors
    /// As `files`.
    pub fn expert(&self) -> Result<Result<Expert, Vec<Problem>>> {
        if let Some(dir) = &self.rules {
            return Ok(Expert::load(&read_rules(dir)?, self.present()));
        }
        let own = read_overlay()?;
        if own.is_empty() {
            return Ok(Expert::shipped(self.present()));
        }
        let mut files = shipped::files();
        files.extend(own);
        Ok(Expert::load(&files, self.present()))
    }
}
