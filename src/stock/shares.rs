//! An amount split over several pieces.

/// An amount in `weights.len()` parts that add up to it to the last minor unit, by weight; equal
/// where all weights are 0. What rounding leaves over goes to the largest remainders, the first of
/// equal ones first.
pub(super) fn shares(minor: i64, weights: &[u64]) -> Vec<i64> {
    let all: i128 = weights.iter().map(|w| i128::from(*w)).sum();
    let equal = vec![1; weights.len()];
    let (weights, all) = match all {
        0 => (&equal[..], weights.len() as i128),
        _ => (weights, all),
    };
    let exact = |w: &u64| i128::from(minor) * i128::from(*w);
    let mut parts: Vec<i64> = weights
        .iter()
        .map(|w| exact(w).div_euclid(all) as i64)
        .collect();
    let left = minor - parts.iter().sum::<i64>();
    let mut order: Vec<usize> = (0..weights.len()).collect();
    order.sort_by_key(|i| std::cmp::Reverse(exact(&weights[*i]).rem_euclid(all)));
    for i in order.into_iter().take(usize::try_from(left).unwrap_or(0)) {
        parts[i] += 1;
    }
    parts
}

#[cfg(test)]
mod tests {
    use super::shares;

    #[test]
    fn parts_add_up_to_the_last_minor_unit() {
        assert_eq!(shares(1000, &[1, 1, 1]), [334, 333, 333]);
        assert_eq!(shares(1000, &[0, 0]), [500, 500]);
        assert_eq!(shares(1001, &[2, 1, 7]), [200, 100, 701]);
        assert_eq!(shares(0, &[3, 4]), [0, 0]);
        for minor in 0..200 {
            let parts = shares(minor, &[3, 1, 4, 1, 5]);
            assert_eq!(parts.iter().sum::<i64>(), minor);
        }
    }
}
