//! Labels within a picture: how wide a text can be, and where it is broken.
//!
//! Nobody knows which typeface a reader has. Widths are bounds from above: those of DejaVu Sans, one of
//! the widest in common use (from memory, rounded up), so that what fits here fits everywhere.

/// Width of a text at a height of letters, both in the picture's units.
pub(super) fn width(text: &str, size: f64) -> f64 {
    size * text.chars().map(em).sum::<f64>()
}

/// Width of a character, in heights of letters.
fn em(c: char) -> f64 {
    match c {
        'f' | 'i' | 'j' | 'l' | 'r' | 't' | 'I' | ' ' => 0.42,
        '.' | ',' | ':' | ';' | '\'' | '|' | '!' | '-' | '/' | '(' | ')' | '[' | ']' => 0.42,
        'm' | 'w' | 'M' | 'W' | '@' | '%' | '—' | '…' => 1.0,
        'a'..='z' | '0'..='9' | '–' | '’' | '‘' => 0.64,
        c if c.is_ascii() => 0.84,
        // Accented letters of Latin writing.
        c if c.is_alphabetic() && c < '\u{250}' => 1.0,
        // Full-width writing and pictures.
        _ => 1.4,
    }
}

/// The text in lines no wider than `room`, broken at blanks, at most `most` of them; what is left over
/// is cut and marked with "…".
pub(super) fn lines(text: &str, size: f64, room: f64, most: usize) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        if let Some(line) = out.last_mut() {
            let longer = format!("{line} {word}");
            if width(&longer, size) <= room {
                *line = longer;
                continue;
            }
        }
        if out.len() == most {
            let last = out.pop().unwrap_or_default();
            out.push(cut(&format!("{last} {word}"), size, room));
            return out;
        }
        out.push(match width(word, size) <= room {
            true => word.to_owned(),
            false => cut(word, size, room),
        });
    }
    out
}

/// As much of the text as there is room for, with "…" after it.
fn cut(text: &str, size: f64, room: f64) -> String {
    let mut out = String::new();
    for c in text.chars() {
        let longer = format!("{out}{c}");
        if width(&longer, size) + width("…", size) > room {
            break;
        }
        out = longer;
    }
    out.truncate(out.trim_end().len());
    out + "…"
}

#[cfg(test)]
mod tests {
    use super::{lines, width};

    #[test]
    fn lines_fit_and_lose_nothing_unmarked() {
        let text = "Stilt marks: three groups of points under the rim";
        let two = lines(text, 11.0, 200.0, 2);
        assert_eq!(two.join(" "), text);
        assert_eq!(two.len(), 2, "{two:?}");
        for text in [
            text,
            "a",
            "",
            "Wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww",
            "藍 flow",
        ] {
            for most in [1, 2] {
                let cut = lines(text, 11.0, 90.0, most);
                assert!(cut.len() <= most, "{cut:?}");
                assert!(cut.iter().all(|l| width(l, 11.0) <= 90.0), "{cut:?}");
                let whole = cut.join(" ") == text;
                assert!(
                    whole || cut.last().is_some_and(|l| l.ends_with('…')),
                    "{cut:?}"
                );
            }
        }
    }
}
