//! The registration diamond, both ways.
//!
//! Decoding walks every day of a layout's period and keeps the days whose mark could look like
//! the corners read: some ten thousand comparisons, and obviously right. What no day fits is
//! explained instead of guessed at.

use super::calendar::{Date, DateRange};
use super::corners::{Corner, CornerMeaning, Corners, NAMES, can_be, parts};
use super::diamond_words::{explain, impossible, misfit, ordinal};
use super::tables::{Decoded, Layout, OddDays, Registry};

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
        CornerMeaning::Year => year.to_string(),
        CornerMeaning::Month => month.to_string(),
        CornerMeaning::Day => day.day().to_string(),
        CornerMeaning::Parcel => parcel.to_string(),
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
    for part in [
        CornerMeaning::Year,
        CornerMeaning::Month,
        CornerMeaning::Day,
    ] {
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

/// Runs of days whose mark could look like this.
fn fitting(registry: &Registry, corners: &Corners, layout: Layout) -> Vec<DateRange> {
    let Some(period) = registry.period(layout) else {
        return Vec::new();
    };
    let letter_is = |part: CornerMeaning, letter: char| match corners.at(layout, part).1 {
        Corner::Unread => true,
        Corner::Letter(c) => *c == letter,
        _ => false,
    };
    let day_is = |day: u8| match corners.at(layout, CornerMeaning::Day).1 {
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
    letter_is: &impl Fn(CornerMeaning, char) -> bool,
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
        .find(|m| m.month == day.month() && letter_is(CornerMeaning::Month, m.letter));
    let plain = letter_is(CornerMeaning::Year, year)
        .then_some(month)
        .flatten();
    let odd_fits = odd.filter(|o| {
        letter_is(CornerMeaning::Year, o.year_letter)
            && letter_is(CornerMeaning::Month, o.month_letter)
    });
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
