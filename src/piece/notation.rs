//! "clue=finding", with `?` for unsure and `??` for a guess.

use std::fmt;
use std::ops::RangeInclusive;

use crate::core::grid::{ClueId, FIRST_YEAR, Year};
use crate::core::observation::{Observation, Observed, Sure, Weights};
use crate::rulebase::RuleBase;
use crate::rulebase::definitions::{Clue, Finding};
use crate::rulebase::problem::near;

/// The word for "looked, and can't tell".
pub const CANT_TELL: &str = "cant-tell";

/// Why something told of a piece was not taken: what, and what is allowed; one line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refused(pub String);

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for Refused {}

/// Years a finding can name.
pub const YEARS: RangeInclusive<Year> = FIRST_YEAR..=Year(2100);

/// Reads one finding.
///
/// A dated clue takes a year from 1750 to 2100; `cant-tell` is allowed everywhere. Several findings
/// parted by `|` are one soft observation: any of them. An id that was a finding's once is read as
/// what it became.
///
/// # Errors
/// An unknown clue or finding, with the nearest names; a year out of range.
pub fn parse(base: &RuleBase, text: &str) -> Result<Observation, Refused> {
    let Some((clue_name, said)) = text.split_once('=') else {
        return Err(Refused(format!(
            "'{}' is no finding: write CLUE=FINDING, such as line-make=engraved",
            printable(text)
        )));
    };
    let (clue_name, said) = (clue_name.trim(), said.trim());
    let Some(clue) = base.clue_id(clue_name) else {
        let known = base.clues.iter().map(|c| c.id.as_str());
        return Err(unknown(
            "clue",
            clue_name,
            known,
            "printseam rules list shows all clues",
        ));
    };
    parse_said(base, clue, said)
}

/// Reads what was said of a clue, as `parse` does after the `=`.
///
/// # Errors
/// As `parse`.
pub fn parse_said(base: &RuleBase, clue: ClueId, said: &str) -> Result<Observation, Refused> {
    let (word, sure) = split_sure(said);
    let rules = base.clue(clue);
    let clue_name = rules.id.as_str();
    let seen = if word == CANT_TELL {
        Observed::CantTell
    } else if rules.dated.is_some() {
        Observed::Year(year(clue_name, word)?)
    } else if let Some(finding) = rules.finding(word) {
        Observed::Finding(finding)
    } else if let Some(today) = rules.former(word) {
        today
    } else if word.contains('|') {
        read_soft(rules, word)?
    } else {
        return Err(unknown_finding(rules, word));
    };
    Ok(Observation::new(clue, seen).sure(sure))
}

/// Takes trailing question marks off.
pub fn split_sure(said: &str) -> (&str, Sure) {
    if let Some(word) = said.strip_suffix("??") {
        (word.trim_end(), Sure::Guess)
    } else if let Some(word) = said.strip_suffix('?') {
        (word.trim_end(), Sure::Unsure)
    } else {
        (said, Sure::Sure)
    }
}

/// The finding as text, so that `parse(write(e)) == e`.
pub fn write(base: &RuleBase, entry: &Observation) -> String {
    let marks = match entry.sure {
        Sure::Sure => "",
        Sure::Unsure => "?",
        Sure::Guess => "??",
    };
    format!(
        "{}={}{marks}",
        base.clue(entry.clue).id,
        finding_id(base, entry)
    )
}

/// The finding's id, the year, or `cant-tell`.
pub fn finding_id(base: &RuleBase, entry: &Observation) -> String {
    seen_id(base, entry.clue, &entry.seen)
}

/// The same of what was seen at a clue.
pub fn seen_id(base: &RuleBase, clue: ClueId, seen: &Observed) -> String {
    match seen {
        Observed::Finding(f) => base.finding(clue, *f).id.clone(),
        Observed::Year(y) => y.0.to_string(),
        Observed::Soft(weights) => soft(base.clue(clue), weights),
        Observed::CantTell => CANT_TELL.to_owned(),
    }
}

/// The findings a soft observation leaves open, such as `blue|black`; with their weights where
/// they differ, such as `willow:0.2|view:0.7`.
fn soft(clue: &Clue, weights: &Weights) -> String {
    let open = || {
        let all = clue.findings.iter().zip(weights.by_finding());
        all.filter(|(_, w)| **w > 0.0)
    };
    let alike = open().all(|(_, w)| w.total_cmp(&1.0).is_eq());
    let each = |(finding, w): (&Finding, &f64)| match alike {
        true => finding.id.clone(),
        false => format!("{}:{w}", finding.id),
    };
    open().map(each).collect::<Vec<_>>().join("|")
}

/// Reads what `soft` writes: findings parted by `|`, each with a weight of 0 to 1 or without (1).
fn read_soft(clue: &Clue, text: &str) -> Result<Observed, Refused> {
    let mut weights = vec![0.0; clue.findings.len()];
    for part in text.split('|').map(str::trim) {
        let (name, weight) = match part.split_once(':') {
            Some((name, weight)) => (name.trim(), weight.trim().parse().ok()),
            None => (part, Some(1.0)),
        };
        let Some(weight) = weight else {
            return Err(unknown_finding(clue, name));
        };
        match (clue.finding(name), clue.former(name)) {
            (Some(finding), _) | (None, Some(Observed::Finding(finding))) => {
                weights[usize::from(finding.0)] = weight;
            }
            (None, Some(Observed::Soft(parts))) => {
                for (to, part) in weights.iter_mut().zip(parts.by_finding()) {
                    *to = f64::max(*to, weight * part);
                }
            }
            _ => return Err(unknown_finding(clue, name)),
        }
    }
    Weights::new(&weights).map(Observed::Soft).ok_or_else(|| {
        Refused(format!(
            "'{}' says nothing of {}: name some of its findings, not all, with weights from 0 to 1",
            printable(text),
            clue.id
        ))
    })
}

/// A year for a dated clue; a full date counts by its year.
fn year(clue: &str, word: &str) -> Result<Year, Refused> {
    let digits = word.split('-').next().unwrap_or_default();
    digits
        .parse()
        .ok()
        .map(Year)
        .filter(|y| YEARS.contains(y))
        .ok_or_else(|| {
            Refused(format!(
                "'{}' is no year for {clue}: write a year from {} to {}",
                printable(word),
                YEARS.start().0,
                YEARS.end().0
            ))
        })
}

fn unknown_finding(clue: &Clue, word: &str) -> Refused {
    let known = clue.finding_ids();
    let all = format!("known: {}", known.clone().collect::<Vec<_>>().join(", "));
    unknown(&format!("finding of {}", clue.id), word, known, &all)
}

fn unknown<'a>(
    sort: &str,
    name: &str,
    known: impl Iterator<Item = &'a str>,
    otherwise: &str,
) -> Refused {
    let close = near(name, known, 3);
    let help = if close.is_empty() {
        otherwise.to_owned()
    } else {
        format!("nearest: {}", close.join(", "))
    };
    Refused(format!("unknown {sort} '{}'; {help}", printable(name)))
}

/// True for what commands a terminal or a page instead of being read: control characters, and those
/// that turn the direction of writing, so that a text seems to say something else.
pub fn commands(c: char) -> bool {
    c.is_control() || matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Characters that command never reach the terminal.
pub fn printable(text: &str) -> String {
    text.chars()
        .map(|c| if commands(c) { '\u{fffd}' } else { c })
        .collect()
}
