//! What a diamond or a registered number says, how it was read, and why it is not possible.

use crate::registry::corners::{Corner, CornerMeaning, Corners, NAMES, parts, written};
use crate::registry::decoded::{DateNote, DateRange, Decoded, Lists, LookAgain, Problem, Why};
use crate::registry::tables::Layout;

/// Said wherever a registration is decoded.
pub const REGISTRATION_IS_A_FLOOR: &str = "A registration dates the design, not the piece: nothing \
    can be older, but good sellers were made for years after (1, 1, 13 and 21 years on record).";

/// "registered 1845-03-12 to 1845-03-31 (a note)".
pub fn registered(date: &DateRange) -> String {
    let span = match date.from == date.to {
        true => date.from.to_string(),
        false => format!("{} to {}", date.from, date.to),
    };
    let note = date.note.as_ref().map(|n| format!(" ({})", note(n)));
    format!("registered {span}{}", note.unwrap_or_default())
}

/// What is to be said beside a run of days.
pub fn note(note: &DateNote) -> String {
    match note {
        DateNote::MonthLetter(note) => note.clone(),
        DateNote::OddDays {
            note,
            disputed: false,
        } => note.clone(),
        DateNote::OddDays {
            note,
            disputed: true,
        } => format!("{note} This day is in some lists only."),
        DateNote::ByTables {
            year_letter,
            month_letter,
            note,
        } => format!(
            "By the tables; but marks of these days are said to carry year letter {year_letter} and \
             month letter {month_letter}. {note}"
        ),
        DateNote::Estimate {
            month,
            year,
            lists,
            open_end,
            note,
        } => {
            let month = month_name(*month);
            let mut out =
                format!("about {month} {year}, an estimate (numbers spread evenly over the year)");
            match lists {
                Lists::Only => {}
                Lists::Agree => out += &format!("; both published lists give {year}"),
                Lists::Differ(list) => out = format!("{list}: {out}; the published lists differ"),
            }
            if *open_end {
                out += "; last year of the list, its end is not known";
            }
            if let Some(note) = note {
                out += &format!("; {note}");
            }
            out
        }
        DateNote::AllLike(pattern) => format!(
            "all years in which a number like {pattern} was given out, by every published list"
        ),
    }
}

/// What is worth a second look, as people name it.
pub fn look_again(place: LookAgain) -> String {
    match place {
        LookAgain::Corner(corner) => NAMES[corner].to_owned(),
        LookAgain::Figure { at, of } => format!("digit {at} of {of}"),
    }
}

/// All of them.
pub fn look_again_all(decoded: &Decoded) -> Vec<String> {
    decoded.look_again.iter().copied().map(look_again).collect()
}

/// What a corner holds.
pub fn part(part: CornerMeaning) -> &'static str {
    match part {
        CornerMeaning::Year => "year letter",
        CornerMeaning::Month => "month letter",
        CornerMeaning::Day => "day",
        CornerMeaning::Parcel => "parcel number",
    }
}

fn ordinal(layout: Layout) -> &'static str {
    match layout {
        Layout::Second => "second",
        Layout::First | Layout::Number => "first",
    }
}

/// How a reading came about.
pub fn why(why: &Why) -> String {
    match why {
        Why::Blank => "No corner can be read, so the mark may be of either layout; the right-hand \
            corner tells: a number there is the first layout, a letter the second."
            .to_owned(),
        Why::Corners { layout, corners } => explain(*layout, corners),
        Why::Listed {
            list,
            year,
            first,
            last,
            open,
        } => {
            let most = if *open { "at most about " } else { "" };
            format!("{list}: {year} ran from {first} to {most}{last}.")
        }
        Why::Unreadable { figures, of } => format!("{figures} unreadable of {of} figures."),
    }
}

