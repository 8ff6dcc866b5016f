//! Somebody's guess ("flow blue, 1890s") put to the findings: what was meant, and does it stand?
//!
//! | file | what |
//! |---|---|
//! | `age` | years told as an age: "over a hundred years old" |
//! | `periods` | names of periods with their years and where those come from |
//! | `trade`, `passed_over` | trade words for kinds; small words that say nothing |
//! | `tokens` | the guess cut into words, numbers and dashes |
//! | `span` | years as understood, and parts of them |
//! | `unit` | one year, decade, century or period as named |
//! | `years` | units and ranges of them, in plain or EDTF writing |
//! | `claim` | the whole guess: kinds, years, colours and bodies named in it, what was not understood |
//! | `cells` | the cells a claim stands for |
//! | `standing` | how a claim stands, and the nearest one that does |
//! | `hurts` | what speaks against a claim, and what contradicts it |
//! | `judge` | all of it together |
//! | `settle` | the look that would decide between the claim and the nearest one that stands |

mod age;
pub mod cells;
pub mod claim;
pub mod hurts;
pub mod judge;
mod passed_over;
pub mod periods;
mod settle;
pub mod span;
pub mod standing;
mod tokens;
pub mod trade;
mod unit;
mod years;

pub use claim::{Claim, read};
pub use judge::{Challenge, challenge};
pub use standing::Answer;
