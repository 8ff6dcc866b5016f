//! What can be said of a probability over years: shortest bands, quantiles, EDTF text.

use super::axes::{Axes, Year};

/// The shortest run of years that holds at least `share` of the probability.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    pub share: f64,
    pub from: Year,
    pub to: Year,
}

impl Band {
    /// Shortest run of `p` (by year offset, summing to about 1) holding `share`; the earliest
    /// of equally short runs.
    pub fn shortest(p: &[f64], axes: &Axes, share: f64) -> Band {
        let total: f64 = p.iter().sum();
        let goal = share * total * (1.0 - 1e-12);
        let (mut best, mut from, mut held) = ((0, p.len().saturating_sub(1)), 0, 0.0);
        for (to, x) in p.iter().enumerate() {
            held += x;
            while from < to && held - p[from] >= goal {
                held -= p[from];
                from += 1;
            }
            if held >= goal && to - from < best.1 - best.0 {
                best = (from, to);
            }
        }
        Band {
            share,
            from: axes.year(best.0),
            to: axes.year(best.1),
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

/// First year by which at least `share` of the probability has passed.
pub fn quantile(p: &[f64], axes: &Axes, share: f64) -> Year {
    let goal = share * p.iter().sum::<f64>();
    let mut held = 0.0;
    for (offset, x) in p.iter().enumerate() {
        held += x;
        if held >= goal && *x > 0.0 {
            return axes.year(offset);
        }
    }
    axes.last()
}

/// Probability of the years `from..=to`, clipped to the grid.
pub fn mass(p: &[f64], axes: &Axes, from: Year, to: Year) -> f64 {
    p.iter()
        .enumerate()
        .filter(|(offset, _)| (from..=to).contains(&axes.year(*offset)))
        .map(|(_, x)| x)
        .sum()
}
