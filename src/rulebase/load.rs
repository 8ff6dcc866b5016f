//! Rule files in, a checked rule base or all its problems out.
//!
//! 1. Read: file texts come in as `SourceFile` (from a folder, or `shipped`).
//! 2. Parse: `parse` makes records of them whose leaves know their line and column.
//! 3. Check and resolve: topic by topic, each after those it names; names become ids.
//! 4. Compile: phrases of marks here, once; spoken forms in `spoken`, tables and priors in `engine`,
//!    when first asked for.

use super::base::RuleBase;
use super::problem::{Check, Problem};
use super::resolve::Resolver;
use super::source::SourceFile;
use super::{
    gates, load_cautions, load_changes, load_clues, load_counted, load_glance, load_glossary,
    load_lessons, load_makers, load_prices, load_rarity, load_registry, load_wording, load_words,
    load_world, parse, shipped,
};

/// How closely findings are looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Checking {
    /// Also refuse findings that change nothing, which takes longest.
    Full,
    /// For the shipped files, which a test has loaded with full care.
    Tested,
}

impl RuleBase {
    /// Loads and checks files.
    ///
    /// # Errors
    ///
    /// All problems of all files at once, sorted by place.
    pub fn load(files: &[SourceFile]) -> Result<RuleBase, Vec<Problem>> {
        load(files, Checking::Full)
    }

    /// The version of the rules built into the program, which need not be loaded for it.
    pub fn shipped_version() -> String {
        version(&shipped::files())
    }

    /// The rule base built into the program.
    ///
    /// # Errors
    ///
    /// As `load`; a test holds that the shipped files have no problem.
    pub fn shipped() -> Result<RuleBase, Vec<Problem>> {
        load(&shipped::files(), Checking::Tested)
    }
}

fn load(files: &[SourceFile], checking: Checking) -> Result<RuleBase, Vec<Problem>> {
    let mut r = Resolver::default();
    let written = parse::parse(files, &mut r.problems);

    let mut base = RuleBase::empty(version(files));
    load_world::sources(&mut r, &mut base, written.sources);
    load_world::places(&mut r, &mut base, written.places);
    load_world::kinds(&mut r, &mut base, written.kinds);
    load_world::families(&mut r, &mut base, written.families);
    load_world::kernels(&mut r, &mut base, written.kernels);
    load_world::settings(&mut r, &mut base, written.settings);
    let closely = checking == Checking::Full;
    let waiting = load_clues::clues(&mut r, &mut base, written.clues, closely);
    load_changes::changes(&mut r, &mut base, written.changes);
    gates::gates(&mut r, &mut base, waiting);
    load_rarity::rarity(&mut r, &mut base, written.rarity);
    load_prices::prices(&mut r, &mut base, written.prices);
    load_counted::counted(&mut r, &mut base, written.counted);
    load_cautions::cautions(&mut r, &mut base, written.cautions);
    load_glossary::glossary(&mut r, &mut base, written.glossary);
    load_glance::glance(&mut r, &mut base, written.glance);
    load_words::words(&mut r, &mut base, written.words);
    load_wording::wording(&mut r, &mut base, written.wording);
    load_makers::makers(&mut r, &mut base, written.makers);
    load_registry::registry(&mut r, &mut base, written.registry);
    load_lessons::lessons(&mut r, &mut base, written.lessons);
    if r.problems.is_empty() {
        completeness(&mut r, &base, files);
    }

    let mut problems = r.problems;
    if problems.is_empty() {
        return Ok(base);
    }
    // A file that can't be read leaves its names undefined: say that, not what follows from it.
    if problems.iter().any(|p| p.code.leaves_unread()) {
        problems.retain(|p| !p.code.names_unknown());
    }
    problems.sort();
    Err(problems)
}

/// What a rule base needs at the least; said of the set, not of a line.
fn completeness(r: &mut Resolver, base: &RuleBase, files: &[SourceFile]) {
    let counts = [
        ("kinds.ron", base.kinds.len()),
        ("places.ron", base.places.len()),
        ("settings.ron", base.settings.len()),
        ("clues/", base.clues.len()),
    ];
    for (file, _) in counts.into_iter().filter(|(_, count)| *count == 0) {
        r.problems.push(Problem {
            file: file.into(),
            line: 1,
            col: 1,
            message: "nothing is defined: the rule base is empty here".into(),
            code: Check::NothingDefined,
            help: format!("{} files were read", files.len()),
        });
    }
}

/// FNV-1a over names and texts, a zero byte after each.
fn version(files: &[SourceFile]) -> String {
    let mut hash: u64 = 0xcbf2_9ce4_8422_2325;
    let mut take = |byte: u8| hash = (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
    for text in files.iter().flat_map(|f| [&f.name, &f.text]) {
        text.bytes().for_each(&mut take);
        take(0);
    }
    format!("{hash:016x}")
}
