//! The rule base: RON files read, checked with places, and compiled for the engine.
//!
//! `load` tells the whole way, step by step; each file uses only files above it in this table.
//!
//! | file | what |
//! |---|---|
//! | `source` | file texts and values that know their line and column |
//! | `problem` | what is wrong, where, by which check; nearest names |
//! | `ids` | a type for each sort of id, and how many of it there can be |
//! | `ladder` | words of frequency |
//! | `schema`, `schema_clues`, `schema_marks`, `schema_prices`, `schema_counted`, `schema_lessons` | the files as written |
//! | `plainly` | a reader of plainly written files, where ron would take its time |
//! | `parse` | file texts to records as written, each by its topic |
//! | `definitions`, `prices` | the records checked |
//! | `base` | the checked rule base as a whole |
//! | `resolve`, `numbers`, `frequencies` | names to ids, texts to numbers; every problem noted |
//! | `priors` | where a piece was found to the chances before any look |
//! | `counted` | known pieces counted into frequencies |
//! | `engine` | tables and priors for `core` |
//! | `market` | what turns up in a setting, for rarity |
//! | `informative`, `possible` | refuse findings that change nothing, and what can never be |
//! | `gates` | which answers open a clue; no clues that wait for one another |
//! | `load_world`, `load_clues`, `load_changes`, `load_rarity`, `load_prices`, `load_counted`, `load_cautions`, `load_glance`, `load_glossary` | the topics |
//! | `load_wording`, `load_registry` | the topics of marks |
//! | `load_lessons` | lessons and what is practised in them |
//! | `makers_table`, `load_makers` | a user's own list of makers |
//! | `spoken` | how findings are said in a line of notes |
//! | `skeleton` | a new clue, to be filled in |
//! | `shipped` | the files built into the program |
//! | `load` | all of it in order |
//! | `origins` | how many figures rest on what |

mod base;
pub mod counted;
pub mod definitions;
pub mod engine;
mod frequencies;
mod gates;
pub mod ids;
mod informative;
pub mod ladder;
mod load;
mod load_cautions;
mod load_changes;
mod load_clues;
mod load_counted;
mod load_ear;
mod load_glance;
mod load_glossary;
mod load_lessons;
mod load_makers;
mod load_prices;
mod load_rarity;
mod load_registry;
mod load_wording;
mod load_words;
mod load_world;
mod makers_table;
pub mod market;
mod numbers;
pub mod origins;
mod parse;
mod plainly;
mod possible;
pub mod prices;
pub mod priors;
pub mod problem;
mod resolve;
mod schema;
mod schema_clues;
mod schema_counted;
mod schema_lessons;
mod schema_marks;
mod schema_prices;
mod schema_words;
pub mod shipped;
pub mod skeleton;
pub mod source;
pub mod spoken;
mod word_lists;

pub use base::RuleBase;
