//! What the writer takes the piece to be: kinds and years, set beside the findings and never
//! counted as one.

use std::ops::Range;

use super::dates::span::Span;
use super::dates::tokens::tokens;
use super::dates::years::span;
pub use super::hearings::Opinion;
use super::hearings::{Beside, Group, Named};
use super::phrases::Line;

/// Years named in a line, where nothing else was heard.
pub(super) fn years(line: &Line, beside: &Beside, groups: &[Group]) -> Vec<(Range<usize>, Span)> {
    let dates = &beside.vocabulary.dates;
    let all = tokens(dates, line.text);
    let mut out = Vec::new();
    let mut at = 0;
    while at < all.len() {
        let Some((years, end)) = span(dates, &all, at, beside.present) else {
            at += 1;
            continue;
        };
        let bytes = (all[at].span.0, all[end - 1].span.1);
        let words = line.words_of(bytes);
        let free = |w: &Range<usize>| {
            let mut rest = groups.iter();
            rest.all(|g| g.words.end <= w.start || w.end <= g.words.start)
        };
        if let Some(words) = words.filter(free) {
            out.push((words, years));
        }
        at = end;
    }
    out
}

/// Kinds that all the words allow, and years that all of them allow; else the first.
pub(super) fn opinion(
    line: &Line,
    kinds: &[Named],
    years: &[(Range<usize>, Span)],
) -> Option<Opinion> {
    let mut out = Opinion::default();
    let mut parts: Vec<(usize, String)> = Vec::new();
    let mut span: Option<Span> = None;
    let mut narrow = |more: Span| {
        span = Some(match span.take() {
            None => more,
            Some(so_far) => so_far.both(&more).unwrap_or(so_far),
        });
    };
    for kind in kinds {
        let mut from = kind.words.start;
        if kind.denied {
            out.not.extend(&kind.named.kinds);
            let denial = line.denials.iter().rfind(|d| d.end <= kind.words.start);
            from = denial.map_or(from, |d| d.start);
        } else {
            let more = &kind.named.kinds;
            if out.kinds.is_empty() {
                out.kinds.clone_from(more);
            } else if out.kinds.iter().any(|k| more.contains(k)) {
                out.kinds.retain(|k| more.contains(k));
            }
            kind.named
                .years
                .as_ref()
                .map(Span::of)
                .into_iter()
                .for_each(&mut narrow);
        }
        parts.push((from, line.cut(&(from..kind.words.end))));
    }
    for (words, years) in years {
        narrow(years.clone());
        parts.push((words.start, line.cut(words)));
    }
    if parts.is_empty() {
        return None;
    }
    if let Some(span) = span {
        (out.from, out.to) = (span.from, span.to);
    }
    parts.sort();
    parts.dedup();
    let texts: Vec<String> = parts.into_iter().map(|(_, text)| text).collect();
    out.text = texts.join(", ");
    Some(out)
}
