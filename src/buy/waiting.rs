//! Time to sell: exponential, its rate with a gamma prior.
//!
//! rate ~ gamma(a, b): after sales of total weight s within a total of t weighted weeks on offer it
//! is gamma(a + s, b + t). A piece that has not sold adds its weeks and no sale (censored). The wait
//! of a new piece is then Lomax: P(T > t) = (1 + t/b)^(−a), mean b/(a − 1).

/// What is believed of the rate of selling, in weeks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wait {
    /// a: sales it rests on.
    pub shape: f64,
    /// b: weeks on offer they took.
    pub weeks: f64,
}

impl Wait {
    /// A guess of the mean wait worth some sales, more than 1.
    pub fn guess(mean: f64, worth: f64) -> Wait {
        Wait {
            shape: worth,
            weeks: mean * (worth - 1.0),
        }
    }

    /// After a piece was on offer for some weeks and sold, or did not.
    pub fn after(self, weeks: f64, sold: bool, weight: f64) -> Wait {
        Wait {
            shape: self.shape + if sold { weight } else { 0.0 },
            weeks: self.weeks + weight * weeks,
        }
    }

    /// Mean weeks to sell.
    pub fn mean(&self) -> f64 {
        self.weeks / (self.shape - 1.0)
    }

    /// P(T ≤ t).
    pub fn cdf(&self, t: f64) -> f64 {
        1.0 - (1.0 + t / self.weeks).powf(-self.shape)
    }

    /// Weeks within which a share `p` of such pieces sells.
    pub fn quantile(&self, p: f64) -> f64 {
        self.weeks * ((1.0 - p).powf(-1.0 / self.shape) - 1.0)
    }
}
