//! printseam: how an old printed plate was decorated, about when, how rare, and why.
//!
//! Floors, imports going down only (`tests/it/floors.rs` reads them):
//!
//! | floor | modules |
//! |---|---|
//! | 7 | `cli`, `screens` |
//! | 6 | `setup`, `report`, `prove` |
//! | 5 | `claim`, `say` |
//! | 4 | `piece` |
//! | 3 | `rulebase` |
//! | 2 | `registry`, `hearing` |
//! | 1 | `core` |

pub mod claim;
#[cfg(feature = "terminal")]
pub mod cli;
pub mod core;
pub mod hearing;
pub mod piece;
pub mod prove;
pub mod registry;
pub mod report;
pub mod rulebase;
pub mod say;
pub mod screens;
#[cfg(feature = "terminal")]
pub mod setup;
