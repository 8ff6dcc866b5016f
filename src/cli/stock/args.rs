//! The arguments of `stock`, as clap reads them.

use std::path::PathBuf;

use clap::{Args, Subcommand};

use crate::cli::seen_args::SeenArgs;
use crate::registry::calendar::Date;

#[derive(Debug, Args)]
pub(in crate::cli) struct StockArgs {
    /// The stock book [default: stock.db in the program's folder of data]
    #[arg(
        long,
        value_name = "FILE",
        global = true,
        env = "PRINTSEAM_STOCK",
        hide_env_values = true
    )]
    pub stock: Option<PathBuf>,
    /// Take this day for today
    #[arg(long, value_name = "DATE", global = true, env = "PRINTSEAM_TODAY", hide = true, value_parser = day)]
    pub today: Option<Date>,
    #[command(subcommand)]
    pub command: StockCommand,
}

pub(in crate::cli) fn day(text: &str) -> Result<Date, String> {
    Date::from_iso(text).ok_or_else(|| "write a day as 2026-05-31".to_owned())
}

#[derive(Debug, Subcommand)]
pub(in crate::cli) enum StockCommand {
    /// Judge a piece and put it into the stock book
    ///
    /// Amounts are for all pieces of the entry together.
    Add(AddArgs),
    /// List what is in it, with what it adds up to
    List(ListArgs),
    /// What was looked at and bought today, in order, with what was spent
    Today {
        /// What may be spent, such as 100 or "80 EUR"
        #[arg(long, value_name = "AMOUNT")]
        budget: Option<String>,
    },
    /// Everything kept of one piece
    Show {
        /// Its id, or the beginning of it
        id: String,
        /// One JSON object
        #[arg(long)]
        json: bool,
    },
    /// A ticket for the shelf: what it is, about when, why, its condition and price
    Ticket {
        /// Its id, or the beginning of it
        id: String,
        /// As a card to print, on standard output or in FILE
        #[arg(long, value_name = "FILE", num_args = 0..=1, require_equals = true)]
        card: Option<Option<PathBuf>>,
        /// Write over any file, not only over a page of our own
        #[arg(long, requires = "card")]
        force: bool,
    },
    /// An offer for an online sale, only as sure as the evidence, and what to photograph
    Listing {
        /// Its id, or the beginning of it
        id: String,
        /// One JSON object
        #[arg(long)]
        json: bool,
    },
    /// Write down a sale
    Sold {
        /// Its id, or the beginning of it
        id: String,
        /// What was paid for it
        #[arg(long = "for", value_name = "AMOUNT")]
        price: String,
        /// The day [default: today]
        #[arg(long, value_name = "DATE", value_parser = day)]
        on: Option<Date>,
        /// Where it was sold [default: where it was offered]
        #[arg(long, value_name = "NAME")]
        channel: Option<String>,
        /// Only so many of several alike; they become an entry of their own
        #[arg(long, value_name = "N")]
        quantity: Option<u32>,
    },
    /// Undo a sale that was written down by mistake
    Unsold {
        /// Its id, or the beginning of it
        id: String,
    },
    /// The buyer brought it back and has the money again
    Returned {
        /// Its id, or the beginning of it
        id: String,
        /// The day [default: today]
        #[arg(long, value_name = "DATE", value_parser = day)]
        on: Option<Date>,
    },
    /// Ask another price
    Price {
        /// Its id, or the beginning of it
        id: String,
        /// What is asked now, such as 12 or 12.50
        asking: String,
    },
    /// Split the price of a box over the pieces that were in it
    Split {
        /// What was paid for all together
        paid: String,
        /// The pieces
        #[arg(required = true)]
        ids: Vec<String>,
        /// In proportion to what is asked, instead of evenly
        #[arg(long)]
        by_asking: bool,
    },
    /// Correct anything; what is seen is added to what was, and the piece judged anew
    Edit(EditArgs),
    /// Take a piece out of all lists
    Remove {
        /// Its id, or the beginning of it
        id: String,
        /// Put it back
        #[arg(long)]
        undo: bool,
    },
    /// Judge a stored piece with today's rules: what changes, and why
    Again {
        /// The piece; without it all, naming those whose answer changes
        id: Option<String>,
        /// Keep the new verdict
        #[arg(long)]
        keep: bool,
    },
    /// Write everything into a table (.csv) or as JSON (.json); `-` prints the table
    Export {
        file: PathBuf,
        /// Only pieces whose date has become known, as a table for `prove`
        #[arg(long)]
        cases: bool,
        /// Write over any file, not only over an export
        #[arg(long)]
        force: bool,
    },
    /// Read a table or JSON into the book; exit code 1 when something of it was left out
    Import {
        file: PathBuf,
        /// Leave bad rows out instead of importing nothing
        #[arg(long)]
        skip_bad: bool,
        /// Where the book tells a piece otherwise, take what the file says
        #[arg(long)]
        replace: bool,
    },
    /// Copy the whole book into a new file, also while another copy of the program writes
    Backup {
        file: PathBuf,
        /// Write over a file
        #[arg(long)]
        force: bool,
    },
}

