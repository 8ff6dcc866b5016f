//! A line cut into phrases, and the words that say how what stands beside them is meant: denials,
//! hedges, "can't tell", words for what a mark says.

use std::ops::Range;

use super::ear_words::EarWords;
use super::fold::Word;
use super::lexicon::Phrases;

/// The words of a line with their phrases.
#[derive(Debug)]
pub(super) struct Line<'a> {
    pub text: &'a str,
    pub words: Vec<Word>,
    pub folded: Vec<String>,
    /// The phrase of each word, counted from 0.
    pub phrase: Vec<usize>,
    pub ear: &'a EarWords,
    pub denials: Vec<Range<usize>>,
    pub hedges: Vec<Range<usize>>,
    pub cant_tell: Vec<Range<usize>>,
    pub exceptions: Vec<Range<usize>>,
    /// Things named, by index into the ear's list.
    pub things: Vec<(Range<usize>, usize)>,
    /// What the mark says.
    pub quoted: Vec<Range<usize>>,
    /// Words that only lead to it.
    pub saying: Vec<Range<usize>>,
}

impl<'a> Line<'a> {
    pub(super) fn new(text: &'a str, words: Vec<Word>, ear: &'a EarWords) -> Line<'a> {
        let folded: Vec<String> = words.iter().map(Word::folded).collect();
        let phrase = phrases(text, &words, &folded, ear);
        let mut line = Line {
            text,
            words,
            folded,
            phrase,
            ear,
            denials: Vec::new(),
            hedges: Vec::new(),
            cant_tell: Vec::new(),
            exceptions: Vec::new(),
            things: Vec::new(),
            quoted: Vec::new(),
            saying: Vec::new(),
        };
        line.denials = line.all(&ear.denials);
        line.hedges = line.all(&ear.hedges);
        line.cant_tell = line.all(&ear.cant_tell);
        line.exceptions = line.all(&ear.exceptions);
        line.saying = line.all(&ear.says);
        let mut at = 0;
        while at < line.words.len() {
            match ear.thing_words.longest(at, |i| line.word(i)) {
                Some((end, thing)) if line.whole(&(at..end)) => {
                    line.things.push((at..end, *thing));
                    at = end;
                }
                _ => at += 1,
            }
        }
        let after: Vec<Range<usize>> = line
            .saying
            .iter()
            .map(|s| s.end..line.end(s.start))
            .collect();
        line.quoted.extend(after);
        for marked in line.all(&ear.in_mark) {
            line.quoted.push(line.start(marked.start)..marked.start);
            line.saying.push(marked);
        }
        let quotes = in_quotes(text);
        let inside = |w: &Word, q: &Range<usize>| q.start <= w.span.0 && w.span.1 <= q.end;
        for quote in quotes {
            let first = line.words.iter().position(|w| inside(w, &quote));
            let last = line.words.iter().rposition(|w| inside(w, &quote));
            line.quoted.extend(first.zip(last).map(|(a, b)| a..b + 1));
        }
        line.quoted.retain(|q| !q.is_empty());
        line
    }

    pub(super) fn word(&self, at: usize) -> Option<&str> {
        self.folded.get(at).map(String::as_str)
    }

    fn all(&self, list: &Phrases) -> Vec<Range<usize>> {
        let mut out = Vec::new();
        let mut at = 0;
        while at < self.words.len() {
            match list.longest(at, |i| self.word(i)) {
                Some((end, ())) if self.whole(&(at..end)) => {
                    out.push(at..end);
                    at = end;
                }
                _ => at += 1,
            }
        }
        out
    }

    /// True for words of one phrase.
    pub(super) fn whole(&self, words: &Range<usize>) -> bool {
        words
            .clone()
            .all(|i| self.phrase[i] == self.phrase[words.start])
    }

    /// True when both words stand in one phrase.
    pub(super) fn together(&self, a: usize, b: usize) -> bool {
        self.phrase[a] == self.phrase[b]
    }

    /// The word after the last of the phrase.
    pub(super) fn end(&self, at: usize) -> usize {
        (at..self.words.len())
            .take_while(|&i| self.together(i, at))
            .last()
            .map_or(at, |i| i + 1)
    }

    /// The first word of the phrase.
    pub(super) fn start(&self, at: usize) -> usize {
        (0..=at)
            .rev()
            .take_while(|&i| self.together(i, at))
            .last()
            .unwrap_or(at)
    }

    /// The bytes of a run of words.
    pub(super) fn span(&self, words: &Range<usize>) -> (usize, usize) {
        (
            self.words[words.start].span.0,
            self.words[words.end - 1].span.1,
        )
    }

    pub(super) fn cut(&self, words: &Range<usize>) -> String {
        let (from, to) = self.span(words);
        self.text[from..to].to_owned()
    }

    /// The words that the bytes touch.
    pub(super) fn words_of(&self, span: (usize, usize)) -> Option<Range<usize>> {
        let touches = |w: &Word| w.span.0 < span.1 && span.0 < w.span.1;
        let first = self.words.iter().position(touches)?;
        let last = self.words.iter().rposition(touches)?;
        Some(first..last + 1)
    }

    /// True when only words that join alternatives, and at least one, stand there.
    pub(super) fn joins(&self, gap: Range<usize>) -> bool {
        let or = |i: usize| self.ear.or_words.contains(&self.folded[i]);
        let light = |i: usize| {
            or(i)
                || self.hedges.iter().any(|h| h.contains(&i))
                || self.ear.passed_over.contains(&self.folded[i]) && self.folded[i] != "and"
        };
        gap.clone().any(or) && gap.clone().all(light) && self.whole(&(gap.start..gap.end + 1))
    }

    /// Where what is denied may start and end.
    pub(super) fn scope(&self, denial: &Range<usize>) -> Range<usize> {
        let end = self.end(denial.start);
        let stops = |i: usize| {
            self.ear.breaks.contains(&self.folded[i])
                || self.folded[i] == "and"
                || self.exceptions.iter().any(|e| e.start == i)
                || self.denials.iter().any(|d| d.start == i)
        };
        let stop = (denial.end..end).find(|&i| stops(i)).unwrap_or(end);
        denial.end..stop
    }
}

/// The phrase of each word: commas, semicolons, brackets, dashes, full stops and a doubt ("brown?")
/// part them.
fn phrases(text: &str, words: &[Word], folded: &[String], ear: &EarWords) -> Vec<usize> {
    let mut out = Vec::new();
    let mut phrase = 0;
    for i in 0..words.len() {
        if i > 0 {
            let gap = &text[words[i - 1].span.1.min(words[i].span.0)..words[i].span.0];
            let short = folded[i - 1].len() == 1 || ear.abbreviations.contains(&folded[i - 1]);
            let parts = gap.contains([',', ';', ':', '\n', '(', ')', '!', '?'])
                || gap.contains(" - ")
                || gap.contains(" – ")
                || (gap.contains('.') && !short);
            phrase += usize::from(parts);
        }
        out.push(phrase);
    }
    out
}

/// The insides of double quotes; a sign after a figure is an inch.
fn in_quotes(text: &str) -> Vec<Range<usize>> {
    let mut out = Vec::new();
    let mut open: Option<usize> = None;
    let mut before = ' ';
    for (i, c) in text.char_indices() {
        if matches!(c, '"' | '“' | '”') {
            match open {
                Some(start) => {
                    out.push(start..i);
                    open = None;
                }
                None if !before.is_ascii_digit() => open = Some(i + c.len_utf8()),
                None => {}
            }
        }
        before = c;
    }
    out
}
