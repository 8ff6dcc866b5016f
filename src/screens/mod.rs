//! The screens: an event means a message, the message changes the state, the state is drawn.
//!
//! A tree with floors; nothing imports what stands above it, and `terminal` alone knows where
//! events come from and where cells go, so that another backend can drive the same screens.
//!
//! ```text
//! terminal             crossterm's events in, frames out (feature `terminal`)
//!   app                key or click -> message -> popup or screen -> what the popup answers
//!     draw             one frame
//!     update           what a message does on a screen
//!     screen_keys      the keys of the screens
//!       popups/        what opens over a screen, a file each; `mod.rs` lists them
//!         views/       the screens, and the parts they and the popups are made of
//!           kit/       theme, text to lines, rows, canvas
//!             state/   the piece, the place, undo, keys, messages
//! ```
//!
//! To add a popup: its file, and its line in `popups/mod.rs`. To add a screen: a variant of
//! `Screen`, a file under `views/` with its keys and its drawing, a key that leads to it.

pub mod app;
mod draw;
pub mod kit;
pub mod popups;
mod screen_keys;
pub mod state;
#[cfg(feature = "terminal")]
pub mod terminal;
mod update;
mod views;

// What `main`, the command line and the page name; nothing below imports from here.
pub use draw::{LEAST, MOST};
pub use kit::theme::{self, theme_for};
