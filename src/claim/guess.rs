//! A guess in free text to a claim: kinds, years, and colours or marks named along with them.

use crate::core::grid::{KindId, PlaceId};
use crate::core::observation::{Observation, Origin};
use crate::hearing::dates::span::{Ends, Span};
use crate::hearing::dates::tokens::{Sort, Token, tokens};
use crate::hearing::dates::years;
use crate::hearing::notes::Heard;
use crate::hearing::one_per_clue::{OnePerClue, Overridden};
use crate::hearing::opinion::Opinion;
use crate::hearing::vocabulary::Vocabulary;
use crate::piece::expert::Expert;
use crate::piece::reading;

/// Meaning a guess was understood to say.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Claim {
    /// The guess, with nothing that could upset a terminal.
    pub text: String,
    /// Kinds it names, the one it means first; empty = any.
    pub kinds: Vec<KindId>,
    /// Kinds it says the piece is not: then `kinds` are the others.
    pub denied: Vec<KindId>,
    /// First and last year; `None` = open on that side.
    pub from: Option<i16>,
    pub to: Option<i16>,
    pub ends: Ends,
    /// (words of the guess, their years, where those come from)
    pub periods: Vec<(String, Span)>,
    /// The periods named have no year in common: the shortest is taken.
    pub periods_clash: bool,
    /// Noted, not judged.
    pub place: Option<PlaceId>,
    /// Findings the guess takes for granted: (its words, the finding).
    pub findings: Vec<(String, Observation)>,
    /// Heard in the guess, but another answer to the same clue counts.
    pub overridden: Vec<Overridden>,
    pub not_understood: Vec<String>,
}

impl Claim {
    /// The opinion as a claim on so many kinds; `None` when it leaves neither kind nor years to judge.
    pub fn of_opinion(opinion: &Opinion, kinds: usize) -> Option<Claim> {
        let mut claim = Claim {
            text: crate::piece::notation::printable(&opinion.text),
            kinds: opinion.kinds.clone(),
            denied: opinion.not.clone(),
            from: opinion.from,
            to: opinion.to,
            ..Claim::default()
        };
        without_denied(&mut claim, kinds);
        (!claim.kinds.is_empty() || claim.dated()).then_some(claim)
    }

    /// True when it says when.
    pub fn dated(&self) -> bool {
        self.from.is_some() || self.to.is_some()
    }
}

/// Why a guess can't be put to the findings.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unread {
    /// Neither kind nor years in it.
    Nothing,
    /// Every kind it names it also denies.
    EveryKindDenied,
    /// Years outside the ones judged.
    Outside { from: Option<i16>, to: Option<i16> },
}

/// What a stretch of tokens says.
#[derive(Default)]
struct Meaning {
    kinds: Vec<KindId>,
    years: Option<Span>,
    place: Option<PlaceId>,
}

/// Reads a guess.
///
/// # Errors
/// When the guess names neither a kind nor years, or years outside the ones judged.
pub fn read(expert: &Expert, text: &str) -> Result<Claim, Unread> {
    let grid = &expert.engine().model.grid;
    let words = &expert.base.vocabulary;
    let all = tokens(&words.dates, text);
    let mut claim = Claim {
        text: crate::piece::notation::printable(text.trim()),
        ..Claim::default()
    };
    let mut rest: Vec<bool> = vec![true; all.len()];
    let mut spans: Vec<(String, Span)> = Vec::new();
    let mut at = 0;
    while at < all.len() {
        if let Some((end, kinds)) = denied(words, &all, at, grid.last().0) {
            match kinds {
                Some(kinds) => claim.denied.extend(kinds),
                // Left out altogether, for heard without its "not" it would be the opposite.
                None => claim.not_understood.push(cut(text, &all[at..end])),
            }
            rest[at..end].fill(false);
            at = end;
            continue;
        }
        let Some((end, meaning)) = longest(words, &all, at, grid.last().0) else {
            at += 1;
            continue;
        };
        name_kinds(&mut claim.kinds, meaning.kinds);
        spans.extend(meaning.years.map(|span| (cut(text, &all[at..end]), span)));
        claim.place = claim.place.or(meaning.place);
        rest[at..end].fill(false);
        at = end;
    }
    without_denied(&mut claim, grid.kinds());
    take_years(&mut claim, spans);
    listen(expert, &mut claim, text, &all, &rest);
    if claim.kinds.is_empty() && !claim.denied.is_empty() {
        return Err(Unread::EveryKindDenied);
    }
    if claim.kinds.is_empty() && !claim.dated() {
        return Err(Unread::Nothing);
    }
    let (first, last) = (grid.first().0, grid.last().0);
    if claim.from.is_some_and(|y| y > last) || claim.to.is_some_and(|y| y < first) {
        return Err(Unread::Outside {
            from: claim.from,
            to: claim.to,
        });
    }
    Ok(claim)
}

