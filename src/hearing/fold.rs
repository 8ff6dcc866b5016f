//! Text to words that can be compared: case, accents and signs folded away, byte places kept.
//!
//! `?` is a letter that can't be read. `/` and a line feed begin a new line. Brackets that stand for
//! a blanked name, `[maker]`, are kept whole where the rule files list them. Other square brackets
//! are an editor's and are read through: `Eng[land]`.

/// What a word is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Nature {
    Letters,
    /// Figures, unreadable ones too.
    Number,
    /// A blanked name.
    Name,
}

/// One word of a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Word {
    /// Folded letters; `?` for one that can't be read.
    pub glyphs: Vec<char>,
    /// Bytes of the text, end not within.
    pub span: (usize, usize),
    pub nature: Nature,
    /// Line of the text, from 0.
    pub line: usize,
}

impl Word {
    /// The folded word as a string.
    pub fn folded(&self) -> String {
        self.glyphs.iter().collect()
    }
}

/// Letters and figures that are easily taken for one another count as one in a comparison.
pub fn class(c: char) -> char {
    match c {
        '0' => 'o',
        '1' | 'l' | '|' => 'i',
        '5' => 's',
        '8' => 'b',
        other => other,
    }
}

/// Splits and folds a text, all brackets read through.
pub fn words(text: &str) -> Vec<Word> {
    words_blanked(text, |_| false)
}

/// Splits and folds a text. `blanked` tells what within brackets, in small letters, stands for a
/// name that was left out.
pub fn words_blanked(text: &str, blanked: impl Fn(&str) -> bool) -> Vec<Word> {
    let mut out: Vec<Word> = Vec::new();
    let mut raw: Vec<(char, usize, usize)> = Vec::new();
    let mut line = 0;
    let mut skip_to = 0;
    for (at, c) in text.char_indices() {
        if at < skip_to {
            continue;
        }
        let end = at + c.len_utf8();
        if !c.is_ascii_alphanumeric()
            && let Some((sign, length)) = sign(&text[at..])
        {
            flush(&mut raw, line, &mut out);
            skip_to = at + length;
            out.push(Word {
                glyphs: sign.chars().collect(),
                span: (at, skip_to),
                nature: Nature::Letters,
                line,
            });
            continue;
        }
        if c == '['
            && let Some(inside) = bracketed(&text[at..])
            && blanked(&inside.trim().to_lowercase())
        {
            flush(&mut raw, line, &mut out);
            skip_to = at + inside.len() + 2;
            out.push(Word {
                glyphs: Vec::new(),
                span: (at, skip_to),
                nature: Nature::Name,
                line,
            });
            continue;
        }
        match c {
            '?' | '\u{fffd}' => raw.push(('?', at, end)),
            // An editor's brackets part no word either.
            c if silent(c) || c == '[' || c == ']' => {}
            c if letters(c, &mut |f| raw.push((f, at, end))) => {}
            _ => {
                flush(&mut raw, line, &mut out);
                if c == '/' || c == '\n' {
                    line += 1;
                }
            }
        }
    }
    flush(&mut raw, line, &mut out);
    out
}

/// Signs that stand for words, with their length in bytes.
fn sign(rest: &str) -> Option<(&'static str, usize)> {
    const SIGNS: [(&str, &str); 11] = [
        ("&", "and"),
        ("+", "and"),
        ("©", "©"),
        ("(c)", "©"),
        ("(C)", "©"),
        ("®", "®"),
        ("(r)", "®"),
        ("(R)", "®"),
        ("™", "™"),
        ("(TM)", "™"),
        ("№", "no"),
    ];
    SIGNS
        .iter()
        .find(|(sign, _)| rest.starts_with(sign))
        .map(|(sign, word)| (*word, sign.len()))
}

/// What stands within the bracket that `rest` begins with.
fn bracketed(rest: &str) -> Option<&str> {
    let mut near = rest.char_indices().take(24);
    let close = near.find(|(_, c)| *c == ']').map(|(i, _)| i)?;
    rest.get(1..close)
}

/// Dropped without parting a word: apostrophes, soft hyphens, accents set beside their letter.
pub fn silent(c: char) -> bool {
    matches!(
        c,
        '\'' | '’' | '‘' | 'ʼ' | '´' | '`' | '\u{ad}' | '\u{300}'..='\u{36f}'
    )
}

/// The words of a phrase as rule files write it: letters and figures folded, `&` an "and", the rest
/// gaps. Unlike `words` it does not part figures from letters.
pub fn plain(phrase: &str) -> Vec<String> {
    let mut out = vec![String::new()];
    for c in phrase.chars().filter(|&c| !silent(c)) {
        let mut part = |folded| {
            if let Some(last) = out.last_mut() {
                last.push(folded);
            }
        };
        if c == '&' {
            out.extend(["and".to_owned(), String::new()]);
        } else if !letters(c, &mut part) {
            out.push(String::new());
        }
    }
    out.retain(|word| !word.is_empty());
    out
}

