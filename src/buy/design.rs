//! An appearance as a row of numbers. Columns: the start, channels, groups of kinds, ages, classes of
//! the priced clues, defects; the coefficient of each is the logarithm of a factor.

use super::appearance::{Appearance, Part};
use super::regression::Guess;
use super::terms::Terms;
use crate::rulebase::prices::PriceGuesses;

/// Where each sort of column begins.
#[derive(Clone, Debug)]
pub(super) struct Design {
    groups: usize,
    ages: usize,
    classes: usize,
    defects: usize,
    width: usize,
    /// Years of the age columns, rising.
    knots: Vec<f64>,
}

impl Design {
    pub(super) fn new(guesses: &PriceGuesses, terms: &Terms) -> Design {
        let groups = 1 + terms.channels.len();
        let ages = groups + guesses.groups.len();
        let classes = ages + guesses.ages.len();
        let all = guesses.traits.iter().map(|t| t.classes.len());
        let defects = classes + all.sum::<usize>();
        Design {
            groups,
            ages,
            classes,
            defects,
            width: defects + guesses.defects.len(),
            knots: guesses.ages.iter().map(|a| a.years).collect(),
        }
    }

    /// The guesses as a prior, in the currency of the terms.
    pub(super) fn guess(&self, guesses: &PriceGuesses, terms: &Terms) -> Guess {
        let mut factors = vec![guesses.start * terms.rate];
        let likes = terms.channels.iter().map(|c| c.like);
        factors.extend(likes.map(|like| guesses.channels[like].factor.factor));
        factors.extend(guesses.groups.iter().map(|g| g.factor));
        factors.extend(guesses.ages.iter().map(|a| a.factor));
        let classes = guesses.traits.iter().flat_map(|t| &t.classes);
        factors.extend(classes.map(|c| c.factor.factor));
        factors.extend(guesses.defects.iter().map(|d| d.factor.factor));
        let shape = 0.5 * guesses.spread_worth;
        Guess {
            mean: factors.iter().map(|f| f.ln()).collect(),
            worth: vec![guesses.worth; self.width],
            shape,
            // The mean of 1/σ² is shape/rate.
            rate: shape * guesses.spread.ln().powi(2),
        }
    }

    /// The column of a defect.
    pub(super) fn defect(&self, defect: usize) -> usize {
        self.defects + defect
    }

    /// The row without kind and age; `channel` is an index into the terms'.
    pub(super) fn shared(&self, piece: &Appearance, channel: Option<usize>) -> Vec<f64> {
        let mut x = vec![0.0; self.width];
        x[0] = 1.0;
        if let Some(channel) = channel {
            x[1 + channel] = 1.0;
        }
        let classes = piece.classes.iter().flatten();
        for (to, share) in x[self.classes..self.defects].iter_mut().zip(classes) {
            *to = *share;
        }
        for (to, chance) in x[self.defects..].iter_mut().zip(&piece.defects) {
            *to = *chance;
        }
        x
    }

    /// The columns of kind and age of one part.
    pub(super) fn part(&self, part: &Part) -> Vec<(usize, f64)> {
        let mut out = Vec::with_capacity(3);
        out.extend(part.group.map(|g| (self.groups + g, 1.0)));
        let above = self.knots.iter().position(|k| *k > part.years);
        let last = self.knots.len() - 1;
        match above {
            Some(0) => out.push((self.ages, 1.0)),
            Some(i) => {
                let (low, high) = (self.knots[i - 1], self.knots[i]);
                let up = (part.years - low) / (high - low);
                out.push((self.ages + i - 1, 1.0 - up));
                out.push((self.ages + i, up));
            }
            None => out.push((self.ages + last, 1.0)),
        }
        out
    }

    /// Variance of the log price among the parts a piece may be, by these coefficients.
    pub(super) fn doubt(&self, piece: &Appearance, mean: &[f64]) -> f64 {
        let location = |part: &Part| -> f64 {
            let entries = self.part(part).into_iter();
            entries.map(|(column, value)| value * mean[column]).sum()
        };
        let expected = |f: &dyn Fn(f64) -> f64| -> f64 {
            let parts = piece.parts.iter();
            parts.map(|p| p.share * f(location(p))).sum()
        };
        (expected(&|x| x * x) - expected(&|x| x).powi(2)).max(0.0)
    }

    /// The row with kind and age as expected: what a sale is learned by.
    pub(super) fn expected(&self, piece: &Appearance, channel: Option<usize>) -> Vec<f64> {
        let mut x = self.shared(piece, channel);
        for part in &piece.parts {
            for (column, value) in self.part(part) {
                x[column] += part.share * value;
            }
        }
        x
    }
}
