//! Reads a line of notes in trade words: "dark blue willow, scalloped, crazed, no mark".
//!
//! The same engine as for marks, over spoken forms. The line is cut into phrases; what is denied,
//! doubted, quoted from the mark or of another thing is told apart. A `?` after a word is the
//! writer's doubt (`??` a guess), not an unreadable letter. Every word is accounted for: counted,
//! heard and not counted with the reason, or not understood.

use std::ops::Range;

use super::choose::{Candidate, choose, left_over};
use super::ear_words::EarWords;
use super::fold::{Word, words};
pub use super::hearings::{Beside, Denied, Heard, NotCounted, Notes, Spoken, SpokenForm, WhyNot};
use super::hearings::{Group, Meaning, Named};
use super::mark::{Reads, Unread};
use super::matcher::{Match, Matcher};
use super::opinion::opinion;
use super::phrases::Line;
use super::vocabulary::Vocabulary;
use super::{belongs, judged};
use crate::core::observation::{Observed, Sure};

/// Wrong letters from which a reading gives way to a shorter one that is read letter by letter
/// (common practice, no source).
const FORCED: usize = 2;

/// What a reading is worth more for fitting a denial or the thing spoken of: less than a letter, which
/// is worth 10 (common practice, no source).
const FITS: i32 = 6;

impl Spoken {
    /// `counts`: findings of each clue, in the order of the clues.
    pub fn new(forms: Vec<SpokenForm>, counts: Vec<usize>, words: &Vocabulary) -> Spoken {
        let mut all: Vec<(Vec<String>, Meaning)> = Vec::new();
        for form in forms {
            let meaning = Meaning::Finding {
                clue: form.clue,
                seen: Observed::Finding(form.finding),
                sure: form.sure,
                about: form.about,
                denied: form.denied,
            };
            all.push((vec![form.form], meaning));
        }
        let mut kinds = Vec::new();
        for (phrase, named) in words.kinds.phrases() {
            let form = words.ear.normal(&phrase);
            if !words.ear.no_kind_alone.contains(&form) {
                all.push((vec![form], Meaning::Kind(kinds.len())));
                kinds.push(named.clone());
            }
        }
        for (i, (_, phrases)) in words.ear.not_counted.iter().enumerate() {
            all.push((phrases.clone(), Meaning::NotCounted(i)));
        }
        Spoken {
            matcher: Matcher::new(all).with_negations(&words.negations),
            kinds,
            counts,
        }
    }

    /// Reads notes. Never fails: what can't be read is in `unread`.
    pub fn read(&self, beside: &Beside, text: &str) -> Notes {
        let ear = &beside.vocabulary.ear;
        let (found, doubts) = doubted(text, words(text));
        let normal = ear.normal_words(found);
        let doubts: Vec<Sure> = normal.iter().map(|(_, at)| doubts[*at]).collect();
        let line = Line::new(
            text,
            normal.into_iter().map(|(word, _)| word).collect(),
            ear,
        );
        let groups = self.groups(&line, beside, &doubts);
        let mut kinds = self.named(&line, &groups);
        judged::deny(&line, &groups, &mut kinds);
        let groups: Vec<Group> = groups
            .into_iter()
            .filter(|g| {
                let in_kind = |k: &Named| {
                    // "Not flow blue" says nothing of blue.
                    within(&g.words, &k.words) && (k.denied || hearsay(ear, g))
                };
                !kinds.iter().any(in_kind)
            })
            .collect();
        let years = super::opinion::years(&line, beside, &groups);
        let mut notes = Notes::default();
        judged::judge(self, &line, &groups, &kinds, &mut notes);
        notes.opinion = opinion(&line, &kinds, &years);
        let mut taken: Vec<Range<usize>> = groups.iter().map(|g| g.words.clone()).collect();
        taken.extend(kinds.into_iter().map(|k| k.words));
        taken.extend(years.into_iter().map(|(words, _)| words));
        taken.extend(judged::measured(self, &line, &groups, &mut notes));
        for list in [
            &line.denials,
            &line.hedges,
            &line.cant_tell,
            &line.exceptions,
            &line.saying,
        ] {
            taken.extend(list.iter().cloned());
        }
        taken.extend(line.things.iter().map(|(words, _)| words.clone()));
        let silent = |i: usize| {
            let word = &line.folded[i];
            ear.passed_over.contains(word)
                || ear.breaks.contains(word)
                || ear.prepositions.contains(word)
                || ear.or_words.contains(word)
        };
        let left = left_over(&line.words, &taken).into_iter();
        let left = left.flat_map(|run| trimmed(run, &silent));
        notes.unread = left
            .map(|run| Unread {
                text: line.cut(&run),
                span: line.span(&run),
                name: false,
            })
            .collect();
        notes.heard.sort_by_key(|h| h.span);
        notes.not_counted.sort_by_key(|n| n.span);
        notes
    }

