//! What can be said of a probability over years: shortest bands, quantiles, EDTF text.
//!
//! Shortest runs of several shares need not lie in one another: with a little hump early and a
//! broad one late, the shortest 95 % may begin before the shortest 80 % and also end before it.
//! Whoever reads both would be told that a wider band leaves out years of a narrower one. So only
//! the stated band is the shortest run of all; a narrower one is the shortest inside it, a wider
//! one the shortest around it.

use std::cmp::Ordering;
use std::ops::RangeInclusive;

use super::grid::{Grid, Year};

/// A run of years that holds at least `share` of the probability.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    pub share: f64,
    pub from: Year,
    pub to: Year,
}

impl Band {
    /// Shortest run of `p` (by year offset, summing to about 1) holding `share`; the earliest
    /// of equally short runs.
    pub fn shortest(p: &[f64], grid: &Grid, share: f64) -> Band {
        let last = p.len().saturating_sub(1);
        Band::of(grid, share, run(p, share, 0..=last, (last, 0)))
    }

    /// Bands of `shares` that nest about the band of the share `stated`: that one is the shortest
    /// run, a smaller share gets the shortest run inside it, a greater one the shortest run that
    /// contains it.
    pub fn nested<const N: usize>(
        p: &[f64],
        grid: &Grid,
        stated: f64,
        shares: [f64; N],
    ) -> [Band; N] {
        let last = p.len().saturating_sub(1);
        let (a, b) = run(p, stated, 0..=last, (last, 0));
        shares.map(|share| {
            let found = match share.total_cmp(&stated) {
                Ordering::Less => run(p, share, a..=b, (b, a)),
                Ordering::Equal => (a, b),
                Ordering::Greater => run(p, share, 0..=last, (a, b)),
            };
            Band::of(grid, share, found)
        })
    }

    fn of(grid: &Grid, share: f64, (from, to): (usize, usize)) -> Band {
        Band {
            share,
            from: grid.year(from),
            to: grid.year(to),
        }
    }

    /// Number of years in the band.
    pub fn width(&self) -> i16 {
        self.to.0 - self.from.0 + 1
    }

    /// True when the band holds this year.
    pub fn holds(&self, year: Year) -> bool {
        self.from <= year && year <= self.to
    }

    /// EDTF (ISO 8601-2:2019) interval with approximate ends, such as `1842~/1867~`.
    pub fn edtf(&self) -> String {
        if self.from == self.to {
            format!("{}~", self.from.0)
        } else {
            format!("{}~/{}~", self.from.0, self.to.0)
        }
    }
}

/// What sums of a few hundred probabilities may be off by, relative to them.
const ROUNDING: f64 = 1e-12;

/// Shortest run of offsets within `within` that holds `share` of all probability, begins at
/// `begin` or before and ends at `end` or after; the earliest of equally short ones. `within`
/// itself when rounding lets none reach the share.
fn run(
    p: &[f64],
    share: f64,
    within: RangeInclusive<usize>,
    (begin, end): (usize, usize),
) -> (usize, usize) {
    let goal = share * p.iter().sum::<f64>() * (1.0 - ROUNDING);
    let (mut best, mut from, mut held) = ((*within.start(), *within.end()), *within.start(), 0.0);
    for (to, x) in p.iter().enumerate() {
        if !within.contains(&to) {
            continue;
        }
        held += x;
        while from < to.min(begin) && held - p[from] >= goal {
            held -= p[from];
            from += 1;
        }
        if held >= goal && to >= end && to - from < best.1 - best.0 {
            best = (from, to);
        }
    }
    best
}

/// First year by which at least `share` of the probability has passed. A share reached but for
/// rounding is reached, so that where two years tie the last bit of a sum doesn't choose.
pub fn quantile(p: &[f64], grid: &Grid, share: f64) -> Year {
    let goal = share * p.iter().sum::<f64>() * (1.0 - ROUNDING);
    let mut held = 0.0;
    for (offset, x) in p.iter().enumerate() {
        held += x;
        if held >= goal && *x > 0.0 {
            return grid.year(offset);
        }
    }
    grid.last()
}

/// Probability of the years `from..=to`, clipped to the grid.
pub fn mass(p: &[f64], grid: &Grid, from: Year, to: Year) -> f64 {
    p.iter()
        .enumerate()
        .filter(|(offset, _)| (from..=to).contains(&grid.year(*offset)))
        .map(|(_, x)| x)
        .sum()
}

#[cfg(test)]
mod tests {
    use super::{Band, quantile};
    use crate::core::grid::{Grid, KindId, PlaceId, Year};

    fn grid(years: i16) -> Grid {
        Grid::new(
            vec![(KindId(0), PlaceId(0))],
            1,
            1,
            Year(1800),
            Year(1799 + years),
        )
    }

    #[test]
    fn a_tie_of_two_years_does_not_hang_on_the_last_bit() {
        for years in 1..150i16 {
            let grid = grid(2 * years);
            for scale in [1.0, 0.1, 1.0 / 3.0, 7e-5] {
                let even = vec![scale; 2 * usize::try_from(years).unwrap()];
                // Half has passed with the last year of the first half.
                assert_eq!(quantile(&even, &grid, 0.5), Year(1799 + years), "{scale}");
            }
        }
    }

    #[test]
    fn the_shortest_run_is_the_shortest_and_the_earliest() {
        let grid = grid(7);
        let p = [0.1, 0.1, 0.3, 0.1, 0.3, 0.05, 0.05];
        let band = |share| {
            let band = Band::shortest(&p, &grid, share);
            (band.from.0 - 1800, band.to.0 - 1800, band.width())
        };
        assert_eq!(band(0.3), (2, 2, 1));
        assert_eq!(band(0.4), (1, 2, 2));
        assert_eq!(band(0.7), (2, 4, 3));
        assert_eq!(band(1.0), (0, 6, 7));
        let stated = Band::shortest(&p, &grid, 0.7);
        let held = (1800..1807).filter(|y| stated.holds(Year(*y)));
        assert_eq!(held.collect::<Vec<i16>>(), [1802, 1803, 1804]);
        let edtf = |share| Band::shortest(&p, &grid, share).edtf();
        assert_eq!(edtf(0.3), "1802~");
        assert_eq!(edtf(0.7), "1802~/1804~");
    }
}
