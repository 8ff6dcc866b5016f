//! The arguments, as clap reads them. Values are checked by the commands.

use std::path::PathBuf;

use clap::{Args, CommandFactory, Parser, Subcommand, ValueEnum};

use crate::rulebase::problem::near;

use crate::rulebase::definitions::Tool;

use super::prices::PricesArgs;
use super::seen_args::SeenArgs;

/// Tell how an old printed plate was decorated, about when, how rare it is, and why.
///
/// Without a command the screens open, with the sighting of FILE.ron when one is named.
///
/// Exit code: 0 done; 1 asked and the answer is no (a guess ruled out, a registration that is not
/// possible, rules with problems); 2 it could not be done.
#[derive(Debug, Parser)]
#[command(name = "printseam", version, max_term_width = 100)]
pub(super) struct Line {
    /// Use the rule files of this folder instead of the built-in ones
    #[arg(long, value_name = "DIR", global = true)]
    pub rules: Option<PathBuf>,
    /// Newest year a piece can have been made [default: this year]
    #[arg(long, value_name = "YEAR", global = true, env = "PRINTSEAM_NOW", hide_env_values = true,
          value_parser = year)]
    pub now: Option<i16>,
    /// Colours of the screens [default: 16, or mono when NO_COLOR is set]
    #[arg(long, value_name = "THEME", value_parser = ["mono", "16", "rich"])]
    pub theme: Option<String>,
    /// A sighting file to open on the screens
    #[arg(value_name = "FILE.ron", value_parser = sighting_file)]
    pub file: Option<PathBuf>,
    #[command(subcommand)]
    pub command: Option<Command>,
}

/// What stands where a command would and is none: a sighting file, by its ending, or a slip.
fn sighting_file(text: &str) -> Result<PathBuf, String> {
    let path = PathBuf::from(text);
    if path
        .extension()
        .is_some_and(|e| e.eq_ignore_ascii_case("ron"))
    {
        return Ok(path);
    }
    let line = Line::command();
    let names: Vec<&str> = line
        .get_subcommands()
        .map(clap::Command::get_name)
        .collect();
    let close = near(text, names.iter().copied(), 1);
    let help = match close.as_slice() {
        [] => format!("use {}, or name a file that ends in .ron", names.join(", ")),
        [nearest, ..] => format!("nearest: {nearest}"),
    };
    Err(format!(
        "'{text}' is no command and no sighting file; {help}"
    ))
}

/// A year the engine's grid can end at.
fn year(text: &str) -> Result<i16, String> {
    text.parse()
        .ok()
        .filter(|y| (1800..=2100).contains(y))
        .ok_or_else(|| "write a year from 1800 to 2100".to_owned())
}

#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Judge one piece from what was seen
    Judge(JudgeArgs),
    /// Ask the questions line by line: for pipes, screen readers and tiny phones
    Ask(AskArgs),
    /// Read a backstamp; `?` stands for a letter that can't be read
    Mark(MarkArgs),
    /// Read a registration diamond or number
    ///
    /// Exit code 1 when no such registration is possible.
    Registered(RegisteredArgs),
    /// Measure how right the answers are on pieces with known dates
    Prove(ProveArgs),
    /// Put a guess such as "flow blue, 1890s" to what was seen
    ///
    /// Exit code 1 when the findings rule it out.
    Challenge(ChallengeArgs),
    /// Judge a whole table of pieces, a row a piece
    ///
    /// Columns: clue ids, notes, mark, registered, setting, asking, condition; others pass through.
    /// Exit code 1 when some rows had a problem.
    Lot(LotArgs),
    /// The field guide: kinds, how to look, what each finding tells, trade words
    ///
    /// Exit code 1 when nothing fits the word.
    Guide(GuideArgs),
    /// Buy it, offer less, leave it, or look again: a piece against what is asked for it
    ///
    /// Guidance, not an appraisal. Exit code 0 whatever the advice.
    Shelf(ShelfArgs),
    /// Keep the stock book: what was bought, what it was, what it sold for
    #[cfg(feature = "stock")]
    Stock(Box<super::stock::args::StockArgs>),
    /// Lessons and drills for the eye
    ///
    /// On the screens; through a pipe, or with --lines, line by line. Without a name: what is due again, then the next lesson. Other names than lessons: printed
    /// (printed or painted, two minutes), which (name what is shown), misfit (what does not fit), back
    /// (worn marks and diamonds), ask (ask a hidden piece), piece (a piece of your own).
    Drill(DrillArgs),
    /// Look into the rule base
    Rules(RulesArgs),
    /// Write the manual page, shell completions or a settings file
    Generate(GenerateArgs),
    /// Tell where everything lives, and whether the terminal can show the screens
    ///
    /// Exit code 1 when something can't be read.
    Doctor,
}

