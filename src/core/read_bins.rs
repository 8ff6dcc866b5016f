//! The years that may be read at a dated clue, in bins of five.
//!
//! P(bin | year made) is the kernel over the few bins about that year, and beyond them what misreading
//! leaves alike for every year of the axis:
//!
//!   P(bin | made) = ( (1 − ε) · Σ_{read in bin} density(made − read) + years in bin · ε / years ) / total.
//!
//! The rest of the kernel's mass falls outside the axis; what is left is made to sum to 1.

use std::ops::Range;

/// Bin width for years read at dated clues (common practice, no source).
pub(super) const READ_BIN: usize = 5;

/// P(bin | year made), kept as a band about the year made and a level outside it.
#[derive(Clone, Debug)]
pub(super) struct ReadBins {
    /// Years in each bin: the last may have fewer.
    pub widths: Vec<f64>,
    /// By year made: what every year read has at least.
    pub level: Vec<f64>,
    /// By year made: the bins that have more, and how much.
    pub band: Vec<(usize, Vec<f64>)>,
}

impl ReadBins {
    /// `density[made − read + years]` as in a table, ε = `error`.
    pub(super) fn new(density: &[f64], years: usize, error: f64) -> ReadBins {
        let bins = years.div_ceil(READ_BIN);
        let width = |bin: usize| READ_BIN.min(years - bin * READ_BIN) as f64;
        let mut out = ReadBins {
            widths: (0..bins).map(width).collect(),
            level: Vec::with_capacity(years),
            band: Vec::with_capacity(years),
        };
        for made in 0..years {
            let mut of_bin = vec![0.0; bins];
            for read in 0..years {
                of_bin[read / READ_BIN] += (1.0 - error) * density[made + years - read];
            }
            let total = of_bin.iter().sum::<f64>() + error;
            of_bin.iter_mut().for_each(|p| *p /= total);
            let some = some_of(&of_bin);
            out.level.push(error / years as f64 / total);
            out.band.push((some.start, of_bin[some].to_vec()));
        }
        out
    }

    /// The bins that any of these years made has more of than the level.
    pub(super) fn bins_of(&self, made: Range<usize>) -> Range<usize> {
        let bands = || {
            self.band[made.clone()]
                .iter()
                .filter(|(_, b)| !b.is_empty())
        };
        let from = bands().map(|(from, _)| *from).min().unwrap_or(0);
        let to = bands().map(|(from, b)| from + b.len()).max().unwrap_or(0);
        from..to.max(from)
    }
}

/// From the first to the last that is more than nothing.
fn some_of(p: &[f64]) -> Range<usize> {
    let from = p.iter().position(|x| *x > 0.0).unwrap_or(0);
    let to = p.iter().rposition(|x| *x > 0.0).map_or(from, |i| i + 1);
    from..to
}
