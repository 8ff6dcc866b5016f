//! Rule files in, a checked rule base or all its problems out.

use super::problem::Problem;
use super::resolve::{CURVE_YEARS, Resolver};
use super::schema::{
    CautionsFile, CluesFile, FamiliesFile, KernelsFile, KindsFile, MarketFile, PlacesFile,
    SettingsFile, SourcesFile, StationWord,
};
use super::source::{SourceFile, options};
use super::texts::{
    Caution, Clue, Family, Finding, Kernel, Kind, MarketFeature, Place, Setting, Source,
};
use super::{RuleBase, load_glossary, load_marks, tells};
use crate::core::axes::ClueId;
use crate::core::model::{Clause, Station};

/// The format this program reads.
pub const FORMAT: u32 = 1;

/// Longest rule file read, in bytes; the shipped ones are far below.
const MOST_BYTES: usize = 4_000_000;

/// The topics a file can have, by the last part of its name; clue files stand in `clues/`.
pub const TOPICS: [&str; 9] = [
    "sources.ron",
    "places.ron",
    "kinds.ron",
    "families.ron",
    "kernels.ron",
    "settings.ron",
    "market.ron",
    "cautions.ron",
    "glossary.ron",
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
pub enum Care {
    /// Also refuse findings that change nothing, which takes longest.
    Full,
    /// For the shipped files, which a test has loaded with full care.
    Tested,
}

/// Loads a rule base from its files. Problems come back sorted by place, all at once.
pub fn load(files: &[SourceFile], care: Care) -> Result<RuleBase, Vec<Problem>> {
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
        sources(&mut r, &mut base, file);
    }
    for file in topic("places.ron") {
        places(&mut r, &mut base, file);
    }
    let kinds_files = topic("kinds.ron");
    kinds(&mut r, &mut base, &kinds_files);
    for file in topic("families.ron") {
        families(&mut r, &mut base, file);
    }
    for file in topic("kernels.ron") {
        kernels(&mut r, &mut base, file);
    }
    for file in topic("settings.ron") {
        settings(&mut r, &mut base, file);
    }
    let clue_files = topic("clues");
    clues(&mut r, &mut base, &clue_files, care);
    for file in topic("market.ron") {
        market(&mut r, &mut base, file);
    }
    for file in topic("cautions.ron") {
        cautions(&mut r, &mut base, file);
    }
    for file in topic("glossary.ron") {
        load_glossary::load(&mut r, &mut base, file);
    }
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

fn sources(r: &mut Resolver, base: &mut RuleBase, file: &SourceFile) {
    let Some(parsed) = parse::<SourcesFile>(r, file) else {
        return;
    };
    for s in parsed.sources {
        let fresh = r.define("source", |r| &mut r.sources, file, &s.id);
        let nameless = s.title.is_empty() && s.author.is_empty() && s.note.is_empty();
        if s.status == super::schema::Status::Published && nameless {
            r.problem(
                file,
                s.id.src,
                "bare-source",
                format!("'{}' is called published but names no work", s.id.value),
                "give author, title, year and place, or call it FromMemory".into(),
            );
        }
        if fresh {
            base.sources.push(Source {
                id: s.id.value,
                status: s.status,
                author: s.author,
                title: s.title,
                year: s.year,
                place: s.place,
                note: s.note,
            });
        }
    }
}

fn places(r: &mut Resolver, base: &mut RuleBase, file: &SourceFile) {
    let Some(parsed) = parse::<PlacesFile>(r, file) else {
        return;
    };
    for p in parsed.places {
        if r.define("place", |r| &mut r.places, file, &p.id) {
            base.places.push(Place {
                id: p.id.value,
                name: p.name,
            });
        }
    }
}

/// Kinds first, then groups: a group may name a kind of another file.
fn kinds(r: &mut Resolver, base: &mut RuleBase, files: &[&SourceFile]) {
    let parsed: Vec<(&SourceFile, KindsFile)> = files
        .iter()
        .filter_map(|f| parse::<KindsFile>(r, f).map(|p| (*f, p)))
        .collect();
    let mut groups = Vec::new();
    for (file, p) in parsed {
        for k in p.kinds {
            let fresh = r.define("kind", |r| &mut r.kinds, file, &k.id);
            let made = k
                .made
                .iter()
                .filter_map(|m| {
                    let place = r.lookup("place", |r| &r.places, file, &m.place);
                    let weight = r.weight(file, &m.weight);
                    let curve = r.curve(file, &m.years, CURVE_YEARS);
                    place.map(|p| (p, weight, curve))
                })
                .collect();
            let because = r.because(file, k.because, k.id.src);
            let sources = r.sources(file, &k.source, Some(k.id.src));
            if k.made.is_empty() {
                let help = "add made: [(place: \"…\", weight: …)]".to_owned();
                r.problem(
                    file,
                    k.id.src,
                    "never-made",
                    format!("kind '{}' is made nowhere", k.id.value),
                    help,
                );
            }
            if fresh {
                base.kinds.push(Kind {
                    id: k.id.value,
                    name: k.name.value,
                    about: k.about.unwrap_or_default(),
                    aat: k.aat.map(|a| a.value),
                    made,
                    because,
                    sources,
                });
            }
        }
        groups.push((file, p.groups));
    }
    for (file, groups) in groups {
        for (name, members) in groups {
            let members = r.kinds(file, &Some(members)).unwrap_or_default();
            if r.groups.insert(name.value.clone(), members).is_some() {
                let message = format!("group '{}' is defined twice", name.value);
                r.problem(
                    file,
                    name.src,
                    "duplicate-id",
                    message,
                    "give one another name".into(),
                );
            }
        }
    }
}

fn families(r: &mut Resolver, base: &mut RuleBase, file: &SourceFile) {
    let Some(parsed) = parse::<FamiliesFile>(r, file) else {
        return;
    };
    for f in parsed.families {
        let fresh = r.define("family", |r| &mut r.families, file, &f.id);
        let delta = r.number(file, f.delta.value, f.delta.src, 0.0..=1.0, "delta");
        let because = r.because(file, f.because, f.id.src);
        let sources = r.sources(file, &f.source, Some(f.id.src));
        if fresh {
            base.families.push(Family {
                id: f.id.value,
                about: f.about.unwrap_or_default(),
                delta,
                because,
                sources,
            });
        }
    }
}

fn kernels(r: &mut Resolver, base: &mut RuleBase, file: &SourceFile) {
    let Some(parsed) = parse::<KernelsFile>(r, file) else {
        return;
    };
    for k in parsed.kernels {
        let fresh = r.define("kernel", |r| &mut r.kernels, file, &k.id);
        let lag = r.curve(file, &k.lag, -400.0..=400.0);
        let because = r.because(file, k.because, k.id.src);
        let sources = r.sources(file, &k.source, Some(k.id.src));
        if fresh {
            base.kernels.push(Kernel {
                id: k.id.value,
                about: k.about.unwrap_or_default(),
                lag,
                because,
                sources,
            });
        }
    }
}

fn settings(r: &mut Resolver, base: &mut RuleBase, file: &SourceFile) {
    let Some(parsed) = parse::<SettingsFile>(r, file) else {
        return;
    };
    for s in parsed.settings {
        let fresh = !base.settings.iter().any(|have| have.id == s.id.value);
        if !fresh {
            let message = format!("setting '{}' is defined twice", s.id.value);
            r.problem(
                file,
                s.id.src,
                "duplicate-id",
                message,
                "give one another id".into(),
            );
        }
        let curve = r.curve(file, &s.years, CURVE_YEARS);
        let factors = s.factors.iter().map(|f| r.case(file, f)).collect();
        let because = r.because(file, s.because, s.id.src);
        let sources = r.sources(file, &s.source, Some(s.id.src));
        if fresh {
            base.settings.push(Setting {
                id: s.id.value,
                name: s.name,
                about: s.about.unwrap_or_default(),
                curve,
                factors,
                because,
                sources,
            });
        }
    }
}

fn station(word: StationWord) -> Station {
    match word {
        StationWord::Front => Station::Front,
        StationWord::Loupe => Station::Loupe,
        StationWord::Glaze => Station::Glaze,
        StationWord::Back => Station::Back,
        StationWord::Shape => Station::Shape,
        StationWord::Mark => Station::Mark,
    }
}

/// All ids first, then gates: a gate may name a clue of another file.
fn clues(r: &mut Resolver, base: &mut RuleBase, files: &[&SourceFile], care: Care) {
    let parsed: Vec<(&SourceFile, CluesFile)> = files
        .iter()
        .filter_map(|f| parse::<CluesFile>(r, f).map(|p| (*f, p)))
        .collect();
    let mut gates = Vec::new();
    for (file, p) in parsed {
        for c in p.clues {
            let fresh = r.define("clue", |r| &mut r.clues, file, &c.id);
            let slip = r.number(file, c.slip.value, c.slip.src, 0.0..=0.5, "slip");
            let seconds = r.number(file, c.seconds.value, c.seconds.src, 1.0..=600.0, "seconds");
            let present = c.present.as_ref().map_or(1.0, |p| {
                r.number(file, p.value, p.src, 0.0..=1.0, "present")
            });
            let family = c
                .family
                .as_ref()
                .and_then(|f| r.lookup("family", |r| &r.families, file, f));
            let dated = c
                .dated
                .as_ref()
                .and_then(|k| r.lookup("kernel", |r| &r.kernels, file, k));
            let because = r.because(file, c.because, c.id.src);
            let sources = r.sources(file, &c.source, Some(c.id.src));
            let findings = findings(r, file, &c.id, c.dated.is_some(), c.findings);
            if fresh {
                gates.push((base.clues.len(), file, c.only_if));
                base.clues.push(Clue {
                    id: c.id.value,
                    station: station(p.station),
                    question: c.question,
                    look: c.look,
                    tells: c.tells,
                    seconds,
                    tools: c.tools,
                    gate: Vec::new(),
                    family,
                    slip,
                    present,
                    because,
                    sources,
                    dated,
                    findings: findings.0,
                });
                if care == Care::Full && dated.is_none() && r.problems.is_empty() {
                    tells::check(r, base, file, c.id.src, &findings.1);
                }
            }
        }
    }
    for (at, file, clauses) in gates {
        for (clue, names) in clauses {
            let Some(other) = r.lookup("clue", |r| &r.clues, file, &clue) else {
                continue;
            };
            if other == at {
                let message = format!("'{}' depends on itself", clue.value);
                r.problem(file, clue.src, "gate-circle", message, String::new());
                continue;
            }
            let mut any_of = Vec::new();
            for name in &names {
                let target = &base.clues[other];
                match target.finding(&name.value) {
                    Some(f) => any_of.push(f),
                    None => {
                        let allowed: Vec<String> =
                            target.findings.iter().map(|f| f.id.clone()).collect();
                        r.unknown("finding", file, name, &allowed);
                    }
                }
            }
            let clue = ClueId(other as u16);
            base.clues[at].gate.push(Clause { clue, any_of });
        }
    }
}

/// The findings, and the slice of each one's id.
fn findings<'a>(
    r: &mut Resolver,
    file: &SourceFile,
    clue: &super::schema::Text,
    dated: bool,
    written: Vec<super::schema::Finding<'a>>,
) -> (Vec<Finding>, Vec<&'a str>) {
    let fits = if dated {
        written.is_empty()
    } else {
        written.len() >= 2
    };
    if !fits {
        let message = if dated {
            format!("'{}' is dated and lists findings as well", clue.value)
        } else {
            format!("'{}' has fewer than two findings", clue.value)
        };
        let help = "a clue has either `dated` or at least two findings".to_owned();
        r.problem(file, clue.src, "findings", message, help);
    }
    let mut out: Vec<Finding> = Vec::new();
    let mut places: Vec<&str> = Vec::new();
    for f in written {
        if let Some(first) = out.iter().position(|have| have.id == f.id.value) {
            let (line, col) = super::source::line_col(&file.text, places[first]);
            let message = format!(
                "finding '{}' is defined twice, first at {}:{line}:{col}",
                f.id.value, file.name
            );
            r.problem(
                file,
                f.id.src,
                "duplicate-id",
                message,
                "give one another id".into(),
            );
            continue;
        }
        let cases = f.cases.iter().map(|c| r.case(file, c)).collect();
        if f.cases.is_empty() {
            let help = "add cases: [(weight: …)]".to_owned();
            r.problem(
                file,
                f.id.src,
                "no-cases",
                format!("finding '{}' has no frequency", f.id.value),
                help,
            );
        }
        places.push(f.id.src);
        out.push(Finding {
            id: f.id.value,
            words: f.words,
            because: f.because.unwrap_or_default(),
            spoken: f.spoken,
            sources: r.sources(file, &f.source, None),
            cases,
        });
    }
    (out, places)
}

