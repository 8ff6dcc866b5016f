//! Sums of many cells, and cells that sum to 1.

/// Makes cells sum to 1; returns the logarithm of their sum.
pub(super) fn scale_to_one(p: &mut [f64]) -> f64 {
    let total = sum(p);
    let inverse = 1.0 / total;
    p.iter_mut().for_each(|x| *x *= inverse);
    total.ln()
}

/// Sum in eight lanes: always the same order, and quick without any special instructions.
pub(super) fn sum(p: &[f64]) -> f64 {
    let chunks = p.chunks_exact(8);
    let rest: f64 = chunks.remainder().iter().sum();
    let mut lanes = [0.0; 8];
    for chunk in chunks {
        for (lane, x) in lanes.iter_mut().zip(chunk) {
            *lane += x;
        }
    }
    lanes.iter().sum::<f64>() + rest
}
