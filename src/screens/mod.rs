//! The screens: event -> `Msg` -> `update(&mut App)` -> `draw(&App)`.
//!
//! Only `terminal` knows where events come from and where cells go, so that another backend can
//! drive the same screens.
//!
//! | file | what |
//! |---|---|
//! | `input` | keys and clicks in our own words; key strings for tests |
//! | `msg` | everything that can be asked of the screens |
//! | `bindings` | which keys there are, where, and the label shown for each |
//! | `keys` | what a key or a click means now |
//! | `app` | what the screens know |
//! | `update` | what a message changes |
//! | `forms` | what is typed and chosen in a popup, and what it comes to |
//! | `moves` | moving about in lists and long texts |
//! | `draw` | one frame, and where it can be clicked |
//! | `canvas` | rows of text with what a click on them means |
//! | `theme`, `wrap` | roles and styles; text to lines |
//! | `bars`, `timeline`, `columns` | kinds as bars; curve, band, guess and eras on one axis |
//! | `findings` | a clue's findings as a numbered list |
//! | `welcome`, `look`, `verdict` | the screens |
//! | `popups/` | what opens over them, each in a file of its own |
//! | `footer` | the keys, always on the screen |
//! | `terminal` | the crossterm backend (feature `terminal`) |
//!
//! To add a screen: a variant of `Screen`, its keys in `keys`, its drawing in a file of its own,
//! and a key that leads to it.

pub mod app;
mod bars;
pub mod bindings;
pub mod canvas;
mod columns;
mod draw;
mod findings;
mod footer;
mod forms;
pub mod input;
pub mod keys;
mod look;
mod moves;
pub mod msg;
pub mod popups;
#[cfg(feature = "terminal")]
pub mod terminal;
pub mod theme;
mod timeline;
mod update;
mod verdict;
mod welcome;
mod wrap;

use theme::Theme;

/// The theme named; else the usual one, or none at all where colour is not wanted.
pub fn theme_for(named: Option<&str>, no_colour: bool) -> Theme {
    match named.and_then(Theme::named) {
        Some(theme) => theme,
        None if no_colour => Theme::mono(),
        None => Theme::default(),
    }
}