/// What a person knows of a piece beside what is seen.
#[derive(Debug, Default, Args)]
pub(in crate::cli) struct FactsArgs {
    /// What to call it
    #[arg(long, value_name = "TEXT")]
    pub title: Option<String>,
    /// What was paid; an empty text takes it back
    #[arg(long, value_name = "AMOUNT")]
    pub paid: Option<String>,
    /// What is asked
    #[arg(long, value_name = "AMOUNT")]
    pub asking: Option<String>,
    /// Three letters, such as EUR, for amounts that name no currency [default: USD]
    #[arg(long, value_name = "CODE")]
    pub currency: Option<String>,
    /// What is wrong with it, such as chip,hairline
    #[arg(long, value_name = "WORDS", value_delimiter = ',')]
    pub condition: Option<Vec<String>>,
    /// Where it was bought
    #[arg(long = "where", value_name = "PLACE")]
    pub place: Option<String>,
    /// When it was bought [default: today, when something was paid]
    #[arg(long, value_name = "DATE", value_parser = day)]
    pub when: Option<Date>,
    /// Where it is offered
    #[arg(long, value_name = "NAME")]
    pub channel: Option<String>,
    /// A picture; may be repeated
    #[arg(long, value_name = "FILE")]
    pub photo: Vec<String>,
    /// How many alike
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..=100_000))]
    pub quantity: Option<u32>,
    /// Anything else
    #[arg(long, value_name = "TEXT")]
    pub remark: Option<String>,
}

#[derive(Debug, Args)]
pub(in crate::cli) struct AddArgs {
    /// A sighting file (RON); `-` reads standard input
    pub file: Option<PathBuf>,
    #[command(flatten)]
    pub seen: SeenArgs,
    #[command(flatten)]
    pub facts: FactsArgs,
    /// Looked at and not bought, or not yet: kept, to be taken up again
    #[arg(long)]
    pub draft: bool,
    /// One JSON object
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub(in crate::cli) struct ListArgs {
    /// Words that must all occur, whole or in part; one slip of a letter is forgiven
    pub words: Vec<String>,
    /// Only what is held
    #[arg(long)]
    pub held: bool,
    /// Only what was sold
    #[arg(long)]
    pub sold: bool,
    /// Only what was looked at and not bought
    #[arg(long)]
    pub drafts: bool,
    /// Only kinds whose id begins so
    #[arg(long, value_name = "KIND")]
    pub kind: Option<String>,
    /// Only channels that begin so
    #[arg(long, value_name = "NAME")]
    pub channel: Option<String>,
    /// In this order [default: added]
    #[arg(long, value_name = "ORDER", value_parser = ["added", "title", "kind", "years", "paid", "asking", "sold"])]
    pub sort: Option<String>,
    /// The last first
    #[arg(long)]
    pub descending: bool,
    /// Show at most so many lines
    #[arg(long, value_name = "N")]
    pub limit: Option<usize>,
    /// One JSON object
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub(in crate::cli) struct EditArgs {
    pub id: String,
    #[command(flatten)]
    pub seen: SeenArgs,
    #[command(flatten)]
    pub facts: FactsArgs,
    /// As if this clue had not been looked at; may be repeated
    #[arg(long, value_name = "CLUE")]
    pub forget: Vec<String>,
    /// A piece that was only looked at has been bought
    #[arg(long)]
    pub bought: bool,
    /// What it turned out to be, such as "flow blue, 1905"; an empty text takes it back
    #[arg(long, value_name = "TEXT")]
    pub turned_out: Option<String>,
    /// Who says so: a catalogue, a collector
    #[arg(long, value_name = "TEXT", requires = "turned_out")]
    pub by: Option<String>,
}
