//! When to ask again: FSRS, the free spaced repetition scheduler, version 5, by whole days.
//!
//! From its published description (Open Spaced Repetition, "The algorithm", 2024): a memory has a
//! stability S (days until the chance of recall has fallen to 90 %) and a difficulty D (1 to 10).
//! Recall after t days: R = (1 + 19/81 · t/S)^(−1/2). The steps within a day are left out: who has
//! missed something is asked again the next day.

use std::fmt;

use serde::{Deserialize, Serialize};

use crate::registry::calendar::Date;

/// Days since 1 January 1970.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Day(pub i32);

impl Day {
    /// The day of a date.
    pub fn of(date: Date) -> Day {
        Day(date.days())
    }

    /// The date of the day; `None` beyond the years a date can have.
    pub fn date(self) -> Option<Date> {
        Date::from_days(self.0)
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.date() {
            Some(date) => date.fmt(f),
            None => write!(f, "day {}", self.0),
        }
    }
}

/// How an answer went.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grade {
    Again,
    Hard,
    Good,
    Easy,
}

impl Grade {
    fn number(self) -> f64 {
        match self {
            Grade::Again => 1.0,
            Grade::Hard => 2.0,
            Grade::Good => 3.0,
            Grade::Easy => 4.0,
        }
    }
}

/// The nineteen weights of the published defaults of version 5.
pub const WEIGHTS: [f64; 19] = [
    0.4072, 1.1829, 3.1262, 15.4722, 7.2102, 0.5316, 1.0651, 0.0234, 1.616, 0.1544, 1.0824, 1.9813,
    0.0953, 0.2975, 2.2042, 0.2407, 2.9466, 0.5034, 0.6567,
];

/// (9/10)^(1/decay) − 1 for the decay −1/2: makes S the days to 90 %.
const FACTOR: f64 = 19.0 / 81.0;

/// No interval is longer, in days (a hundred years, the published default).
const LONGEST: f64 = 36_500.0;

/// The memory of one thing.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Memory {
    /// Days until recall has fallen to 90 %.
    pub stability: f64,
    /// 1 (easy) to 10.
    pub difficulty: f64,
    pub last: Day,
}

impl Memory {
    /// After the first answer.
    pub fn first(grade: Grade, today: Day, w: &[f64; 19]) -> Memory {
        Memory {
            stability: w[grade.number() as usize - 1].max(0.1),
            difficulty: first_difficulty(grade, w),
            last: today,
        }
    }

    /// After a further answer.
    pub fn then(self, grade: Grade, today: Day, w: &[f64; 19]) -> Memory {
        let recall = self.recall(today);
        Memory {
            stability: match grade {
                Grade::Again => self.forgotten(recall, w),
                _ => self.recalled(recall, grade, w),
            },
            difficulty: next_difficulty(self.difficulty, grade, w),
            last: today,
        }
    }

    /// Chance that it is still known.
    pub fn recall(self, today: Day) -> f64 {
        let days = f64::from((today.0 - self.last.0).max(0));
        (1.0 + FACTOR * days / self.stability).powf(-0.5)
    }

    /// The day on which it is to be asked again: recall has fallen to about 90 %.
    pub fn due(self) -> Day {
        Day(self.last.0 + self.stability.round().clamp(1.0, LONGEST) as i32)
    }

    fn recalled(self, recall: f64, grade: Grade, w: &[f64; 19]) -> f64 {
        let by_grade = match grade {
            Grade::Hard => w[15],
            Grade::Easy => w[16],
            Grade::Good | Grade::Again => 1.0,
        };
        let gain = w[8].exp()
            * (11.0 - self.difficulty)
            * self.stability.powf(-w[9])
            * (((1.0 - recall) * w[10]).exp() - 1.0);
        self.stability * (1.0 + gain * by_grade)
    }

    fn forgotten(self, recall: f64, w: &[f64; 19]) -> f64 {
        w[11]
            * self.difficulty.powf(-w[12])
            * ((self.stability + 1.0).powf(w[13]) - 1.0)
            * ((1.0 - recall) * w[14]).exp()
    }
}

fn first_difficulty(grade: Grade, w: &[f64; 19]) -> f64 {
    (w[4] - (w[5] * (grade.number() - 1.0)).exp() + 1.0).clamp(1.0, 10.0)
}

/// Drawn back a little to the difficulty of something easy, so that nothing stays hard for ever.
fn next_difficulty(now: f64, grade: Grade, w: &[f64; 19]) -> f64 {
    let moved = now - w[6] * (grade.number() - 3.0);
    (w[7] * first_difficulty(Grade::Easy, w) + (1.0 - w[7]) * moved).clamp(1.0, 10.0)
}

#[cfg(test)]
mod tests {
    use super::{Date, Day, Grade, Memory};

    /// The published test vector of the scheduler without steps within a day (rs-fsrs 1.2.1,
    /// `test_long_term_scheduler`): its weights, answers, intervals, stabilities and difficulties.
    #[test]
    fn gives_the_published_numbers() {
        let w = [
            0.4197, 1.1869, 3.0412, 15.2441, 7.1434, 0.6477, 1.0007, 0.0674, 1.6597, 0.1712,
            1.1178, 2.0225, 0.0904, 0.3025, 2.1214, 0.2498, 2.9466, 0.4891, 0.6468,
        ];
        let lapses = [6, 7];
        let intervals = [3, 13, 48, 155, 445, 1158, 17, 3, 9, 27, 74, 190, 457];
        let stabilities = [
            3.0412, 13.0913, 48.1585, 154.9373, 445.0556, 1158.0778, 16.6306, 2.9888, 9.4633,
            26.9474, 73.9723, 189.7037, 457.4379,
        ];
        let difficulties = [
            4.4909, 4.2666, 4.0575, 3.8624, 3.6804, 3.5108, 5.219, 6.8122, 6.4314, 6.0763, 5.7452,
            5.4363, 5.1483,
        ];
        let mut today = Day(19_325);
        let mut memory: Option<Memory> = None;
        for i in 0..intervals.len() {
            let grade = match lapses.contains(&i) {
                true => Grade::Again,
                false => Grade::Good,
            };
            let now = match memory {
                None => Memory::first(grade, today, &w),
                Some(before) => before.then(grade, today, &w),
            };
            assert!(
                (now.stability - stabilities[i]).abs() < 6e-5,
                "{i}: {now:?}"
            );
            assert!(
                (now.difficulty - difficulties[i]).abs() < 6e-5,
                "{i}: {now:?}"
            );
            assert_eq!(now.due().0 - today.0, intervals[i], "{i}");
            today = now.due();
            memory = Some(now);
        }
    }

    #[test]
    fn days_are_those_of_the_calendar() {
        let day = |text: &str| Day::of(Date::from_iso(text).unwrap());
        assert_eq!(day("1970-01-01"), Day(0));
        assert_eq!(day("2000-03-01"), Day(11_017));
        assert_eq!(day("2026-11-26"), Day(20_783));
        for n in (-80_000..80_000).step_by(7) {
            assert_eq!(Day::of(Day(n).date().unwrap()), Day(n));
        }
    }

    #[test]
    fn what_was_missed_is_asked_the_next_day() {
        let today = Day(20_000);
        let missed = Memory::first(Grade::Again, today, &super::WEIGHTS);
        assert_eq!(missed.due(), Day(20_001));
        let known = Memory::first(Grade::Good, today, &super::WEIGHTS);
        assert!(known.due() > Day(20_001));
        assert!((known.recall(today) - 1.0).abs() < 1e-12);
    }
}
