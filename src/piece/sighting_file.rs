//! Sighting files: one piece, as RON.
//!
//! `(format: 1, title: "…", setting: "thrift-shelf", mark: "…", mark_complete: false, notes: "…",
//! saw: ["line-make=engraved", "print-colour=blue?"])` — everything but `format` may be left out.

use serde::Deserialize;

use super::notation;
use crate::core::observation::{Evidence, Observation};
use crate::rulebase::RuleBase;
use crate::rulebase::ids::SettingId;
use crate::rulebase::problem::{Check, Problem};
use crate::rulebase::source::{FORMAT, Located, SourceFile, line_col, options};

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Sighting")]
struct Written<'a> {
    format: u32,
    #[serde(default)]
    title: String,
    #[serde(borrow)]
    setting: Option<Located<'a, String>>,
    #[serde(default)]
    mark: String,
    #[serde(default)]
    mark_complete: bool,
    #[serde(default)]
    notes: String,
    #[serde(borrow, default)]
    saw: Vec<Located<'a, String>>,
}

/// One piece as written down.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sighting {
    pub title: String,
    /// The setting, when one is named.
    pub setting: Option<SettingId>,
    /// What can be read on the back, to be read by `marks`.
    pub mark: String,
    /// True when nothing else stands in the mark: then absent words speak too.
    pub mark_complete: bool,
    /// A line in trade words.
    pub notes: String,
    pub saw: Vec<Observation>,
}

/// A sighting as text, so that reading it gives the same setting and findings. What was heard in
/// notes or a mark is written as said outright: the words it was heard in are no longer known.
pub fn write(base: &RuleBase, setting: SettingId, evidence: &Evidence) -> String {
    let saw = evidence.observations().iter();
    let saw: String = saw
        .map(|o| format!("        {},\n", quoted(&notation::write(base, o))))
        .collect();
    format!(
        "(\n    format: {FORMAT},\n    setting: {},\n    saw: [\n{saw}    ],\n)\n",
        quoted(&base.settings[setting].id)
    )
}

/// A text as RON writes it; ids may hold anything.
fn quoted(text: &str) -> String {
    format!("\"{}\"", text.escape_default())
}

/// Reads a sighting; the first problem is given with its place.
///
/// # Errors
/// The first problem, with its place.
pub fn read(base: &RuleBase, file: &SourceFile) -> Result<Sighting, Problem> {
    let problem = |(line, col), code, message: String, help: &str| Problem {
        file: file.name.clone(),
        line,
        col,
        message,
        code,
        help: help.to_owned(),
    };
    let written: Written = options().from_str(&file.text).map_err(|e| {
        let at = (e.span.start.line, e.span.start.col);
        problem(at, Check::Unreadable, e.code.to_string(), "")
    })?;
    if written.format != FORMAT {
        let message = format!("format {}; this program reads format 1", written.format);
        return Err(problem((1, 1), Check::WrongFormat, message, ""));
    }
    let setting = match &written.setting {
        None => None,
        Some(name) => Some(base.setting(&name.value).ok_or_else(|| {
            let known: Vec<&str> = base.settings.iter().map(|s| s.id.as_str()).collect();
            let message = format!(
                "unknown setting '{}': use {}",
                notation::printable(&name.value),
                known.join(", ")
            );
            problem(
                line_col(&file.text, name.src),
                Check::UnknownSetting,
                message,
                "",
            )
        })?),
    };
    let mut saw = Vec::with_capacity(written.saw.len());
    for text in &written.saw {
        let entry = notation::parse(base, &text.value).map_err(|refused| {
            problem(
                line_col(&file.text, text.src),
                Check::BadFinding,
                refused.0,
                "",
            )
        })?;
        saw.push(entry);
    }
    Ok(Sighting {
        title: written.title,
        setting,
        mark: written.mark,
        mark_complete: written.mark_complete,
        notes: written.notes,
        saw,
    })
}
