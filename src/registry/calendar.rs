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

    /// Days since 1 March of the year 0 by this calendar: the difference of two is the days between.
    pub fn day_number(self) -> i32 {
        // Years begin in March, so that the leap day is their last.
        let (year, month) = (i32::from(self.year), i32::from(self.month));
        let (year, month) = if month > 2 {
            (year, month - 3)
        } else {
            (year - 1, month + 9)
        };
        let leap_days = year.div_euclid(4) - year.div_euclid(100) + year.div_euclid(400);
        365 * year + leap_days + (153 * month + 2) / 5 + i32::from(self.day) - 1
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
