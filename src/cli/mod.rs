//! The command line: one file a command. Prints to the writer it is given; never exits.
//!
//! | file | what |
//! |---|---|
//! | `args`, `seen_args` | the arguments as clap reads them |
//! | `run` | which command is carried out |
//! | `outcome` | how a command ended; what every command begins with |
//! | `faults` | an error that takes several lines |
//! | `judge`, `ask`, `challenge`, `marks`, `prove`, `shelf`, `lot`, `guide`, `rules`, `generate`, `doctor` | the commands |
//! | `rules_author` | `rules new` and `rules compare` |
//! | `ask_at_once` | what `ask` is told in one line: the first glance, a mark |
//! | `stock` | the stock book, a file a group of commands |
//! | `drill`, `drill_talk`, `drill_piece`, `drill_from` | lessons and drills: what comes when, a question, a whole piece, pieces somebody has written down |
//! | `learners` | the learners of the stock book, and of files |
//! | `told` | what is told of a piece, from files and arguments |
//! | `handout` | cards and sheets, of one piece or several |
//! | `picture` | `guide --picture` |
//! | `page_file` | where pages go |
//! | `prices` | what a price is weighed by: terms, and the sales of the stock book |
//! | `keep` | a file the screens want written |
//! | `clean` | no control character reaches the terminal |

mod args;
mod ask;
mod ask_at_once;
mod challenge;
mod clean;
mod doctor;
mod drill;
mod drill_from;
mod drill_piece;
mod drill_talk;
mod faults;
mod generate;
mod guide;
mod handout;
mod judge;
mod keep;
mod learners;
mod lot;
mod marks;
mod outcome;
mod page_file;
mod picture;
mod prices;
mod prove;
mod rules;
mod rules_author;
mod run;
mod seen_args;
mod shelf;
#[cfg(feature = "stock")]
mod stock;
mod told;

pub use faults::shown;
pub use keep::keep;
pub use learners::WithFiles;
pub use outcome::Outcome;
pub use run::{Beginning, NextStep, Opened, run};