fn market(r: &mut Resolver, base: &mut RuleBase, file: &SourceFile) {
    let Some(parsed) = parse::<MarketFile>(r, file) else {
        return;
    };
    for f in parsed.features {
        let because = r.because(file, f.because, f.clue.src);
        let sources = r.sources(file, &f.source, Some(f.clue.src));
        let Some(clue) = r.lookup("clue", |r| &r.clues, file, &f.clue) else {
            continue;
        };
        let names: Vec<String> = base
            .clues
            .get(clue)
            .map(|c| c.findings.iter().map(|f| f.id.clone()).collect())
            .unwrap_or_default();
        let mut cases = Vec::new();
        for case in &f.cases {
            let kinds = r.kinds(file, &case.kinds);
            r.sources(file, &case.source, None);
            let mut weights = vec![0.0; names.len()];
            for (finding, weight) in &case.shares {
                let weight = r.weight(file, weight);
                match names.iter().position(|n| *n == finding.value) {
                    Some(at) => weights[at] = weight,
                    None => r.unknown("finding", file, finding, &names),
                }
            }
            if weights.iter().sum::<f64>() <= 0.0 {
                r.problem(
                    file,
                    f.clue.src,
                    "no-shares",
                    "the shares sum to 0".into(),
                    String::new(),
                );
            }
            cases.push((kinds, weights));
        }
        base.market.push(MarketFeature {
            clue: ClueId(clue as u16),
            name: f.name,
            because,
            sources,
            cases,
        });
    }
}

fn cautions(r: &mut Resolver, base: &mut RuleBase, file: &SourceFile) {
    let Some(parsed) = parse::<CautionsFile>(r, file) else {
        return;
    };
    const WHEN: [&str; 6] = ["always", "stock", "uv", "broken", "value", "food"];
    for c in parsed.cautions {
        let because = r.because(file, c.because, c.id.src);
        let sources = r.sources(file, &c.source, Some(c.id.src));
        if !WHEN.contains(&c.when.value.as_str()) {
            let message = format!("'{}' is no occasion: use {}", c.when.value, WHEN.join(", "));
            r.problem(file, c.when.src, "unknown-occasion", message, String::new());
        }
        base.cautions.push(Caution {
            id: c.id.value,
            when: c.when.value,
            text: c.text,
            because,
            sources,
        });
    }
}
