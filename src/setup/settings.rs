//! The user's own settings: currency, and where pieces are sold on what terms.
//!
//! `settings.ron` in the program's configuration folder; `printseam generate settings` writes one
//! with every line explained. Without it the usual terms of `market.ron` hold.

use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow};

use super::read::read_text;
use super::rules::configured;
use crate::buy::Currency;
use crate::buy::own_terms;
use crate::buy::terms::Terms;
use crate::rulebase::prices::PriceGuesses;

/// Where the settings stand.
pub fn settings_file() -> Option<PathBuf> {
    configured(own_terms::FILE)
}

/// The terms of a settings file, of the user's own where `file` is `None`, or the usual ones where
/// there is none. `currency` overrides; amounts are then converted at the rates known.
///
/// # Errors
/// The file by name, with what is wrong.
pub fn terms(
    guesses: &PriceGuesses,
    file: Option<&Path>,
    currency: Option<Currency>,
) -> Result<Terms> {
    let own = settings_file().filter(|path| path.is_file());
    let Some(path) = file.map(Path::to_owned).or(own) else {
        return Ok(Terms::usual(guesses, currency));
    };
    let text = read_text(&path)?;
    let terms = own_terms::read(guesses, &text).map_err(|e| anyhow!("{}: {e}", path.display()))?;
    Ok(match currency {
        Some(currency) => own_terms::converted(guesses, terms, currency),
        None => terms,
    })
}

/// A settings file with the usual terms in it and every line explained.
pub fn template(guesses: &PriceGuesses) -> String {
    let place = settings_file().map_or(own_terms::FILE.to_owned(), |p| p.display().to_string());
    own_terms::template(guesses, &place)
}
