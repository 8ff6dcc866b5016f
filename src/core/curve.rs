//! Heights over years: linear between points, flat outside.

use super::grid::Year;

/// A piecewise linear curve. An empty curve is 1 everywhere.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Curve {
    points: Vec<(f64, f64)>,
}

impl Curve {
    /// Points (year or lag, height) in ascending order; two points at one year make a step,
    /// and the later of the two holds at that year itself.
    pub fn new(points: Vec<(f64, f64)>) -> Curve {
        Curve { points }
    }

    /// The points as given.
    pub fn points(&self) -> &[(f64, f64)] {
        &self.points
    }

    /// Height at a year.
    pub fn at(&self, year: Year) -> f64 {
        self.height(f64::from(year.0))
    }

    /// Heights at `count` years from `first`, walked along once.
    pub fn heights(&self, first: Year, count: usize) -> Vec<f64> {
        let mut after = 0;
        (0..count)
            .map(|offset| {
                let x = f64::from(first.0) + offset as f64;
                while self.points.get(after).is_some_and(|p| p.0 <= x) {
                    after += 1;
                }
                self.between(after, x)
            })
            .collect()
    }

    /// Height at `x`.
    pub fn height(&self, x: f64) -> f64 {
        self.between(self.points.partition_point(|p| p.0 <= x), x)
    }

    /// Height at `x` when `after` points lie at or before it.
    fn between(&self, after: usize, x: f64) -> f64 {
        match (
            after.checked_sub(1).map(|i| self.points[i]),
            self.points.get(after),
        ) {
            (None, None) => 1.0,
            (None, Some(&(_, h))) | (Some((_, h)), None) => h,
            (Some((x0, h0)), Some(&(x1, h1))) => h0 + (h1 - h0) * (x - x0) / (x1 - x0),
        }
    }
}

/// Standard deviations beyond which the normal curve is taken as 0: 6 in 100,000 of it lie there.
const REACH: f64 = 4.0;

/// Yearly heights blurred by a normal curve with a standard deviation of `spread` years. Beyond the
/// ends there is nothing, and what would be blurred out over an end stays within: at each year the
/// weighted mean of the heights about it. `spread` 0 leaves them as they are.
pub fn blurred(heights: &[f64], spread: f64) -> Vec<f64> {
    if spread <= 0.0 {
        return heights.to_vec();
    }
    let reach = (REACH * spread).ceil() as usize;
    let weight = |lag: usize| (-0.5 * (lag as f64 / spread).powi(2)).exp();
    let weights: Vec<f64> = (0..=reach).map(weight).collect();
    let mean = |at: usize| {
        let about = at.saturating_sub(reach)..(at + reach + 1).min(heights.len());
        let (sum, total) = about.fold((0.0, 0.0), |(sum, total), other| {
            let w = weights[at.abs_diff(other)];
            (sum + w * heights[other], total + w)
        });
        sum / total
    };
    (0..heights.len()).map(mean).collect()
}

#[cfg(test)]
mod tests {
    use super::{Curve, Year, blurred};

    #[test]
    fn blurring_spreads_a_step_and_keeps_what_is_level() {
        assert_eq!(blurred(&[1.0, 0.0, 2.0], 0.0), [1.0, 0.0, 2.0]);
        assert!(
            blurred(&[3.0; 9], 2.0)
                .iter()
                .all(|h| (h - 3.0).abs() < 1e-12)
        );
        let step: Vec<f64> = (0..100).map(|y| f64::from(u8::from(y >= 50))).collect();
        let soft = blurred(&step, 10.0);
        assert!(soft.windows(2).all(|w| w[0] <= w[1]));
        // One standard deviation before the step the normal distribution has 0.159 beyond it.
        assert!((soft[39] - 0.147).abs() < 0.003, "{}", soft[39]);
        assert!((soft[40] - 0.171).abs() < 0.003, "{}", soft[40]);
    }

    #[test]
    fn is_linear_between_points_and_flat_outside() {
        let curve = Curve::new(vec![(1783.0, 0.0), (1800.0, 1.0), (1880.0, 0.2)]);
        assert_eq!(curve.height(1700.0), 0.0);
        assert_eq!(curve.height(1791.5), 0.5);
        assert_eq!(curve.height(1800.0), 1.0);
        assert!((curve.height(1840.0) - 0.6).abs() < 1e-12);
        assert_eq!(curve.height(2000.0), 0.2);
    }

    #[test]
    fn walking_gives_the_same_heights() {
        let points = vec![(1783.0, 0.0), (1800.0, 1.0), (1800.0, 0.5), (1880.0, 0.2)];
        let curve = Curve::new(points);
        let walked = curve.heights(Year(1750), 200);
        for (offset, height) in walked.iter().enumerate() {
            assert_eq!(*height, curve.at(Year(1750 + offset as i16)));
        }
    }

    #[test]
    fn two_points_at_one_year_make_a_step() {
        let curve = Curve::new(vec![(1891.0, 0.1), (1891.0, 1.0)]);
        assert_eq!(curve.height(1890.9), 0.1);
        assert_eq!(curve.height(1891.0), 1.0);
    }
}
