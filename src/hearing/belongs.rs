//! Which thing a colour or a picture belongs to: the green of "green backstamp" is the mark's.

use std::ops::Range;

use super::phrases::Line;

/// Words between a colour and its thing, at most (common practice, no source).
const REACH: usize = 5;

/// True for a run of colour words.
pub(super) fn colour_only(line: &Line, words: &Range<usize>) -> bool {
    let colour = |i: usize| line.ear.colours.contains(&line.folded[i]) || line.folded[i] == "and";
    words.clone().all(colour)
}

/// The thing a colour is of, if one stands there. "Blue and white plate", "mark in black".
pub(super) fn of_colour(
    line: &Line,
    words: &Range<usize>,
    things: &[(Range<usize>, usize)],
) -> Option<usize> {
    let end = line.end(words.start);
    for i in words.end..end.min(words.end + REACH) {
        if let Some((_, thing)) = things.iter().find(|(r, _)| r.contains(&i)) {
            return Some(*thing);
        }
        let word = &line.folded[i];
        let next_colour = line
            .word(i + 1)
            .is_some_and(|w| line.ear.colours.contains(w));
        let stops = line.ear.breaks.contains(word)
            || line.ear.prepositions.contains(word)
            || (word == "and" && !next_colour);
        if stops {
            break;
        }
    }
    let mut at = words.start;
    while at > 0 && line.together(at - 1, words.start) {
        let word = &line.folded[at - 1];
        let link = line.ear.prepositions.contains(word)
            || line.ear.passed_over.contains(word) && word != "and"
            || line.hedges.iter().any(|h| h.contains(&(at - 1)));
        if let Some((_, thing)) = things.iter().find(|(r, _)| r.contains(&(at - 1))) {
            return Some(*thing);
        }
        if !link || line.ear.breaks.contains(word) {
            return None;
        }
        at -= 1;
    }
    None
}

/// True when the thing stands near enough for a word to be said of it.
pub(super) fn about(
    line: &Line,
    words: &Range<usize>,
    thing: usize,
    things: &[(Range<usize>, usize)],
) -> bool {
    near(line, words, things, |t| t == thing).is_some()
}

/// The first thing near a word for which `wanted` is true: after it, else before it.
pub(super) fn near(
    line: &Line,
    words: &Range<usize>,
    things: &[(Range<usize>, usize)],
    wanted: impl Fn(usize) -> bool,
) -> Option<usize> {
    let blocked = |gap: Range<usize>, then: usize| {
        gap.clone().any(|i| {
            let led = then > 0 && line.ear.prepositions.contains(&line.folded[then - 1]);
            line.ear.breaks.contains(&line.folded[i]) || (line.folded[i] == "and" && !led)
        })
    };
    let same = |r: &Range<usize>| line.together(r.start, words.start);
    let apart = |r: &Range<usize>| r.end <= words.start || words.end <= r.start;
    let fits = |(r, t): &&(Range<usize>, usize)| wanted(*t) && same(r) && apart(r);
    let after = things.iter().filter(fits).find(|(r, _)| {
        r.start >= words.end
            && r.start - words.end <= REACH
            && !blocked(words.end..r.start, r.start)
    });
    let before = || {
        things.iter().filter(fits).rev().find(|(r, _)| {
            r.end <= words.start && words.start - r.end <= REACH && !blocked(r.end..words.start, 0)
        })
    };
    after.or_else(before).map(|(_, t)| *t)
}
