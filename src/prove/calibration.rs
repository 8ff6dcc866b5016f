//! Whether the 80 % band holds four in five, period by period, and how sure that is.

use super::cases::Known;
use super::judge::Judged;
use super::measures::mean;
use crate::piece::judgement::SHARE;

/// Confidence of the intervals (common practice, no source).
const CONFIDENCE: f64 = 0.95;

/// First year of the periods that are judged one by one: before 1800 there are few pieces
/// (common practice, no source).
const JUDGED_FROM: i16 = 1800;

/// How often the band held the catalogued middle year in one period.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    pub from: i16,
    /// `None`: to the present.
    pub to: Option<i16>,
    pub held: usize,
    pub cases: usize,
    /// Exact binomial interval of the share held, at 95 %.
    pub interval: (f64, f64),
    /// Mean of median − midpoint.
    pub bias: Option<f64>,
}

impl Held {
    /// The dated cases whose middle year lies in the period.
    fn of(cases: &[Known], judged: &[Judged], from: i16, to: Option<i16>) -> Held {
        let in_period = |case: &Known| {
            let year = case.midpoint();
            year >= f64::from(from) && to.is_none_or(|to| year < f64::from(to) + 1.0)
        };
        let both = cases.iter().zip(judged).filter(|(c, _)| in_period(c));
        let dated: Vec<_> = both.filter_map(|(_, j)| j.date.as_ref()).collect();
        let held = dated.iter().filter(|d| d.inside(d.band(SHARE))).count();
        Held {
            from,
            to,
            held,
            cases: dated.len(),
            interval: interval(held, dated.len()),
            bias: mean(dated.iter().map(|d| d.error())),
        }
    }

    /// Share held; 0 without cases.
    pub fn share(&self) -> f64 {
        self.held as f64 / self.cases.max(1) as f64
    }

    /// False when the share stated lies outside the interval.
    pub fn agrees(&self) -> bool {
        (self.interval.0..=self.interval.1).contains(&SHARE)
    }
}

/// Every half century from 1800 that has cases, then all before 1900 and all from 1900 on.
pub fn by_period(cases: &[Known], judged: &[Judged]) -> Vec<Held> {
    let halves = (0..6).map(|i| JUDGED_FROM + 50 * i);
    let halves = halves.map(|from| Held::of(cases, judged, from, Some(from + 49)));
    let both = [(i16::MIN, Some(1899)), (1900, None)];
    let both = both.map(|(from, to)| Held::of(cases, judged, from, to));
    halves.chain(both).filter(|h| h.cases > 0).collect()
}

/// Clopper–Pearson: the shares p at which so many of n, or more, and so many, or fewer, have each
/// still half of 1 − `CONFIDENCE` (Clopper and Pearson 1934).
pub fn interval(held: usize, n: usize) -> (f64, f64) {
    let tail = (1.0 - CONFIDENCE) / 2.0;
    let lower = if held == 0 {
        0.0
    } else {
        bisect(|p| 1.0 - at_most(held - 1, n, p) < tail)
    };
    let upper = if held == n {
        1.0
    } else {
        bisect(|p| at_most(held, n, p) > tail)
    };
    (lower, upper)
}

/// P(at most k of n) at a share p.
fn at_most(k: usize, n: usize, p: f64) -> f64 {
    if p >= 1.0 {
        return f64::from(u8::from(k >= n));
    }
    let mut term = (1.0 - p).powi(n as i32);
    let mut sum = term;
    for i in 0..k {
        term *= (n - i) as f64 / (i + 1) as f64 * p / (1.0 - p);
        sum += term;
    }
    sum
}

/// Where `below` turns from true to false between 0 and 1.
fn bisect(below: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..50 {
        let middle = (low + high) / 2.0;
        if below(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    (low + high) / 2.0
}

#[cfg(test)]
mod tests {
    use super::interval;

    /// Of 10, 8 held: 0.444 to 0.975, as the published tables have it (from memory); none of n:
    /// 1 − 0.025^(1/n).
    #[test]
    fn intervals_are_those_of_the_tables() {
        let (low, high) = interval(8, 10);
        assert!(
            (low - 0.444).abs() < 0.001 && (high - 0.975).abs() < 0.001,
            "{low} {high}"
        );
        let (none, few) = interval(0, 20);
        assert_eq!(none, 0.0);
        assert!((few - (1.0 - 0.025_f64.powf(0.05))).abs() < 1e-9, "{few}");
        assert_eq!(interval(20, 20).1, 1.0);
    }
}
