//! The registration diamond, both ways.
//!
//! Decoding walks every day of a layout's period and keeps the days whose mark could look like
//! the corners read: some ten thousand comparisons, and obviously right. What no day fits is
//! explained instead of guessed at.

use super::calendar::{Date, DateRange, days_in, month_name};
use super::corners::{Corner, Corners, NAMES, Part, can_be, parts, written};
use super::registry::{Decoded, Layout, OddDays, Registry};

/// Decodes "top,right,bottom,left". `class` is the numeral in the circle, if it can be read.
pub fn decode(registry: &Registry, text: &str, class: Option<&str>) -> Decoded {
    let mut out = Decoded {
        layout: None,
        class: None,
        dates: Vec::new(),
        look_again: Vec::new(),
        problem: None,
        why: Vec::new(),
        origin: registry.diamond_origin.text.clone(),
    };
    let class_problem = read_class(registry, class, &mut out);
    match Corners::read(text) {
        Err(problem) => out.problem = Some(problem),
        Ok(corners) => decode_corners(registry, &corners, &mut out),
    }
    out.problem = match (out.problem, class_problem) {
        (Some(a), Some(b)) => Some(format!("{a}; {b}")),
        (a, b) => a.or(b),
    };
    out
}

/// The corners a design registered on `day` got, with a parcel number; class for ceramics.
/// `None` outside the two periods.
pub fn encode(registry: &Registry, day: Date, parcel: u8) -> Option<[String; 4]> {
    let period = registry
        .periods
        .iter()
        .find(|p| p.from <= day && day <= p.to)?;
    let (year, month) = match odd(registry, period.layout, day) {
        Some(odd) => (odd.year_letter, odd.month_letter),
        None => {
            let year = period.years.iter().find(|y| y.1 == day.year())?.0;
            let month = registry.months.iter().find(|m| m.month == day.month())?;
            (year, month.letter)
        }
    };
    Some(parts(period.layout).map(|part| match part {
        Part::Year => year.to_string(),
        Part::Month => month.to_string(),
        Part::Day => day.day().to_string(),
        Part::Parcel => parcel.to_string(),
    }))
}

fn odd(registry: &Registry, layout: Layout, day: Date) -> Option<&OddDays> {
    registry
        .odd_days
        .iter()
        .find(|o| o.layout == layout && o.from <= day && day <= o.to)
}

fn read_class(registry: &Registry, class: Option<&str>, out: &mut Decoded) -> Option<String> {
    let class = class.map(|c| c.trim().to_ascii_uppercase())?;
    if class.chars().all(|c| c == '?') {
        return None;
    }
    let Some(known) = registry.classes.iter().find(|c| c.numeral == class) else {
        let shown: String = class.chars().filter(|c| !c.is_control()).take(20).collect();
        return Some(format!(
            "'{shown}' is no class: classes run from I to XIII, ceramics are {}",
            registry.ceramics
        ));
    };
    out.class = Some(known.numeral.clone());
    if known.numeral == registry.ceramics {
        return None;
    }
    let slip = if known.numeral == "VI" {
        ", and VI is an easy misreading of it"
    } else {
        ""
    };
    Some(format!(
        "class {} is {}: pottery and porcelain are class {}{slip}",
        known.numeral, known.goods, registry.ceramics
    ))
}

fn decode_corners(registry: &Registry, corners: &Corners, out: &mut Decoded) {
    let both = [Layout::First, Layout::Second];
    if corners.blank() {
        out.why.push("No corner can be read, so the mark may be of either layout; the right-hand corner tells: a number there is the first layout, a letter the second.".into());
        out.look_again = ["right", "top", "bottom", "left"]
            .map(str::to_owned)
            .to_vec();
        out.dates = both
            .iter()
            .flat_map(|&l| fitting(registry, corners, l))
            .collect();
        return;
    }
    let misfits = both.map(|l| corners.misfits(l));
    let fits: Vec<usize> = (0..2).filter(|&i| misfits[i].is_empty()).collect();
    let nearest = if misfits[0].len() <= misfits[1].len() {
        0
    } else {
        1
    };
    match fits.as_slice() {
        [i] => {
            out.layout = Some(both[*i]);
            out.why.push(explain(both[*i], corners));
        }
        _ if misfits[0].len() != misfits[1].len() => {
            let layout = both[nearest];
            out.layout = Some(layout);
            out.look_again = misfits[nearest].iter().map(|m| NAMES[m.0].into()).collect();
            let wrong: Vec<String> = misfits[nearest]
                .iter()
                .map(|&(i, part)| misfit(corners, i, part))
                .collect();
            out.problem = Some(format!(
                "{} (the other corners are of the {} layout)",
                wrong.join("; "),
                ordinal(layout)
            ));
            return;
        }
        _ => {
            out.look_again = NAMES
                .iter()
                .zip(&corners.0)
                .filter(|(_, c)| **c != Corner::Unread)
                .map(|(n, _)| (*n).to_owned())
                .collect();
            out.problem = Some("the corners fit neither layout: 1842-1867 has letters at top and left, 1868-1883 at right and bottom, and numbers at the other two".into());
            return;
        }
    }
    let Some(layout) = out.layout else { return };
    out.dates = fitting(registry, corners, layout);
    if out.dates.is_empty() {
        let (problem, again) = impossible(registry, corners, layout);
        out.problem = Some(problem);
        out.look_again = again;
        return;
    }
    // The year narrows most, the day least; a parcel number narrows nothing.
    for part in [Part::Year, Part::Month, Part::Day] {
        let (name, corner) = corners.at(layout, part);
        let unread = match corner {
            Corner::Unread => true,
            Corner::Number(digits) => digits.contains(&None),
            _ => false,
        };
        if unread {
            out.look_again.push(name.to_owned());
        }
    }
}

