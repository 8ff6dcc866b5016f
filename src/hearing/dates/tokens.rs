//! A guess cut into words, numbers and joints. Any text gives tokens; nothing here can fail.
//!
//! Letters are folded as in marks and notes. How figures are written with letters run on to them
//! ("1880s", "19thC", "184X") is notation and stands here; words are the rule files'.

use super::words::DateWords;
use crate::hearing::fold::{letters, silent};

/// Longest guess read; the rest is left out.
const MOST_CHARS: usize = 400;

/// What a token is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sort {
    Word,
    /// Four figures.
    Year(i16),
    /// One or two figures, as in "1840-60".
    Short(i16),
    /// First year: "1880s", "184X".
    Decade(i16),
    /// "80s", "'80s", "eighties".
    ShortDecade(i16),
    /// First year: "1800s", "18XX".
    Hundred(i16),
    /// "19th", "nineteenth".
    Ordinal(i16),
    /// "C19", "19thC".
    Century(i16),
    /// "-", "/", "..": from one thing to the next.
    Joint,
    /// ".." standing for an open end.
    Dots,
    /// "+": that year and later.
    Later,
    Comma,
}

/// One token with its place in the guess.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Token {
    /// Folded.
    pub text: String,
    pub sort: Sort,
    /// Marked by `~`, `?`, `%` or `ish`.
    pub about: bool,
    /// Bytes, end not within.
    pub span: (usize, usize),
}

/// Cuts a guess up.
pub fn tokens(words: &DateWords, text: &str) -> Vec<Token> {
    let chars: Vec<(usize, char)> = text.char_indices().take(MOST_CHARS).collect();
    let end_of = |i: usize| chars.get(i).map_or_else(|| end(&chars), |c| c.0);
    let at = |i: usize| chars.get(i).map(|c| c.1);
    let mut out: Vec<Token> = Vec::new();
    let mut i = 0;
    while let Some(c) = at(i) {
        let start = i;
        i += 1;
        match c {
            c if c.is_alphanumeric() => {
                while at(i).is_some_and(|c| c.is_alphanumeric() || silent(c)) {
                    i += 1;
                }
                let run = folded(chars[start..i].iter().map(|c| c.1));
                push_run(words, &mut out, &run, (end_of(start), end_of(i)));
            }
            '~' | '?' | '%' => {
                if let Some(last) = out.last_mut() {
                    last.about = true;
                }
            }
            ',' | ';' => push(&mut out, ",", Sort::Comma, (end_of(start), end_of(i))),
            '.' if at(i) == Some('.') => {
                while at(i) == Some('.') {
                    i += 1;
                }
                let open = out.last().is_none_or(|t| t.sort == Sort::Joint)
                    || !at(i).is_some_and(|c| c.is_ascii_digit());
                let sort = if open { Sort::Dots } else { Sort::Joint };
                push(&mut out, "..", sort, (end_of(start), end_of(i)));
            }
            '/' => push(&mut out, "/", Sort::Joint, (end_of(start), end_of(i))),
            '-' | '\u{2010}'..='\u{2015}' | '\u{2212}' if joins(words, &out, &chars, start) => {
                let dash = if c == '-' { "-" } else { "–" };
                push(&mut out, dash, Sort::Joint, (end_of(start), end_of(i)));
            }
            '+' => push(&mut out, "+", Sort::Later, (end_of(start), end_of(i))),
            '&' => push(&mut out, "and", Sort::Word, (end_of(start), end_of(i))),
            _ => {}
        }
    }
    out
}

fn end(chars: &[(usize, char)]) -> usize {
    chars.last().map_or(0, |(at, c)| at + c.len_utf8())
}

fn folded(run: impl Iterator<Item = char>) -> String {
    let mut out = String::new();
    run.filter(|&c| !silent(c)).for_each(|c| {
        letters(c, &mut |folded| out.push(folded));
    });
    out
}

/// A dash joins two dates ("1840-60", "Victorian - Edwardian"); within a word ("pre-war",
/// "mid-1800s", "1850-ish") it says nothing.
fn joins(words: &DateWords, out: &[Token], chars: &[(usize, char)], dash: usize) -> bool {
    let Some(last) = out.last() else {
        return false;
    };
    let spaced = dash > 0 && chars[dash - 1].1.is_whitespace();
    let after = chars[dash + 1..]
        .iter()
        .map(|c| c.1)
        .skip_while(|c| c.is_whitespace() || silent(*c))
        .take_while(|c| c.is_alphabetic());
    let after = folded(after);
    spaced || (last.sort != Sort::Word && (after.is_empty() || words.after_dash.contains(&after)))
}

fn push(out: &mut Vec<Token>, text: &str, sort: Sort, span: (usize, usize)) {
    out.push(Token {
        text: text.to_owned(),
        sort,
        about: false,
        span,
    });
}

