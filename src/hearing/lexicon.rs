//! Phrases of the rule files with what each stands for, looked up word by word.

use std::collections::BTreeMap;

use super::fold::plain;

/// Phrases by their first word. Words are folded when the rules load, never at a look-up.
#[derive(Clone, Debug)]
pub struct Lexicon<T> {
    by_first: BTreeMap<String, Vec<Entry<T>>>,
}

/// Phrases that stand for nothing but themselves.
pub type Phrases = Lexicon<()>;

#[derive(Clone, Debug)]
struct Entry<T> {
    /// The words after the first.
    rest: Vec<String>,
    meaning: T,
}

impl<T> Default for Lexicon<T> {
    fn default() -> Lexicon<T> {
        Lexicon {
            by_first: BTreeMap::new(),
        }
    }
}

impl<T> Lexicon<T> {
    /// Adds a phrase. One without letters or figures is left out.
    pub fn add(&mut self, phrase: &str, meaning: T) {
        let mut words = plain(phrase).into_iter();
        if let Some(first) = words.next() {
            let rest = words.collect();
            let entries = self.by_first.entry(first).or_default();
            entries.push(Entry { rest, meaning });
        }
    }

    /// All phrases, folded, with what they stand for.
    pub fn phrases(&self) -> impl Iterator<Item = (String, &T)> {
        let all = self.by_first.iter();
        all.flat_map(|(first, entries)| {
            entries.iter().map(move |e| {
                let words = std::iter::once(first).chain(&e.rest);
                let words: Vec<&str> = words.map(String::as_str).collect();
                (words.join(" "), &e.meaning)
            })
        })
    }

    /// The longest phrase whose words stand at `at` and after: the place after it, and what it
    /// stands for. Of two alike the one added first. `word` gives the folded word of a place.
    pub fn longest<'t>(
        &self,
        at: usize,
        word: impl Fn(usize) -> Option<&'t str>,
    ) -> Option<(usize, &T)> {
        let fits = |entry: &Entry<T>| {
            let mut places = (at + 1..).zip(&entry.rest);
            places.all(|(i, wanted)| word(i) == Some(wanted.as_str()))
        };
        let mut best: Option<&Entry<T>> = None;
        for entry in self.by_first.get(word(at)?)?.iter().filter(|e| fits(e)) {
            if best.is_none_or(|b| entry.rest.len() > b.rest.len()) {
                best = Some(entry);
            }
        }
        best.map(|entry| (at + 1 + entry.rest.len(), &entry.meaning))
    }
}

#[cfg(test)]
mod tests {
    use super::Lexicon;

    #[test]
    fn the_longest_phrase_wins_and_of_two_alike_the_first() {
        let mut lexicon = Lexicon::default();
        lexicon.add("flow blue", 1);
        lexicon.add("Flow-Blue ware", 2);
        lexicon.add("flow blue", 3);
        lexicon.add("--", 4);
        let text = ["late", "flow", "blue", "ware"];
        let at = |i: usize| text.get(i).copied();
        assert_eq!(lexicon.longest(0, at), None);
        assert_eq!(lexicon.longest(1, at), Some((4, &2)));
        assert_eq!(
            lexicon.longest(1, |i| at(i).filter(|_| i < 3)),
            Some((3, &1))
        );
        assert_eq!(lexicon.longest(9, at), None);
    }
}
