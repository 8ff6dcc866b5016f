//! Somebody's guess ("flow blue, 1890s") put to the findings: what was meant, and does it stand?
//!
//! | file | what |
//! |---|---|
//! | `guess` | the whole guess: kinds, years, colours and bodies named in it, what was not understood |
//! | `region` | the cells a claim stands for |
//! | `standing` | how a claim stands, and the nearest one that does |
//! | `opposing` | what speaks against a claim, and what contradicts it |
//! | `judge` | all of it together |
//! | `deciding_look` | the look that would decide between the claim and the nearest one that stands |

mod deciding_look;
pub mod guess;
pub mod judge;
pub mod opposing;
pub mod region;
pub mod standing;

pub use guess::{Claim, read};
pub use judge::{Challenge, challenge, evenly};
pub use standing::ClaimAnswer;
