//! Why no day fits the corners of a diamond.

use super::calendar::days_in;
use super::corners::{Corner, CornerMeaning, Corners, can_be, written};
use super::decoded::{LookAgain, Problem};
use super::tables::{Layout, Registry};

/// What is impossible, and the corners to look at again, the likeliest slip first.
pub(super) fn impossible(
    registry: &Registry,
    corners: &Corners,
    layout: Layout,
) -> (Vec<Problem>, Vec<LookAgain>) {
    let single = wrong_by_itself(registry, corners, layout);
    if !single.is_empty() {
        return single.into_iter().unzip();
    }
    let (problem, again) = wrong_together(registry, corners, layout);
    let at = |part| LookAgain::Corner(corners.at(layout, part).0);
    (vec![problem], again.iter().copied().map(at).collect())
}

/// Corners that no mark of the layout has.
fn wrong_by_itself(
    registry: &Registry,
    corners: &Corners,
    layout: Layout,
) -> Vec<(Problem, LookAgain)> {
    let mut out = Vec::new();
    let mut wrong = |corner, problem| out.push((problem, LookAgain::Corner(corner)));
    let years = registry.period(layout).map_or(&[][..], |p| &p.years);
    if let (corner, &Corner::Letter(letter)) = corners.at(layout, CornerMeaning::Year)
        && years.iter().all(|y| y.0 != letter)
        && registry.odd_year(layout, letter).is_none()
    {
        let problem = Problem::NotAYearLetter {
            letter,
            corner,
            layout,
        };
        wrong(corner, problem);
    }
    if let (corner, &Corner::Letter(letter)) = corners.at(layout, CornerMeaning::Month)
        && registry.months.iter().all(|m| m.letter != letter)
    {
        wrong(corner, Problem::NotAMonthLetter { letter, corner });
    }
    if let (corner, Corner::Number(digits)) = corners.at(layout, CornerMeaning::Day)
        && (1..=31).all(|n| !can_be(digits, n))
    {
        let day = written(digits);
        wrong(corner, Problem::NoSuchDay { day, corner });
    }
    out
}

/// Each corner by itself can be; together they can't.
fn wrong_together(
    registry: &Registry,
    corners: &Corners,
    layout: Layout,
) -> (Problem, &'static [CornerMeaning]) {
    use CornerMeaning::{Day, Month, Year};
    let letter = |part| match corners.at(layout, part).1 {
        Corner::Letter(c) => Some(*c),
        _ => None,
    };
    let year_letter = letter(Year);
    let years = registry.period(layout).map_or(&[][..], |p| &p.years);
    let year = year_letter
        .and_then(|c| years.iter().find(|y| y.0 == c))
        .map(|y| y.1);
    let odd = year_letter
        .filter(|_| year.is_none())
        .and_then(|c| registry.odd_year(layout, c));
    if let Some(odd) = odd {
        let problem = Problem::OddYearLetter {
            year_letter: odd.year_letter,
            month_letter: odd.month_letter,
            layout,
            from: odd.from,
            to: odd.to,
        };
        return (problem, &[Month, Day, Year]);
    }
    let month = letter(Month).and_then(|c| registry.months.iter().find(|m| m.letter == c));
    let Some(month) = month else {
        return (Problem::NoDayFits, &[Month, Day, Year]);
    };
    let digits = match corners.at(layout, Day).1 {
        Corner::Number(digits) => Some(digits),
        _ => None,
    };
    let day = digits.map(|digits| written(digits));
    // February of a year that can't be read may be that of a leap year.
    let days = match (month.month, year) {
        (2, None) => 29,
        (_, year) => days_in(year.unwrap_or(2001), month.month),
    };
    let exists = (1..=days).any(|n| digits.is_none_or(|d| can_be(d, n)));
    if let (true, Some(year), Some(period)) = (exists, year, registry.period(layout)) {
        let problem = Problem::OutsidePeriod {
            day,
            month: month.month,
            year,
            layout,
            from: period.from,
            to: period.to,
        };
        return (problem, &[Month, Year]);
    }
    let problem = Problem::DayNotInMonth {
        day: day.unwrap_or_else(|| "?".to_owned()),
        month: month.month,
        year,
        days,
    };
    (problem, &[Day, Month])
}
