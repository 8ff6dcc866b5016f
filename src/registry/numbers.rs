//! Registered design numbers, 1884 on: number to year.
//!
//! The lists give the first number of each year. A month is interpolated as if numbers had been
//! used up evenly through the year: month = 1 + ⌊12 · (n − first) / (next − first)⌋, an estimate
//! (checked against dated numbers it can be a month off), so the dates given are the whole year.

use super::calendar::Date;
use super::corners::written;
use super::decoded::{DateNote, DateRange, Decoded, Lists, LookAgain, Problem, Why};
use super::tables::{Layout, NumberList, Registry};

/// More digits than any list has.
const MOST_DIGITS: usize = 9;

/// Decodes a number as read: digits, `?` for an unreadable one; commas, points and spaces are
/// skipped, and a letter that looks like a figure counts as unreadable.
pub fn decode(registry: &Registry, text: &str) -> Decoded {
    let mut out = Decoded::new(Some(Layout::Number), origin(registry));
    let digits = match digits(text) {
        Ok(digits) => digits,
        Err(problem) => {
            out.problems.push(problem);
            return out;
        }
    };
    for (i, digit) in digits.iter().enumerate() {
        if digit.is_none() {
            out.look_again.push(LookAgain::Figure {
                at: i + 1,
                of: digits.len(),
            });
        }
    }
    match exact(&digits) {
        Some(number) => one(registry, number, &mut out),
        None => several(registry, &digits, &mut out),
    }
    out
}

fn origin(registry: &Registry) -> String {
    let mut texts: Vec<&str> = Vec::new();
    for list in &registry.lists {
        if !texts.contains(&list.origin.text.as_str()) {
            texts.push(&list.origin.text);
        }
    }
    texts.join("; ")
}

fn digits(text: &str) -> Result<Vec<Option<u8>>, Problem> {
    let mut out = Vec::new();
    for c in text.trim().chars() {
        match c {
            '0'..='9' => out.push(Some(c as u8 - b'0')),
            '?' | 'O' | 'o' | 'I' | 'l' | 'i' | 'S' | 's' | 'B' => out.push(None),
            ',' | '.' | '\'' | ' ' => {}
            _ => {
                return Err(Problem::NotAFigure(if c.is_control() { '?' } else { c }));
            }
        }
        if out.len() > MOST_DIGITS {
            return Err(Problem::TooLong(MOST_DIGITS));
        }
    }
    if out.is_empty() {
        return Err(Problem::NoNumber);
    }
    Ok(out)
}

fn exact(digits: &[Option<u8>]) -> Option<u32> {
    digits
        .iter()
        .try_fold(0u32, |n, d| Some(n * 10 + u32::from((*d)?)))
}

/// A fully read number.
fn one(registry: &Registry, number: u32, out: &mut Decoded) {
    if number == 0 {
        out.problems.push(Problem::Zero);
        return;
    }
    let mut found: Vec<(i16, u8, &NumberList)> = Vec::new();
    for list in &registry.lists {
        let Some((year, first, last)) = list
            .spans()
            .find(|&(_, first, last)| first <= number && number <= last)
        else {
            continue;
        };
        let used = u64::from(number - first);
        let month = 1 + (12 * used / (u64::from(last - first) + 1)) as u8;
        found.push((year, month, list));
        out.why.push(Why::Listed {
            list: list.name.clone(),
            year,
            first,
            last,
            open: list.firsts.last().is_some_and(|l| l.1 == first),
        });
    }
    if found.is_empty() {
        out.problems.push(beyond(registry, number));
        return;
    }
    let differ = found.iter().any(|f| f.0 != found[0].0);
    let mut years: Vec<i16> = Vec::new();
    for &(year, month, list) in &found {
        if years.contains(&year) {
            continue;
        }
        years.push(year);
        let last_year = list.firsts.last().is_some_and(|l| l.0 == year);
        let note = DateNote::Estimate {
            month,
            year,
            lists: match (differ, found.len()) {
                (true, _) => Lists::Differ(list.name.clone()),
                (false, 1) => Lists::Only,
                (false, _) => Lists::Agree,
            },
            open_end: last_year && list.note.is_none(),
            note: list.note.clone(),
        };
        out.dates.push(DateRange {
            from: Date::first_of(year),
            to: Date::last_of(year),
            note: Some(note),
        });
    }
}

fn beyond(registry: &Registry, number: u32) -> Problem {
    let ends = || registry.lists.iter().map(|l| l.open_to);
    let below = ends().filter(|&n| n < number).max();
    let above = registry
        .lists
        .iter()
        .filter_map(|l| l.firsts.first().map(|f| f.1))
        .filter(|&n| n > number)
        .min();
    match (below, above) {
        (Some(below), Some(above)) => Problem::BetweenSeries {
            number,
            below,
            above,
        },
        _ => Problem::BeyondLists {
            number,
            newest: ends().max().unwrap_or(0),
        },
    }
}

/// A number with unreadable figures: every year in which such a number was given out.
fn several(registry: &Registry, digits: &[Option<u8>], out: &mut Decoded) {
    let mut years: Vec<i16> = Vec::new();
    for list in &registry.lists {
        for (year, first, last) in list.spans() {
            if next_like(digits, first.max(1)).is_some_and(|n| n <= last) {
                years.push(year);
            }
        }
    }
    years.sort_unstable();
    years.dedup();
    let shown = written(digits);
    if years.is_empty() {
        out.problems.push(Problem::NoneLike(shown));
        return;
    }
    for year in years {
        match out.dates.last_mut() {
            Some(run) if run.to.next() == Date::first_of(year) => run.to = Date::last_of(year),
            _ => out.dates.push(DateRange {
                from: Date::first_of(year),
                to: Date::last_of(year),
                note: Some(DateNote::AllLike(shown.clone())),
            }),
        }
    }
    out.why.push(Why::Unreadable {
        figures: out.look_again.len(),
        of: digits.len(),
    });
}

/// The smallest number ≥ `least` of exactly this many digits that looks like the pattern.
///
/// Tries to share ever shorter beginnings with `least`, then goes one up and fills with the
/// smallest figures.
fn next_like(digits: &[Option<u8>], least: u32) -> Option<u32> {
    let count = digits.len();
    let low = |i: usize| digits[i].unwrap_or(u8::from(i == 0 && count > 1));
    let least_digits = format!("{least:0count$}");
    if least_digits.len() > count {
        return None;
    }
    let bound: Vec<u8> = least_digits.bytes().map(|b| b - b'0').collect();
    let shared = (0..count)
        .take_while(|&i| match digits[i] {
            Some(d) => d == bound[i],
            None => bound[i] >= u8::from(i == 0 && count > 1),
        })
        .count();
    let number = |figures: Vec<u8>| figures.iter().fold(0u32, |n, &d| n * 10 + u32::from(d));
    if shared == count {
        return Some(least);
    }
    for keep in (0..=shared).rev() {
        let up = match digits[keep] {
            Some(d) => (d > bound[keep]).then_some(d),
            None => (bound[keep] < 9).then_some((bound[keep] + 1).max(low(keep))),
        };
        if let Some(up) = up {
            let mut figures = bound[..keep].to_vec();
            figures.push(up);
            figures.extend((keep + 1..count).map(low));
            return Some(number(figures));
        }
    }
    None
}
