//! Bayesian linear regression with the conjugate normal-inverse-gamma prior.
//!
//! y = xᵀβ + e, e ~ N(0, σ²/w); β | σ² ~ N(m, σ² Λ⁻¹), σ² ~ inverse gamma(a, b). With rows X, weights
//! W on the diagonal:
//!
//! Λₙ = Λ + XᵀWX, mₙ = Λₙ⁻¹(Λm + XᵀWy), aₙ = a + ½Σw,
//! bₙ = b + ½[Σ w(y − xᵀmₙ)² + (mₙ − m)ᵀΛ(mₙ − m)].
//!
//! A new y at x is Student's t with 2aₙ degrees of freedom about xᵀmₙ, of scale²
//! (bₙ/aₙ)(1 + xᵀΛₙ⁻¹x). A sale of weight ½ counts as half a sale, in aₙ too.

use super::student_t::StudentT;

/// One observation.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    pub x: Vec<f64>,
    pub y: f64,
    /// 1 for a whole observation.
    pub weight: f64,
}

impl Row {
    /// A row whose error has 1/`precision` times the variance of the others: the same as a plain row
    /// with both sides scaled.
    pub fn precise(mut x: Vec<f64>, y: f64, weight: f64, precision: f64) -> Row {
        let scale = precision.sqrt();
        x.iter_mut().for_each(|x| *x *= scale);
        Row {
            x,
            y: scale * y,
            weight,
        }
    }
}

/// The prior of a regression whose coefficients are guessed independently.
#[derive(Clone, Debug, PartialEq)]
pub struct Guess {
    pub mean: Vec<f64>,
    /// Diagonal of Λ: the observations each guess is worth; all above 0.
    pub worth: Vec<f64>,
    pub shape: f64,
    pub rate: f64,
}

/// What is believed of coefficients and scatter.
#[derive(Clone, Debug, PartialEq)]
pub struct Belief {
    pub mean: Vec<f64>,
    /// Λₙ⁻¹, row by row.
    covariance: Vec<Vec<f64>>,
    pub shape: f64,
    pub rate: f64,
}

impl Guess {
    /// The belief after these rows.
    pub fn after(&self, rows: &[Row]) -> Belief {
        let n = self.mean.len();
        let mut precision = vec![vec![0.0; n]; n];
        let mut right: Vec<f64> = Vec::with_capacity(n);
        for (i, row) in precision.iter_mut().enumerate() {
            row[i] = self.worth[i];
            right.push(self.worth[i] * self.mean[i]);
        }
        for row in rows {
            for i in 0..n {
                let wx = row.weight * row.x[i];
                right[i] += wx * row.y;
                for (sum, x) in precision[i].iter_mut().zip(&row.x) {
                    *sum += wx * x;
                }
            }
        }
        let covariance = inverse(&precision);
        let mean: Vec<f64> = covariance.iter().map(|row| dot(row, &right)).collect();
        let missed = |r: &Row| r.weight * (r.y - dot(&r.x, &mean)).powi(2);
        let moved = (0..n).map(|i| self.worth[i] * (mean[i] - self.mean[i]).powi(2));
        let squares = rows.iter().map(missed).sum::<f64>() + moved.sum::<f64>();
        let weights: f64 = rows.iter().map(|r| r.weight).sum();
        Belief {
            mean,
            covariance,
            shape: self.shape + 0.5 * weights,
            rate: self.rate + 0.5 * squares,
        }
    }
}

impl Belief {
    /// A new observation at x.
    pub fn predict(&self, x: &[f64]) -> StudentT {
        self.predicted(dot(x, &self.mean), self.leverage(x))
    }

    /// A new observation whose expectation and leverage are known.
    pub fn predicted(&self, location: f64, leverage: f64) -> StudentT {
        StudentT {
            location,
            scale: (self.rate / self.shape * (1.0 + leverage)).sqrt(),
            freedom: 2.0 * self.shape,
        }
    }

    /// xᵀΛₙ⁻¹x.
    pub fn leverage(&self, x: &[f64]) -> f64 {
        dot(&self.spread_over(x), x)
    }

    /// Λₙ⁻¹x.
    pub fn spread_over(&self, x: &[f64]) -> Vec<f64> {
        self.covariance.iter().map(|row| dot(row, x)).collect()
    }

    /// One entry of Λₙ⁻¹.
    pub fn covariance(&self, i: usize, j: usize) -> f64 {
        self.covariance[i][j]
    }
}

fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}

/// The inverse of a symmetric positive definite matrix, by its Cholesky factor.
fn inverse(matrix: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let n = matrix.len();
    let mut lower = vec![vec![0.0; n]; n];
    for i in 0..n {
        for j in 0..=i {
            let known: f64 = (0..j).map(|k| lower[i][k] * lower[j][k]).sum();
            let left = matrix[i][j] - known;
            lower[i][j] = if i == j {
                left.sqrt()
            } else {
                left / lower[j][j]
            };
        }
    }
    // L⁻¹ row by row, then L⁻ᵀ L⁻¹.
    let mut under: Vec<Vec<f64>> = Vec::with_capacity(n);
    for (i, row) in lower.iter().enumerate() {
        let solved = |j: usize| {
            let known: f64 = (j..i).map(|k| row[k] * under[k][j]).sum();
            let unit = if i == j { 1.0 } else { 0.0 };
            (unit - known) / row[i]
        };
        let solved = (0..=i).map(solved).collect();
        under.push(solved);
    }
    let entry = |i: usize, j: usize| (i.max(j)..n).map(|k| under[k][i] * under[k][j]).sum();
    (0..n)
        .map(|i| (0..n).map(|j| entry(i, j)).collect())
        .collect()
}
