//! Σ p · log2 p, many at a time.
//!
//! The library's logarithm is right to the last bit and takes one number at a time; sums of bits need
//! twelve digits. So the exponent is read off the number, and the logarithm of the rest, m in 1..2, is a
//! series: with s = (m − √2) / (m + √2), |s| ≤ 0.172,
//!
//!   log2 m = ½ + (2 / ln 2) · (s + s³/3 + s⁵/5 + … + s¹⁵/15),
//!
//! the rest being below 1e-14 (the series of the inverse hyperbolic tangent). Nothing here branches, so
//! that several numbers are worked at once.

use std::f64::consts::{LN_2, SQRT_2};

/// Bits of the fraction of an f64.
const FRACTION: u64 = (1 << 52) - 1;

/// The bits of 1.0.
const ONE: u64 = 1023 << 52;

/// The bits of 2^52: with a small whole number in the fraction it is 2^52 and that number.
const WHOLE: u64 = 1075 << 52;

/// log2 of a number above 0; of 0 some number, and not infinity, so that 0 · log2 0 is 0.
#[inline(always)]
fn log2(x: f64) -> f64 {
    let bits = x.to_bits();
    let exponent = f64::from_bits((bits >> 52) | WHOLE) - (4_503_599_627_370_496.0 + 1023.0);
    let m = f64::from_bits((bits & FRACTION) | ONE);
    let s = (m - SQRT_2) / (m + SQRT_2);
    let q = s * s;
    let series = 1.0 / 15.0;
    let series = series * q + 1.0 / 13.0;
    let series = series * q + 1.0 / 11.0;
    let series = series * q + 1.0 / 9.0;
    let series = series * q + 1.0 / 7.0;
    let series = series * q + 1.0 / 5.0;
    let series = series * q + 1.0 / 3.0;
    let series = series * q + 1.0;
    exponent + 0.5 + (2.0 / LN_2) * s * series
}

/// Σ p · log2 p over probabilities; 0 · log2 0 is 0.
pub(super) fn sum_p_log2_p(p: &[f64]) -> f64 {
    let (chunks, rest) = p.as_chunks::<4>();
    let mut lanes = [0.0; 4];
    for chunk in chunks {
        for (lane, x) in lanes.iter_mut().zip(chunk) {
            *lane += x * log2(*x);
        }
    }
    lanes.iter().sum::<f64>() + rest.iter().map(|x| x * log2(*x)).sum::<f64>()
}

#[cfg(test)]
mod tests {
    use super::{log2, sum_p_log2_p};

    #[test]
    fn the_series_is_right_to_twelve_digits() {
        let mut x = 1.0;
        while x > 1e-30 {
            for x in [x, x * (1.0 - 1e-15), x * 0.707, x * 0.708] {
                assert!(
                    (log2(x) - x.log2()).abs() < 1e-12 * (1.0 + x.log2().abs()),
                    "{x}"
                );
            }
            x *= 0.973;
        }
    }

    #[test]
    fn halves_and_quarters_are_whole_bits_and_nothing_is_none() {
        for (p, bits) in [
            (vec![0.5, 0.5], -1.0),
            (vec![0.25; 4], -2.0),
            (vec![1.0, 0.0, 0.0, 0.0, 0.0], 0.0),
            (vec![0.125; 8], -3.0),
        ] {
            assert!((sum_p_log2_p(&p) - bits).abs() < 1e-12, "{p:?}");
        }
    }
}
