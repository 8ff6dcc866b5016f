//! Finds known phrases in words that may be misread, misspelt or partly unreadable.
//!
//! Generic over what a phrase stands for: the wording of marks and the spoken forms of notes use
//! the same engine. Letters are compared without the gaps between words, so `IRON STONE` and
//! `IRONSTONE` are one. Work is linear in text length × number of forms: windows are no longer
//! than the longest form, and a set of letters as bits throws out nearly all pairs before the
//! edit distance is worked out.

use std::collections::BTreeSet;
use std::ops::Range;

use super::fold::{Nature, Word, class, words};
use crate::core::observation::Sure;

/// A form of a phrase, ready to compare.
#[derive(Clone, Debug)]
struct Spelling {
    exact: Vec<char>,
    loose: Vec<char>,
    letters: u64,
    words: Vec<Vec<char>>,
    phrase: usize,
}

/// Phrases with what they stand for.
#[derive(Clone, Debug)]
pub struct Matcher<P> {
    payloads: Vec<P>,
    forms: Vec<Spelling>,
    by_length: Vec<Vec<usize>>,
    /// All words of all forms, of four letters or more.
    known: BTreeSet<Vec<char>>,
    /// Words that turn the next one round.
    negations: BTreeSet<Vec<char>>,
}

/// A place where a form fits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Match {
    /// Index of the phrase.
    pub phrase: usize,
    /// Words covered.
    pub words: Range<usize>,
    /// Letters of the form.
    pub letters: usize,
    /// Letters wrong, missing or too many.
    pub wrong: usize,
    /// Letters taken for one that looks alike.
    pub alike: usize,
    /// Letters that can't be read.
    pub unread: usize,
}

impl Match {
    /// Worth of a hit against one that overlaps: letters explained, less what had to be forgiven.
    pub fn worth(&self) -> i32 {
        let n = |x: usize| i32::try_from(x).unwrap_or(i32::MAX / 100);
        10 * n(self.letters) - 15 * n(self.wrong) - 3 * n(self.unread) - n(self.alike)
    }

    /// How sure the reading is (thresholds: common practice, no source): every letter read is
    /// sure; up to one letter in five at fault is unsure; more is a guess. A look-alike counts
    /// half.
    pub fn sure(&self) -> Sure {
        let faults = self.wrong + self.unread + self.alike.div_ceil(2);
        match faults {
            0 => Sure::Sure,
            f if 5 * f <= self.letters => Sure::Unsure,
            _ => Sure::Guess,
        }
    }
}

/// A letter of a text; `?` equals any.
#[derive(Clone, Copy)]
struct Letter(char);

impl PartialEq<char> for Letter {
    fn eq(&self, other: &char) -> bool {
        self.0 == '?' || self.0 == *other
    }
}

struct Letters<'a>(&'a [Letter]);
struct Chars<'a>(&'a [char]);

impl<'a> IntoIterator for &'a Letters<'_> {
    type Item = Letter;
    type IntoIter = std::iter::Copied<std::slice::Iter<'a, Letter>>;
    fn into_iter(self) -> Self::IntoIter {
        self.0.iter().copied()
    }
}

impl<'a> IntoIterator for &'a Chars<'_> {
    type Item = char;
    type IntoIter = std::iter::Copied<std::slice::Iter<'a, char>>;
    fn into_iter(self) -> Self::IntoIter {
        self.0.iter().copied()
    }
}

/// Most letters that may be wrong in a form of this length: none in short ones, where one
/// letter makes another word.
fn most_wrong(length: usize) -> usize {
    match length {
        0..=5 => 0,
        6..=9 => 1,
        10..=15 => 2,
        _ => 3,
    }
}

/// Most unreadable letters, fewer when others are wrong.
fn most_unread(length: usize, wrong: usize) -> usize {
    match (length, wrong) {
        (0..=3, _) => 0,
        (4..=5, _) => 1,
        (_, 0) => 3 * length / 10,
        _ => length / 6,
    }
}

