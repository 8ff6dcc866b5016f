//! Clues with their findings. Their gates wait for `gates`: one may name a clue of another file.

use super::base::RuleBase;
use super::definitions::{Clue, Finding, FormerFinding};
use super::gates::Waiting;
use super::ids::{FindingId, Id, Sort};
use super::informative;
use super::numbers::{PRESENT, SECONDS, SLIP};
use super::parse::Files;
use super::problem::Check;
use super::resolve::{Index, Resolver};
use super::schema::{Names, Text};
use super::schema_clues::{ClueEntry, CluesFile, FindingEntry, StationWord};
use super::source::{Located, SourceFile};
use crate::core::model::Station;

/// Loads `clues/*.ron`; `closely` = also refuse findings that change nothing.
pub(super) fn clues<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, CluesFile<'a>>,
    closely: bool,
) -> Vec<Waiting<'a>> {
    let mut waiting = Vec::new();
    for (file, written) in files {
        for c in written.clues {
            waiting.extend(clue(
                r,
                base,
                file,
                station(c.station.unwrap_or(written.station)),
                c,
                closely,
            ));
        }
    }
    waiting
}

fn station(word: StationWord) -> Station {
    match word {
        StationWord::Front => Station::Front,
        StationWord::Loupe => Station::Loupe,
        StationWord::Glaze => Station::Glaze,
        StationWord::Back => Station::Back,
        StationWord::Shape => Station::Shape,
        StationWord::Mark => Station::Mark,
        StationWord::Condition => Station::Condition,
    }
}

/// Adds a clue; its gate as written comes back. `None` for a clue that was defined before.
fn clue<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    file: &'a SourceFile,
    station: Station,
    c: ClueEntry<'a>,
    closely: bool,
) -> Option<Waiting<'a>> {
    let fresh = r.define(Sort::Clue, file, &c.id);
    let slip = r.number(file, c.slip.value, c.slip.src, SLIP, "slip");
    let seconds = r.number(file, c.seconds.value, c.seconds.src, SECONDS, "seconds");
    let present = c
        .present
        .as_ref()
        .map_or(1.0, |p| r.number(file, p.value, p.src, PRESENT, "present"));
    let family = c.family.as_ref().and_then(|f| r.lookup(file, f));
    let dated = c.dated.as_ref().and_then(|k| r.lookup(file, k));
    let because = r.because(file, c.because, c.id.src);
    let sources = r.sources(file, &c.source, Some(c.id.src));
    sorts(r, file, &c.id, c.dated.is_some(), c.findings.len());
    let mut names = Index::default();
    let (findings, places) = findings(r, &mut names, file, c.findings);
    let former = former(r, &mut names, file, &c.was, &findings);
    let absent = absent(r, file, &c.id, c.answered_by_whole_mark.as_ref(), &findings);
    if !fresh {
        return None;
    }
    base.clues.push(Clue {
        id: c.id.value,
        station,
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
        absent_from_whole_mark: absent,
        findings,
        former,
    });
    // Condition may say nothing of kind and year: it is asked for the price.
    let for_kind = dated.is_none() && station != Station::Condition;
    if closely && for_kind && r.problems.is_empty() {
        informative::check(r, base, file, c.id.src, &places);
    }
    Some(Waiting {
        file,
        clauses: c.only_if,
    })
}

/// A dated clue lists no findings, any other at least two.
fn sorts(r: &mut Resolver, file: &SourceFile, clue: &Text, dated: bool, findings: usize) {
    let message = match (dated, findings) {
        (true, 1..) => format!("'{}' is dated and lists findings as well", clue.value),
        (false, ..2) => format!("'{}' has fewer than two findings", clue.value),
        _ => return,
    };
    let help = "a clue has either `dated` or at least two findings";
    r.problem(file, clue.src, Check::Findings, message, help);
}

/// The findings, and the slice of each one's id.
fn findings<'a>(
    r: &mut Resolver<'a>,
    index: &mut Index<'a>,
    file: &'a SourceFile,
    written: Vec<FindingEntry<'a>>,
) -> (Vec<Finding>, Vec<&'a str>) {
    let mut out = Vec::new();
    let mut places = Vec::new();
    for f in written {
        if !r.define_in(index, Sort::Finding, file, &f.id) {
            continue;
        }
        if f.cases.is_empty() {
            let message = format!("finding '{}' has no frequency", f.id.value);
            let help = "add cases: [(weight: …)]";
            r.problem(file, f.id.src, Check::NoCases, message, help);
        }
        places.push(f.id.src);
        out.push(Finding {
            cases: f.cases.iter().map(|c| r.frequency(file, c)).collect(),
            sources: r.sources(file, &f.source, None),
            id: f.id.value,
            words: f.words,
            because: f.because.unwrap_or_default(),
            spoken: f.spoken,
        });
    }
    (out, places)
}

/// Ids that were findings once. None may be a finding's today, and what it became must be.
fn former<'a>(
    r: &mut Resolver<'a>,
    index: &mut Index<'a>,
    file: &'a SourceFile,
    written: &[(Text<'a>, Names<'a>)],
    findings: &[Finding],
) -> Vec<FormerFinding> {
    let known = findings.iter().map(|f| f.id.as_str());
    let mut out = Vec::new();
    for (id, names) in written {
        let fresh = r.define_in(index, Sort::Finding, file, id);
        if names.is_empty() || names.len() == findings.len() {
            let message = format!(
                "'{}' names none or all of the findings of its clue",
                id.value
            );
            let help = "name the findings it became";
            r.problem(file, id.src, Check::EmptyFormer, message, help);
        }
        let parts = names
            .iter()
            .filter_map(|name| r.finding(file, name, known.clone()))
            .collect();
        if fresh {
            out.push(FormerFinding {
                id: id.value.clone(),
                parts,
            });
        }
    }
    out
}

/// The finding `none` of a clue that a whole mark answers.
fn absent(
    r: &mut Resolver,
    file: &SourceFile,
    clue: &Text,
    answered: Option<&Located<bool>>,
    findings: &[Finding],
) -> Option<FindingId> {
    let answered = answered.filter(|a| a.value)?;
    let none = findings.iter().position(|f| f.id == "none");
    if none.is_none() {
        let clue = &clue.value;
        let message = format!("'{clue}' has no finding 'none' for a whole mark to say");
        let help = "add the finding, or leave the line out";
        r.problem(file, answered.src, Check::NoNone, message, help);
    }
    none.and_then(FindingId::at)
}
