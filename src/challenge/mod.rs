//! Somebody's guess ("flow blue, 1890s") put to the findings: what was meant, and does it stand?
//!
//! | file | what |
//! |---|---|
//! | `periods` | names of periods with their years and where those come from |
//! | `trade` | trade words for kinds |
//! | `tokens` | the guess cut into words, numbers and dashes |
//! | `years` | years, decades, centuries and ranges in plain or EDTF writing |
//! | `claim` | the whole guess: kinds, years, colours and bodies named in it, what was not understood |
//! | `judge` | the claim against the findings |
//! | `settle` | the look that would decide between the claim and the nearest one that stands |

pub mod claim;
pub mod judge;
pub mod periods;
mod settle;
mod tokens;
pub mod trade;
mod years;

pub use claim::{Claim, read};
pub use judge::{Answer, Challenge, challenge};
