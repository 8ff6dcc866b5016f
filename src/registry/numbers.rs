//! Registered design numbers, 1884 on: number to year.
//!
//! The lists give the first number of each year. A month is interpolated as if numbers had been
//! used up evenly through the year: month = 1 + ⌊12 · (n − first) / (next − first)⌋, an estimate
//! (checked against dated numbers it can be a month off), so the dates given are the whole year.

use super::calendar::{Date, DateRange, month_name};
use super::tables::{Decoded, Layout, NumberList, Registry};

/// More digits than any list has.
const MOST_DIGITS: usize = 9;

/// Decodes a number as read: digits, `?` for an unreadable one; commas, points and spaces are
/// skipped, and a letter that looks like a figure counts as unreadable.
pub fn decode(registry: &Registry, text: &str) -> Decoded {
    let mut out = Decoded {
        layout: Some(Layout::Number),
        class: None,
        dates: Vec::new(),
        look_again: Vec::new(),
        problem: None,
        why: Vec::new(),
        origin: origin(registry),
    };
    let digits = match digits(text) {
        Ok(digits) => digits,
        Err(problem) => {
            out.problem = Some(problem);
            return out;
        }
    };
    for (i, digit) in digits.iter().enumerate() {
        if digit.is_none() {
            out.look_again
                .push(format!("digit {} of {}", i + 1, digits.len()));
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

fn digits(text: &str) -> Result<Vec<Option<u8>>, String> {
    let mut out = Vec::new();
    for c in text.trim().chars() {
        match c {
            '0'..='9' => out.push(Some(c as u8 - b'0')),
            '?' | 'O' | 'o' | 'I' | 'l' | 'i' | 'S' | 's' | 'B' => out.push(None),
            ',' | '.' | '\'' | ' ' => {}
            _ => {
                let shown = if c.is_control() { '?' } else { c };
                return Err(format!(
                    "'{shown}' is no figure: give the number in figures, with ? for one that can't be read"
                ));
            }
        }
        if out.len() > MOST_DIGITS {
            return Err(format!(
                "more than {MOST_DIGITS} figures: no registered number is so long"
            ));
        }
    }
    if out.is_empty() {
        return Err("no number is given".into());
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
        out.problem = Some("numbers began at 1, in January 1884".into());
        return;
    }
    let mut found: Vec<(i16, String, bool, &NumberList)> = Vec::new();
    for list in &registry.lists {
        let Some((year, first, last)) = list
            .spans()
            .find(|&(_, first, last)| first <= number && number <= last)
        else {
            continue;
        };
        let used = u64::from(number - first);
        let month = 1 + (12 * used / (u64::from(last - first) + 1)) as u8;
        found.push((
            year,
            format!("about {} {year}, an estimate", month_name(month)),
            list.firsts.last().is_some_and(|l| l.0 == year),
            list,
        ));
        out.why.push(format!(
            "{}: {year} ran from {first} to {}{last}.",
            list.name,
            if list.firsts.last().is_some_and(|l| l.1 == first) {
                "at most about "
            } else {
                ""
            }
        ));
    }
    if found.is_empty() {
        out.problem = Some(beyond(registry, number));
        return;
    }
    let differ = found.iter().any(|f| f.0 != found[0].0);
    let listed = found.len() > 1;
    let mut years: Vec<i16> = Vec::new();
    for (year, month, last_year, list) in &found {
        if years.contains(year) {
            continue;
        }
        years.push(*year);
        let mut note = format!("{month} (numbers spread evenly over the year)");
        if differ {
            note = format!("{}: {note}; the published lists differ", list.name);
        } else if listed {
            note = format!("{note}; both published lists give {year}");
        }
        if *last_year && list.note.is_none() {
            note.push_str("; last year of the list, its end is not known");
        }
        if let Some(more) = &list.note {
            note = format!("{note}; {more}");
        }
        out.dates.push(DateRange {
            from: Date::first_of(*year),
            to: Date::last_of(*year),
            note: Some(note),
        });
    }
}

fn beyond(registry: &Registry, number: u32) -> String {
    let newest = registry.lists.iter().map(|l| l.open_to).max().unwrap_or(0);
    let below = registry
        .lists
        .iter()
        .map(|l| l.open_to)
        .filter(|&n| n < number)
        .max();
    let above = registry
        .lists
        .iter()
        .filter_map(|l| l.firsts.first().map(|f| f.1))
        .filter(|&n| n > number)
        .min();
    match (below, above) {
        (Some(below), Some(above)) => format!(
            "{number} falls between two series: the older list ends about {below}, the newer begins at {above}; look at the figures again"
        ),
        _ => format!(
            "{number} is beyond the lists, which end about {newest}: later than they go, or not a British registered design"
        ),
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
    let shown: String = digits
        .iter()
        .map(|d| d.map_or('?', |d| char::from(b'0' + d)))
        .collect();
    if years.is_empty() {
        out.problem = Some(format!(
            "no number like {shown} is in the lists: later than they go, or not a British registered design"
        ));
        return;
    }
    let note =
        format!("all years in which a number like {shown} was given out, by every published list");
    for year in years {
        match out.dates.last_mut() {
            Some(run) if run.to.next() == Date::first_of(year) => run.to = Date::last_of(year),
            _ => out.dates.push(DateRange {
                from: Date::first_of(year),
                to: Date::last_of(year),
                note: Some(note.clone()),
            }),
        }
    }
    out.why.push(format!(
        "{} unreadable of {} figures.",
        out.look_again.len(),
        digits.len()
    ));
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
