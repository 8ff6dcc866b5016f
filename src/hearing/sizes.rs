//! Measures in a line: "10 inch plate", "9.5 inches", "26cm", `8"`, "twenty one inches".

use std::ops::Range;

use super::phrases::Line;

/// Millimetres with the words they stand in.
pub(super) fn measures(line: &Line) -> Vec<(Range<usize>, f64)> {
    let mut out = Vec::new();
    let mut at = 0;
    while at < line.words.len() {
        match measure(line, at) {
            Some((end, mm)) => {
                out.push((at..end, mm));
                at = end;
            }
            None => at += 1,
        }
    }
    out
}

fn measure(line: &Line, at: usize) -> Option<(usize, f64)> {
    let (word, mut end) = match decimals(line, at) {
        Some(more) => (format!("{}.{more}", line.word(at)?), at + 2),
        None => (line.word(at)?.to_owned(), at + 1),
    };
    let unit = |word: &str| line.ear.units.get(word).map(|mm| f64::from(*mm) / 10.0);
    // "7in" in one word
    let figure = |c: &char| c.is_ascii_digit() || *c == '.';
    let digits = word.chars().take_while(figure).count();
    if digits > 0 && digits < word.len() {
        let number: f64 = word[..digits].parse().ok()?;
        return Some((end, number * unit(&word[digits..])?));
    }
    let mut number = match word.parse::<f64>() {
        Ok(number) => number,
        Err(_) => f64::from(*line.ear.numbers.get(&word)?),
    };
    if let Some(more) = line.word(end).and_then(|w| line.ear.numbers.get(w))
        && number >= 20.0
        && *more < 10
    {
        number += f64::from(*more);
        end += 1;
    }
    if let Some(each) = line.word(end).and_then(unit) {
        return Some((end + 1, number * each));
    }
    let inches = line.ear.units.get("inch")?;
    let rest = line.text[line.words[end - 1].span.1..].trim_start();
    rest.starts_with(['"', '”', '″'])
        .then(|| (end, number * f64::from(*inches) / 10.0))
}

/// The word after a number that is its decimals: in "9.5in" that is "5in".
fn decimals<'l>(line: &'l Line, at: usize) -> Option<&'l str> {
    let figures = |word: &str| word.bytes().all(|b| b.is_ascii_digit());
    let (whole, more) = (line.word(at)?, line.word(at + 1)?);
    let gap = &line.text[line.words[at].span.1..line.words[at + 1].span.0];
    let decimal = figures(whole) && more.starts_with(|c: char| c.is_ascii_digit());
    (decimal && matches!(gap, "." | ",")).then_some(more)
}