#[derive(Debug, Args)]
pub(super) struct JudgeArgs {
    /// A sighting file (RON); `-` reads standard input; for cards and sheets several, or their folder
    #[arg(value_name = "FILE")]
    pub files: Vec<PathBuf>,
    #[command(flatten)]
    pub seen: SeenArgs,
    /// Show all figures with their scales and sources: decibans, bits, EDTF dates, AAT ids
    #[arg(long, group = "form")]
    pub details: bool,
    /// One JSON object, always with all figures
    #[arg(long, group = "form")]
    pub json: bool,
    /// A Markdown page, on standard output or in FILE
    #[arg(long, groups = ["form", "page"], value_name = "FILE", num_args = 0..=1)]
    pub markdown: Option<Option<PathBuf>>,
    /// A page for browser and printer, on standard output or in FILE
    ///
    /// `--html card.html`, `--html=card.html`; alone it prints. A FILE ending in .ron, and `-`, is
    /// taken as the sighting where none is named otherwise.
    #[arg(long, groups = ["form", "page"], value_name = "FILE", num_args = 0..=1)]
    pub html: Option<Option<PathBuf>>,
    /// A card for the shelf, without figures, to print on A6; several cards four to a sheet of A4
    #[arg(long, groups = ["form", "page"], value_name = "FILE", num_args = 0..=1,
          require_equals = true)]
    pub card: Option<Option<PathBuf>>,
    /// What the card says of the condition [default: a line to write on]
    #[arg(long, value_name = "TEXT", requires = "card")]
    pub condition: Option<String>,
    /// A price on the card, as it is to be read
    #[arg(long, value_name = "TEXT", requires = "card")]
    pub price: Option<String>,
    /// Cards of each piece
    #[arg(long, value_name = "N", requires = "card", value_parser = clap::value_parser!(u8).range(1..))]
    pub copies: Option<u8>,
    /// A sheet for a class: the eras, what each finding tells, the words explained
    #[arg(long, groups = ["form", "page"], value_name = "FILE", num_args = 0..=1,
          require_equals = true)]
    pub sheet: Option<Option<PathBuf>>,
    /// Write the page over any file, not only over one of its own
    ///
    /// Links are never followed, and no sighting is written over.
    #[arg(long, requires = "page")]
    pub force: bool,
    /// Also put a guess to the findings, in a Markdown or HTML page
    #[arg(long, value_name = "GUESS", conflicts_with_all = ["json", "card", "sheet"])]
    pub guess: Option<String>,
}

#[derive(Debug, Args)]
pub(super) struct AskArgs {
    /// Where the piece was found [default: the first setting of the rule base]
    #[arg(long, value_name = "SETTING")]
    pub setting: Option<String>,
    /// Tools that are not at hand, such as loupe,torch: looks that need them are not proposed
    #[arg(long, value_name = "TOOLS", value_enum, value_delimiter = ',')]
    pub without: Vec<MissingTool>,
    /// The country that place stands in
    #[arg(long, value_name = "COUNTRY")]
    pub country: Option<String>,
    /// End with one JSON object instead of text
    #[arg(long)]
    pub json: bool,
}

/// A tool that may not be at hand.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub(super) enum MissingTool {
    Loupe,
    Torch,
    Ruler,
    UvLamp,
}

impl MissingTool {
    /// The tool as rules name it.
    pub(super) fn rule(self) -> Tool {
        match self {
            MissingTool::Loupe => Tool::Loupe,
            MissingTool::Torch => Tool::Torch,
            MissingTool::Ruler => Tool::Ruler,
            MissingTool::UvLamp => Tool::UvLamp,
        }
    }
}