fn bits(letters: impl Iterator<Item = char>) -> u64 {
    letters
        .filter(|&c| c != '?')
        .map(|c| match c {
            'a'..='z' => c as u32 - u32::from(b'a'),
            '0'..='9' => 26 + (c as u32 - u32::from(b'0')),
            other => 36 + (other as u32) % 28,
        })
        .fold(0, |set, bit| set | 1 << bit)
}

impl<P> Matcher<P> {
    /// Builds a matcher from (forms, payload) pairs. Forms that fold to nothing are left out.
    pub fn new<S: AsRef<str>>(phrases: impl IntoIterator<Item = (Vec<S>, P)>) -> Matcher<P> {
        let mut forms = Vec::new();
        let mut payloads = Vec::new();
        for (texts, payload) in phrases {
            for text in texts {
                let words: Vec<Vec<char>> =
                    words(text.as_ref()).into_iter().map(|w| w.glyphs).collect();
                let exact = words.concat();
                let loose: Vec<char> = exact.iter().map(|&c| class(c)).collect();
                if exact.is_empty() {
                    continue;
                }
                forms.push(Spelling {
                    letters: bits(loose.iter().copied()),
                    exact,
                    loose,
                    words,
                    phrase: payloads.len(),
                });
            }
            payloads.push(payload);
        }
        let longest = forms.iter().map(|f| f.exact.len()).max().unwrap_or(0);
        let mut by_length = vec![Vec::new(); longest + 1];
        for (i, form) in forms.iter().enumerate() {
            by_length[form.exact.len()].push(i);
        }
        let known = forms
            .iter()
            .flat_map(|f: &Spelling| f.words.iter())
            .filter(|w| w.len() >= 4)
            .cloned()
            .collect();
        Matcher {
            payloads,
            forms,
            by_length,
            known,
            negations: BTreeSet::new(),
        }
    }

    /// The same with words that turn the next one round: a form with such a word is not read where
    /// the text lacks it.
    pub fn with_negations(mut self, negations: &BTreeSet<String>) -> Matcher<P> {
        self.negations = negations.iter().map(|w| w.chars().collect()).collect();
        self
    }

    /// What a phrase stands for.
    pub fn payload(&self, phrase: usize) -> &P {
        &self.payloads[phrase]
    }

    /// Every place where a form fits, best not yet chosen.
    pub fn hits(&self, text: &[Word]) -> Vec<Match> {
        let longest = self.by_length.len().saturating_sub(1);
        let mut hits = Vec::new();
        let mut exact: Vec<Letter> = Vec::new();
        let mut loose: Vec<Letter> = Vec::new();
        for start in 0..text.len() {
            exact.clear();
            loose.clear();
            let mut single = true;
            for end in start..text.len() {
                let word = &text[end];
                if word.nature == Nature::Name || exact.len() + word.glyphs.len() > longest + 3 {
                    break;
                }
                exact.extend(word.glyphs.iter().map(|&c| Letter(c)));
                loose.extend(word.glyphs.iter().map(|&c| Letter(class(c))));
                single &= word.glyphs.len() == 1;
                self.fit(text, start..end + 1, &exact, &loose, single, &mut hits);
            }
        }
        hits
    }

    /// A word spelt right is not a misspelling of another: `painted` is not `printed`.
    fn another_word(&self, form: &Spelling, text: &[Word]) -> bool {
        text.iter()
            .any(|w| self.known.contains(&w.glyphs) && !form.words.contains(&w.glyphs))
    }

    /// The form turns round and the text does not.
    fn turned(&self, form: &Spelling, text: &[Word]) -> bool {
        let mut turns = form.words.iter().filter(|w| self.negations.contains(*w));
        turns.any(|turn| text.iter().all(|w| w.glyphs != *turn))
    }

