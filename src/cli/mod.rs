//! The command line: one file a command. Prints to the writer it is given; never exits.
//!
//! | file | what |
//! |---|---|
//! | `args`, `seen_args` | the arguments as clap reads them |
//! | `run` | which command is carried out |
//! | `outcome` | how a command ended; what every command begins with |
//! | `judge`, `ask`, `challenge`, `marks`, `prove`, `rules`, `generate` | the commands |
//! | `stock` | the stock book, a file a group of commands |
//! | `told` | what is told of a piece, from files and arguments |
//! | `page_file` | where the pages of `judge` go |
//! | `clean` | no control character reaches the terminal |

mod args;
mod ask;
mod challenge;
mod clean;
mod generate;
mod judge;
mod marks;
mod outcome;
mod page_file;
mod prove;
mod rules;
mod run;
mod seen_args;
#[cfg(feature = "stock")]
mod stock;
mod told;

pub use outcome::Outcome;
pub use run::{NextStep, run};
