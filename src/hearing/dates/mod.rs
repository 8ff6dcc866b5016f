//! Years as people write them: "1890s", "c. 1840-60", "Victorian", "over a hundred years old", EDTF.
//!
//! | file | what |
//! |---|---|
//! | `tokens` | a text cut into words, numbers and dashes |
//! | `span` | years as understood, and parts of them |
//! | `unit` | one year, decade, century or period as named |
//! | `years` | units and ranges of them, in plain or EDTF writing |
//! | `age` | years told as an age |
//! | `periods` | names of periods with their years and where those come from |
//! | `trade`, `passed_over` | trade words for kinds; small words that say nothing |

mod age;
pub mod passed_over;
pub mod periods;
pub mod span;
pub mod tokens;
pub mod trade;
mod unit;
pub mod years;
