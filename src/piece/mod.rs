//! One piece: what is told of it, what is known, and everything that follows.
//!
//! | file | what |
//! |---|---|
//! | `expert` | the rule base with its engine, shared by all pieces |
//! | `notation` | "clue=finding?" to an observation and back |
//! | `reading` | marks and notes to observations |
//! | `registered` | a registration as a table holds it, to an observation |
//! | `sighting_file` | sighting files |
//! | `intake` | all that is told of a piece at once: which observation counts, and what was overridden |
//! | `judgement` | kinds, places, years, bands, rarity |
//! | `advice`, `prospect` | the looks that are left, and what each finding would lead to |
//! | `glance` | what strikes the eye at arm's length |
//! | `setting_effect` | what the place of the find adds to what is seen |
//! | `typed_mark` | the clues that typing the mark once answers |
//! | `kit` | looks that can be made with what is at hand |
//! | `account` | `Piece`: evidence and all that follows from it, as one value |
//! | `brief` | what a table of many pieces says of each |
//! | `trial` | two accounts of a piece side by side |

pub mod account;
pub mod advice;
pub mod brief;
pub mod expert;
pub mod glance;
pub mod intake;
pub mod judgement;
pub mod kit;
pub mod notation;
pub mod prospect;
pub mod reading;
pub mod registered;
pub mod setting_effect;
pub mod sighting_file;
pub mod trial;
pub mod typed_mark;

pub use account::Piece;
