//! The tables of the designs registry: letters, classes, odd days and lists of numbers.

use std::collections::BTreeSet;

use super::base::RuleBase;
use super::parse::Files;
use super::problem::Check;
use super::resolve::{ADD_SOURCE, Resolver};
use super::schema::Text;
use super::schema_marks::{
    ClassEntry, LayoutWord, ListEntry, MonthEntry, OddEntry, PeriodEntry, RegistryFile,
};
use super::source::SourceFile;
use crate::registry::tables::{Class, Layout, MonthLetter, NumberList, OddDays, Period, Registry};

/// Loads `marks/registry.ron`. Of several files the last holds: tables belong together.
pub(super) fn registry<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, RegistryFile<'a>>,
) {
    for (file, written) in files {
        let sources = r.sources(file, &written.source, None);
        if sources.is_empty() {
            let (at, message) = (written.format.0, "the letters have no source");
            r.problem(file, at, Check::MissingSource, message, ADD_SOURCE);
        }
        let classes = classes(r, file, written.classes, &written.ceramics);
        base.registry = Registry {
            classes,
            ceramics: written.ceramics.value,
            periods: periods(r, file, &written.periods),
            months: months(r, file, written.months),
            odd_days: odd_days(r, base, file, written.odd_days),
            lists: lists(r, base, file, written.numbers),
            diamond_origin: base.origin(&sources),
        };
    }
}

fn classes(
    r: &mut Resolver,
    file: &SourceFile,
    written: Vec<ClassEntry>,
    ceramics: &Text,
) -> Vec<Class> {
    let mut out: Vec<Class> = Vec::new();
    for c in written {
        r.sources(file, &c.source, Some(c.numeral.src));
        if out.iter().any(|have| have.numeral == c.numeral.value) {
            twice(r, file, c.numeral.src, "class");
        }
        out.push(Class {
            numeral: c.numeral.value,
            goods: c.goods,
        });
    }
    if out.iter().all(|c| c.numeral != ceramics.value) {
        let message = format!("class '{}' is not among the classes", ceramics.value);
        r.problem(file, ceramics.src, Check::UnknownClass, message, "");
    }
    out
}

fn twice(r: &mut Resolver, file: &SourceFile, at: &str, what: &str) {
    let message = format!("{what} {at} has two meanings");
    r.problem(file, at, Check::DuplicateLetter, message, "");
}

fn layout(word: LayoutWord) -> Layout {
    match word {
        LayoutWord::First => Layout::First,
        LayoutWord::Second => Layout::Second,
    }
}

fn periods(r: &mut Resolver, file: &SourceFile, written: &[PeriodEntry]) -> Vec<Period> {
    let mut out: Vec<Period> = Vec::new();
    for p in written {
        r.sources(file, &p.source, Some(p.from.src));
        let (from, to) = (r.day(file, &p.from), r.day(file, &p.to));
        let letters: Vec<char> = p.letters.value.chars().collect();
        if letters.iter().collect::<BTreeSet<_>>().len() < letters.len() {
            let message = "a year letter stands twice";
            r.problem(file, p.letters.src, Check::DuplicateLetter, message, "");
        }
        let (Some(from), Some(to)) = (from, to) else {
            continue;
        };
        let years: Vec<i16> = (from.year()..=to.year()).collect();
        if years.len() != letters.len() {
            let (first, last) = (from.year(), to.year());
            let message = format!("{} letters for the years {first} to {last}", letters.len());
            let help = format!("{} letters, one a year", years.len());
            r.problem(file, p.letters.src, Check::LetterCount, message, help);
        }
        if out.iter().any(|have| have.layout == layout(p.layout)) {
            let message = "this layout stands twice";
            r.problem(file, p.from.src, Check::DuplicateLetter, message, "");
        }
        out.push(Period {
            layout: layout(p.layout),
            from,
            to,
            years: letters.into_iter().zip(years).collect(),
        });
    }
    out
}

fn months(r: &mut Resolver, file: &SourceFile, written: Vec<MonthEntry>) -> Vec<MonthLetter> {
    let mut out: Vec<MonthLetter> = Vec::new();
    for m in written {
        r.sources(file, &m.source, Some(m.letter.src));
        let month = r.whole(file, m.month, 1..=12, "month").unwrap_or(1);
        if out.iter().any(|have| have.letter == m.letter.value) {
            twice(r, file, m.letter.src, "month letter");
        }
        out.push(MonthLetter {
            letter: m.letter.value,
            month,
            note: m.note,
        });
    }
    out
}

fn odd_days(
    r: &mut Resolver,
    base: &RuleBase,
    file: &SourceFile,
    written: Vec<OddEntry>,
) -> Vec<OddDays> {
    let mut out = Vec::new();
    for o in written {
        let sources = r.sources(file, &o.source, Some(o.from.src));
        let (from, to) = (r.day(file, &o.from), r.day(file, &o.to));
        let disputed = o
            .disputed
            .iter()
            .filter_map(|day| r.day(file, day))
            .collect();
        let (Some(from), Some(to)) = (from, to) else {
            continue;
        };
        if from > to {
            let message = format!("{to} comes before {from}");
            r.problem(file, o.to.src, Check::YearsReversed, message, "");
        }
        out.push(OddDays {
            layout: layout(o.layout),
            year_letter: o.year_letter,
            month_letter: o.month_letter,
            from,
            to,
            disputed,
            note: format!("{} [{}]", o.note, base.origin(&sources).text),
        });
    }
    out
}

fn lists(
    r: &mut Resolver,
    base: &RuleBase,
    file: &SourceFile,
    written: Vec<ListEntry>,
) -> Vec<NumberList> {
    let mut out = Vec::new();
    for list in written {
        let sources = r.sources(file, &list.source, Some(list.name.src));
        let open_to = r.whole(file, list.open_to, 1..=u32::MAX, "number");
        let mut firsts: Vec<(i16, u32)> = Vec::with_capacity(list.firsts.len());
        for (year, number) in list.firsts {
            let at = year.0;
            let year = r.year(file, year);
            let number = r.whole(file, number, 1..=u32::MAX, "number");
            let (Some(year), Some(number)) = (year, number) else {
                continue;
            };
            if firsts
                .last()
                .is_some_and(|last| last.0 >= year || last.1 >= number)
            {
                let message = "years and first numbers must rise together";
                r.problem(file, at, Check::NumbersReversed, message, "");
            }
            firsts.push((year, number));
        }
        let begins = firsts.last().map_or(u32::MAX, |last| last.1);
        if open_to.is_some_and(|open_to| open_to < begins) {
            let message = "the list ends before its last year begins";
            r.problem(file, list.open_to.0, Check::NumbersReversed, message, "");
        }
        let open_to = open_to.unwrap_or(begins);
        out.push(NumberList {
            name: list.name.value,
            firsts,
            open_to,
            note: list.note,
            origin: base.origin(&sources),
        });
    }
    out
}
