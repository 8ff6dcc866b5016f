//! Cautions, and the occasions on which each is shown.

use super::base::RuleBase;
use super::definitions::{Caution, Occasion};
use super::ids::{ClueId, FindingId, Sort};
use super::parse::{Files, each};
use super::problem::Check;
use super::resolve::Resolver;
use super::schema::{CautionEntry, CautionsFile, Text};
use super::source::SourceFile;

/// Loads `cautions.ron`.
pub(super) fn cautions<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, CautionsFile<'a>>,
) {
    for (file, c) in each(files, |f| f.cautions) {
        let fresh = r.define(Sort::Caution, file, &c.id);
        let occasion = occasion(r, base, file, &c);
        let because = r.because(file, c.because, c.id.src);
        let sources = r.sources(file, &c.source, Some(c.id.src));
        if let (true, Some(occasion)) = (fresh, occasion) {
            base.cautions.push(Caution {
                id: c.id.value,
                occasion,
                text: c.text,
                because,
                sources,
            });
        }
    }
}

/// A word, or the clues that bring the caution up.
fn occasion(
    r: &mut Resolver,
    base: &RuleBase,
    file: &SourceFile,
    c: &CautionEntry,
) -> Option<Occasion> {
    let help = "write when: \"always\", \"value\" or \"food\", or clues: [\"…\"] to show it once one of them is looked at";
    let (at, message) = match (&c.when, &c.clues) {
        (None, Some(clues)) if !clues.is_empty() => {
            let looks = clues.iter().filter_map(|text| look(r, base, file, text));
            return Some(Occasion::Looking(looks.collect()));
        }
        (Some(word), None) => match word.value.as_str() {
            "always" => return Some(Occasion::Always),
            "value" => return Some(Occasion::Value),
            "food" => return Some(Occasion::Food),
            other => (word.src, format!("'{other}' is no occasion")),
        },
        (Some(word), Some(_)) => (
            word.src,
            "both `when` and `clues`: one of them says it".into(),
        ),
        (None, _) => (c.id.src, format!("'{}' names no occasion", c.id.value)),
    };
    r.problem(file, at, Check::UnknownOccasion, message, help);
    None
}

/// A clue, or one finding of it written as `clue=finding`.
fn look(
    r: &mut Resolver,
    base: &RuleBase,
    file: &SourceFile,
    text: &Text,
) -> Option<(ClueId, Option<FindingId>)> {
    let Some((clue, finding)) = text.value.split_once('=') else {
        return Some((r.lookup(file, text)?, None));
    };
    let part = |value: &str| Text {
        value: value.to_owned(),
        src: text.src,
    };
    let clue = r.lookup(file, &part(clue))?;
    let known = base.clue(clue).finding_ids();
    Some((clue, Some(r.finding(file, &part(finding), known)?)))
}
