//! Reads the words of a mark: known phrases, years and numbers with what they date, and what
//! could not be read.
//!
//! Nothing is guessed at: what no phrase fits is handed back with its place.

use std::collections::{BTreeMap, BTreeSet};

use super::choose::{Candidate, choose, left_over};
use super::fold::{Nature, words_blanked};
use super::follow::{Follower, What};
use super::matcher::Matcher;
pub use super::reads::Reads;
use crate::core::grid::{ClueId, FindingId, Year};
use crate::core::observation::{Observed, Sure};
use crate::registry::decoded::Decoded;
use crate::registry::tables::{Origin, Registry, Standing};

/// A phrase and what it says.
#[derive(Clone, Debug)]
pub struct Phrase {
    pub id: String,
    /// The clue it speaks of and the finding there, for dated clues `None`: that is the year read.
    /// Nothing for a phrase that is only told.
    pub says: Option<(ClueId, Option<FindingId>)>,
    pub forms: Vec<String>,
    pub reads: Reads,
    /// Earliest year known or allowed by law.
    pub from: Option<i16>,
    /// Year from which it is usual.
    pub usual_from: Option<i16>,
    /// Last year it was put on new pieces.
    pub to: Option<i16>,
    pub because: String,
    pub origin: Origin,
}

/// Names that were left out of a text, as `[maker]`.
#[derive(Clone, Debug, Default)]
pub struct Blanked {
    /// What a firm's name says.
    pub firm: Option<(ClueId, FindingId)>,
    /// What stands within the brackets, in small letters; true for a firm's name.
    pub words: BTreeMap<String, bool>,
}

/// All phrases, ready to read with.
#[derive(Clone, Debug)]
pub struct Phrasebook {
    phrases: Vec<Phrase>,
    blanked: Blanked,
    matcher: Matcher<usize>,
    /// Names of a user's own makers, the last of `phrases`.
    makers: Matcher<usize>,
}

/// A phrase found in a text.
#[derive(Clone, Debug, PartialEq)]
pub struct Recognised {
    /// The text as given.
    pub text: String,
    /// Bytes of the text, end not within.
    pub span: (usize, usize),
    /// Id of the phrase.
    pub phrase: String,
    /// The clue it speaks of, and the finding or year.
    pub says: Option<(ClueId, Observed)>,
    pub sure: Sure,
    pub from: Option<i16>,
    pub usual_from: Option<i16>,
    pub to: Option<i16>,
    pub because: String,
    pub origin: String,
    pub standing: Standing,
}

/// A stretch that no phrase fits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unread {
    pub text: String,
    pub span: (usize, usize),
    /// True for a blanked name such as `[maker]`.
    pub name: bool,
}

/// What a text says.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reading {
    /// In the order of the text.
    pub phrases: Vec<Recognised>,
    pub unread: Vec<Unread>,
    /// Diamonds and registered numbers found in the text.
    pub registered: Vec<Decoded>,
    /// What a firm's name says: one that was left out of the text, or one of the user's own list.
    pub named: Option<(ClueId, FindingId)>,
}

/// One finding a clue, as the engine wants it.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkFinding {
    pub clue: ClueId,
    pub seen: Observed,
    pub sure: Sure,
    /// Which of `Reading::phrases` says so; `None` for a blanked name.
    pub phrase: Option<usize>,
}

impl Reading {
    /// One finding a clue. Where several phrases answer the same clue the youngest speaks (a mark
    /// is as late as its latest word), then the surest, then the first.
    pub fn findings(&self) -> Vec<MarkFinding> {
        let mut out: Vec<MarkFinding> = Vec::new();
        for (i, phrase) in self.phrases.iter().enumerate() {
            let Some((clue, seen)) = phrase.says.clone() else {
                continue;
            };
            let said = MarkFinding {
                clue,
                seen,
                sure: phrase.sure,
                phrase: Some(i),
            };
            let age = |at: Option<usize>| {
                at.map(|at| &self.phrases[at])
                    .and_then(|p| p.usual_from.or(p.from))
            };
            match out.iter_mut().find(|s| s.clue == clue) {
                None => out.push(said),
                Some(old) => {
                    let better = (age(said.phrase), std::cmp::Reverse(said.sure))
                        > (age(old.phrase), std::cmp::Reverse(old.sure));
                    if better {
                        *old = said;
                    }
                }
            }
        }
        if let Some((clue, finding)) = self.named
            && out.iter().all(|s| s.clue != clue)
        {
            out.push(MarkFinding {
                clue,
                seen: Observed::Finding(finding),
                sure: Sure::Sure,
                phrase: None,
            });
        }
        out
    }
}

impl Phrasebook {
    /// Builds the book of checked phrases.
    pub fn new(phrases: Vec<Phrase>, blanked: Blanked) -> Phrasebook {
        let matcher = Matcher::new(
            phrases
                .iter()
                .enumerate()
                .map(|(i, phrase)| (phrase.forms.clone(), i)),
        );
        Phrasebook {
            phrases,
            blanked,
            matcher,
            makers: Matcher::new(Vec::<(Vec<String>, usize)>::new()),
        }
    }

    /// Adds names of makers. They are read beside the other phrases, for one name may hold several:
    /// a firm's word in it still counts, a crown in it is no picture.
    pub(crate) fn add_makers(&mut self, makers: Vec<Phrase>) {
        let first = self.phrases.len();
        let forms = makers.iter().map(|maker| maker.forms.clone());
        self.makers = Matcher::new(forms.zip(first..));
        self.phrases.extend(makers);
    }

