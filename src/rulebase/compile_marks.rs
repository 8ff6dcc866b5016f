//! Rule files of marks to checked tables: sources looked up, ids and years checked.

use super::schema_marks::{LayoutWord, RegistryFile, WordingFile};
use crate::hearing::fold::{Word, words};
use crate::hearing::mark::{Phrase, Phrasebook, Reads};
use crate::registry::calendar::Date;
use crate::registry::tables::{
    Class, Layout, MonthLetter, NumberList, OddDays, Origin, Period, Registry, Standing,
};

/// Finds a source by id: its line for people and its standing.
pub type Sources<'a> = &'a dyn Fn(&str) -> Option<Origin>;

/// Looks the sources of an entry up; unknown ids and an empty list are problems of `what`.
fn origin(what: &str, ids: &[String], sources: Sources<'_>, problems: &mut Vec<String>) -> Origin {
    let mut texts = Vec::new();
    let mut standings = Vec::new();
    if ids.is_empty() {
        problems.push(format!("{what}: has no source"));
    }
    for id in ids {
        match sources(id) {
            Some(origin) => {
                texts.push(origin.text);
                standings.push(origin.standing);
            }
            None => problems.push(format!("{what}: unknown source '{id}'")),
        }
    }
    // A figure stands no better than the weakest work behind it.
    let standing = standings
        .into_iter()
        .max()
        .unwrap_or(Standing::CommonPractice);
    Origin {
        text: texts.join("; "),
        standing,
    }
}

/// Checks and builds the phrase book. All problems come back, each beginning with the phrase's id.
pub fn phrasebook(file: &WordingFile, sources: Sources<'_>) -> Result<Phrasebook, Vec<String>> {
    let mut problems = Vec::new();
    let mut phrases: Vec<Phrase> = Vec::new();
    // (what is read, folded form, phrase): each form is folded once.
    let mut seen: Vec<(Reads, String, String)> = Vec::new();
    for entry in &file.phrases {
        let id = &entry.id;
        if phrases.iter().any(|p| p.id == *id) {
            problems.push(format!("{id}: this id stands twice"));
        }
        if entry.because.trim().is_empty() {
            problems.push(format!("{id}: because is empty"));
        }
        if entry.finding.is_some() && entry.clue.is_none() {
            problems.push(format!("{id}: a finding without a clue"));
        }
        if entry.forms.is_empty() && !entry.reads.without_forms() {
            problems.push(format!("{id}: has no forms"));
        }
        let years = [entry.from, entry.usual_from, entry.to];
        let given: Vec<i16> = years.into_iter().flatten().collect();
        if given.windows(2).any(|w| w[0] > w[1]) {
            problems.push(format!(
                "{id}: years must rise from `from` to `usual_from` to `to`"
            ));
        }
        for form in &entry.forms {
            let folded = folded(form);
            if folded.is_empty() {
                problems.push(format!("{id}: the form '{form}' has no letters"));
            }
            let twice = seen
                .iter()
                .find(|(reads, other, of)| *reads == entry.reads && *other == folded && of != id);
            if let Some((_, _, other)) = twice {
                problems.push(format!("{id}: the form '{form}' is also a form of {other}"));
            }
            seen.push((entry.reads, folded, id.clone()));
        }
        phrases.push(Phrase {
            id: id.clone(),
            clue: entry.clue.clone(),
            finding: entry.finding.clone(),
            forms: entry.forms.clone(),
            reads: entry.reads,
            from: entry.from,
            usual_from: entry.usual_from,
            to: entry.to,
            because: entry.because.clone(),
            origin: origin(id, &entry.source, sources, &mut problems),
            sources: entry.source.clone(),
        });
    }
    if problems.is_empty() {
        Ok(Phrasebook::new(phrases))
    } else {
        Err(problems)
    }
}

fn folded(form: &str) -> String {
    words(form).iter().map(Word::folded).collect()
}

fn layout(word: LayoutWord) -> Layout {
    match word {
        LayoutWord::First => Layout::First,
        LayoutWord::Second => Layout::Second,
    }
}

