//! What was seen, as clap reads it for every command that judges.

use clap::Args;

/// What was seen.
#[derive(Debug, Default, Args)]
pub(super) struct SeenArgs {
    /// A finding; `?` after it means unsure, `??` a guess; may be repeated
    #[arg(long = "saw", value_name = "CLUE=FINDING")]
    pub saw: Vec<String>,
    /// What can be read on the back; `?` for an unreadable letter, `/` for a new line
    #[arg(long, value_name = "TEXT")]
    pub mark: Option<String>,
    /// Nothing else stands in the mark: words that are not there speak too
    #[arg(long)]
    pub mark_complete: bool,
    /// A line in trade words, such as "dark blue willow, crazed, no mark"
    #[arg(long, value_name = "TEXT")]
    pub notes: Option<String>,
    /// Where the piece was found [default: the first setting of the rule base; a challenge counts
    /// every year alike]
    #[arg(long, value_name = "SETTING")]
    pub setting: Option<String>,
    /// The country that place stands in: britain, north-america, australasia, continent
    #[arg(long, value_name = "COUNTRY")]
    pub country: Option<String>,
}
