//! Rule files in, a checked rule base or all its problems out.

use super::problem::Problem;
use super::resolve::Resolver;
use super::source::{SourceFile, options};
use super::{RuleBase, load_clues, load_glossary, load_marks, load_words, load_world};

/// The format this program reads.
pub const FORMAT: u32 = 1;

/// Longest rule file read, in bytes; the shipped ones are far below.
const MOST_BYTES: usize = 4_000_000;

/// The topics a file can have, by the last part of its name; clue files stand in `clues/`.
pub const TOPICS: [&str; 10] = [
    "sources.ron",
    "places.ron",
    "kinds.ron",
    "families.ron",
    "kernels.ron",
    "settings.ron",
    "rarity.ron",
    "cautions.ron",
    "glossary.ron",
    "words.ron",
];

/// Codes of problems that keep a whole file from being read.
const UNREAD: [&str; 3] = ["unreadable", "wrong-format", "too-long"];

/// Parses one file, or notes why it can't be read.
pub(super) fn parse<'a, T: serde::Deserialize<'a>>(
    r: &mut Resolver,
    file: &'a SourceFile,
) -> Option<T> {
    match options().from_str::<T>(&file.text) {
        Ok(value) => Some(value),
        Err(e) => {
            r.problems.push(Problem {
                file: file.name.clone(),
                line: e.span.start.line,
                col: e.span.start.col,
                message: e.code.to_string(),
                code: "unreadable",
                help: String::new(),
            });
            None
        }
    }
}

/// Refuses files that are too long or of another format before anything else is said of them.
fn readable(r: &mut Resolver, file: &SourceFile) -> bool {
    if file.text.len() > MOST_BYTES {
        let message = format!(
            "{} bytes is more than a rule file may have ({MOST_BYTES})",
            file.text.len()
        );
        r.problem(file, &file.text, "too-long", message, String::new());
        return false;
    }
    // `format: N` stands first in every file, so a newer file is refused in plain words before
    // anything in it is misread. A file without one gets its exact place from the full parse.
    let format = file.text.split_once("format:").and_then(|(_, rest)| {
        let digits: String = rest
            .trim_start()
            .chars()
            .take_while(char::is_ascii_digit)
            .collect();
        digits.parse::<u32>().ok()
    });
    match format {
        Some(FORMAT) | None => true,
        Some(other) => {
            r.problem(
                file,
                &file.text,
                "wrong-format",
                format!("format {other}; this program reads format {FORMAT}"),
                "use a newer program for newer rules".into(),
            );
            false
        }
    }
}

/// How closely findings are looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Checking {
    /// Also refuse findings that change nothing, which takes longest.
    Full,
    /// For the shipped files, which a test has loaded with full care.
    Tested,
}

/// Loads a rule base from its files. Problems come back sorted by place, all at once.
pub fn load(files: &[SourceFile], care: Checking) -> Result<RuleBase, Vec<Problem>> {
    let mut r = Resolver::new();
    let mut base = RuleBase::empty(files);
    let good: Vec<&SourceFile> = files.iter().filter(|f| readable(&mut r, f)).collect();
    let topic = |name: &str| -> Vec<&SourceFile> {
        let in_clues = |f: &SourceFile| f.name.starts_with("clues/") || f.name.contains("/clues/");
        good.iter()
            .copied()
            .filter(|f| match name {
                "clues" => in_clues(f),
                _ => !in_clues(f) && (f.name == name || f.name.ends_with(&format!("/{name}"))),
            })
            .collect()
    };
    for file in &good {
        let known = TOPICS.iter().any(|t| topic(t).contains(file))
            || topic("clues").contains(file)
            || of_marks(file);
        if !known {
            let allowed = format!("known: {}, clues/*.ron, marks/*.ron", TOPICS.join(", "));
            r.problem(
                file,
                &file.text,
                "unknown-file",
                "not a rule file's name".into(),
                allowed,
            );
        }
    }

    for file in topic("sources.ron") {
        load_world::sources(&mut r, &mut base, file);
    }
    for file in topic("places.ron") {
        load_world::places(&mut r, &mut base, file);
    }
    let kinds_files = topic("kinds.ron");
    load_world::kinds(&mut r, &mut base, &kinds_files);
    for file in topic("families.ron") {
        load_world::families(&mut r, &mut base, file);
    }
    for file in topic("kernels.ron") {
        load_world::kernels(&mut r, &mut base, file);
    }
    for file in topic("settings.ron") {
        load_world::settings(&mut r, &mut base, file);
    }
    let clue_files = topic("clues");
    load_clues::clues(&mut r, &mut base, &clue_files, care);
    for file in topic("rarity.ron") {
        load_clues::market(&mut r, &mut base, file);
    }
    for file in topic("cautions.ron") {
        load_world::cautions(&mut r, &mut base, file);
    }
    for file in topic("glossary.ron") {
        load_glossary::load(&mut r, &mut base, file);
    }
    load_words::load(&mut r, &mut base, &topic("words.ron"));
    let mark_files: Vec<&SourceFile> = good.iter().copied().filter(|f| of_marks(f)).collect();
    load_marks::load(&mut r, &mut base, &mark_files);
    base.spoken = load_marks::spoken(&base);
    if r.problems.is_empty() {
        completeness(&mut r, &base, files);
    }
    if r.problems.is_empty() {
        return Ok(base);
    }
    // A file that can't be read leaves its names undefined: say that, not what follows from it.
    if r.problems.iter().any(|p| UNREAD.contains(&p.code)) {
        r.problems
            .retain(|p| !p.code.starts_with("unknown-") || p.code == "unknown-file");
    }
    r.problems.sort();
    Err(r.problems)
}

/// Files below `marks/`.
fn of_marks(file: &SourceFile) -> bool {
    file.name.starts_with("marks/") || file.name.contains("/marks/")
}

/// What a rule base needs at the least; said of the set, not of a line.
fn completeness(r: &mut Resolver, base: &RuleBase, files: &[SourceFile]) {
    let counts = [
        ("kinds.ron", base.kinds.len()),
        ("places.ron", base.places.len()),
        ("settings.ron", base.settings.len()),
        ("clues/", base.clues.len()),
    ];
    for (file, count) in counts {
        if count == 0 {
            r.problems.push(Problem {
                file: file.into(),
                line: 1,
                col: 1,
                message: "nothing is defined: the rule base is empty here".into(),
                code: "nothing-defined",
                help: format!("{} files were read", files.len()),
            });
        }
    }
}
