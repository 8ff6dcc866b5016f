//! How an old printed plate was decorated, about when, how rare it is, and why.
//!
//! The program `printseam` is this library with a command line and screens. To judge a piece:
//!
//! ```
//! use std::sync::Arc;
//! use printseam::{Expert, Piece, SettingId, Told, Year, intake};
//!
//! // The rule base built in; 2026 is the newest year a piece can have been made.
//! let expert = Arc::new(Expert::shipped(Year(2026)).map_err(|problems| problems[0].clone())?);
//!
//! // What somebody tells of it: a line of notes and what stands on the back.
//! let told = Told {
//!     notes: "dark blue willow, scalloped, crazed",
//!     mark: "MADE IN ENGLAND",
//!     ..Told::default()
//! };
//! let taken = intake(&expert, &told)?;
//!
//! let piece = Piece::new(expert, SettingId(0), taken.evidence);
//! let band = piece.judgement().band();
//! assert!(band.from > Year(1870), "{}", band.edtf());
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! A [`Piece`] is a value: another finding gives another piece, and everything else that follows
//! from it (the next looks, the reasons, what would change the answer) is worked out when asked for.
//!
//! ```
//! # use std::sync::Arc;
//! # use printseam::{Expert, Piece, SettingId, Year, parse};
//! # let expert = Arc::new(Expert::shipped(Year(2026)).map_err(|problems| problems[0].clone())?);
//! let piece = Piece::unseen(expert.clone(), SettingId(0));
//! let flown = piece.with(parse(&expert.base, "edge=clouded?")?);
//! assert!(flown.advice().next().is_some());
//! assert!(piece.evidence().is_empty());
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! Rule bases of one's own are RON files, checked as a whole:
//!
//! ```
//! use printseam::{RuleBase, SourceFile};
//!
//! let files = [SourceFile {
//!     name: "kinds.ron".to_owned(),
//!     text: "(format: 1, kinds: [(id: \"No Id\")])".to_owned(),
//! }];
//! for problem in RuleBase::load(&files).unwrap_err() {
//!     println!("{problem}"); // kinds.ron:1:…: …
//! }
//! ```
//!
//! Rooms of the program, imports going down only (DEVELOPERS.md draws them): `cli`, `screens`;
//! `setup`, `report`, `prove`, `lot`, `stock`; `say`; `claim`, `buy`, `picture`, `learn`; `piece`; `rulebase`;
//! `hearing`; `registry`; `core`.

// Here and not in Cargo.toml: tests and benches are crates of their own, with nothing to export.
#![deny(unreachable_pub)]

mod buy;
mod claim;
#[cfg(feature = "terminal")]
mod cli;
mod core;
mod hearing;
#[doc(hidden)]
pub mod internals;
mod learn;
#[cfg(feature = "terminal")]
mod lot;
mod picture;
mod piece;
#[cfg(feature = "tables")]
mod prove;
mod registry;
mod report;
mod rulebase;
mod say;
mod screens;
#[cfg(feature = "terminal")]
mod setup;
mod stock;

pub use crate::core::grid::Year;
pub use crate::core::interval::Band;
pub use crate::core::observation::{Evidence, Observation, Observed, Origin, Sure, Weights};
pub use crate::piece::Piece;
pub use crate::piece::advice::Advice;
pub use crate::piece::expert::Expert;
pub use crate::piece::intake::{Hearing, Taken, Told, intake};
pub use crate::piece::judgement::Judgement;
pub use crate::piece::notation::{Refused, parse};
pub use crate::report::json::verdict as verdict_json;
pub use crate::report::text::verdict as verdict_text;
pub use crate::rulebase::RuleBase;
pub use crate::rulebase::ids::SettingId;
pub use crate::rulebase::problem::{Check, Problem};
pub use crate::rulebase::source::SourceFile;