/// A run of letters and figures.
fn push_run(words: &DateWords, out: &mut Vec<Token>, run: &str, span: (usize, usize)) {
    if let Some(n) = words.ordinals.get(run) {
        return push(out, run, Sort::Ordinal(*n), span);
    }
    if let Some(n) = words.decades.get(run) {
        return push(out, run, Sort::ShortDecade(*n), span);
    }
    if let Some(rest) = words.run_on(run) {
        let figures: String = rest.chars().take_while(char::is_ascii_digit).collect();
        if figures.len() <= 2 {
            let century = figures.parse().unwrap_or(0);
            return push(out, run, Sort::Century(century), span);
        }
        push(out, &run[..run.len() - rest.len()], Sort::Word, span);
        return push_run(words, out, rest, span);
    }
    if !run.starts_with(|c: char| c.is_ascii_digit()) {
        return push(out, run, Sort::Word, span);
    }
    let figures: String = run.chars().take_while(char::is_ascii_digit).collect();
    let number: i16 = figures.parse().unwrap_or(-1);
    let sort = match (figures.len(), &run[figures.len()..]) {
        (4, "" | "ad" | "ce" | "ish") => Sort::Year(number),
        (4, "s" | "sish") if number % 100 == 0 => Sort::Hundred(number),
        (4, "s" | "sish") => Sort::Decade(number - number % 10),
        (3, "x" | "u") => Sort::Decade(number * 10),
        (2, "xx" | "uu") => Sort::Hundred(number * 100),
        (2, "s" | "sish") => Sort::ShortDecade(number - number % 10),
        (1..=2, "st" | "nd" | "rd" | "th") => Sort::Ordinal(number),
        (1..=2, "thc" | "stc" | "c" | "thcentury" | "thcent") => Sort::Century(number),
        (1..=2, "") => Sort::Short(number),
        _ => Sort::Word,
    };
    push(out, run, sort, span);
    if run.ends_with("ish")
        && let Some(last) = out.last_mut()
    {
        last.about = true;
    }
}

#[cfg(test)]
mod tests {
    use super::{DateWords, Sort, tokens};

    fn words() -> DateWords {
        let mut words = DateWords {
            run_on: vec!["circa".into(), "c".into()],
            after_dash: ["early".to_owned()].into(),
            ..DateWords::default()
        };
        words.ordinals.insert("nineteenth".into(), 19);
        words.decades.insert("eighties".into(), 80);
        words
    }

    #[test]
    fn numbers_and_joints_are_told_apart() {
        let words = words();
        let sorts = |text: &str| {
            let tokens = tokens(&words, text);
            tokens.iter().map(|t| t.sort).collect::<Vec<_>>()
        };
        assert_eq!(
            sorts("1840-60"),
            [Sort::Year(1840), Sort::Joint, Sort::Short(60)]
        );
        assert_eq!(sorts("pre-war"), [Sort::Word, Sort::Word]);
        assert_eq!(sorts("mid-1800s"), [Sort::Word, Sort::Hundred(1800)]);
        assert_eq!(sorts("184X"), [Sort::Decade(1840)]);
        assert_eq!(sorts("c1850"), [Sort::Word, Sort::Year(1850)]);
        assert_eq!(sorts("C19th"), [Sort::Century(19)]);
        assert_eq!(
            sorts("../1860"),
            [Sort::Dots, Sort::Joint, Sort::Year(1860)]
        );
        assert_eq!(sorts("1880's"), [Sort::Decade(1880)]);
        assert_eq!(sorts("1890+"), [Sort::Year(1890), Sort::Later]);
        assert_eq!(sorts("Eighties"), [Sort::ShortDecade(80)]);
        assert_eq!(
            sorts("nineteenth-early"),
            [Sort::Ordinal(19), Sort::Joint, Sort::Word]
        );
        assert_eq!(sorts("nineteenth-century"), [Sort::Ordinal(19), Sort::Word]);
    }

    /// A rule base without words still reads figures.
    #[test]
    fn without_words_figures_are_still_read() {
        let none = DateWords::default();
        let sorts: Vec<Sort> = tokens(&none, "1880s/c1890")
            .iter()
            .map(|t| t.sort)
            .collect();
        assert_eq!(sorts, [Sort::Decade(1880), Sort::Joint, Sort::Word]);
    }

    #[test]
    fn letters_are_folded_and_keep_their_place() {
        let tokens = tokens(&DateWords::default(), "Siècle’s  Écru");
        assert_eq!(tokens[0].text, "siecles");
        assert_eq!(tokens[1].text, "ecru");
        assert_eq!(tokens[1].span, (13, 18));
    }
}