/// Gives the folded letters of `c`; false when it is neither letter nor figure.
pub fn letters(c: char, give: &mut impl FnMut(char)) -> bool {
    let folded = match c {
        'a'..='z' | '0'..='9' => {
            give(c);
            return true;
        }
        'A'..='Z' => {
            give(c.to_ascii_lowercase());
            return true;
        }
        'À'..='Å' | 'à'..='å' | 'ā' | 'ă' | 'ą' | 'ª' => "a",
        'Æ' | 'æ' => "ae",
        'Ç' | 'ç' | 'č' | 'Č' | 'ć' => "c",
        'ď' | 'ᵈ' | 'ð' => "d",
        'È'..='Ë' | 'è'..='ë' | 'ě' | 'ē' | 'ę' | 'ᵉ' => "e",
        'Ì'..='Ï' | 'ì'..='ï' | 'ī' | 'ı' => "i",
        'ł' | 'Ł' => "l",
        'Ñ' | 'ñ' | 'ń' | 'ň' | 'ⁿ' => "n",
        'Ò'..='Ö' | 'ò'..='ö' | 'Ø' | 'ø' | 'º' | '°' | 'ᵒ' | 'ō' => "o",
        'Œ' | 'œ' => "oe",
        'ř' | 'ʳ' => "r",
        'ß' => "ss",
        'š' | 'Š' | 'ś' | 'ˢ' => "s",
        'ᵗ' | 'ť' => "t",
        'Ù'..='Ü' | 'ù'..='ü' | 'ů' | 'ū' => "u",
        'Ý' | 'ý' | 'ÿ' => "y",
        'ž' | 'Ž' | 'ź' | 'ż' => "z",
        'ﬁ' => "fi",
        'ﬂ' => "fl",
        '¹' => "1",
        '²' => "2",
        '³' => "3",
        '⁰' => "0",
        '⁴' => "4",
        '⁵' => "5",
        '⁶' => "6",
        '⁷' => "7",
        '⁸' => "8",
        '⁹' => "9",
        c if c.is_alphanumeric() => {
            c.to_lowercase().for_each(give);
            return true;
        }
        _ => return false,
    };
    folded.chars().for_each(give);
    true
}

/// Turns a run of letters and figures into words: `Rd331746` is two, `STAFF0RD` is one.
fn flush(raw: &mut Vec<(char, usize, usize)>, line: usize, out: &mut Vec<Word>) {
    if raw.is_empty() {
        return;
    }
    let run = std::mem::take(raw);
    let figure = |i: usize| run[i].0.is_ascii_digit();
    let open = |i: usize| figure(i) || run[i].0 == '?';
    let head = (0..run.len()).take_while(|&i| !open(i)).count();
    let tail_is_number = head > 0
        && (head..run.len()).all(open)
        && (head..run.len()).filter(|&i| figure(i)).count() >= 2;
    let front = (0..run.len()).take_while(|&i| figure(i)).count();
    let tail_is_word = front >= 2 && front < run.len() && (front..run.len()).all(|i| !figure(i));
    let cut = if tail_is_number {
        head
    } else if tail_is_word && !(front..run.len()).all(open) {
        front
    } else {
        0
    };
    let parts = [&run[..cut], &run[cut..]];
    for part in parts.into_iter().filter(|p| !p.is_empty()) {
        let figures = part.iter().filter(|g| g.0.is_ascii_digit()).count();
        let letters = part
            .iter()
            .filter(|g| !g.0.is_ascii_digit() && g.0 != '?')
            .count();
        out.push(Word {
            glyphs: part.iter().map(|g| g.0).collect(),
            span: (part[0].1, part[part.len() - 1].2),
            nature: if figures > letters {
                Nature::Number
            } else {
                Nature::Letters
            },
            line,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::{Word, plain, words};

    #[test]
    fn a_phrase_of_a_rule_file_keeps_figures_and_letters_together() {
        assert_eq!(plain("Fin de Siècle"), ["fin", "de", "siecle"]);
        assert_eq!(plain("20th-century"), ["20th", "century"]);
        assert_eq!(plain("Arts & Crafts"), ["arts", "and", "crafts"]);
        assert_eq!(plain("isn't"), ["isnt"]);
        assert!(plain(" (--) ").is_empty());
    }

    #[test]
    fn the_words_of_a_mark_part_figures_from_letters() {
        let folded: Vec<String> = words("Rd331746 STAFF0RD 20th")
            .iter()
            .map(Word::folded)
            .collect();
        assert_eq!(folded, ["rd", "331746", "staff0rd", "20", "th"]);
    }
}
