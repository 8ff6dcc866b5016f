//! The stock book: the user's own pieces, what was paid for them, what they sold for.
//!
//! What a stock book is, and what can be asked of one, knows no file, clock or random source: they
//! are handed in. A store takes messages and gives answers; SQLite is one, memory another.
//!
//! | file | what |
//! |---|---|
//! | `id` | names of entries that stay the same on every machine |
//! | `entry` | one piece, or several alike, with all that is kept of it |
//! | `changes` | selling, taking back, pricing, splitting a price: entries to entries |
//! | `shares` | an amount split to the last minor unit |
//! | `keep` | a judged piece to what is kept of it, and judged again with today's rules |
//! | `again` | what changed since, and why |
//! | `columns` | an entry as named texts, and back |
//! | `table`, `objects` | those as CSV and as JSON |
//! | `file` | a file of either form |
//! | `incoming` | rows of a file against the book: new, the same, in conflict |
//! | `advert` | a piece as it is offered online, only as sure as the evidence |
//! | `cases` | pieces whose date has become known, as a table for `prove` |
//! | `sales` | what was sold and what waits, as prices are learnt from it |
//! | `line`, `find`, `totals` | lines of a list, found by words, added up |
//! | `store` | what can be asked of a store, and what can go wrong |
//! | `memory`, `sqlite` | the stores |
//! | `words` | what is said of entries |

pub mod advert;
pub mod again;
#[cfg(feature = "tables")]
pub mod cases;
pub mod changes;
pub mod columns;
pub mod entry;
#[cfg(feature = "tables")]
pub mod file;
pub mod find;
pub mod id;
pub mod incoming;
pub mod keep;
pub mod line;
pub mod memory;
pub mod objects;
pub mod sales;
mod shares;
#[cfg(feature = "stock")]
pub mod sqlite;
pub mod store;
#[cfg(feature = "tables")]
pub mod table;
pub mod totals;
pub mod words;
