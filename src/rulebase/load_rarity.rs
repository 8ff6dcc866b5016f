//! How common the findings of a few clues are in the market, by kind.

use super::base::RuleBase;
use super::definitions::RarityFeature;
use super::ids::{ClueId, Id, KindId};
use super::parse::{Files, each};
use super::problem::Check;
use super::resolve::Resolver;
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
        let findings: Vec<&str> = base
            .clue(clue)
            .findings
            .iter()
            .map(|f| f.id.as_str())
            .collect();
        let cases = f
            .cases
            .iter()
            .map(|c| case(r, file, f.clue.src, c, &findings));
        let feature = RarityFeature {
            clue,
            name: f.name,
            because,
            sources,
            cases: cases.collect(),
        };
        base.market.push(feature);
    }
}

/// The kinds a case is for, and the weight of each finding.
fn case(
    r: &mut Resolver,
    file: &SourceFile,
    clue_at: &str,
    written: &ShareEntry,
    findings: &[&str],
) -> (Option<Vec<KindId>>, Vec<f64>) {
    let kinds = written.kinds.as_ref().map(|names| r.kinds(file, names));
    r.sources(file, &written.source, None);
    let mut weights = vec![0.0; findings.len()];
    for (finding, weight) in &written.shares {
        let weight = r.weight(file, *weight);
        if let Some(id) = r.finding(file, finding, findings.iter().copied()) {
            weights[id.index()] = weight;
        }
    }
    if weights.iter().sum::<f64>() <= 0.0 {
        r.problem(file, clue_at, Check::NoShares, "the shares sum to 0", "");
    }
    (kinds, weights)
}
