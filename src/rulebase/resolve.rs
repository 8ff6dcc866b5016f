//! Turns names into indices, collecting every problem on the way; `numbers` does the numbers.

use std::collections::BTreeMap;

use super::definitions::Frequency;
use super::numbers::CURVE_YEARS;
use super::problem::{Problem, nearest};
use super::schema::{Names, Text};
use super::source::{SourceFile, line_col};

/// Names of one sort, in order of definition, with the place of each.
#[derive(Debug, Default)]
pub struct Index {
    names: Vec<String>,
    at: BTreeMap<String, (usize, String)>,
}

impl Index {
    /// Position of a name.
    pub fn get(&self, name: &str) -> Option<usize> {
        self.at.get(name).map(|(i, _)| *i)
    }
}

/// Collects problems of one load.
pub struct Resolver {
    pub problems: Vec<Problem>,
    pub sources: Index,
    pub kinds: Index,
    pub groups: BTreeMap<String, Vec<usize>>,
    pub places: Index,
    pub families: Index,
    pub kernels: Index,
    pub clues: Index,
    pub terms: Index,
}

impl Resolver {
    pub fn new() -> Resolver {
        Resolver {
            problems: Vec::new(),
            sources: Index::default(),
            kinds: Index::default(),
            groups: BTreeMap::new(),
            places: Index::default(),
            families: Index::default(),
            kernels: Index::default(),
            clues: Index::default(),
            terms: Index::default(),
        }
    }

    /// Notes a problem at a slice of a file.
    pub fn problem(
        &mut self,
        file: &SourceFile,
        at: &str,
        code: &'static str,
        message: String,
        help: String,
    ) {
        let (line, col) = line_col(&file.text, at);
        self.problems.push(Problem {
            file: file.name.clone(),
            line,
            col,
            message,
            code,
            help,
        });
    }

    /// Defines a name; a second definition is a problem that points at the first.
    /// Returns false for a duplicate or a malformed id.
    pub fn define(
        &mut self,
        sort: &str,
        pick: fn(&mut Resolver) -> &mut Index,
        file: &SourceFile,
        id: &Text,
    ) -> bool {
        let place = line_col(&file.text, id.src);
        if !well_formed(&id.value) {
            self.problem(
                file,
                id.src,
                "bad-id",
                format!("'{}' is no id for a {sort}", id.value),
                "use lower-case letters, digits and single hyphens, such as line-make".into(),
            );
        }
        if let Some((_, first)) = pick(self).at.get(&id.value) {
            let first = first.clone();
            self.problem(
                file,
                id.src,
                "duplicate-id",
                format!("{sort} '{}' is defined twice, first at {first}", id.value),
                "give one of them another id, or delete it".into(),
            );
            return false;
        }
        let index = pick(self);
        let at = index.names.len();
        index.names.push(id.value.clone());
        index.at.insert(
            id.value.clone(),
            (at, format!("{}:{}:{}", file.name, place.0, place.1)),
        );
        true
    }

    /// Looks a name up; an unknown one is a problem with the nearest allowed name.
    pub fn lookup(
        &mut self,
        sort: &str,
        pick: fn(&Resolver) -> &Index,
        file: &SourceFile,
        name: &Text,
    ) -> Option<usize> {
        let found = pick(self).get(&name.value);
        if found.is_none() {
            let allowed: Vec<String> = pick(self).names.clone();
            self.unknown(sort, file, name, &allowed);
        }
        found
    }

    /// Notes an unknown name.
    pub fn unknown(&mut self, sort: &str, file: &SourceFile, name: &Text, allowed: &[String]) {
        let near = nearest(&name.value, allowed.iter().map(String::as_str));
        let help = match near {
            Some(near) => format!("did you mean '{near}'?"),
            None if allowed.is_empty() => format!("no {sort} is defined"),
            None => format!("known: {}", allowed.join(", ")),
        };
        let code = match sort {
            "kind" | "kind or group" => "unknown-kind",
            "place" => "unknown-place",
            "clue" => "unknown-clue",
            "finding" => "unknown-finding",
            "source" => "unknown-source",
            "family" => "unknown-family",
            _ => "unknown-kernel",
        };
        let message = format!("unknown {sort} '{}'", name.value);
        self.problem(file, name.src, code, message, help);
    }

    /// Sources by name. `needed` = refuse an empty list, at `at`.
    pub fn sources(
        &mut self,
        file: &SourceFile,
        names: &Names,
        needed: Option<&str>,
    ) -> Vec<usize> {
        if let (true, Some(at)) = (names.is_empty(), needed) {
            self.problem(
                file,
                at,
                "missing-source",
                format!("{} has no source", at.trim_matches('"')),
                "add source: [\"…\"] with ids from sources.ron; common-practice and from-memory are allowed and say so".into(),
            );
        }
        names
            .iter()
            .filter_map(|n| self.lookup("source", |r| &r.sources, file, n))
            .collect()
    }

    /// The reason, which must be there.
    pub fn because(&mut self, file: &SourceFile, text: Option<String>, at: &str) -> String {
        let text = text.unwrap_or_default();
        if text.trim().is_empty() {
            self.problem(
                file,
                at,
                "missing-because",
                format!("{} has no reason", at.trim_matches('"')),
                "add because: \"…\": what it tells, in words a beginner understands".into(),
            );
        }
        text
    }

    /// Kinds and groups by name, each kind once, in order.
    pub fn kinds(&mut self, file: &SourceFile, names: &Option<Names>) -> Option<Vec<usize>> {
        let names = names.as_ref()?;
        let mut out = Vec::new();
        for name in names {
            if let Some(group) = name.value.strip_prefix('@') {
                match self.groups.get(group) {
                    Some(members) => out.extend_from_slice(members),
                    None => {
                        let allowed: Vec<String> =
                            self.groups.keys().map(|g| format!("@{g}")).collect();
                        self.unknown("kind or group", file, name, &allowed);
                    }
                }
            } else {
                out.extend(self.lookup("kind", |r| &r.kinds, file, name));
            }
        }
        out.sort_unstable();
        out.dedup();
        Some(out)
    }

    /// Places by name.
    pub fn places(&mut self, file: &SourceFile, names: &Option<Names>) -> Option<Vec<usize>> {
        let names = names.as_ref()?;
        Some(
            names
                .iter()
                .filter_map(|n| self.lookup("place", |r| &r.places, file, n))
                .collect(),
        )
    }

    /// A weighted case.
    pub fn case(&mut self, file: &SourceFile, case: &super::schema::FrequencyEntry) -> Frequency {
        Frequency {
            kinds: self.kinds(file, &case.kinds),
            places: self.places(file, &case.places),
            weight: self.weight(file, &case.weight),
            curve: self.curve(file, &case.years, CURVE_YEARS),
            sources: self.sources(file, &case.source, None),
        }
    }
}

fn well_formed(id: &str) -> bool {
    !id.is_empty()
        && id.split('-').all(|part| {
            !part.is_empty()
                && part
                    .chars()
                    .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit())
        })
}