    /// Findings and what is known not to count, each word in one group at most.
    fn groups(&self, line: &Line, beside: &Beside, doubts: &[Sure]) -> Vec<Group> {
        let hits = self.matcher.hits(&line.words);
        // "England on the back" is England, not a misspelt "England only".
        let forced = |hit: &Match| {
            let exact = |other: &Match| {
                other.sure() == Sure::Sure
                    && other.words.start == hit.words.start
                    && other.words.end < hit.words.end
            };
            hit.wrong >= FORCED && hits.iter().any(exact)
        };
        let in_scope = |at: usize| {
            let scopes = line.denials.iter().map(|d| line.scope(d));
            scopes.into_iter().any(|scope| scope.contains(&at))
        };
        // A form that holds a denial, such as "Rd No", must be there letter by letter.
        let clear = |hit: &Match| {
            let mut said = line.denials.iter().chain(&line.cant_tell);
            said.all(|d| {
                let apart = d.end <= hit.words.start || hit.words.end <= d.start;
                apart || (hit.wrong == 0 && d.start > hit.words.start)
            })
        };
        let mut claims: Vec<Candidate<(Sure, Meaning)>> = Vec::new();
        for hit in hits.iter().filter(|h| line.whole(&h.words) && !forced(h)) {
            let mut worth = hit.worth();
            let meaning = self.matcher.payload(hit.phrase);
            match meaning {
                Meaning::Kind(_) => continue,
                Meaning::Finding { about, denied, .. } => {
                    if !clear(hit) {
                        continue;
                    }
                    if let Some(thing) = about {
                        if !belongs::about(line, &hit.words, *thing, &line.things) {
                            continue;
                        }
                        worth += FITS;
                    }
                    if *denied != Denied::Not {
                        if !in_scope(hit.words.start) {
                            continue;
                        }
                        worth += i32::from(*denied == Denied::Gives);
                    }
                }
                Meaning::NotCounted(_) => {}
            }
            claims.push(Candidate {
                words: hit.words.clone(),
                worth,
                // A slip of the pen is no doubt of the writer's.
                what: (
                    if hit.wrong < FORCED {
                        Sure::Sure
                    } else {
                        hit.sure()
                    },
                    meaning.clone(),
                ),
            });
        }
        claims.extend(from_mark(line, beside));
        let mut out: Vec<Group> = Vec::new();
        for (claim, _) in choose(claims, line.words.len()) {
            let (sure, meaning) = claim.what;
            match out.last_mut() {
                Some(group) if group.words == claim.words => group.meanings.push(meaning),
                _ => {
                    let doubt = doubts[claim.words.clone()].iter().max().copied();
                    out.push(Group {
                        words: claim.words,
                        sure: sure.max(doubt.unwrap_or_default()),
                        meanings: vec![meaning],
                    });
                }
            }
        }
        out
    }

    /// Words for kinds that no finding explains as well.
    fn named(&self, line: &Line, groups: &[Group]) -> Vec<Named> {
        let hits = self.matcher.hits(&line.words);
        let claims = hits
            .iter()
            .filter(|h| line.whole(&h.words))
            .filter_map(|hit| {
                let Meaning::Kind(kind) = self.matcher.payload(hit.phrase) else {
                    return None;
                };
                Some(Candidate {
                    words: hit.words.clone(),
                    worth: hit.worth(),
                    what: *kind,
                })
            });
        let chosen = choose(claims.collect(), line.words.len());
        let explained = |words: &Range<usize>| {
            groups.iter().any(|g| {
                let overlap = g.words.start < words.end && words.start < g.words.end;
                let inside = within(&g.words, words) && g.words != *words;
                overlap && !inside && !belongs::colour_only(line, &g.words)
            })
        };
        chosen
            .into_iter()
            .filter(|(claim, _)| !explained(&claim.words))
            .map(|(claim, _)| Named {
                words: claim.words,
                named: self.kinds[claim.what].clone(),
                denied: false,
            })
            .collect()
    }
}

