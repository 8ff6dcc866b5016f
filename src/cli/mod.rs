//! The command line: one file a command. Prints to the writer it is given; never exits.
//!
//! | file | what |
//! |---|---|
//! | `args` | the arguments as clap reads them |
//! | `run` | which command is carried out |
//! | `outcome` | how a command ended; what every command begins with |
//! | `judge`, `ask`, `challenge`, `marks`, `prove`, `guide`, `rules`, `generate` | the commands |
//! | `drill`, `drill_talk`, `drill_piece` | lessons and drills: what comes when, a question, a whole piece |
//! | `told` | what is told of a piece, from files and arguments |
//! | `handout` | cards and sheets, of one piece or several |
//! | `page_file` | where the pages of `judge` go |
//! | `clean` | no control character reaches the terminal |

mod args;
mod ask;
mod challenge;
mod clean;
mod drill;
mod drill_piece;
mod drill_talk;
mod generate;
mod guide;
mod handout;
mod judge;
mod lot;
mod marks;
mod outcome;
mod page_file;
mod prove;
mod rules;
mod run;
mod told;

pub use outcome::Outcome;
pub use run::{NextStep, run};