/// Which layout it is and what each corner means.
fn explain(layout: Layout, corners: &Corners) -> String {
    let read: Vec<String> = parts(layout)
        .iter()
        .enumerate()
        .map(|(i, &meaning)| {
            let shown = match &corners.0[i] {
                Corner::Unread => "?".to_owned(),
                Corner::Letter(c) => c.to_string(),
                Corner::Number(d) => written(d),
                Corner::Other(t) => t.clone(),
            };
            format!("{} {} = {}", NAMES[i], shown, part(meaning))
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

/// All that is impossible about a mark, in one line.
pub fn problem(decoded: &Decoded) -> Option<String> {
    let all: Vec<String> = decoded.problems.iter().map(one_problem).collect();
    (!all.is_empty()).then(|| all.join("; "))
}

/// What a problem means: there is no such registration, or the day stands and only the rest does not.
pub fn but(decoded: &Decoded) -> &'static str {
    match decoded.dates.is_empty() {
        true => "not possible",
        false => "the day stands, but",
    }
}

fn one_problem(problem: &Problem) -> String {
    match problem {
        Problem::CornerCount(count) => format!(
            "{count} corners are given, a diamond has four: top,right,bottom,left, with ? for one that \
             can't be read"
        ),
        Problem::Misfits { corners, layout } => {
            let wrong: Vec<String> = corners
                .iter()
                .map(|(corner, wanted, held)| misfit(*corner, *wanted, held))
                .collect();
            format!(
                "{} (the other corners are of the {} layout)",
                wrong.join("; "),
                ordinal(*layout)
            )
        }
        Problem::NeitherLayout => {
            "the corners fit neither layout: 1842-1867 has letters at top and \
            left, 1868-1883 at right and bottom, and numbers at the other two"
                .to_owned()
        }
        Problem::NotAYearLetter {
            letter,
            corner,
            layout,
        } => format!(
            "{letter} ({}) was never a year letter of the {} layout",
            NAMES[*corner],
            ordinal(*layout)
        ),
        Problem::NotAMonthLetter { letter, corner } => {
            format!("{letter} ({}) was never a month letter", NAMES[*corner])
        }
        Problem::NoSuchDay { day, corner } => {
            format!("no month has a day {day} ({})", NAMES[*corner])
        }
        Problem::OddYearLetter {
            year_letter,
            month_letter,
            layout,
            from,
            to,
        } => format!(
            "year letter {year_letter} of the {} layout is known only with month letter {month_letter} \
             and days {from} to {to}",
            ordinal(*layout)
        ),
        Problem::DayNotInMonth {
            day,
            month,
            year,
            days,
        } => {
            let year = year.map_or(String::new(), |y| format!(" {y}"));
            let month = month_name(*month);
            format!("day {day} does not exist: {month}{year} has {days} days")
        }
        Problem::OutsidePeriod {
            day,
            month,
            year,
            layout,
            from,
            to,
        } => {
            let day = day.as_ref().map_or(String::new(), |d| format!("{d} "));
            let when = format!("{day}{} {year}", month_name(*month));
            let layout = ordinal(*layout);
            match *year > from.year() {
                false => format!("{when} is before {from}, the first day of the {layout} layout"),
                true => format!("{when} is after {to}, the last day of the {layout} layout"),
            }
        }
        Problem::NoDayFits => "no day of the period fits these corners together".to_owned(),
        Problem::NoSuchClass { shown, ceramics } => {
            format!("'{shown}' is no class: classes run from I to XIII, ceramics are {ceramics}")
        }
        Problem::OtherClass {
            numeral,
            goods,
            ceramics,
            alike,
        } => {
            let slip = match alike {
                true => format!(", and {numeral} is an easy misreading of it"),
                false => String::new(),
            };
            format!("class {numeral} is {goods}: pottery and porcelain are class {ceramics}{slip}")
        }
        Problem::NoNumber => "no number is given".to_owned(),
        Problem::NotAFigure(c) => format!(
            "'{c}' is no figure: give the number in figures, with ? for one that can't be read"
        ),
        Problem::TooLong(most) => {
            format!("more than {most} figures: no registered number is so long")
        }
        Problem::Zero => "numbers began at 1, in January 1884".to_owned(),
        Problem::BetweenSeries {
            number,
            below,
            above,
        } => format!(
            "{number} falls between two series: the older list ends about {below}, the newer begins at \
             {above}; look at the figures again"
        ),
        Problem::BeyondLists { number, newest } => format!(
            "{number} is beyond the lists, which end about {newest}: later than they go, or not a \
             British registered design"
        ),
        Problem::NoneLike(pattern) => format!(
            "no number like {pattern} is in the lists: later than they go, or not a British registered \
             design"
        ),
    }
}

/// What is wrong with a corner, where a layout wants something else.
fn misfit(corner: usize, wanted: CornerMeaning, held: &Corner) -> String {
    let (name, wanted) = (NAMES[corner], part(wanted));
    match held {
        Corner::Letter(c) => {
            let like = match c {
                'I' | 'L' => ", perhaps the figure 1",
                'O' | 'D' | 'Q' => ", perhaps the figure 0",
                'S' => ", perhaps the figure 5",
                'B' => ", perhaps the figure 8",
                'Z' => ", perhaps the figure 2",
                _ => "",
            };
            format!("{name} holds the letter {c} where a number ({wanted}) belongs{like}")
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
            format!("{name} holds the number {shown} where a letter ({wanted}) belongs{like}")
        }
        Corner::Other(t) => format!("{name} holds '{t}', neither one letter nor a number"),
        Corner::Unread => String::new(),
    }
}

/// Name of a month, 1–12.
fn month_name(month: u8) -> &'static str {
    const MONTHS: [&str; 12] = [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];
    let at = usize::from(month).checked_sub(1);
    at.and_then(|i| MONTHS.get(i))
        .copied()
        .unwrap_or("no month")
}
