//! Reads marks: wording, registration diamonds and numbers, date codes; and lines of notes.
//!
//! Pure: knows no files, screens, clock or threads, and no engine but its years and degrees of
//! sureness. Tables and phrases are data from `rules/marks/`.
//!
//! | file | what |
//! |---|---|
//! | `calendar` | days and runs of days |
//! | `fold` | text to comparable words that keep their place |
//! | `matcher` | phrases in words that may be misread; generic |
//! | `claims` | which reading gets which words |
//! | `wording` | the phrase book and what a mark says |
//! | `follow` | years, numbers and corners beside the words |
//! | `written_diamond` | diamonds written out in a text |
//! | `corners` | the corners of a diamond and its layout |
//! | `diamond` | corners to dates and back |
//! | `diamond_words` | what is said of a diamond |
//! | `numbers` | registered numbers to years |
//! | `registry` | tables, and what decoding gives |
//! | `notes` | lines of notes in trade words |
//! | `schema` | the rule files as written |
//! | `compile` | rule files to checked tables |

pub mod calendar;
pub mod claims;
pub mod compile;
pub mod corners;
pub mod diamond;
mod diamond_words;
pub mod fold;
mod follow;
pub mod matcher;
pub mod notes;
pub mod numbers;
pub mod registry;
pub mod schema;
pub mod wording;
mod written_diamond;
