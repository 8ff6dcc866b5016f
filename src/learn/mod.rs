//! Teaching the eye: drawn pieces, drills, scores, what a learner remembers and when to ask again.
//!
//! Pure: the clock, the seed and the store are handed in. What is said stands in `say::drill`; where
//! a picture can be shown, `Picture` says which.
//!
//! | file | what |
//! |---|---|
//! | `hidden` | a piece drawn from the rule base's own joint |
//! | `scoring` | proper scores of confidence and years, information per second |
//! | `memory` | when to ask again |
//! | `learner` | what one learner got right and wrong |
//! | `item` | one question with its answers |
//! | `drills`, `backs` | questions made from the rules and a seed |
//! | `again` | the questions a memory goes by, made afresh |
//! | `asked` | ask the piece, look by look |
//! | `recorded` | a piece somebody has written down |
//! | `round` | questions in a row, and how they went |

pub mod again;
pub mod asked;
pub mod backs;
pub mod drills;
pub mod hidden;
pub mod item;
pub mod learner;
pub mod memory;
pub mod recorded;
pub mod round;
pub mod scoring;
