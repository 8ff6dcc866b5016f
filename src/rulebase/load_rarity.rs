//! How common the findings of a few clues are in the market, by kind.

use super::base::RuleBase;
use super::definitions::{RarityFeature, ShareCase};
use super::ids::{ClueId, Id};
use super::parse::{Files, each};
use super::problem::Check;
use super::resolve::Resolver;
use super::schema::Text;
use super::schema_clues::{RarityFile, ShareEntry};
use super::source::SourceFile;

/// Loads `rarity.ron`.
pub(super) fn rarity<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, RarityFile<'a>>,
) {
    for (file, f) in each(files, |f| f.features) {
        let because = r.because(file, f.because, f.clue.src);
        let sources = r.sources(file, &f.source, Some(f.clue.src));
        let Some(clue) = r.lookup::<ClueId>(file, &f.clue) else {
            continue;
        };
        let given = f.given.as_ref().and_then(|g| earlier(r, base, file, g));
        let findings = ids_of(base, clue);
        let givens = given.map(|i| ids_of(base, base.market[i].clue));
        let cases = f.cases.iter().map(|c| {
            let names = Names {
                clue: f.clue.src,
                findings: &findings,
                givens: givens.as_deref().unwrap_or_default(),
            };
            case(r, file, c, &names)
        });
        let feature = RarityFeature {
            clue,
            name: f.name,
            because,
            sources,
            given,
            cases: cases.collect(),
        };
        base.market.push(feature);
    }
}

/// What a case may name.
struct Names<'n> {
    /// The feature's clue as written.
    clue: &'n str,
    findings: &'n [String],
    /// Findings of the feature it depends on.
    givens: &'n [String],
}

fn ids_of(base: &RuleBase, clue: ClueId) -> Vec<String> {
    let findings = base.clue(clue).findings.iter();
    findings.map(|f| f.id.clone()).collect()
}

/// The feature that another depends on, which stands before it.
fn earlier(r: &mut Resolver, base: &RuleBase, file: &SourceFile, name: &Text) -> Option<usize> {
    let clue = r.lookup::<ClueId>(file, name)?;
    let at = base.market.iter().position(|m| m.clue == clue);
    if at.is_none() {
        let message = format!("no feature of '{}' stands before this one", name.value);
        r.problem(file, name.src, Check::GivenLater, message, "");
    }
    at
}

fn case(r: &mut Resolver, file: &SourceFile, written: &ShareEntry, names: &Names) -> ShareCase {
    let kinds = written.kinds.as_ref().map(|names| r.kinds(file, names));
    r.sources(file, &written.source, None);
    let given = written.given.as_ref().map(|given| {
        let found = given
            .iter()
            .map(|g| r.finding(file, g, names.givens.iter().map(String::as_str)));
        found.flatten().collect()
    });
    let mut weights = vec![0.0; names.findings.len()];
    for (finding, weight) in &written.shares {
        let weight = r.weight(file, *weight);
        if let Some(id) = r.finding(file, finding, names.findings.iter().map(String::as_str)) {
            weights[id.index()] = weight;
        }
    }
    if weights.iter().sum::<f64>() <= 0.0 {
        r.problem(file, names.clue, Check::NoShares, "the shares sum to 0", "");
    }
    ShareCase {
        kinds,
        given,
        weights,
    }
}