#[derive(Debug, Args)]
pub(super) struct MarkArgs {
    /// What can be read
    pub text: String,
    /// One JSON object
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
#[command(group = clap::ArgGroup::new("what").required(true))]
pub(super) struct RegisteredArgs {
    /// The four corners: top,right,bottom,left; `?` for one that can't be read
    #[arg(long, value_name = "CORNERS", group = "what")]
    pub diamond: Option<String>,
    /// A registered number; `?` for a figure that can't be read
    #[arg(long, value_name = "N", group = "what")]
    pub number: Option<String>,
    /// The class above the diamond, such as IV
    #[arg(
        long,
        value_name = "CLASS",
        requires = "diamond",
        conflicts_with = "number"
    )]
    pub class: Option<String>,
    /// One JSON object
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub(super) struct ChallengeArgs {
    /// What somebody says it is: kind, date or both, as people write them, or an EDTF date
    pub guess: String,
    #[command(flatten)]
    pub seen: SeenArgs,
    /// A sighting file (RON); `-` reads standard input
    #[arg(long, value_name = "FILE")]
    pub file: Option<PathBuf>,
    /// One JSON object
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub(super) struct ShelfArgs {
    /// A sighting file (RON); `-` reads standard input
    pub file: Option<PathBuf>,
    #[command(flatten)]
    pub seen: SeenArgs,
    /// What is asked for the piece, such as 12 or 12.50
    #[arg(long, value_name = "PRICE", allow_hyphen_values = true)]
    pub asking: String,
    /// Defects found, such as chip,hairline; `sound` when none was; others count as not found
    #[arg(long, value_name = "DEFECTS")]
    pub condition: Option<String>,
    #[command(flatten)]
    pub prices: PricesArgs,
    /// One JSON object, amounts in minor units
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub(super) struct ProveArgs {
    /// Known pieces: case_id, museum, from, to, kind, place, setting, mark, registered and a column
    /// a clue; several tables count as one
    pub cases: Vec<PathBuf>,
    /// Pieces of the stock book whose date has become known: the usual book, or FILE
    #[cfg(feature = "stock")]
    #[arg(long, value_name = "FILE", num_args = 0..=1, conflicts_with = "cases")]
    pub stock: Option<Option<PathBuf>>,
    /// Also show what each clue did
    #[arg(long)]
    pub by_clue: bool,
    /// Also judge pieces drawn from the rules with the same clues seen: what is to be expected of each period
    #[arg(long)]
    pub drawn: bool,
    /// Also simulate how few looks settle the answer
    #[arg(long)]
    pub economy: bool,
    /// Also fit how far clues of one family depend on each other
    #[arg(long)]
    pub fit: bool,
    /// Also choose how far a setting may be wrong, on some museums for others
    #[arg(long)]
    pub doubt: bool,
    /// Also try what counting these pieces would be worth on museums not counted
    #[arg(long)]
    pub counts: bool,
    /// The same, and only print the pieces as a rule file, counted.ron
    #[arg(long, conflicts_with = "json")]
    pub count: bool,
    /// Setting of cases that name none [default: museum-drawer]
    #[arg(long, value_name = "SETTING")]
    pub setting: Option<String>,
    /// One JSON object
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub(super) struct GuideArgs {
    /// What to show: a kind, a look, a trade word, or any word in an entry
    #[arg(conflicts_with = "html")]
    pub word: Vec<String>,
    /// All of it as one page, on standard output or in FILE
    #[arg(long, group = "written", value_name = "FILE", num_args = 0..=1)]
    pub html: Option<Option<PathBuf>>,
    /// What a finding looks like, drawn by the program; without a finding all of the clue
    #[arg(long, value_name = "CLUE[=FINDING]", conflicts_with_all = ["html", "word"])]
    pub picture: Option<String>,
    /// Which example: every number draws another [default: 1]
    #[arg(long, value_name = "N", requires = "picture")]
    pub seed: Option<u64>,
    /// The picture as PNG
    #[arg(long, value_name = "FILE", requires = "picture", group = "written")]
    pub png: Option<PathBuf>,
    /// The picture as SVG
    #[arg(long, value_name = "FILE", requires = "picture", group = "written")]
    pub svg: Option<PathBuf>,
    /// Write over any file, not only over one of its own
    #[arg(long, requires = "written")]
    pub force: bool,
}

#[derive(Debug, Args)]
pub(super) struct DrillArgs {
    /// A lesson by number or name, or printed, which, misfit, back, ask, piece
    pub lesson: Option<String>,
    /// Who learns: each has a record of their own
    #[arg(long, value_name = "NAME", default_value = "me")]
    pub learner: String,
    /// Write the handout of the lesson, or of all lessons, as a page; - prints it
    #[arg(long, value_name = "FILE", group = "page", conflicts_with_all = ["progress", "seed"])]
    pub sheet: Option<PathBuf>,
    /// Write one page on all learners: what each mixes up, how sure, what is due; - prints it
    #[arg(long, value_name = "FILE", group = "page", conflicts_with_all = ["progress", "seed", "lesson"])]
    pub class: Option<PathBuf>,
    /// Write the page over any file, not only over one of this program
    #[arg(long, requires = "page")]
    pub force: bool,
    /// Ask pieces of a table of known pieces (CSV, as for prove), or of the stock book: stock
    #[arg(long, value_name = "FILE|stock", conflicts_with = "page")]
    pub from: Option<PathBuf>,
    /// Show what is mixed up with what, how true stated confidence is, what is due
    #[arg(long, conflicts_with = "lesson")]
    pub progress: bool,
    /// Line by line, not on the screens
    #[arg(long)]
    pub lines: bool,
    /// The stock book that keeps learners [default: stock.db in the program's folder of data]
    #[cfg(feature = "stock")]
    #[arg(
        long,
        value_name = "FILE",
        env = "PRINTSEAM_STOCK",
        hide_env_values = true
    )]
    pub stock: Option<PathBuf>,
    /// The same seed gives the same questions
    #[arg(long, value_name = "N")]
    pub seed: Option<u64>,
    /// The day it is taken to be, as 2026-11-26 [default: today]
    #[arg(long, value_name = "DATE")]
    pub today: Option<String>,
    /// Where hidden pieces come from [default: the first setting of the rule base]
    #[arg(long, value_name = "SETTING")]
    pub setting: Option<String>,
}

#[derive(Debug, Args)]
pub(super) struct RulesArgs {
    #[command(subcommand)]
    pub what: RulesCommand,
}

#[derive(Debug, Subcommand)]
pub(super) enum RulesCommand {
    /// Check rule files and show every problem
    Check {
        /// Folder of rule files; exit code 1 when they have problems [default: the rules in use]
        dir: Option<PathBuf>,
    },
    /// All clues
    List,
    /// One clue, kind, setting or family in full
    Show { id: String },
    /// All sources, and how many figures rest on each
    Sources,
    /// Print what a new rule looks like, to be filled in
    #[command(subcommand)]
    New(NewRule),
    /// Which verdicts of known pieces two rule bases give otherwise, and which is righter
    Compare(CompareArgs),
}

#[derive(Debug, Subcommand)]
pub(super) enum NewRule {
    /// A clue with two findings, every part explained
    Clue(NewClueArgs),
}

#[derive(Debug, Args)]
pub(super) struct NewClueArgs {
    /// Its id, such as `rim-colour`
    pub id: String,
}

#[derive(Debug, Args)]
pub(super) struct CompareArgs {
    /// `built-in`, `in-use`, a folder of rules, or a folder of additions to the built-in ones
    pub old: PathBuf,
    /// The same for what it is compared with
    pub new: PathBuf,
    /// Known pieces, as `prove` reads them
    #[arg(long, value_name = "FILE")]
    pub cases: PathBuf,
}

#[derive(Debug, Args)]
pub(super) struct GenerateArgs {
    pub what: Generated,
}

#[derive(Clone, Copy, Debug, ValueEnum)]
pub(super) enum Generated {
    Man,
    Bash,
    Zsh,
    Fish,
    /// A settings file with the usual terms of selling, to be changed
    Settings,
}

#[derive(Debug, Args)]
pub(super) struct LotArgs {
    /// The table (CSV with column names), or - for standard input
    #[arg(value_name = "IN.csv")]
    pub table: PathBuf,
    /// Where the answers go: a .csv or .json file, or - for standard output
    #[arg(short, long, value_name = "OUT")]
    pub out: Option<PathBuf>,
    /// JSON on standard output
    #[arg(long)]
    pub json: bool,
    /// Where the pieces were found, unless their row says so
    #[arg(long, value_name = "SETTING")]
    pub setting: Option<String>,
    #[command(flatten)]
    pub prices: PricesArgs,
    /// Write over any file
    #[arg(long)]
    pub force: bool,
}
