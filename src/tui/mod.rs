//! The screens: event -> `Msg` -> `update(&mut App)` -> `draw(&App)`.
//!
//! Only `terminal` knows where events come from and where cells go, so that another backend can
//! drive the same screens.
//!
//! | file | what |
//! |---|---|
//! | `input` | keys and clicks in our own words; key strings for tests |
//! | `msg` | everything that can be asked of the screens |
//! | `keys` | which key means what, where, and the label shown for it |
//! | `app` | what the screens know |
//! | `update` | what a message changes |
//! | `moves` | moving about in lists and long texts |
//! | `draw` | one frame, and where it can be clicked |
//! | `canvas` | rows of text with what a click on them means |
//! | `theme`, `wrap` | roles and styles; text to lines |
//! | `bars`, `years` | kinds as bars; the year curve with the eras of the findings |
//! | `findings` | a clue's findings as a numbered list |
//! | `welcome`, `look`, `verdict` | the screens |
//! | `popup`, `jump`, `why` | what opens over them |
//! | `footer` | the keys, always on the screen |
//! | `terminal` | the crossterm backend (feature `terminal`) |
//!
//! To add a screen: a variant of `Screen`, its keys in `keys`, its drawing in a file of its own,
//! and a key that leads to it.

pub mod app;
mod bars;
pub mod canvas;
mod draw;
mod findings;
mod footer;
pub mod input;
mod jump;
pub mod keys;
mod look;
mod moves;
pub mod msg;
mod popup;
#[cfg(feature = "terminal")]
pub mod terminal;
pub mod theme;
mod update;
mod verdict;
mod welcome;
mod why;
mod wrap;
mod years;

use theme::Theme;

/// The theme named, else the usual one; without any colour where colour is not wanted, whatever
/// is named.
pub fn theme_for(named: Option<&str>, no_colour: bool) -> Theme {
    if no_colour {
        return Theme::mono();
    }
    named.and_then(Theme::named).unwrap_or_default()
}
