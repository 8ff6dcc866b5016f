//! Diamonds written out in the text of a mark: `IV A,12,3,W`, `diamond A 12 3 W class IV`.

use super::choose::Candidate;
use super::fold::{Nature, Word};
use super::follow::{Follower, What};
use crate::registry::corners::{Corner, Corners};
use crate::registry::diamond;
use crate::registry::tables::Layout;

/// Most diamonds decoded in one text; a real mark has one.
const MOST_DIAMONDS: usize = 8;

impl Follower<'_> {
    fn class(&self, i: usize) -> Option<String> {
        let word = self.words.get(i)?.folded().to_ascii_uppercase();
        let known = self.registry.classes.iter().any(|c| c.numeral == word);
        known.then_some(word)
    }

    /// Four corners after the word diamond, with or without commas, a class before them or not.
    pub(super) fn corners_after(&self, from: usize) -> Option<(usize, Option<String>, String)> {
        let join = |at: usize| -> Option<String> {
            let words = self.words.get(at..at + 4)?;
            let short = words
                .iter()
                .all(|w| (1..=3).contains(&w.glyphs.len()) && w.nature != Nature::Name);
            let joined: Vec<String> = words.iter().map(Word::folded).collect();
            let corners = joined.join(",");
            // Set out with commas after the word diamond, even corners that fit no layout are
            // meant: their problem is worth saying.
            let commas = (at..at + 3).all(|i| self.between(i).trim() == ",");
            (short && (commas || plausible(&corners))).then_some(corners)
        };
        if let Some(class) = self.class(from)
            && let Some(corners) = join(from + 1)
        {
            return Some((from + 5, Some(class), corners));
        }
        let corners = join(from)?;
        let (end, class) = self.class_after(from + 4);
        Some((end, class, corners))
    }

    /// Diamonds written `top,right,bottom,left` anywhere in the text.
    pub(super) fn diamonds(&self, what: &What) -> Vec<Candidate<What>> {
        let commas: Vec<usize> = self.text.match_indices(',').map(|(i, _)| i).collect();
        let mut out = Vec::new();
        for three in commas.windows(3) {
            if out.len() == MOST_DIAMONDS {
                break;
            }
            let (a, c) = (three[0], three[2]);
            let inner = [&self.text[a + 1..three[1]], &self.text[three[1] + 1..c]];
            if inner.iter().any(|f| f.len() > 6) {
                continue;
            }
            let parts = |c: char| c.is_whitespace() || ",/:;()".contains(c);
            let start = self.text[..a].rfind(parts).map_or(0, |i| {
                i + self.text[i..].chars().next().map_or(1, char::len_utf8)
            });
            let after = &self.text[c + 1..];
            let blank = after.len() - after.trim_start_matches(' ').len();
            let length = after[blank..].find(parts).unwrap_or(after.len() - blank);
            let end = c + 1 + blank + length;
            let corners = &self.text[start..end];
            if corners.len() > 24 || !plausible(corners) {
                continue;
            }
            let within = |w: &Word| start <= w.span.0 && w.span.1 <= end;
            let Some(first) = self.words.iter().position(within) else {
                continue;
            };
            let count = self.words[first..].iter().take_while(|w| within(w)).count();
            let before = first.checked_sub(1).and_then(|i| self.class(i));
            let start = first - usize::from(before.is_some());
            let (end, after) = self.class_after(first + count);
            let class = before.or(after);
            let decoded = diamond::decode(self.registry, corners, class.as_deref());
            out.push(Candidate {
                words: start..end,
                worth: 60,
                what: self.registered(what.clone(), decoded),
            });
        }
        out
    }

    /// `class IV` after the corners: where it ends, and the numeral.
    fn class_after(&self, end: usize) -> (usize, Option<String>) {
        let said = self.words.get(end).is_some_and(|w| w.folded() == "class");
        match said.then(|| self.class(end + 1)).flatten() {
            Some(class) => (end + 2, Some(class)),
            None => (end, None),
        }
    }
}

/// True when the corners fit one of the layouts and enough of them can be read.
fn plausible(corners: &str) -> bool {
    let Ok(corners) = Corners::read(corners) else {
        return false;
    };
    let read = corners.0.iter().filter(|c| **c != Corner::Unread).count();
    let fits = |layout| corners.misfits(layout).is_empty();
    read >= 2 && (fits(Layout::First) || fits(Layout::Second))
}
