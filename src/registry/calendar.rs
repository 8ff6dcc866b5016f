//! Days of the Gregorian calendar, as much of it as registration marks need.

use std::fmt;

use serde::{Serialize, Serializer};

/// A day that exists.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Date {
    year: i16,
    month: u8,
    day: u8,
}

impl Date {
    /// `month` 1–12, `day` from 1; `None` for a day that no calendar has.
    pub fn new(year: i16, month: u8, day: u8) -> Option<Date> {
        let exists = (1..=12).contains(&month) && (1..=days_in(year, month)).contains(&day);
        exists.then_some(Date { year, month, day })
    }

    /// Reads `YYYY-MM-DD`.
    pub fn from_iso(text: &str) -> Option<Date> {
        let mut parts = text.splitn(3, '-');
        let year = parts.next()?.parse().ok()?;
        let month = parts.next()?.parse().ok()?;
        let day = parts.next()?.parse().ok()?;
        Date::new(year, month, day)
    }

    pub fn year(self) -> i16 {
        self.year
    }

    /// 1–12.
    pub fn month(self) -> u8 {
        self.month
    }

    /// Day of the month, from 1.
    pub fn day(self) -> u8 {
        self.day
    }

    /// The day after. The last day a year can hold stays where it is.
    pub fn next(self) -> Date {
        let Date { year, month, day } = self;
        Date::new(year, month, day + 1)
            .or_else(|| Date::new(year, month + 1, 1))
            .or_else(|| Date::new(year.saturating_add(1), 1, 1))
            .unwrap_or(self)
    }

    /// Days since 1970-01-01, before it below 0.
    pub fn days(self) -> i32 {
        // Years are counted from March, so that the day a leap year has more comes last; 719 468 is
        // the number of 1970-01-01 counted from 0000-03-01.
        let (year, month) = (i32::from(self.year), i32::from(self.month));
        let year = if month > 2 { year } else { year - 1 };
        let month = (month + 9) % 12;
        let of_years =
            365 * year + year.div_euclid(4) - year.div_euclid(100) + year.div_euclid(400);
        of_years + (153 * month + 2) / 5 + i32::from(self.day) - 1 - 719_468
    }

    /// The day so many days after 1970-01-01; `None` beyond the years a day can have.
    pub fn from_days(days: i32) -> Option<Date> {
        // 146 097 days are 400 years: the first guess is at most one year off.
        let guess = (i64::from(days) * 400).div_euclid(146_097) + 1970;
        let year = i16::try_from(guess).ok()?;
        let starts = |year: i16| Some((year, days - Date::new(year, 1, 1)?.days()));
        let within = [year.checked_add(1), Some(year), year.checked_sub(1)];
        let (year, mut rest) = within
            .into_iter()
            .flatten()
            .filter_map(starts)
            .find(|(_, rest)| *rest >= 0)?;
        let mut month = 1;
        while rest >= i32::from(days_in(year, month)) {
            rest -= i32::from(days_in(year, month));
            month += 1;
            if month > 12 {
                return None;
            }
        }
        Date::new(year, month, u8::try_from(rest + 1).ok()?)
    }

    /// 1 January.
    pub fn first_of(year: i16) -> Date {
        Date {
            year,
            month: 1,
            day: 1,
        }
    }

    /// 31 December.
    pub fn last_of(year: i16) -> Date {
        Date {
            year,
            month: 12,
            day: 31,
        }
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl Serialize for Date {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

/// Number of days in a month; 0 for a month that does not exist.
pub fn days_in(year: i16, month: u8) -> u8 {
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    match month {
        2 if leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::Date;

    /// Days counted one after another from a day whose number is known.
    #[test]
    fn days_are_numbered_without_a_gap() {
        assert_eq!(Date::new(1970, 1, 1).map(Date::days), Some(0));
        assert_eq!(Date::new(2000, 3, 1).map(Date::days), Some(11_017));
        let mut date = Date::first_of(1599);
        let mut number = date.days();
        while date.year() < 2101 {
            assert_eq!(date.days(), number);
            assert_eq!(Date::from_days(number), Some(date));
            date = date.next();
            number += 1;
        }
    }

    #[test]
    fn a_day_beyond_all_years_is_none() {
        assert_eq!(Date::from_days(i32::MAX), None);
        assert_eq!(Date::from_days(i32::MIN), None);
    }
}
