//! The words of a line, each with what was heard in it: under the word where the window is wide, in
//! a list where it is not.

use ratatui::style::Style;
use ratatui::text::Span;

use crate::screens::kit::rows::{Row, item};
use crate::screens::kit::theme::Theme;
use crate::screens::kit::wrap::{pad, width, wrap};

/// Cells between two words.
const GAP: usize = 2;

/// What became of something heard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Become {
    Counted,
    NotCounted,
    NotUnderstood,
}

impl Become {
    /// The sign that says so without colour.
    fn sign(self) -> &'static str {
        match self {
            Become::Counted => "✓ ",
            Become::NotCounted => "– ",
            Become::NotUnderstood => "? ",
        }
    }

    fn style(self, theme: Theme) -> Style {
        match self {
            Become::Counted => theme.key,
            Become::NotCounted => theme.instruction,
            Become::NotUnderstood => theme.caution,
        }
    }
}

/// A word or several, and all that was heard in them.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Word {
    pub text: String,
    pub heard: Vec<(Become, String)>,
}

/// Words in the order they stand in the line. Of one that was put together from several places the
/// first counts; what can't be found comes last.
pub(crate) fn in_order(words: Vec<Word>, line: &str) -> Vec<Word> {
    let line = line.to_lowercase();
    let at = |word: &Word| {
        let text = word.text.to_lowercase();
        let first = text.split(',').next().unwrap_or_default().trim().to_owned();
        let found = line.find(&text).or_else(|| line.find(&first));
        found.unwrap_or(usize::MAX)
    };
    let mut words = words;
    words.sort_by_key(at);
    words
}

/// The words side by side, what was heard in each under it; as many lines of words as it takes.
pub(crate) fn blocks(words: &[Word], theme: Theme, cells: usize) -> Vec<Row> {
    let mut out = Vec::new();
    let mut line: Vec<Block> = Vec::new();
    for word in words {
        let block = Block::new(word, cells);
        let used: usize = line.iter().map(|b| b.cells + GAP).sum();
        if !line.is_empty() && used + block.cells > cells {
            out.extend(side_by_side(&line, theme));
            out.push(Row::blank());
            line.clear();
        }
        line.push(block);
    }
    if !line.is_empty() {
        out.extend(side_by_side(&line, theme));
    }
    out
}

/// A word a row, with an arrow to what was heard in it.
pub(crate) fn list(words: &[Word], theme: Theme, cells: usize) -> Vec<Row> {
    let rows = |word: &Word| {
        let all = word.heard.iter();
        all.flat_map(|(became, what)| {
            let text = format!("{} → {what}", word.text);
            item(became.sign(), &text, cells, became.style(theme))
        })
        .collect::<Vec<_>>()
    };
    words.iter().flat_map(rows).collect()
}

/// A word and the lines under it.
struct Block {
    cells: usize,
    lines: Vec<(Option<Become>, String)>,
}

/// Widest block: what is longer is broken (common practice, no source).
const MOST_CELLS: usize = 32;

impl Block {
    fn new(word: &Word, cells: usize) -> Block {
        let most = MOST_CELLS.min(cells);
        let said = wrap(&word.text, most).into_iter().map(|l| (None, l));
        let mut lines: Vec<(Option<Become>, String)> = said.collect();
        for (became, what) in &word.heard {
            let parts = wrap(what, most.saturating_sub(became.sign().chars().count()));
            for (n, part) in parts.iter().enumerate() {
                let sign = if n == 0 { became.sign() } else { "  " };
                lines.push((Some(*became), format!("{sign}{part}")));
            }
        }
        let widest = lines.iter().map(|(_, l)| width(l)).max().unwrap_or(0);
        Block {
            cells: widest,
            lines,
        }
    }
}

fn side_by_side(blocks: &[Block], theme: Theme) -> Vec<Row> {
    let rows = blocks.iter().map(|b| b.lines.len()).max().unwrap_or(0);
    let row = |n: usize| {
        let cell = |block: &Block| {
            let (became, text) = match block.lines.get(n) {
                Some((became, text)) => (*became, text.as_str()),
                None => (None, ""),
            };
            let style = became.map_or(theme.heading, |b| b.style(theme));
            let gap = " ".repeat(GAP);
            [Span::styled(pad(text, block.cells), style), Span::raw(gap)]
        };
        Row::of(blocks.iter().flat_map(cell).collect())
    };
    (0..rows).map(row).collect()
}

#[cfg(test)]
mod tests {
    use super::{Become, Row, Theme, Word, blocks, in_order, list};

    fn word(text: &str, heard: &[&str]) -> Word {
        let heard = heard.iter().map(|h| (Become::Counted, (*h).to_owned()));
        Word {
            text: text.to_owned(),
            heard: heard.collect(),
        }
    }

    #[test]
    fn what_was_heard_begins_under_its_word() {
        let words = [
            word("dark blue", &["blue", "dark"]),
            word("no mark", &["none"]),
        ];
        let rows: Vec<String> = blocks(&words, Theme::mono(), 72)
            .iter()
            .map(Row::text)
            .collect();
        assert_eq!(rows.len(), 3);
        assert_eq!(
            rows[0].find("no mark"),
            rows[0].find("dark blue").map(|_| 11)
        );
        assert_eq!(rows[1].trim_end(), "✓ blue     ✓ none");
        // Where both do not fit, the second stands below the first.
        assert_eq!(blocks(&words, Theme::mono(), 12).len(), 3 + 1 + 2);
    }

    #[test]
    fn a_list_names_the_word_every_time() {
        let words = [word("dark blue", &["blue", "dark"])];
        let rows: Vec<String> = list(&words, Theme::mono(), 40)
            .iter()
            .map(Row::text)
            .collect();
        assert_eq!(rows, ["✓ dark blue → blue", "✓ dark blue → dark"]);
    }

    #[test]
    fn words_come_as_they_stand_in_the_line() {
        let given = vec![
            word("no mark", &[]),
            word("crazed, lustre", &[]),
            word("Blue", &[]),
        ];
        let texts: Vec<String> = in_order(given, "blue lustre crazed, no mark")
            .into_iter()
            .map(|w| w.text)
            .collect();
        assert_eq!(texts, ["Blue", "crazed, lustre", "no mark"]);
    }
}
