//! A guess cut into words, numbers and joints. Any text gives tokens; nothing here can fail.

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
    Comma,
}

/// One token with its place in the guess.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Token {
    /// Lower case.
    pub text: String,
    pub sort: Sort,
    /// Marked by `~`, `?`, `%` or `ish`.
    pub about: bool,
    /// Bytes, end not within.
    pub span: (usize, usize),
}

/// Cuts a guess up.
pub fn tokens(text: &str) -> Vec<Token> {
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
                while at(i).is_some_and(|c| c.is_alphanumeric() || is_apostrophe(c)) {
                    i += 1;
                }
                let run: String = chars[start..i].iter().map(|c| c.1).collect();
                let run: String = run.to_lowercase().replace(is_apostrophe, "");
                push_run(&mut out, &run, (end_of(start), end_of(i)));
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
            '-' | '\u{2010}'..='\u{2015}' | '\u{2212}' if joins(&out, &chars, start) => {
                push(&mut out, "-", Sort::Joint, (end_of(start), end_of(i)));
            }
            '+' => push(&mut out, "onwards", Sort::Word, (end_of(start), end_of(i))),
            '&' => push(&mut out, "and", Sort::Word, (end_of(start), end_of(i))),
            _ => {}
        }
    }
    out
}

fn end(chars: &[(usize, char)]) -> usize {
    chars.last().map_or(0, |(at, c)| at + c.len_utf8())
}

fn is_apostrophe(c: char) -> bool {
    matches!(c, '\'' | '\u{2019}' | '\u{2018}' | '`')
}

/// A dash joins two dates ("1840-60", "Victorian - Edwardian"); within a word ("pre-war",
/// "mid-1800s", "1850-ish") it says nothing.
fn joins(out: &[Token], chars: &[(usize, char)], dash: usize) -> bool {
    let Some(last) = out.last() else {
        return false;
    };
    let spaced = dash > 0 && chars[dash - 1].1.is_whitespace();
    let after: String = chars[dash + 1..]
        .iter()
        .map(|c| c.1)
        .skip_while(|c| c.is_whitespace() || is_apostrophe(*c))
        .take_while(|c| c.is_alphabetic())
        .collect();
    spaced
        || (last.sort != Sort::Word
            && ["", "c", "ca", "circa", "early", "mid", "late"]
                .contains(&after.to_lowercase().as_str()))
}

fn push(out: &mut Vec<Token>, text: &str, sort: Sort, span: (usize, usize)) {
    out.push(Token {
        text: text.to_owned(),
        sort,
        about: false,
        span,
    });
}

const ORDINALS: [(&str, i16); 6] = [
    ("sixteenth", 16),
    ("seventeenth", 17),
    ("eighteenth", 18),
    ("nineteenth", 19),
    ("twentieth", 20),
    ("twentyfirst", 21),
];

const DECADES: [(&str, i16); 8] = [
    ("twenties", 20),
    ("thirties", 30),
    ("forties", 40),
    ("fifties", 50),
    ("sixties", 60),
    ("seventies", 70),
    ("eighties", 80),
    ("nineties", 90),
];

/// A run of letters and figures.
fn push_run(out: &mut Vec<Token>, run: &str, span: (usize, usize)) {
    let named = |table: &[(&str, i16)]| table.iter().find(|(w, _)| *w == run).map(|(_, n)| *n);
    if let Some(n) = named(&ORDINALS) {
        return push(out, run, Sort::Ordinal(n), span);
    }
    if let Some(n) = named(&DECADES) {
        return push(out, run, Sort::ShortDecade(n), span);
    }
    let letters = run.chars().take_while(|c| !c.is_ascii_digit()).count();
    if let Some(rest) = ["circa", "ca", "c"]
        .iter()
        .find_map(|p| run.strip_prefix(p))
        && rest.starts_with(|c: char| c.is_ascii_digit())
    {
        let figures: String = rest.chars().take_while(char::is_ascii_digit).collect();
        if figures.len() <= 2 {
            let century = figures.parse().unwrap_or(0);
            return push(out, run, Sort::Century(century), span);
        }
        push(out, "c", Sort::Word, span);
        return push_run(out, rest, span);
    }
    if letters > 0 {
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
    use super::{Sort, tokens};

    #[test]
    fn numbers_and_joints_are_told_apart() {
        let sorts = |text: &str| tokens(text).iter().map(|t| t.sort).collect::<Vec<_>>();
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
    }
}
