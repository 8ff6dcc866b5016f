//! Text to lines of a given width, measured in cells as a terminal shows them.

use unicode_width::{UnicodeWidthChar, UnicodeWidthStr};

/// Width in cells.
pub(crate) fn width(text: &str) -> usize {
    text.width()
}

/// Text that cannot steer a terminal: control characters, and the marks that turn the direction
/// of writing round, become U+FFFD.
pub(crate) fn clean(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => {
                '\u{fffd}'
            }
            c if c.is_control() => '\u{fffd}',
            c => c,
        })
        .collect()
}

/// The text cut to `most` cells, with `…` where something was cut.
pub(crate) fn fit(text: &str, most: usize) -> String {
    let text = clean(text);
    if text.width() <= most {
        return text;
    }
    let mut out = head(&text, most.saturating_sub(1)).to_owned();
    if most > 0 {
        out.push('…');
    }
    out
}

/// The text cut or filled with spaces to exactly `cells`.
pub(crate) fn pad(text: &str, cells: usize) -> String {
    let mut out = fit(text, cells);
    out.extend(std::iter::repeat_n(' ', cells.saturating_sub(out.width())));
    out
}

/// The longest beginning of at most `most` cells.
fn head(text: &str, most: usize) -> &str {
    let mut used = 0;
    for (at, c) in text.char_indices() {
        used += c.width().unwrap_or(0);
        if used > most {
            return &text[..at];
        }
    }
    text
}

/// Breaks a text between words; a word longer than a line is cut. At least one line.
pub(crate) fn wrap(text: &str, most: usize) -> Vec<String> {
    let most = most.max(1);
    // A number keeps its sign.
    let text = clean(text).replace(" %", "\u{a0}%");
    let mut lines = vec![String::new()];
    for word in text.split(|c: char| c.is_whitespace() && c != '\u{a0}') {
        let word = word.replace('\u{a0}', " ");
        let mut word = word.as_str();
        if word.is_empty() {
            continue;
        }
        let free =
            |line: &String| most.saturating_sub(line.width() + usize::from(!line.is_empty()));
        if let Some(last) = lines.last_mut()
            && word.width() <= free(last)
        {
            if !last.is_empty() {
                last.push(' ');
            }
            last.push_str(word);
            continue;
        }
        loop {
            let cut = match head(word, most) {
                // A letter wider than the line: it goes where it can.
                "" => word.chars().next().map_or("", |c| &word[..c.len_utf8()]),
                cut => cut,
            };
            match lines.last_mut() {
                Some(last) if last.is_empty() => last.push_str(cut),
                _ => lines.push(cut.to_owned()),
            }
            word = &word[cut.len()..];
            if word.is_empty() {
                break;
            }
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::{clean, fit, pad, width, wrap};

    #[test]
    fn widths_are_cells_not_letters() {
        assert_eq!(fit("青花青花", 5), "青花…");
        assert_eq!(pad("e\u{301}te\u{301}", 5), "e\u{301}te\u{301}  ");
        assert_eq!(width(&pad("青花", 7)), 7);
        assert_eq!(fit("blue", 0), "");
    }

    #[test]
    fn wraps_between_words_and_cuts_what_is_too_long() {
        assert_eq!(
            wrap("blue print under glaze", 11),
            ["blue print", "under glaze"]
        );
        assert_eq!(wrap("abcdefgh", 3), ["abc", "def", "gh"]);
        assert_eq!(wrap("a 青花 b", 1), ["a", "青", "花", "b"]);
        assert_eq!(wrap("", 5), [""]);
        assert_eq!(wrap("France 8 %, Japan", 9), ["France", "8 %,", "Japan"]);
        for most in 2..30 {
            for line in wrap(
                "Hold the loupe, très près: 青花瓷 is said 🍽️ of plates.",
                most,
            ) {
                assert!(width(&line) <= most, "{most}: {line}");
            }
        }
    }

    #[test]
    fn nothing_steers_the_terminal() {
        assert_eq!(
            clean("a\u{1b}[31mb\u{7}\u{202e}c"),
            "a\u{fffd}[31mb\u{fffd}\u{fffd}c"
        );
        assert_eq!(wrap("a\u{1b}b\nc", 9), ["a\u{fffd}b\u{fffd}c"]);
    }
}