/// The longest thing understood from token `at`, and the token after it; of two as long a kind counts
/// before a place, and a place before years.
fn longest(words: &Vocabulary, all: &[Token], at: usize, present: i16) -> Option<(usize, Meaning)> {
    let word = |i: usize| all.get(i).map(|t: &Token| t.text.as_str());
    let kinds = words.kinds.longest(at, word).map(|(end, named)| {
        let meaning = Meaning {
            kinds: named.kinds.clone(),
            years: named.years.as_ref().map(Span::of),
            ..Meaning::default()
        };
        (end, meaning)
    });
    let place = words.places.longest(at, word).map(|(end, place)| {
        let meaning = Meaning {
            place: Some(*place),
            ..Meaning::default()
        };
        (end, meaning)
    });
    let years = years::span(&words.dates, all, at, present).map(|(span, end)| {
        let meaning = Meaning {
            years: Some(span),
            ..Meaning::default()
        };
        (end, meaning)
    });
    let mut best: Option<(usize, Meaning)> = None;
    for found in [kinds, place, years].into_iter().flatten() {
        if best.as_ref().is_none_or(|(end, _)| found.0 > *end) {
            best = Some(found);
        }
    }
    best
}

/// What a word of denial is said of, "not flow blue", and the token after it: kinds, or nothing that can
/// be turned round (a date, a place, a kind of one time only). Words that begin a date, "not later
/// than", deny nothing.
fn denied(
    words: &Vocabulary,
    all: &[Token],
    at: usize,
    present: i16,
) -> Option<(usize, Option<Vec<KindId>>)> {
    if !words.negations.contains(&all.get(at)?.text) || longest(words, all, at, present).is_some() {
        return None;
    }
    let idle = |token: &&Token| words.passed_over_in_tickets.contains(&token.text);
    let next = at + 1 + all[at + 1..].iter().take_while(idle).count();
    let (end, meaning) = longest(words, all, next, present)?;
    let plain = meaning.years.is_none() && !meaning.kinds.is_empty();
    Some((end, plain.then_some(meaning.kinds)))
}

/// Takes the kinds denied from those named, or from all when none is.
fn without_denied(claim: &mut Claim, kinds: usize) {
    if claim.denied.is_empty() {
        return;
    }
    if claim.kinds.is_empty() {
        claim.kinds = (0..kinds as u8).map(KindId).collect();
    }
    let left = claim.kinds.iter().filter(|k| !claim.denied.contains(k));
    claim.kinds = left.copied().collect();
}

/// Two words for kinds ("flow blue transferware") mean what both name; if nothing, the first.
fn name_kinds(have: &mut Vec<KindId>, more: Vec<KindId>) {
    if have.is_empty() {
        *have = more;
    } else if have.iter().any(|k| more.contains(k)) {
        have.retain(|k| more.contains(k));
    }
}

fn take_years(claim: &mut Claim, spans: Vec<(String, Span)>) {
    let mut taken: Option<Span> = None;
    for (_, span) in &spans {
        taken = Some(match taken {
            None => span.clone(),
            Some(so_far) => so_far.both(span).unwrap_or_else(|| {
                claim.periods_clash = true;
                let shorter = span.width() < so_far.width();
                if shorter { span.clone() } else { so_far }
            }),
        });
    }
    if let Some(span) = taken {
        (claim.from, claim.to, claim.ends) = (span.from, span.to, span.ends);
    }
    claim.periods = spans;
}

/// Colours, bodies and mark words in what is left: first as notes, then as the wording of a mark.
fn listen(expert: &Expert, claim: &mut Claim, text: &str, all: &[Token], rest: &[bool]) {
    let vocabulary = &expert.base.vocabulary;
    let mut findings = OnePerClue::default();
    let mut at = 0;
    while at < all.len() {
        let run = rest[at..].iter().take_while(|r| **r).count();
        if run == 0 {
            at += 1;
            continue;
        }
        let words = cut(text, &all[at..at + run]);
        at += run;
        let notes = reading::notes(expert, &words);
        claim.overridden.extend(notes.overridden);
        for said in notes.heard {
            findings.hear(said.from(Origin::Ticket));
        }
        for left in notes.unread {
            let mark = reading::mark(expert, &left.text, false);
            for entry in &mark.entries {
                findings.hear(Heard {
                    text: left.text.clone(),
                    span: left.span,
                    observation: entry.clone().from(Origin::Ticket),
                });
            }
            let known = |word: &Token| {
                word.sort == Sort::Comma
                    || word.sort == Sort::Joint
                    || vocabulary.passed_over_in_tickets.contains(&word.text)
            };
            let unread = if mark.entries.is_empty() {
                vec![left.text.clone()]
            } else {
                mark.reading.unread.iter().map(|u| u.text.clone()).collect()
            };
            for piece in unread {
                let words = tokens(&vocabulary.dates, &piece);
                let first = words.iter().position(|w| !known(w));
                let last = words.iter().rposition(|w| !known(w));
                if let (Some(first), Some(last)) = (first, last) {
                    claim.not_understood.push(cut(&piece, &words[first..=last]));
                }
            }
        }
    }
    let kept = findings.kept.into_iter();
    claim.findings = kept.map(|h| (h.text, h.observation)).collect();
    claim.overridden.extend(findings.overridden);
}

/// The stretch of text the tokens come from.
fn cut(text: &str, tokens: &[Token]) -> String {
    let (Some(first), Some(last)) = (tokens.first(), tokens.last()) else {
        return String::new();
    };
    let words = text.get(first.span.0..last.span.1).unwrap_or_default();
    crate::piece::notation::printable(words)
}
