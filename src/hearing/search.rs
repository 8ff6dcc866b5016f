//! Words typed to find something: every one of them must occur, folded as in notes and marks.

use super::fold::plain;

/// What was typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Search {
    words: Vec<String>,
}

impl Search {
    /// Case, accents, hyphens and apostrophes do not count.
    pub fn new(typed: &str) -> Search {
        Search {
            words: plain(typed),
        }
    }

    /// True when every word typed is somewhere in the texts, whole or part of a word. Nothing typed fits
    /// everything.
    pub fn fits<'t>(&self, texts: impl IntoIterator<Item = &'t str>) -> bool {
        let folded: Vec<String> = texts.into_iter().map(|t| plain(t).join(" ")).collect();
        let somewhere = |word: &String| folded.iter().any(|text| text.contains(word.as_str()));
        self.words.iter().all(somewhere)
    }

    /// True when one of the texts is just what was typed.
    pub fn is<'t>(&self, texts: impl IntoIterator<Item = &'t str>) -> bool {
        texts.into_iter().any(|text| plain(text) == self.words)
    }

    /// True when one of the texts begins with what was typed, the last word perhaps in part.
    pub fn begins<'t>(&self, texts: impl IntoIterator<Item = &'t str>) -> bool {
        let typed = self.words.join(" ");
        let begins = |text: &str| plain(text).join(" ").starts_with(&typed);
        texts.into_iter().any(begins)
    }
}

#[cfg(test)]
mod tests {
    use super::Search;

    #[test]
    fn every_word_typed_must_occur() {
        let texts = ["Déposé marks", "All-over pattern"];
        assert!(Search::new("").fits(texts));
        assert!(Search::new("depose").fits(texts));
        assert!(Search::new("over patt DÉP").fits(texts));
        assert!(Search::new("all-over").fits(texts));
        assert!(!Search::new("depose border").fits(texts));
    }

    #[test]
    fn what_is_called_so_is_told_from_what_begins_so() {
        let texts = ["edge", "edge-shape"];
        assert!(Search::new("Edge").is(texts));
        assert!(Search::new("edge sh").begins(texts) && !Search::new("edge sh").is(texts));
        assert!(!Search::new("shape").begins(texts));
    }
}