fn day(what: &str, text: &str, problems: &mut Vec<String>) -> Date {
    Date::from_iso(text).unwrap_or_else(|| {
        problems.push(format!("{what}: '{text}' is no day, write YYYY-MM-DD"));
        Date::first_of(1842)
    })
}

/// Checks and builds the registry's tables. All problems come back.
pub fn registry(file: &RegistryFile, sources: Sources<'_>) -> Result<Registry, Vec<String>> {
    let mut problems = Vec::new();
    let mut periods = Vec::new();
    for entry in &file.periods {
        let what = format!("period {:?}", entry.layout);
        origin(&what, &entry.source, sources, &mut problems);
        let (from, to) = (
            day(&what, &entry.from, &mut problems),
            day(&what, &entry.to, &mut problems),
        );
        let years: Vec<(char, i16)> = entry.letters.chars().zip(from.year()..).collect();
        let mut letters: Vec<char> = entry.letters.chars().collect();
        letters.sort_unstable();
        letters.dedup();
        if letters.len() != years.len() {
            problems.push(format!("{what}: a year letter stands twice"));
        }
        if years.last().map(|y| y.1) != Some(to.year()) {
            problems.push(format!(
                "{what}: {} letters do not reach from {} to {}",
                years.len(),
                from.year(),
                to.year()
            ));
        }
        periods.push(Period {
            layout: layout(entry.layout),
            from,
            to,
            years,
        });
    }
    let mut months = Vec::new();
    for entry in &file.months {
        let what = format!("month letter {}", entry.letter);
        origin(&what, &entry.source, sources, &mut problems);
        if !(1..=12).contains(&entry.month) {
            problems.push(format!("{what}: month {} is not 1 to 12", entry.month));
        }
        months.push(MonthLetter {
            letter: entry.letter,
            month: entry.month,
            note: entry.note.clone(),
        });
    }
    let mut odd_days = Vec::new();
    for entry in &file.odd_days {
        let what = format!("odd days {}", entry.from);
        let origin = origin(&what, &entry.source, sources, &mut problems);
        odd_days.push(OddDays {
            layout: layout(entry.layout),
            year_letter: entry.year_letter,
            month_letter: entry.month_letter,
            from: day(&what, &entry.from, &mut problems),
            to: day(&what, &entry.to, &mut problems),
            disputed: entry
                .disputed
                .iter()
                .map(|d| day(&what, d, &mut problems))
                .collect(),
            note: format!("{} [{}]", entry.note, origin.text),
        });
    }
    let mut lists = Vec::new();
    for entry in &file.numbers {
        let rising = entry
            .firsts
            .windows(2)
            .all(|w| w[0].0 < w[1].0 && w[0].1 < w[1].1);
        let reaches = entry.firsts.last().is_some_and(|l| l.1 <= entry.open_to);
        if !rising || !reaches {
            problems.push(format!("{}: years and numbers must rise", entry.name));
        }
        lists.push(NumberList {
            name: entry.name.clone(),
            firsts: entry.firsts.clone(),
            open_to: entry.open_to,
            note: entry.note.clone(),
            origin: origin(&entry.name, &entry.source, sources, &mut problems),
        });
    }
    for entry in &file.classes {
        origin(&entry.numeral, &entry.source, sources, &mut problems);
    }
    if file.classes.iter().all(|c| c.numeral != file.ceramics) {
        problems.push(format!("class {} is not among the classes", file.ceramics));
    }
    let registry = Registry {
        periods,
        months,
        odd_days,
        classes: file
            .classes
            .iter()
            .map(|c| Class {
                numeral: c.numeral.clone(),
                goods: c.goods.clone(),
            })
            .collect(),
        ceramics: file.ceramics.clone(),
        lists,
        diamond_origin: origin("letters", &file.source, sources, &mut problems),
    };
    if problems.is_empty() {
        Ok(registry)
    } else {
        Err(problems)
    }
}
