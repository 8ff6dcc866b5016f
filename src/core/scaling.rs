//! Sums of many cells, and cells that sum to 1.

/// Lanes that sums are taken in: always the same order, and quick without any special instructions.
const LANES: usize = 8;

/// Makes cells sum to 1; returns the logarithm of their sum.
pub(super) fn scale_to_one(p: &mut [f64]) -> f64 {
    let total = sum(p);
    let inverse = 1.0 / total;
    p.iter_mut().for_each(|x| *x *= inverse);
    total.ln()
}

/// Sum in eight lanes.
pub(super) fn sum(p: &[f64]) -> f64 {
    let (chunks, rest) = p.as_chunks::<LANES>();
    let mut lanes = [0.0; LANES];
    for chunk in chunks {
        for (lane, x) in lanes.iter_mut().zip(chunk) {
            *lane += x;
        }
    }
    lanes.iter().sum::<f64>() + rest.iter().sum::<f64>()
}

/// Σ a · b in eight lanes, of as many as the shorter has.
pub(super) fn dot(a: &[f64], b: &[f64]) -> f64 {
    let length = a.len().min(b.len());
    let (a, a_rest) = a[..length].as_chunks::<LANES>();
    let (b, b_rest) = b[..length].as_chunks::<LANES>();
    let mut lanes = [0.0; LANES];
    for (a, b) in a.iter().zip(b) {
        for (lane, (x, y)) in lanes.iter_mut().zip(a.iter().zip(b)) {
            *lane += x * y;
        }
    }
    let rest: f64 = a_rest.iter().zip(b_rest).map(|(x, y)| x * y).sum();
    lanes.iter().sum::<f64>() + rest
}
