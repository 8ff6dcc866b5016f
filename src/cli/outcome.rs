//! How a command ended, and what every command begins with: the rules, and the setting named.

use std::io::{IsTerminal, Write};
use std::sync::Arc;

use anyhow::{Result, bail};

use super::faults::Faults;
use crate::piece::expert::Expert;
use crate::rulebase::ids::SettingId;
use crate::rulebase::problem::near;
use crate::setup::Setup;

/// How a command ended, when it could be carried out at all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Done, or the answer is yes.
    Yes,
    /// Asked, and the answer is no.
    No,
}

/// The expert, or all problems of the rules, a line each.
pub(super) fn expert(setup: &Setup) -> Result<Arc<Expert>> {
    match setup.expert()? {
        Ok(expert) => Ok(Arc::new(expert)),
        Err(problems) => Err(Faults::of_rules(&problems).into()),
    }
}

/// Says on a terminal how far a long piece of work is, for who waits for it.
pub(super) fn progress(what: &str, done: usize, of: usize) {
    if std::io::stderr().is_terminal() && (done.is_multiple_of(10) || done == of) {
        let end = if done == of { "\n" } else { "" };
        // A progress line that can't be written is no reason to stop.
        let _ = write!(std::io::stderr(), "\r{what} {done} of {of}{end}");
    }
}

/// Index of a setting by id or unique beginning.
pub(super) fn setting(expert: &Expert, name: &str) -> Result<SettingId> {
    if let Some(at) = expert.base.setting(name) {
        return Ok(at);
    }
    let places = expert.base.kinds_of_place();
    let ids: Vec<&str> = places.iter().map(|s| s.id.as_str()).collect();
    let close = near(name, ids.iter().copied(), 2);
    let shown = crate::piece::notation::printable(name);
    if close.is_empty() {
        bail!("unknown setting '{shown}'; use {}", ids.join(", "));
    }
    bail!("unknown setting '{shown}'; nearest: {}", close.join(", "));
}

/// Where known pieces that name no setting are taken to lie: museums catalogue most of them. The first setting of rules
/// without a drawer.
pub(super) fn setting_of_known(expert: &Expert) -> SettingId {
    expert.base.setting("museum-drawer").unwrap_or_default()
}

/// The same kind of place in a country, by the country's id or unique beginning.
pub(super) fn in_country(
    expert: &Expert,
    place: SettingId,
    country: Option<&str>,
) -> Result<SettingId> {
    let Some(name) = country else {
        return Ok(place);
    };
    let base = &expert.base;
    if let Some(country) = base.country(name) {
        return Ok(base.in_country(place, Some(country)));
    }
    let ids: Vec<&str> = base.countries.iter().map(|c| c.id.as_str()).collect();
    let shown = crate::piece::notation::printable(name);
    bail!("unknown country '{shown}'; use {}", ids.join(", "));
}
