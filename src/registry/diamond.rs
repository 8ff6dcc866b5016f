//! The registration diamond.
//!
//! Decoding walks every day of a layout's period and keeps the days whose mark could look like
//! the corners read: some ten thousand comparisons, and obviously right. What no day fits is
//! explained instead of guessed at.

use super::calendar::Date;
use super::corners::{Corner, CornerMeaning, Corners, can_be};
use super::decoded::{DateNote, DateRange, Decoded, LookAgain, Problem, Why};
use super::impossible::impossible;
use super::tables::{Layout, Registry};

/// Decodes "top,right,bottom,left". `class` is the numeral in the circle, if it can be read.
pub fn decode(registry: &Registry, text: &str, class: Option<&str>) -> Decoded {
    let mut out = Decoded::new(None, registry.diamond_origin.text.clone());
    match Corners::read(text) {
        Err(count) => out.problems.push(Problem::CornerCount(count)),
        Ok(corners) => decode_corners(registry, &corners, &mut out),
    }
    if let Some(class) = class {
        read_class(registry, class, &mut out);
    }
    out
}

fn read_class(registry: &Registry, class: &str, out: &mut Decoded) {
    let class = class.trim().to_ascii_uppercase();
    if class.chars().all(|c| c == '?') {
        return;
    }
    let ceramics = registry.ceramics.clone();
    let Some(known) = registry.classes.iter().find(|c| c.numeral == class) else {
        let shown: String = class.chars().filter(|c| !c.is_control()).take(20).collect();
        out.problems.push(Problem::NoSuchClass { shown, ceramics });
        return;
    };
    out.class = Some(known.numeral.clone());
    if known.numeral != ceramics {
        out.problems.push(Problem::OtherClass {
            numeral: known.numeral.clone(),
            goods: known.goods.clone(),
            alike: alike(&known.numeral, &ceramics),
            ceramics,
        });
    }
}

/// The same strokes in another order: VI for IV.
fn alike(numeral: &str, other: &str) -> bool {
    let strokes = |numeral: &str| {
        let mut strokes: Vec<char> = numeral.chars().collect();
        strokes.sort_unstable();
        strokes
    };
    strokes(numeral) == strokes(other)
}

fn decode_corners(registry: &Registry, corners: &Corners, out: &mut Decoded) {
    let both = [Layout::First, Layout::Second];
    if corners.blank() {
        out.why.push(Why::Blank);
        // The right-hand corner tells the layout: a number in the first, a letter in the second.
        out.look_again = [1, 0, 2, 3].map(LookAgain::Corner).to_vec();
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
            out.why.push(Why::Corners {
                layout: both[*i],
                corners: corners.clone(),
            });
        }
        _ if misfits[0].len() != misfits[1].len() => {
            let layout = both[nearest];
            out.layout = Some(layout);
            let wrong = &misfits[nearest];
            out.look_again = wrong.iter().map(|m| LookAgain::Corner(m.0)).collect();
            let held = |&(i, part): &(usize, CornerMeaning)| (i, part, corners.0[i].clone());
            out.problems.push(Problem::Misfits {
                corners: wrong.iter().map(held).collect(),
                layout,
            });
            return;
        }
        _ => {
            let read = (0..4).filter(|&i| corners.0[i] != Corner::Unread);
            out.look_again = read.map(LookAgain::Corner).collect();
            out.problems.push(Problem::NeitherLayout);
            return;
        }
    }
    let Some(layout) = out.layout else { return };
    out.dates = fitting(registry, corners, layout);
    if out.dates.is_empty() {
        (out.problems, out.look_again) = impossible(registry, corners, layout);
        return;
    }
    // The year narrows most, the day least; a parcel number narrows nothing.
    for part in [
        CornerMeaning::Year,
        CornerMeaning::Month,
        CornerMeaning::Day,
    ] {
        let (at, corner) = corners.at(layout, part);
        let unread = match corner {
            Corner::Unread => true,
            Corner::Number(digits) => digits.contains(&None),
            _ => false,
        };
        if unread {
            out.look_again.push(LookAgain::Corner(at));
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

/// `Some` when a mark of this day can show the letters read, with what is to be said of it.
fn reading(
    registry: &Registry,
    layout: Layout,
    day: Date,
    letter_is: &impl Fn(CornerMeaning, char) -> bool,
) -> Option<Option<DateNote>> {
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
        (Some(month), _, None) => Some(month.note.clone().map(DateNote::MonthLetter)),
        // Both letters of the odd days, or corners that fit either way.
        (_, Some(odd), _) => Some(Some(DateNote::OddDays {
            note: odd.note.clone(),
            disputed: odd.disputed.contains(&day),
        })),
        (Some(_), None, Some(odd)) => Some(Some(DateNote::ByTables {
            year_letter: odd.year_letter,
            month_letter: odd.month_letter,
            note: odd.note.clone(),
        })),
        (None, None, _) => None,
    }
}
