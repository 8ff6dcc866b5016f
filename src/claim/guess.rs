//! A guess in free text to a claim: kinds, years, and colours or marks named along with them.

use crate::core::grid::{KindId, PlaceId};
use crate::core::observation::{Observation, Origin};
use crate::hearing::dates::passed_over::PASSED_OVER;
use crate::hearing::dates::span::Span;
use crate::hearing::dates::tokens::{Sort, Token, tokens};
use crate::hearing::dates::trade::{DATED, KINDS, OTHER_COLOURS, PLACES};
use crate::hearing::dates::years;
use crate::piece::expert::Expert;
use crate::piece::reading;

/// Meaning a guess was understood to say.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Claim {
    /// The guess, with nothing that could upset a terminal.
    pub text: String,
    /// Kinds it names, the one it means first; empty = any.
    pub kinds: Vec<KindId>,
    /// First and last year; `None` = open on that side.
    pub from: Option<i16>,
    pub to: Option<i16>,
    /// The ends are soft.
    pub about: bool,
    /// (words of the guess, their years, where those come from)
    pub periods: Vec<(String, Span)>,
    /// The periods named have no year in common: the shortest is taken.
    pub periods_clash: bool,
    /// Noted, not judged.
    pub place: Option<PlaceId>,
    /// Findings the guess takes for granted: (its words, the finding).
    pub findings: Vec<(String, Observation)>,
    pub not_understood: Vec<String>,
}

impl Claim {
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
    /// Years outside the ones judged.
    Outside { from: Option<i16>, to: Option<i16> },
}

/// A stretch of tokens that was understood.
struct Stretch {
    start: usize,
    end: usize,
    what: Meaning,
}

enum Meaning {
    Kinds(Vec<KindId>),
    Years(Span),
    Both(Vec<KindId>, Span),
    Place(PlaceId),
}

/// Reads a guess.
pub fn read(expert: &Expert, text: &str) -> Result<Claim, Unread> {
    let grid = &expert.engine.model.grid;
    let all = tokens(text);
    let mut claim = Claim {
        text: crate::piece::notation::printable(text.trim()),
        ..Claim::default()
    };
    let mut rest: Vec<bool> = vec![true; all.len()];
    let mut spans: Vec<(String, Span)> = Vec::new();
    let mut at = 0;
    while at < all.len() {
        let Some(hit) = hit(expert, &all, at, grid.last().0) else {
            at += 1;
            continue;
        };
        let words = cut(text, &all[hit.start..hit.end]);
        match hit.what {
            Meaning::Kinds(kinds) => name_kinds(&mut claim.kinds, kinds),
            Meaning::Years(span) => spans.push((words, span)),
            Meaning::Both(kinds, span) => {
                name_kinds(&mut claim.kinds, kinds);
                spans.push((words, span));
            }
            Meaning::Place(place) => claim.place = claim.place.or(Some(place)),
        }
        rest[hit.start..hit.end].fill(false);
        at = hit.end;
    }
    take_years(&mut claim, spans);
    listen(expert, &mut claim, text, &all, &rest);
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

/// The longest thing understood from token `at`; a word with a kind and years before either.
fn hit(expert: &Expert, all: &[Token], at: usize, present: i16) -> Option<Stretch> {
    let mut best: Option<Stretch> = None;
    let mut offer = |end: usize, what: Meaning| {
        if end > at && best.as_ref().is_none_or(|b| end > b.end) {
            best = Some(Stretch {
                start: at,
                end,
                what,
            });
        }
    };
    for dated in DATED {
        let span = Span {
            origin: Some(dated.origin),
            ..Span::new(dated.from, dated.to)
        };
        for end in dated.words.iter().filter_map(|p| phrase(all, at, p)) {
            offer(
                end,
                Meaning::Both(ids_of(expert, dated.kinds), span.clone()),
            );
        }
    }
    for (phrases, ids) in KINDS {
        for end in phrases.iter().filter_map(|p| phrase(all, at, p)) {
            offer(end, Meaning::Kinds(ids_of(expert, ids)));
        }
    }
    for (k, kind) in expert.base.kinds.iter().enumerate() {
        let names = [kind.id.replace('-', " "), kind.name.to_lowercase()];
        for end in names.iter().filter_map(|n| phrase(all, at, n)) {
            offer(end, Meaning::Kinds(vec![KindId(k as u8)]));
        }
    }
    if all[at].sort == Sort::Word && OTHER_COLOURS.contains(&all[at].text.as_str()) {
        let printed = [
            "transferware",
            "transfer ware",
            "transfer printed",
            "transfer print",
            "transfer",
            "printed",
            "print",
        ];
        for end in printed.iter().filter_map(|p| phrase(all, at + 1, p)) {
            offer(end, Meaning::Kinds(ids_of(expert, &["printed-colour"])));
        }
    }
    for (words, id) in PLACES {
        let place = expert.base.places.iter().position(|p| p.id == *id);
        if let Some(place) = place
            && all[at].sort == Sort::Word
            && words.contains(&all[at].text.as_str())
        {
            offer(at + 1, Meaning::Place(PlaceId(place as u8)));
        }
    }
    if let Some((span, end)) = years::span(all, at, present) {
        offer(end, Meaning::Years(span));
    }
    // A hit on kinds that the rule base does not have is none.
    best.filter(|h| !matches!(&h.what, Meaning::Kinds(k) if k.is_empty()))
}

/// End of the phrase, if it stands at token `at`.
fn phrase(all: &[Token], at: usize, words: &str) -> Option<usize> {
    let mut end = at;
    for word in words.split_whitespace() {
        if all.get(end)?.text != word.trim_matches(|c: char| !c.is_alphanumeric()) {
            return None;
        }
        end += 1;
    }
    Some(end)
}

fn ids_of(expert: &Expert, ids: &[&str]) -> Vec<KindId> {
    let known = ids.iter().filter_map(|id| expert.base.kind_id(id));
    known.collect()
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
        (claim.from, claim.to, claim.about) = (span.from, span.to, span.about);
    }
    claim.periods = spans;
}

