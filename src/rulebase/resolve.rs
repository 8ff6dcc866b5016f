//! The third step of loading, names: defined once, looked up from then on, every problem noted.
//! `numbers` does the numbers and `frequencies` the cases.

use std::collections::BTreeMap;

use super::ids::{FindingId, Id, KindId, Sort, SourceId};
use super::problem::{Check, Problem, nearest};
use super::schema::{Names, Text};
use super::source::{SourceFile, line_col};

/// What to do about a missing source.
pub(super) const ADD_SOURCE: &str = "add source: [\"…\"] with ids from sources.ron; common-practice and from-memory are allowed and say so";

/// Names of one sort: the place of each in their order and in its file.
#[derive(Default)]
pub(super) struct Index<'a> {
    at: BTreeMap<String, (usize, &'a SourceFile, &'a str)>,
}

impl Index<'_> {
    /// All names in order of definition.
    fn names(&self) -> Vec<&str> {
        let mut all: Vec<(usize, &str)> =
            self.at.iter().map(|(n, at)| (at.0, n.as_str())).collect();
        all.sort_unstable();
        all.into_iter().map(|(_, name)| name).collect()
    }
}

/// Unknown names that get a "did you mean" in one load; more than are listed anywhere (common practice,
/// no source).
const MOST_GUESSES: usize = 200;

/// Knows the names defined so far and collects the problems of one load.
#[derive(Default)]
pub(super) struct Resolver<'a> {
    pub problems: Vec<Problem>,
    ids: BTreeMap<Sort, Index<'a>>,
    /// Kinds of each group.
    pub groups: BTreeMap<String, Vec<KindId>>,
}

impl<'a> Resolver<'a> {
    /// Notes a problem at a slice of a file.
    pub(super) fn problem(
        &mut self,
        file: &SourceFile,
        at: &str,
        code: Check,
        message: impl Into<String>,
        help: impl Into<String>,
    ) {
        self.problems
            .push(Problem::at(file, at, code, message, help));
    }

    /// Defines a name; a second definition is a problem that points at the first, and the only
    /// one that gives false. Other faults of a name are noted, and it is entered all the same, so
    /// that nothing more is said where it is used.
    pub(super) fn define(&mut self, sort: Sort, file: &'a SourceFile, id: &Text<'a>) -> bool {
        let mut index = self.ids.remove(&sort).unwrap_or_default();
        let fresh = self.define_in(&mut index, sort, file, id);
        self.ids.insert(sort, index);
        fresh
    }

    /// Defines a name in an index of its own, such as that of the findings of one clue.
    pub(super) fn define_in(
        &mut self,
        index: &mut Index<'a>,
        sort: Sort,
        file: &'a SourceFile,
        id: &Text<'a>,
    ) -> bool {
        let (word, name) = (sort.word(), &id.value);
        if !well_formed(name) {
            let message = format!("'{name}' is no id for a {word}");
            let help = "use lower-case letters, digits and single hyphens, such as line-make";
            self.problem(file, id.src, Check::BadId, message, help);
        }
        if let Some((_, first, at)) = index.at.get(name) {
            let (line, col) = line_col(&first.text, at);
            let first = format!("{}:{line}:{col}", first.name);
            let message = format!("{word} '{name}' is defined twice, first at {first}");
            let help = "give one of them another id, or delete it";
            self.problem(file, id.src, Check::DuplicateId, message, help);
            return false;
        }
        let at = index.at.len();
        if at == sort.most() {
            let message = format!("this {word} is one more than the {at} there can be");
            self.problem(file, id.src, Check::TooMany, message, "");
        }
        index.at.insert(name.clone(), (at, file, id.src));
        true
    }

    /// Looks a name up; an unknown one is a problem with the nearest allowed name.
    pub(super) fn lookup<I: Id>(&mut self, file: &SourceFile, name: &Text) -> Option<I> {
        let index = self.ids.get(&I::SORT);
        if let Some((at, _, _)) = index.and_then(|i| i.at.get(&name.value)) {
            return I::at(*at);
        }
        // Whoever has so many is not helped by a guess at each, and the guesses take longest.
        let guess = self.problems.len() < MOST_GUESSES;
        let allowed = index
            .filter(|_| guess)
            .map(Index::names)
            .unwrap_or_default();
        let mut problem = unknown(file, name, I::UNKNOWN, I::SORT.word(), &allowed);
        if !guess {
            problem.help.clear();
        }
        self.problems.push(problem);
        None
    }

    /// Looks a finding up among those of its clue.
    pub(super) fn finding<'n>(
        &mut self,
        file: &SourceFile,
        name: &Text,
        findings: impl Iterator<Item = &'n str> + Clone,
    ) -> Option<FindingId> {
        let at = findings.clone().position(|f| f == name.value);
        if at.is_none() {
            let (code, word) = (FindingId::UNKNOWN, FindingId::SORT.word());
            let allowed: Vec<&str> = findings.collect();
            self.problems
                .push(unknown(file, name, code, word, &allowed));
        }
        at.and_then(FindingId::at)
    }

    /// Kinds and groups by name, each kind once, in order.
    pub(super) fn kinds(&mut self, file: &SourceFile, names: &Names) -> Vec<KindId> {
        let mut out = Vec::new();
        for name in names {
            let Some(group) = name.value.strip_prefix('@') else {
                out.extend(self.lookup::<KindId>(file, name));
                continue;
            };
            if let Some(members) = self.groups.get(group) {
                out.extend_from_slice(members);
            } else {
                let known: Vec<String> = self.groups.keys().map(|g| format!("@{g}")).collect();
                let known: Vec<&str> = known.iter().map(String::as_str).collect();
                let code = KindId::UNKNOWN;
                self.problems
                    .push(unknown(file, name, code, "kind or group", &known));
            }
        }
        out.sort_unstable();
        out.dedup();
        out
    }

    /// Sources by name. `needed` = refuse an empty list, at `at`.
    pub(super) fn sources(
        &mut self,
        file: &SourceFile,
        names: &Names,
        needed: Option<&str>,
    ) -> Vec<SourceId> {
        if let (true, Some(at)) = (names.is_empty(), needed) {
            let message = format!("{} has no source", at.trim_matches('"'));
            self.problem(file, at, Check::MissingSource, message, ADD_SOURCE);
        }
        names.iter().filter_map(|n| self.lookup(file, n)).collect()
    }

    /// The reason, which must be there.
    pub(super) fn because(&mut self, file: &SourceFile, text: Option<String>, at: &str) -> String {
        let text = text.unwrap_or_default();
        if text.trim().is_empty() {
            let message = format!("{} has no reason", at.trim_matches('"'));
            let help = "add because: \"…\": what it tells, in words a beginner understands";
            self.problem(file, at, Check::MissingBecause, message, help);
        }
        text
    }
}

/// The problem of an unknown name.
fn unknown(file: &SourceFile, name: &Text, code: Check, word: &str, allowed: &[&str]) -> Problem {
    let help = match nearest(&name.value, allowed.iter().copied()) {
        Some(near) => format!("did you mean '{near}'?"),
        None if allowed.is_empty() => format!("no {word} is defined"),
        None => format!("known: {}", allowed.join(", ")),
    };
    let message = format!("unknown {word} '{}'", name.value);
    Problem::at(file, name.src, code, message, help)
}

fn well_formed(id: &str) -> bool {
    id.split('-').all(|part| {
        let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit();
        !part.is_empty() && part.chars().all(plain)
    })
}
