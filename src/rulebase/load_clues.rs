//! Clues with their findings and gates, and how common findings are in the market.

use super::definitions::{Clue, Finding, RarityFeature};
use super::load::{Checking, parse};
use super::resolve::Resolver;
use super::schema::{CluesFile, RarityFile, StationWord};
use super::source::SourceFile;
use super::{RuleBase, informative};
use crate::core::grid::ClueId;
use crate::core::model::{Clause, Station};

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
pub fn clues(r: &mut Resolver, base: &mut RuleBase, files: &[&SourceFile], care: Checking) {
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
                if care == Checking::Full && dated.is_none() && r.problems.is_empty() {
                    informative::check(r, base, file, c.id.src, &findings.1);
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
    written: Vec<super::schema::FindingEntry<'a>>,
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

pub fn market(r: &mut Resolver, base: &mut RuleBase, file: &SourceFile) {
    let Some(parsed) = parse::<RarityFile>(r, file) else {
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
        base.market.push(RarityFeature {
            clue: ClueId(clue as u16),
            name: f.name,
            because,
            sources,
            cases,
        });
    }
}