fn within(inner: &Range<usize>, outer: &Range<usize>) -> bool {
    outer.start <= inner.start && inner.end <= outer.end
}

/// True for what only follows from the word for a kind around it.
fn hearsay(ear: &EarWords, group: &Group) -> bool {
    group.meanings.iter().all(|m| match m {
        Meaning::Finding { clue, .. } => ear.kind_clues.contains(clue),
        _ => true,
    })
}

/// A run without the words at its ends that say nothing.
fn trimmed(run: Range<usize>, silent: &impl Fn(usize) -> bool) -> Option<Range<usize>> {
    let first = run.clone().find(|&i| !silent(i))?;
    let last = run.clone().rev().find(|&i| !silent(i))?;
    Some(first..last + 1)
}

/// What the reader of marks makes of what is quoted, and of figures anywhere.
fn from_mark(line: &Line, beside: &Beside) -> Vec<Candidate<(Sure, Meaning)>> {
    let mut out = Vec::new();
    let reads = |id: &str| {
        let all = beside.wording.phrases().iter();
        all.clone()
            .find(|p| p.id == id)
            .map_or(Reads::Words, |p| p.reads)
    };
    let mut read = |text: &str, from: usize, quoted: bool| {
        for phrase in beside.wording.read(beside.registry, text).phrases {
            let Some((clue, seen)) = phrase.says else {
                continue;
            };
            let figures = phrase.text.contains(|c: char| c.is_ascii_digit());
            let dated = !matches!(
                reads(&phrase.phrase),
                Reads::Words | Reads::BareYear | Reads::PatternNumber
            );
            let initial = phrase.text.starts_with('&');
            if !(quoted || initial || figures && dated) || phrase.sure == Sure::Guess {
                continue;
            }
            let span = (phrase.span.0 + from, phrase.span.1 + from);
            let Some(words) = line.words_of(span) else {
                continue;
            };
            let letters: usize = words.clone().map(|i| line.words[i].glyphs.len()).sum();
            let meaning = Meaning::Finding {
                clue,
                seen,
                sure: phrase.sure,
                about: None,
                denied: Denied::Not,
            };
            out.push(Candidate {
                words,
                worth: 10 * i32::try_from(letters).unwrap_or(0) + FITS,
                what: (phrase.sure, meaning),
            });
        }
    };
    for quoted in &line.quoted {
        let (from, to) = line.span(quoted);
        read(&line.text[from..to], from, true);
    }
    read(line.text, 0, false);
    for at in 0..line.words.len() {
        let Some((end, clue)) = line.ear.dated.longest(at, |i| line.word(i)) else {
            continue;
        };
        let year = line.word(end).and_then(|w| w.parse::<i16>().ok());
        if let Some(year) = year.filter(|y| (1750..=beside.present).contains(y)) {
            out.push(Candidate {
                words: at..end + 1,
                worth: 100,
                what: (
                    Sure::Sure,
                    Meaning::Finding {
                        clue: *clue,
                        seen: Observed::Year(crate::core::grid::Year(year)),
                        sure: Sure::Sure,
                        about: None,
                        denied: Denied::Not,
                    },
                ),
            });
        }
    }
    out
}

/// Takes trailing `?` off the words and says how much doubt they meant.
fn doubted(text: &str, found: Vec<Word>) -> (Vec<Word>, Vec<Sure>) {
    let mut out: Vec<Word> = Vec::new();
    let mut doubts: Vec<Sure> = Vec::new();
    for mut word in found {
        let marks = word.glyphs.iter().rev().take_while(|&&c| c == '?').count();
        let doubt = match marks {
            0 => Sure::Sure,
            1 => Sure::Unsure,
            _ => Sure::Guess,
        };
        if marks == word.glyphs.len() && marks > 0 {
            // A mark standing alone belongs to the word before it.
            if let Some(last) = doubts.last_mut() {
                *last = (*last).max(doubt);
            }
            continue;
        }
        word.glyphs.truncate(word.glyphs.len() - marks);
        let (start, end) = word.span;
        let kept = text[start..end].trim_end_matches(['?', '\u{fffd}', '[', ']']);
        word.span.1 = start + kept.len();
        out.push(word);
        doubts.push(doubt);
    }
    (out, doubts)
}