/// Colours, bodies and mark words in what is left: first as notes, then as the wording of a mark.
fn listen(expert: &Expert, claim: &mut Claim, text: &str, all: &[Token], rest: &[bool]) {
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
        let heard = notes.heard.into_iter();
        claim
            .findings
            .extend(heard.map(|(words, o)| (words, o.from(Origin::Ticket))));
        for left in notes.unread {
            let mark = reading::mark(expert, &left.text, false);
            for entry in &mark.entries {
                if claim.findings.iter().all(|(_, e)| e.clue != entry.clue) {
                    let taken = entry.clone().from(Origin::Ticket);
                    claim.findings.push((left.text.clone(), taken));
                }
            }
            let known = |word: &Token| {
                word.sort == Sort::Comma
                    || word.sort == Sort::Joint
                    || PASSED_OVER.contains(&word.text.as_str())
            };
            let unread = if mark.entries.is_empty() {
                vec![left.text.clone()]
            } else {
                mark.reading.unread.iter().map(|u| u.text.clone()).collect()
            };
            for piece in unread {
                let words = tokens(&piece);
                let first = words.iter().position(|w| !known(w));
                let last = words.iter().rposition(|w| !known(w));
                if let (Some(first), Some(last)) = (first, last) {
                    claim.not_understood.push(cut(&piece, &words[first..=last]));
                }
            }
        }
    }
    // One a clue, the first said.
    let mut seen = Vec::new();
    claim.findings.retain(|(_, e)| {
        let fresh = !seen.contains(&e.clue);
        seen.push(e.clue);
        fresh
    });
}

/// The stretch of text the tokens come from.
fn cut(text: &str, tokens: &[Token]) -> String {
    let (Some(first), Some(last)) = (tokens.first(), tokens.last()) else {
        return String::new();
    };
    let words = text.get(first.span.0..last.span.1).unwrap_or_default();
    crate::piece::notation::printable(words)
}
