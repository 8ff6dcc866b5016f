//! Reads the words of a mark: known phrases, years and numbers with what they date, and what
//! could not be read.
//!
//! Nothing is guessed at: what no phrase fits is handed back with its place.

use std::collections::BTreeSet;

use serde::{Serialize, Serializer};

use super::choose::{Candidate, choose, left_over};
use super::fold::{Nature, words};
use super::follow::{Follower, What};
use super::matcher::Matcher;
pub use super::reads::Reads;
use crate::core::observation::Sure;
use crate::registry::decoded::Decoded;
use crate::registry::tables::{Origin, Registry, Standing};

/// A phrase and what it says.
#[derive(Clone, Debug)]
pub struct Phrase {
    pub id: String,
    pub clue: Option<String>,
    /// For dated clues `None`: the finding is the year read.
    pub finding: Option<String>,
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
    /// Ids of sources.
    pub sources: Vec<String>,
}

/// All phrases, ready to read with.
#[derive(Clone, Debug)]
pub struct Phrasebook {
    phrases: Vec<Phrase>,
    matcher: Matcher<usize>,
}

/// A phrase found in a text.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Recognised {
    /// The text as given.
    pub text: String,
    /// Bytes of the text, end not within.
    pub span: (usize, usize),
    /// Id of the phrase.
    pub phrase: String,
    pub clue: Option<String>,
    /// Id of the finding, or a year for a dated clue.
    pub finding: Option<String>,
    #[serde(serialize_with = "sure_word")]
    pub sure: Sure,
    pub from: Option<i16>,
    pub usual_from: Option<i16>,
    pub to: Option<i16>,
    pub because: String,
    pub origin: String,
    pub standing: Standing,
}

/// A stretch that no phrase fits.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Unread {
    pub text: String,
    pub span: (usize, usize),
    /// True for a blanked name such as `[maker]`.
    pub name: bool,
}

/// What a text says.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Reading {
    /// In the order of the text.
    pub phrases: Vec<Recognised>,
    pub unread: Vec<Unread>,
    /// Diamonds and registered numbers found in the text.
    pub registered: Vec<Decoded>,
}

/// `sure`, `unsure` or `guess`.
pub fn sure_word<S: Serializer>(sure: &Sure, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(match sure {
        Sure::Sure => "sure",
        Sure::Unsure => "unsure",
        Sure::Guess => "guess",
    })
}

/// One finding a clue, as the engine wants it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MarkFinding {
    pub clue: String,
    pub finding: String,
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
            let (Some(clue), Some(finding)) = (&phrase.clue, &phrase.finding) else {
                continue;
            };
            let said = MarkFinding {
                clue: clue.clone(),
                finding: finding.clone(),
                sure: phrase.sure,
                phrase: Some(i),
            };
            let age = |at: Option<usize>| {
                at.map(|at| &self.phrases[at])
                    .and_then(|p| p.usual_from.or(p.from))
            };
            match out.iter_mut().find(|s| s.clue == *clue) {
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
        let named = self.unread.iter().any(|u| u.name);
        if named && out.iter().all(|s| s.clue != "company-word") {
            out.push(MarkFinding {
                clue: "company-word".into(),
                finding: "name".into(),
                sure: Sure::Sure,
                phrase: None,
            });
        }
        out
    }
}

impl Phrasebook {
    /// Builds the book; `schema::phrasebook` checks the phrases first.
    pub fn new(phrases: Vec<Phrase>) -> Phrasebook {
        let matcher = Matcher::new(
            phrases
                .iter()
                .enumerate()
                .map(|(i, phrase)| (phrase.forms.clone(), i)),
        );
        Phrasebook { phrases, matcher }
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

    fn reader(&self, reads: Reads) -> Option<usize> {
        self.phrases.iter().position(|p| p.reads == reads)
    }

    /// Reads the text of a mark. Never fails: what can't be read is in `unread`.
    pub fn read(&self, registry: &Registry, text: &str) -> Reading {
        let words = words(text);
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
        let chosen = choose(claims, words.len());
        let mut out = Reading::default();
        for (claim, tied) in &chosen {
            let first = words[claim.words.start].span.0;
            let last = words[claim.words.end - 1].span.1;
            let what = &claim.what;
            let sure = if *tied { Sure::Guess } else { what.sure };
            let year = what.year.map(|y| y.to_string());
            let recognised = self.recognised(what.phrase, &text[first..last], (first, last), sure);
            let dated = self.phrases[what.phrase].reads == Reads::PrintedYear;
            out.phrases.push(Recognised {
                finding: if dated {
                    year.clone()
                } else {
                    recognised.finding.clone()
                },
                ..recognised
            });
            let more = match &what.decoded {
                Some(_) => self.reader(Reads::RegisteredYear),
                None if dated => None,
                None => year.as_ref().and(self.reader(Reads::PottedYear)),
            };
            if let (Some(more), Some(year)) = (more, year) {
                let span = (first, last);
                let mut dated =
                    self.recognised(more, &text[first..last], span, sure.max(what.dated));
                dated.finding = Some(year);
                out.phrases.push(dated);
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
        out
    }

    fn recognised(
        &self,
        phrase: usize,
        text: &str,
        span: (usize, usize),
        sure: Sure,
    ) -> Recognised {
        let phrase = &self.phrases[phrase];
        Recognised {
            text: text.to_owned(),
            span,
            phrase: phrase.id.clone(),
            clue: phrase.clue.clone(),
            finding: phrase.finding.clone(),
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
