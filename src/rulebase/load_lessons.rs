//! Lessons: every finding and kind they name exists, every practice item asks one thing.
//!
//! That the right answers are what the engine says of the items is held by a test
//! (`tests/it/lessons.rs`): here no engine is at hand.

use super::base::RuleBase;
use super::definitions::{Asks, Lesson, Practice};
use super::ids::{ClueId, FindingId, KindId, Sort};
use super::parse::Files;
use super::problem::Check;
use super::resolve::Resolver;
use super::schema::Text;
use super::schema_lessons::{LessonEntry, LessonsFile, PracticeEntry, Saw};
use super::source::{Bare, SourceFile};
use crate::core::grid::Year;

/// Practice items of a lesson: enough to see a thing from three sides within five minutes
/// (common practice, no source).
const ITEMS: usize = 3;

/// Loads `lessons.ron`. Lessons of several files add up; of the two sides of printed-or-painted the
/// last file that names any counts.
pub(super) fn lessons<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, LessonsFile<'a>>,
) {
    for (file, written) in files {
        let sides = [&written.printed, &written.painted].map(|names| r.kinds(file, names));
        if sides.iter().any(|s| !s.is_empty()) {
            base.printed_or_painted = sides;
        }
        for entry in written.lessons {
            lesson(r, base, file, entry);
        }
    }
}

fn lesson<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    file: &'a SourceFile,
    entry: LessonEntry<'a>,
) {
    let fresh = r.define(Sort::Lesson, file, &entry.id);
    let at = entry.id.src;
    let because = r.because(file, entry.because, at);
    let sources = r.sources(file, &entry.source, Some(at));
    let blank = entry.text.iter().all(|t| t.trim().is_empty());
    if blank || entry.title.trim().is_empty() {
        let message = format!("lesson '{}' has no title or no text", entry.id.value);
        r.problem(file, at, Check::BadLesson, message, "");
    }
    if entry.practice.len() != ITEMS {
        let count = entry.practice.len();
        let message = format!("practice items of lesson '{}': {count}", entry.id.value);
        let help = "give it three";
        r.problem(file, at, Check::BadLesson, message, help);
    }
    let shows = findings(r, base, file, &entry.shows);
    let items = entry.practice.iter();
    let practice = items
        .filter_map(|item| practice(r, base, file, &entry.id, item))
        .collect();
    if fresh {
        base.lessons.push(Lesson {
            id: entry.id.value,
            title: entry.title,
            text: entry.text,
            shows,
            practice,
            because,
            sources,
        });
    }
}

fn practice(
    r: &mut Resolver,
    base: &RuleBase,
    file: &SourceFile,
    lesson: &Text,
    item: &PracticeEntry,
) -> Option<Practice> {
    // The place of a problem: the item's first name, or the lesson's.
    let at = item.saw.first().map_or(lesson.src, |(clue, _)| clue.src);
    let refuse = |r: &mut Resolver, message: &str| {
        let help = "write one of kinds: […], years: […] or rarer_than: […], the right answer first";
        r.problem(file, at, Check::BadLesson, message, help);
    };
    if item.saw.is_empty() && item.mark.trim().is_empty() {
        refuse(r, "nothing is seen of the piece");
    }
    let asks = match (&item.kinds, &item.years, &item.rarer_than) {
        (Some(kinds), None, None) => Asks::Kind(each_kind(r, file, kinds)),
        (None, Some(years), None) => Asks::Years(spans(r, file, years)),
        (None, None, Some(other)) => Asks::RarerThan(findings(r, base, file, other)),
        _ => {
            refuse(r, "this item asks nothing, or several things");
            return None;
        }
    };
    let answers = match (&item.kinds, &item.years, &item.rarer_than) {
        (Some(kinds), ..) => kinds.len(),
        (_, Some(years), _) => years.len(),
        // This piece, or the other: of which something must be seen.
        (.., Some(other)) => 1 + other.len().min(1),
        _ => 0,
    };
    if answers < 2 {
        refuse(r, "there is only one answer to choose");
    }
    Some(Practice {
        saw: findings(r, base, file, &item.saw),
        mark: item.mark.clone(),
        asks,
    })
}

/// In the order written: the first is the right one. No groups.
fn each_kind(r: &mut Resolver, file: &SourceFile, names: &[Text]) -> Vec<KindId> {
    names.iter().filter_map(|n| r.lookup(file, n)).collect()
}

fn spans(r: &mut Resolver, file: &SourceFile, years: &[(Bare, Bare)]) -> Vec<(Year, Year)> {
    let mut out = Vec::new();
    for (from, to) in years {
        let (Some(first), Some(last)) = (r.year(file, *from), r.year(file, *to)) else {
            continue;
        };
        if last < first {
            let message = format!("the years run from {first} to {last}");
            r.problem(file, from.0, Check::YearsReversed, message, "");
        }
        out.push((Year(first), Year(last)));
    }
    out
}

fn findings(
    r: &mut Resolver,
    base: &RuleBase,
    file: &SourceFile,
    written: &[Saw],
) -> Vec<(ClueId, FindingId)> {
    let mut out = Vec::new();
    for (clue, finding) in written {
        let Some(id) = r.lookup::<ClueId>(file, clue) else {
            continue;
        };
        // A clue that was refused has a name and no entry.
        let Some(rules) = base.clues.get(usize::from(id.0)) else {
            continue;
        };
        let known = rules.finding_ids();
        out.extend(r.finding(file, finding, known).map(|f| (id, f)));
    }
    out
}