fn ordinal(layout: Layout) -> &'static str {
    match layout {
        Layout::Second => "second",
        _ => "first",
    }
}

fn explain(layout: Layout, corners: &Corners) -> String {
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

fn misfit(corners: &Corners, i: usize, part: Part) -> String {
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

/// Runs of days whose mark could look like this.
fn fitting(registry: &Registry, corners: &Corners, layout: Layout) -> Vec<DateRange> {
    let Some(period) = registry.period(layout) else {
        return Vec::new();
    };
    let letter_is = |part: Part, letter: char| match corners.at(layout, part).1 {
        Corner::Unread => true,
        Corner::Letter(c) => *c == letter,
        _ => false,
    };
    let day_is = |day: u8| match corners.at(layout, Part::Day).1 {
        Corner::Unread => true,
        Corner::Number(digits) => can_be(digits, day),
        _ => false,
    };
    let mut runs: Vec<DateRange> = Vec::new();
    let mut day = period.from;
    while day <= period.to {
        if day_is(day.day())
            && let Some(note) = reading(registry, layout, day, &letter_is)
        {
            match runs.last_mut() {
                Some(run) if run.to.next() == day && run.note == note => run.to = day,
                _ => runs.push(DateRange {
                    from: day,
                    to: day,
                    note,
                }),
            }
        }
        day = day.next();
    }
    runs
}

/// `Some(note)` when a mark of this day can show the letters read.
fn reading(
    registry: &Registry,
    layout: Layout,
    day: Date,
    letter_is: &impl Fn(Part, char) -> bool,
) -> Option<Option<String>> {
    let odd = registry.odd_days.iter().find(|o| {
        o.layout == layout && ((o.from <= day && day <= o.to) || o.disputed.contains(&day))
    });
    let year = registry
        .period(layout)?
        .years
        .iter()
        .find(|y| y.1 == day.year())?
        .0;
    let month = registry
        .months
        .iter()
        .find(|m| m.month == day.month() && letter_is(Part::Month, m.letter));
    let plain = letter_is(Part::Year, year).then_some(month).flatten();
    let odd_fits = odd
        .filter(|o| letter_is(Part::Year, o.year_letter) && letter_is(Part::Month, o.month_letter));
    match (plain, odd_fits, odd) {
        // The tables alone, and no list says otherwise for this day.
        (Some(month), _, None) => Some(month.note.clone()),
        // Both letters of the odd days, or corners that fit either way.
        (_, Some(odd), _) if odd.disputed.contains(&day) => Some(Some(format!(
            "{} This day is in some lists only.",
            odd.note
        ))),
        (_, Some(odd), _) => Some(Some(odd.note.clone())),
        (Some(_), None, Some(odd)) => Some(Some(format!(
            "By the tables; but marks of these days are said to carry year letter {} and month letter {}. {}",
            odd.year_letter, odd.month_letter, odd.note
        ))),
        (None, None, _) => None,
    }
}

/// Why no day fits: the sentence, and the corners to look at again.
fn impossible(registry: &Registry, corners: &Corners, layout: Layout) -> (String, Vec<String>) {
    let (year_at, year) = corners.at(layout, Part::Year);
    let (month_at, month) = corners.at(layout, Part::Month);
    let (day_at, day) = corners.at(layout, Part::Day);
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
