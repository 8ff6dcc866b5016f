//! The keys of the screen below, then what the signs mean.

use crate::screens::app::App;
use crate::screens::bindings::screen_bindings;
use crate::screens::canvas::{Row, item};

const SIGNS: [(&str, &str); 5] = [
    (
        "● ",
        "the middle year: half of the chance lies on either side",
    ),
    (
        "├ ┤ ",
        "the shortest run of years that holds 80 % of the chance",
    ),
    ("░▒▓ ", "when a finding is seen: the darker, the more often"),
    ("✓ ", "what you have said"),
    (
        "underlined ",
        "a trade word: tap it, or press g, to have it explained",
    ),
];

/// The rows of the popup.
pub fn rows(app: &App, cells: usize) -> Vec<Row> {
    let theme = app.theme;
    let mut out = Vec::new();
    for binding in screen_bindings(app) {
        let key = format!("{:<7}", binding.key.shown());
        out.extend(
            item(&key, binding.help, cells, theme.quiet)
                .into_iter()
                .map(|row| row.click(binding.msg)),
        );
    }
    out.extend(item(
        "1–9, A–Z ",
        "Choose a finding. Everything can also be tapped or clicked.",
        cells,
        theme.quiet,
    ));
    out.push(Row::blank());
    for (sign, meaning) in SIGNS {
        out.extend(item(sign, meaning, cells, theme.quiet));
    }
    out
}
