//! Known pieces that are counted: names to ids.

use super::base::RuleBase;
use super::definitions::{Counted, CountedPiece};
use super::ids::ClueId;
use super::parse::Files;
use super::problem::Check;
use super::resolve::Resolver;
use super::schema_counted::{CountedFile, PieceEntry};
use super::source::SourceFile;

/// Loads `counted.ron`; the last of several says strength and smoothing for all.
pub(super) fn counted<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, CountedFile<'a>>,
) {
    for (file, written) in files {
        let at = written.strength.src;
        let strength = r.number(file, written.strength.value, at, 0.1..=1e6, "strength");
        let smoothing = &written.smoothing;
        let smoothing = r.number(
            file,
            smoothing.value,
            smoothing.src,
            1.0..=100.0,
            "smoothing",
        );
        let because = r.because(file, written.because, at);
        let sources = r.sources(file, &written.source, Some(at));
        let mut pieces = std::mem::take(&mut base.counted.pieces);
        pieces.extend(
            written
                .pieces
                .iter()
                .filter_map(|p| piece(r, base, file, p)),
        );
        base.counted = Counted {
            strength,
            smoothing,
            because,
            sources,
            pieces,
        };
    }
}

fn piece(
    r: &mut Resolver,
    base: &RuleBase,
    file: &SourceFile,
    written: &PieceEntry,
) -> Option<CountedPiece> {
    let (from, to) = (r.year(file, written.from), r.year(file, written.to));
    let mut made = Vec::with_capacity(written.made.len());
    for (kind, place, share) in &written.made {
        let (kind, place) = (r.lookup(file, kind), r.lookup(file, place));
        let share = r.number(file, share.value, share.src, 0.0..=1.0, "share");
        made.extend(kind.zip(place).map(|(kind, place)| (kind, place, share)));
    }
    let mut saw = Vec::with_capacity(written.saw.len());
    for (clue, finding) in &written.saw {
        if let Some(clue) = r.lookup::<ClueId>(file, clue) {
            let findings = base.clue(clue).finding_ids();
            saw.extend(r.finding(file, finding, findings).map(|f| (clue, f)));
        }
    }
    let (from, to) = (from?, to?);
    if from > to {
        let message = format!("year {to} comes after {from}");
        r.problem(file, written.to.0, Check::YearsReversed, message, "");
        return None;
    }
    if !made.is_empty() && made.iter().all(|(_, _, share)| *share <= 0.0) {
        let message = "a counted piece of no kind: its shares sum to 0";
        r.problem(file, written.from.0, Check::NoShares, message, "");
    }
    Some(CountedPiece {
        made,
        from,
        to,
        saw,
    })
}
