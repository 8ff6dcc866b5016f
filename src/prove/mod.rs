//! How right, and how rightly sure, the answers are on pieces with known dates.
//!
//! | file | what |
//! |---|---|
//! | `cases` | CASES.csv to known pieces, all bad rows at once |
//! | `judge` | one known piece against its posterior |
//! | `measures` | coverage, error, width and log scores of many |
//! | `calibration` | whether the 80 % band holds four in five, period by period |
//! | `drawn` | the same of pieces drawn from the rules: what is to be expected |
//! | `setting_moves` | how far the answer hangs on where a piece was found |
//! | `reliability` | stated against observed |
//! | `left_out` | each finding left out: by clue, and what spoils the worst cases |
//! | `compare` | two rule bases on the same pieces |
//! | `economy` | how few looks settle the answer, in three orders |
//! | `family_split` | a case with its families kept apart, so that δ can be varied cheaply |
//! | `doubt` | how far a setting may be wrong, by cross-validated log score |
//! | `counts` | what counting known pieces would be worth |
//! | `count_choice` | which clues gain by it |
//! | `fit` | δ of the families by cross-validated log score |
//! | `ordered` | work over all cores, results in order |
//! | `proof` | all of it together |
//! | `text`, `text_parts`, `figures`, `json` | the report as written |

pub mod calibration;
pub mod cases;
pub mod compare;
mod count_choice;
pub mod counts;
pub mod doubt;
pub mod drawn;
pub mod economy;
mod family_split;
mod figures;
pub mod fit;
pub mod json;
pub mod judge;
pub mod left_out;
pub mod measures;
pub mod ordered;
pub mod proof;
pub mod reliability;
pub mod setting_moves;
pub mod text;
mod text_parts;

pub use proof::{Parts, Proof, Report, prove, report};
