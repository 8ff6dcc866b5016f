//! The mean date of a lot by two ways of counting.
//!
//! South's formula: mean date = Σ f·x / Σ f, with x the middle of the years in which a sort of ware was
//! made and f how many there are of it (S. South, Method and Theory in Historical Archaeology, 1977).
//! Here each piece is its own sort and x the middle of its band. The other way is the engine's own: the
//! mean of all the pieces' chances of each year, which keeps how unsure each piece is. Either dates the
//! lot as a whole, as it was gathered; neither says anything of a single piece.

use super::row::Answer;

/// Years counted so far.
#[derive(Clone, Debug, Default)]
pub struct MeanDate {
    pieces: u64,
    midpoints: f64,
    /// Σ P(year), by year offset.
    years: Vec<f64>,
}

/// Σ f·x / Σ f of (how many, middle year); `None` of nothing.
pub fn south(counted: impl Iterator<Item = (f64, f64)>) -> Option<f64> {
    let (mut pieces, mut years) = (0.0, 0.0);
    for (f, x) in counted {
        pieces += f;
        years += f * x;
    }
    (pieces > 0.0).then(|| years / pieces)
}

impl MeanDate {
    /// Counts one piece.
    pub fn add(&mut self, answer: &Answer) {
        self.pieces += 1;
        self.midpoints += (f64::from(answer.from) + f64::from(answer.to)) / 2.0;
        self.years
            .resize(answer.years.len().max(self.years.len()), 0.0);
        for (sum, p) in self.years.iter_mut().zip(&answer.years) {
            *sum += p;
        }
    }

    /// By South's formula; `None` of no piece.
    pub fn south(&self) -> Option<f64> {
        let pieces = self.pieces as f64;
        south([(pieces, self.midpoints / pieces.max(1.0))].into_iter())
    }

    /// P(year) of a piece taken out of the lot without looking, by year offset.
    pub fn pooled(&self) -> Vec<f64> {
        let pieces = self.pieces.max(1) as f64;
        self.years.iter().map(|p| p / pieces).collect()
    }
}
