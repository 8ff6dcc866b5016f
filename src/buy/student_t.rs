//! Student's t distribution with any number of degrees of freedom above 0, through the incomplete
//! beta function of `puruspe`.

use puruspe::{betai, invbetai};

/// P(T ≤ t).
pub fn cdf(t: f64, freedom: f64) -> f64 {
    let tail = 0.5 * betai(0.5 * freedom, 0.5, freedom / (freedom + t * t));
    if t > 0.0 { 1.0 - tail } else { tail }
}

/// The t below which a share `p` of the probability lies, 0 < p < 1.
pub fn quantile(p: f64, freedom: f64) -> f64 {
    let tail = p.min(1.0 - p);
    let x = invbetai(2.0 * tail, 0.5 * freedom, 0.5);
    let t = (freedom * (1.0 - x) / x).sqrt();
    if p < 0.5 { -t } else { t }
}

/// A t distribution moved and stretched.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StudentT {
    pub location: f64,
    pub scale: f64,
    pub freedom: f64,
}

impl StudentT {
    /// P(X ≤ x).
    pub fn cdf(&self, x: f64) -> f64 {
        cdf((x - self.location) / self.scale, self.freedom)
    }

    /// The value below which a share `p` lies.
    pub fn quantile(&self, p: f64) -> f64 {
        self.location + self.scale * quantile(p, self.freedom)
    }
}
