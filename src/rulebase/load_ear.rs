//! The ear's part of `words.ron`: words in one spelling, findings looked up.

use super::base::RuleBase;
use super::ids::{ClueId, FindingId};
use super::schema::{Names, Text};
use super::schema_words::EarEntry;
use super::word_lists::WordLists;
use crate::hearing::ear_words::{EarWords, Size, Thing};
use crate::hearing::lexicon::Phrases;

/// Adds what a file says. The spelling and the dropped words come first: the rest is folded by them.
pub(super) fn ear(lists: &mut WordLists, base: &RuleBase, entry: &EarEntry, out: &mut EarWords) {
    lists.single(&entry.dropped, &mut out.dropped);
    for (from, to) in &entry.spelling {
        out.spelling.push((from.value.clone(), to.value.clone()));
    }
    let words = out.clone();
    let phrases = |list: &Names, to: &mut Phrases| {
        list.iter()
            .for_each(|t| to.add(&words.normal(&t.value), ()));
    };
    phrases(&entry.denials, &mut out.denials);
    phrases(&entry.exceptions, &mut out.exceptions);
    phrases(&entry.hedges, &mut out.hedges);
    phrases(&entry.cant_tell, &mut out.cant_tell);
    phrases(&entry.says, &mut out.says);
    phrases(&entry.in_mark, &mut out.in_mark);
    for (list, to) in [
        (&entry.abbreviations, &mut out.abbreviations),
        (&entry.or_words, &mut out.or_words),
        (&entry.breaks, &mut out.breaks),
        (&entry.prepositions, &mut out.prepositions),
        (&entry.colours, &mut out.colours),
        (&entry.no_kind_alone, &mut out.no_kind_alone),
    ] {
        to.extend(list.iter().map(|t| words.normal(&t.value)));
    }
    for (list, range, to) in [
        (&entry.numbers, 1.0..=1000.0, &mut out.numbers),
        (&entry.units, 1.0..=10_000.0, &mut out.units),
    ] {
        for (word, number) in list {
            let number = lists.whole(number, range.clone(), "whole number");
            to.insert(words.normal(&word.value), number);
        }
    }
    for (list, to) in [
        (&entry.kind_clues, &mut out.kind_clues),
        (&entry.colour_clues, &mut out.colour_clues),
        (&entry.picture_clues, &mut out.picture_clues),
    ] {
        to.extend(
            list.iter()
                .filter_map(|t| lists.r.lookup::<ClueId>(lists.file, t)),
        );
    }
    for thing in &entry.things {
        let at = out.things.len();
        for word in &thing.words {
            out.thing_words.add(&words.normal(&word.value), at);
        }
        let clues = thing.clues.iter();
        let clues = clues
            .filter_map(|t| lists.r.lookup(lists.file, t))
            .collect();
        let mut colours = Vec::new();
        for (list, says) in &thing.colours {
            let list = list.iter().map(|t| words.normal(&t.value)).collect();
            colours.extend(finding(lists, base, says).map(|f| (list, f)));
        }
        out.things.push(Thing {
            id: thing.id.value.clone(),
            name: thing.name.clone(),
            clues,
            colours,
        });
    }
    for group in &entry.not_counted {
        let list = group.words.iter().map(|t| words.normal(&t.value)).collect();
        out.not_counted.push((group.because.clone(), list));
    }
    for size in &entry.sizes {
        let of = size
            .of
            .iter()
            .filter_map(|t| finding(lists, base, t))
            .collect();
        if let Some(says) = finding(lists, base, &size.says) {
            let over = size.over.value;
            out.sizes.push(Size { of, over, says });
        }
    }
    for two in &entry.two_parts {
        let thing = |t: &Text| out.things.iter().position(|x| x.id == t.value);
        match (thing(&two.first), thing(&two.second)) {
            (Some(a), Some(b)) => {
                let says = two
                    .says
                    .iter()
                    .filter_map(|t| finding(lists, base, t))
                    .collect();
                out.two_parts.push((a, b, says));
            }
            _ => lists.bad_word(
                two.first.src,
                "no such thing".to_owned(),
                "name two of the things",
            ),
        }
    }
    for (word, clue) in &entry.dated {
        if let Some(clue) = lists.r.lookup(lists.file, clue) {
            out.dated.add(&words.normal(&word.value), clue);
        }
    }
}

/// The finding of a `clue=finding`.
fn finding(lists: &mut WordLists, base: &RuleBase, text: &Text) -> Option<(ClueId, FindingId)> {
    let found = text.value.split_once('=').and_then(|(clue, finding)| {
        let clue = base.clue_id(clue)?;
        Some((clue, base.clue(clue).finding(finding)?))
    });
    if found.is_none() {
        let message = format!("'{}' is no finding", text.value);
        lists.bad_word(text.src, message, "write CLUE=FINDING");
    }
    found
}
