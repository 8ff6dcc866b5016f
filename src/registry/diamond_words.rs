//! Sentences about a diamond: how it was read, and why no day fits it.

use super::calendar::{days_in, month_name};
use super::corners::{Corner, CornerMeaning, Corners, NAMES, can_be, parts, written};
use super::tables::{Layout, Registry};

/// The layout's name in a sentence.
pub(super) fn ordinal(layout: Layout) -> &'static str {
    match layout {
        Layout::Second => "second",
        _ => "first",
    }
}

/// Which layout it is and what each corner means.
pub(super) fn explain(layout: Layout, corners: &Corners) -> String {
    let read: Vec<String> = parts(layout)
        .iter()
        .enumerate()
        .map(|(i, part)| {
            let shown = match &corners.0[i] {
                Corner::Unread => "?".to_owned(),
                Corner::Letter(c) => c.to_string(),
                Corner::Number(d) => written(d),
                Corner::Other(t) => t.clone(),
            };
            format!("{} {} = {}", NAMES[i], shown, part.name())
        })
        .collect();
    let rule = match layout {
        Layout::Second => {
            "Letters at right and bottom, numbers at top and left: the second layout, 1868-1883"
        }
        _ => "Letters at top and left, numbers at right and bottom: the first layout, 1842-1867",
    };
    format!("{rule}; {}.", read.join(", "))
}

/// What is wrong with corner `i`, where a layout wants `part`.
pub(super) fn misfit(corners: &Corners, i: usize, part: CornerMeaning) -> String {
    let name = NAMES[i];
    match &corners.0[i] {
        Corner::Letter(c) => {
            let like = match c {
                'I' | 'L' => ", perhaps the figure 1",
                'O' | 'D' | 'Q' => ", perhaps the figure 0",
                'S' => ", perhaps the figure 5",
                'B' => ", perhaps the figure 8",
                'Z' => ", perhaps the figure 2",
                _ => "",
            };
            format!(
                "{name} holds the letter {c} where a number ({}) belongs{like}",
                part.name()
            )
        }
        Corner::Number(d) => {
            let shown = written(d);
            let like = match shown.as_str() {
                "1" => ", perhaps the letter I",
                "0" => ", perhaps the letter O or D",
                "5" => ", perhaps the letter S",
                "8" => ", perhaps the letter B",
                _ => "",
            };
            format!(
                "{name} holds the number {shown} where a letter ({}) belongs{like}",
                part.name()
            )
        }
        Corner::Other(t) => format!("{name} holds '{t}', neither one letter nor a number"),
        Corner::Unread => String::new(),
    }
}

/// Why no day fits: the sentence, and the corners to look at again.
pub(super) fn impossible(
    registry: &Registry,
    corners: &Corners,
    layout: Layout,
) -> (String, Vec<String>) {
    let (year_at, year) = corners.at(layout, CornerMeaning::Year);
    let (month_at, month) = corners.at(layout, CornerMeaning::Month);
    let (day_at, day) = corners.at(layout, CornerMeaning::Day);
    let years = registry.period(layout).map_or(&[][..], |p| &p.years);
    let odd_with = |c: char| {
        registry
            .odd_days
            .iter()
            .find(|o| o.layout == layout && o.year_letter == c)
    };
    let mut wrong = Vec::new();
    let mut again = Vec::new();
    if let Corner::Letter(c) = year
        && years.iter().all(|y| y.0 != *c)
        && odd_with(*c).is_none()
    {
        wrong.push(format!(
            "{c} ({year_at}) was never a year letter of the {} layout",
            ordinal(layout)
        ));
        again.push(year_at.to_owned());
    }
    if let Corner::Letter(c) = month
        && registry.months.iter().all(|m| m.letter != *c)
    {
        wrong.push(format!("{c} ({month_at}) was never a month letter"));
        again.push(month_at.to_owned());
    }
    let day_shown = match day {
        Corner::Number(digits) => {
            if (1..=31).all(|n| !can_be(digits, n)) {
                wrong.push(format!("no month has a day {} ({day_at})", written(digits)));
                again.push(day_at.to_owned());
            }
            written(digits)
        }
        _ => "?".to_owned(),
    };
    if wrong.is_empty() {
        let year_read = match year {
            Corner::Letter(c) => Some(*c),
            _ => None,
        };
        let known_year = year_read
            .and_then(|c| years.iter().find(|y| y.0 == c))
            .map(|y| y.1);
        let odd = year_read
            .filter(|_| known_year.is_none())
            .and_then(odd_with);
        let month_number = match month {
            Corner::Letter(c) => registry.months.iter().find(|m| m.letter == *c),
            _ => None,
        };
        if let Some(odd) = odd {
            wrong.push(format!(
                "year letter {} of the {} layout is known only with month letter {} and days {} to {}",
                odd.year_letter,
                ordinal(layout),
                odd.month_letter,
                odd.from,
                odd.to
            ));
            again.extend([month_at.to_owned(), day_at.to_owned(), year_at.to_owned()]);
        } else if let Some(m) = month_number {
            let year_words = known_year.map_or(String::new(), |y| format!(" {y}"));
            let most = known_year.map_or(29, |y| days_in(y, m.month));
            let most = if m.month == 2 {
                most
            } else {
                days_in(2001, m.month)
            };
            wrong.push(format!(
                "day {day_shown} does not exist: {}{year_words} has {most} days",
                month_name(m.month)
            ));
            again.extend([day_at.to_owned(), month_at.to_owned()]);
        } else {
            wrong.push("no day of the period fits these corners together".to_owned());
            again.extend([day_at.to_owned(), month_at.to_owned(), year_at.to_owned()]);
        }
    }
    (wrong.join("; "), again)
}
