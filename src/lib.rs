//! printseam: how an old printed plate was decorated, about when, how rare, and why.
//!
//! Floors, imports going down only (`tests/it/floors.rs` reads them):
//!
//! | floor | modules |
//! |---|---|
//! | 5 | `cli`, `tui` |
//! | 4 | `setup`, `report`, `prove` |
//! | 3 | `case`, `words`, `challenge` |
//! | 2 | `rulebase`, `marks` |
//! | 1 | `core` |

pub mod case;
pub mod challenge;
#[cfg(feature = "terminal")]
pub mod cli;
pub mod core;
pub mod marks;
pub mod prove;
pub mod report;
pub mod rulebase;
#[cfg(feature = "terminal")]
pub mod setup;
pub mod tui;
pub mod words;
