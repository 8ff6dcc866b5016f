//! What is the user's own and outlives a piece: the stock book, and the terms of selling.

use printseam::RuleBase;
use printseam::internals::buy::own_terms::{FILE, read, template};
use printseam::internals::buy::terms::Terms;
use printseam::internals::screens::app::App;
use printseam::internals::screens::state::session::AtHand;

use crate::clock;
use crate::kept::Kept;

/// Name under which the settings file is kept.
const SETTINGS: &str = "settings";

/// New screens with the stock book and the user's terms. A file kept by an earlier version that this
/// one can't read counts as none.
pub fn furnished(app: App, kept: &Kept) -> App {
    let own = kept.get(SETTINGS);
    let own = own.and_then(|text| terms(&app.piece().expert().base, &text).ok());
    let mut app = app.with_stock(AtHand {
        today: clock::today(),
        chance: clock::chance,
        seconds: clock::seconds,
    });
    app.set_terms(own);
    app.stay();
    app
}

/// Takes the terms of a settings file, as `printseam generate settings` writes it, and keeps it; says
/// what was taken.
///
/// # Errors
/// What can't be read of it, without a full stop.
pub fn take_terms(app: &mut App, kept: &Kept, text: &str) -> Result<String, String> {
    let terms = terms(&app.piece().expert().base, text)?;
    let names: Vec<&str> = terms.channels.iter().map(|c| c.name.as_str()).collect();
    let (currency, names) = (terms.currency.code(), names.join(", "));
    let room = match kept.set(SETTINGS, text) {
        true => "",
        false => " The browser has no room to keep them.",
    };
    let said = format!("Amounts are in {currency} now; sold at: {names}.{room}");
    app.set_terms(Some(terms));
    Ok(said)
}

/// A settings file to be changed: the one kept, or the usual terms.
pub fn settings(base: &RuleBase, kept: &Kept) -> String {
    let usual = || base.prices.as_ref().map(|g| template(g, FILE));
    kept.get(SETTINGS).or_else(usual).unwrap_or_default()
}

fn terms(base: &RuleBase, text: &str) -> Result<Terms, String> {
    let guesses = base.prices.as_ref();
    let guesses = guesses.ok_or("these rules know nothing of prices")?;
    read(guesses, text).map_err(|why| why.to_string())
}