    fn fit(
        &self,
        text: &[Word],
        range: Range<usize>,
        exact: &[Letter],
        loose: &[Letter],
        single: bool,
        hits: &mut Vec<Match>,
    ) {
        let length = exact.len();
        let unread = exact.iter().filter(|s| s.0 == '?').count();
        let letters = bits(loose.iter().map(|s| s.0));
        let shortest = length.saturating_sub(3).max(1);
        for size in shortest..=(length + 3).min(self.by_length.len().saturating_sub(1)) {
            let allowed = most_wrong(size);
            if size.abs_diff(length) > allowed || unread > most_unread(size, 0) {
                continue;
            }
            for &i in &self.by_length[size] {
                let form = &self.forms[i];
                let lacking = (form.letters & !letters).count_ones() as usize;
                let surplus = (letters & !form.letters).count_ones() as usize;
                // A short form must stand as its own words, or letter by letter: U. S. A.
                let whole = size > 5 || range.len() <= form.words.len() || single;
                if !whole || lacking > allowed + unread || surplus > allowed {
                    continue;
                }
                let wrong = strsim::generic_levenshtein(&Letters(loose), &Chars(&form.loose));
                if wrong > allowed || unread > most_unread(size, wrong) {
                    continue;
                }
                // One misspelt word is not several short ones: a surname is not `and son`.
                let run_together = size < 10 && range.len() < form.words.len();
                let here = &text[range.clone()];
                let refused =
                    run_together || self.another_word(form, here) || self.turned(form, here);
                if wrong > 0 && refused {
                    continue;
                }
                let strict = strsim::generic_levenshtein(&Letters(exact), &Chars(&form.exact));
                let alike = strict.saturating_sub(wrong);
                if size <= 3 && alike > 0 {
                    continue;
                }
                let hit = Match {
                    phrase: form.phrase,
                    words: range.clone(),
                    letters: size,
                    wrong,
                    alike,
                    // A mark beyond the form's end already counts as one letter too many.
                    unread: unread.saturating_sub(length.saturating_sub(size)),
                };
                // Of several forms of one phrase at one place the best is enough.
                let rival = hits
                    .iter_mut()
                    .rev()
                    .take_while(|h| h.words == range)
                    .find(|h| h.phrase == hit.phrase);
                match rival {
                    Some(rival) if rival.worth() >= hit.worth() => {}
                    Some(rival) => *rival = hit,
                    None => hits.push(hit),
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Match, Matcher, Sure};
    use crate::hearing::fold::words;

    /// Faults of the best reading of `text` as `form`: wrong, alike and unread letters, and how sure.
    fn read(form: &str, text: &str) -> Option<(usize, usize, usize, Sure)> {
        let matcher = Matcher::new([(vec![form], ())]);
        let hits = matcher.hits(&words(text));
        let best = hits.iter().max_by_key(|h| h.worth())?;
        Some((best.wrong, best.alike, best.unread, best.sure()))
    }

    #[test]
    fn a_short_word_takes_no_wrong_letter() {
        assert_eq!(read("delft", "delft"), Some((0, 0, 0, Sure::Sure)));
        assert_eq!(read("delft", "delpt"), None);
        assert_eq!(read("bow", "box"), None);
        assert_eq!(read("kramer", "krumer"), Some((1, 0, 0, Sure::Unsure)));
        assert_eq!(read("kramer", "krumur"), None);
    }

    #[test]
    fn a_very_short_word_must_be_read_whole_and_as_it_is() {
        assert_eq!(read("rim", "r?m"), None);
        assert_eq!(read("rims", "r?ms"), Some((0, 0, 1, Sure::Guess)));
        assert_eq!(read("rims", "r??s"), None);
        assert_eq!(read("ltd", "1td"), None);
        assert_eq!(read("china", "ch1na"), Some((0, 1, 0, Sure::Unsure)));
    }

    #[test]
    fn worth_is_letters_less_what_had_to_be_forgiven() {
        let hit = Match {
            phrase: 0,
            words: 0..1,
            letters: 10,
            wrong: 1,
            alike: 3,
            unread: 2,
        };
        assert_eq!(hit.worth(), 100 - 15 - 6 - 3);
    }

    /// Half a fault each: of ten letters two that look alike are one fault, six are three.
    #[test]
    fn letters_that_look_alike_count_half() {
        assert_eq!(
            read("willowbowl", "wi11owbowl"),
            Some((0, 2, 0, Sure::Unsure))
        );
        assert_eq!(
            read("willowbowl", "w111owb0w1"),
            Some((0, 5, 0, Sure::Guess))
        );
    }
}
