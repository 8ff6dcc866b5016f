//! The second step of loading: file texts to records as written, each file by its topic.

use serde::Deserialize;

use super::plainly;
use super::problem::{Check, Problem};
use super::schema::{
    CautionsFile, FamiliesFile, GlanceFile, GlossaryFile, KernelsFile, KindsFile, PlacesFile,
    RuleFile, SettingsFile, SourcesFile,
};
use super::schema_clues::{ChangesFile, CluesFile, RarityFile};
use super::schema_counted::CountedFile;
use super::schema_lessons::LessonsFile;
use super::schema_marks::{RegistryFile, WordingFile};
use super::schema_prices::PricesFile;
use super::schema_words::WordsFile;
use super::source::{Bare, FORMAT, SourceFile, options};

/// Longest rule file read, in bytes; the shipped ones are far below (common practice, no
/// source).
const MOST_BYTES: usize = 4_000_000;

/// Files of one topic in the order given, each with what is written in it.
pub(super) type Files<'a, T> = Vec<(&'a SourceFile, T)>;

/// The records of all files of a topic in order, each with its file.
pub(super) fn each<'a, T, R>(
    files: Files<'a, T>,
    records: impl Fn(T) -> Vec<R>,
) -> impl Iterator<Item = (&'a SourceFile, R)> {
    files
        .into_iter()
        .flat_map(move |(file, written)| records(written).into_iter().map(move |r| (file, r)))
}

/// All rule files as written, by topic.
#[derive(Default)]
pub(super) struct Written<'a> {
    pub sources: Files<'a, SourcesFile<'a>>,
    pub places: Files<'a, PlacesFile<'a>>,
    pub kinds: Files<'a, KindsFile<'a>>,
    pub families: Files<'a, FamiliesFile<'a>>,
    pub kernels: Files<'a, KernelsFile<'a>>,
    pub settings: Files<'a, SettingsFile<'a>>,
    pub clues: Files<'a, CluesFile<'a>>,
    pub changes: Files<'a, ChangesFile<'a>>,
    pub wording: Files<'a, WordingFile<'a>>,
    pub registry: Files<'a, RegistryFile<'a>>,
    pub rarity: Files<'a, RarityFile<'a>>,
    pub prices: Files<'a, PricesFile<'a>>,
    pub counted: Files<'a, CountedFile<'a>>,
    pub cautions: Files<'a, CautionsFile<'a>>,
    pub glossary: Files<'a, GlossaryFile<'a>>,
    pub words: Files<'a, WordsFile<'a>>,
    pub lessons: Files<'a, LessonsFile<'a>>,
    /// Tables, read by `makers_table`.
    pub makers: Vec<&'a SourceFile>,
    pub glance: Files<'a, GlanceFile<'a>>,
}

/// Names a rule file can have below the folder of rules (or of an overlay).
const NAMES: &str = "sources.ron, places.ron, kinds.ron, families.ron, kernels.ron, settings.ron, \
    clues/*.ron, changes.ron, marks/wording.ron, marks/registry.ron, rarity.ron, market.ron, counted.ron, cautions.ron, \
    glossary.ron, words.ron, glance.ron, lessons.ron, makers.csv";

/// Parses all files that can be read; why others can't be is noted.
pub(super) fn parse<'a>(files: &'a [SourceFile], problems: &mut Vec<Problem>) -> Written<'a> {
    let mut written = Written::default();
    for file in files {
        let (folders, name) = file.name.rsplit_once('/').unwrap_or(("", &file.name));
        let below = |folder: &str| folders.split('/').any(|f| f == folder);
        match name {
            _ if below("clues") => written.clues.extend(one(file, problems)),
            "wording.ron" if below("marks") => written.wording.extend(one(file, problems)),
            "registry.ron" if below("marks") => written.registry.extend(one(file, problems)),
            _ if below("marks") => problems.push(unknown(file)),
            "sources.ron" => written.sources.extend(one(file, problems)),
            "places.ron" => written.places.extend(one(file, problems)),
            "kinds.ron" => written.kinds.extend(one(file, problems)),
            "families.ron" => written.families.extend(one(file, problems)),
            "kernels.ron" => written.kernels.extend(one(file, problems)),
            "settings.ron" => written.settings.extend(one(file, problems)),
            "changes.ron" => written.changes.extend(one(file, problems)),
            "rarity.ron" => written.rarity.extend(one(file, problems)),
            "market.ron" => written.prices.extend(one(file, problems)),
            "counted.ron" => written.counted.extend(one(file, problems)),
            "cautions.ron" => written.cautions.extend(one(file, problems)),
            "glossary.ron" => written.glossary.extend(one(file, problems)),
            "words.ron" => written.words.extend(one(file, problems)),
            "lessons.ron" => written.lessons.extend(one(file, problems)),
            "makers.csv" => written.makers.push(file),
            "glance.ron" => written.glance.extend(one(file, problems)),
            _ => problems.push(unknown(file)),
        }
    }
    written
}

fn unknown(file: &SourceFile) -> Problem {
    let help = format!("known: {NAMES}");
    Problem::at(
        file,
        &file.text,
        Check::UnknownFile,
        "not a rule file's name",
        help,
    )
}

/// One file with what is written in it, or the problem why not.
fn one<'a, T: RuleFile<'a>>(
    file: &'a SourceFile,
    problems: &mut Vec<Problem>,
) -> Option<(&'a SourceFile, T)> {
    match written_in(file) {
        Ok(written) => Some((file, written)),
        Err(problem) => {
            problems.push(problem);
            None
        }
    }
}

fn written_in<'a, T: RuleFile<'a>>(file: &'a SourceFile) -> Result<T, Problem> {
    let bytes = file.text.len();
    if bytes > MOST_BYTES {
        let message = format!("{bytes} bytes is more than a rule file may have ({MOST_BYTES})");
        return Err(Problem::at(file, &file.text, Check::TooLong, message, ""));
    }
    if let Some(written) = plainly::read::<T>(&file.text) {
        return of_this_format(file, written.format()).map(|()| written);
    }
    match options().from_str::<T>(&file.text) {
        Ok(written) => of_this_format(file, written.format()).map(|()| written),
        Err(e) => {
            // A file of another format is refused for that, not for what is new in it.
            if let Ok(only) = options().from_str::<FormatOnly>(&file.text) {
                of_this_format(file, only.format)?;
            }
            Err(Problem {
                file: file.name.clone(),
                line: e.span.start.line,
                col: e.span.start.col,
                message: e.code.to_string(),
                code: Check::Unreadable,
                help: String::new(),
            })
        }
    }
}

/// The format of a file, whatever else stands in it.
#[derive(Deserialize)]
struct FormatOnly<'a> {
    #[serde(borrow)]
    format: Bare<'a>,
}

fn of_this_format(file: &SourceFile, format: Bare) -> Result<(), Problem> {
    if format.0.parse() == Ok(FORMAT) {
        return Ok(());
    }
    let message = format!("format {}; this program reads format {FORMAT}", format.0);
    let help = "use a newer program for newer rules";
    Err(Problem::at(
        file,
        format.0,
        Check::WrongFormat,
        message,
        help,
    ))
}