    /// The same with words that turn the next one round.
    pub fn with_negations(mut self, negations: &BTreeSet<String>) -> Phrasebook {
        self.matcher = self.matcher.with_negations(negations);
        self
    }

    /// The phrases in the order of the file.
    pub fn phrases(&self) -> &[Phrase] {
        &self.phrases
    }

    /// The clue that a firm's name answers: words that can't be read may be one.
    pub fn clue_of_firms(&self) -> Option<ClueId> {
        self.blanked.firm.map(|(clue, _)| clue)
    }

    fn reader(&self, reads: Reads) -> Option<usize> {
        self.phrases.iter().position(|p| p.reads == reads)
    }

    /// Reads the text of a mark. Never fails: what can't be read is in `unread`.
    pub fn read(&self, registry: &Registry, text: &str) -> Reading {
        let words = words_blanked(text, |inside| self.blanked.words.contains_key(inside));
        let follower = Follower {
            text,
            words: &words,
            registry,
        };
        let mut claims: Vec<Candidate<What>> = Vec::new();
        for hit in self.matcher.hits(&words) {
            let phrase = *self.matcher.payload(hit.phrase);
            claims.extend(follower.after(phrase, self.phrases[phrase].reads, &hit));
        }
        for reads in [Reads::Diamond, Reads::MonthYear, Reads::BareYear] {
            if let Some(phrase) = self.reader(reads) {
                claims.extend(follower.alone(phrase, reads));
            }
        }
        let makers = self.makers_in(&follower);
        let mut chosen = choose(claims, words.len());
        chosen.retain(|(claim, _)| self.counts_beside(&makers, claim));
        chosen.extend(makers.iter().cloned());
        chosen.sort_by_key(|(claim, _)| (claim.words.start, claim.words.end));
        let mut out = Reading::default();
        for (claim, tied) in &chosen {
            let first = words[claim.words.start].span.0;
            let last = words[claim.words.end - 1].span.1;
            let what = &claim.what;
            let sure = if *tied { Sure::Guess } else { what.sure };
            let span = (first, last);
            let recognised =
                |phrase, sure| self.recognised(phrase, &text[first..last], span, sure, what.year);
            out.phrases.push(recognised(what.phrase, sure));
            let dated = self.phrases[what.phrase].reads == Reads::PrintedYear;
            let more = match &what.decoded {
                Some(_) => self.reader(Reads::RegisteredYear),
                None if dated => None,
                None => self.reader(Reads::PottedYear),
            };
            if let Some(more) = more.filter(|_| what.year.is_some()) {
                out.phrases.push(recognised(more, sure.max(what.dated)));
            }
            if let Some(decoded) = &what.decoded {
                out.registered.push(decoded.clone());
            }
        }
        let taken: Vec<_> = chosen.iter().map(|(c, _)| c.words.clone()).collect();
        for run in left_over(&words, &taken) {
            let span = (words[run.start].span.0, words[run.end - 1].span.1);
            out.unread.push(Unread {
                text: text[span.0..span.1].to_owned(),
                span,
                name: words[run.start].nature == Nature::Name,
            });
        }
        let of_firm = |u: &Unread| u.name && self.of_firm(&u.text);
        let named = !makers.is_empty() || out.unread.iter().any(of_firm);
        out.named = self.blanked.firm.filter(|_| named);
        out
    }

    /// The makers named, no two in the same words.
    fn makers_in(&self, follower: &Follower) -> Vec<(Candidate<What>, bool)> {
        let hits = self.makers.hits(follower.words);
        let claims = hits.iter().filter_map(|hit| {
            let phrase = *self.makers.payload(hit.phrase);
            follower.after(phrase, Reads::Words, hit)
        });
        choose(claims.collect(), follower.words.len())
    }

    /// True for what is no part of a maker's name, or says how the firm is named.
    fn counts_beside(&self, makers: &[(Candidate<What>, bool)], claim: &Candidate<What>) -> bool {
        let within = |(maker, _): &(Candidate<What>, bool)| {
            maker.words.start <= claim.words.start && claim.words.end <= maker.words.end
        };
        let clue = self.phrases[claim.what.phrase].says.map(|(clue, _)| clue);
        let of_firms = clue.is_some() && clue == self.clue_of_firms();
        of_firms || !makers.iter().any(within)
    }

    /// True when a bracket stands for the name of a firm.
    fn of_firm(&self, bracket: &str) -> bool {
        let inside = bracket.trim_matches(['[', ']']).trim().to_lowercase();
        self.blanked.words.get(&inside) == Some(&true)
    }

    /// A phrase found; `year` is what a phrase that reads a year has read.
    fn recognised(
        &self,
        phrase: usize,
        text: &str,
        span: (usize, usize),
        sure: Sure,
        year: Option<i16>,
    ) -> Recognised {
        let phrase = &self.phrases[phrase];
        let says = phrase.says.and_then(|(clue, finding)| {
            let year = year.filter(|_| phrase.reads.a_year());
            let seen = match finding {
                Some(finding) => Observed::Finding(finding),
                None => Observed::Year(Year(year?)),
            };
            Some((clue, seen))
        });
        Recognised {
            text: text.to_owned(),
            span,
            phrase: phrase.id.clone(),
            says,
            sure,
            from: phrase.from,
            usual_from: phrase.usual_from,
            to: phrase.to,
            because: phrase.because.clone(),
            origin: phrase.origin.text.clone(),
            standing: phrase.origin.standing,
        }
    }
}
