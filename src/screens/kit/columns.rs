//! Years to columns of a picture, whatever its width.

/// Which column a year offset falls in.
pub(crate) fn column(offset: usize, columns: usize, years: usize) -> usize {
    offset * columns / years
}

/// Mean chance of a year in each column, scaled so that the highest column is 1. The mean, because
/// columns do not all hold the same number of years, and a sum would draw peaks that are not there.
pub(crate) fn chances(years: &[f64], columns: usize) -> Vec<f64> {
    let mut out = vec![(0.0, 0u32); columns];
    for (offset, p) in years.iter().enumerate() {
        let (sum, n) = &mut out[column(offset, columns, years.len())];
        *sum += p;
        *n += 1;
    }
    let mut last = 0.0;
    let means: Vec<f64> = out
        .into_iter()
        .map(|(sum, n)| {
            // A window wider than the years repeats the year before.
            if n > 0 {
                last = sum / f64::from(n);
            }
            last
        })
        .collect();
    let top = means.iter().copied().fold(f64::MIN_POSITIVE, f64::max);
    means.iter().map(|x| x / top).collect()
}

/// Highest year of each column: an era that lasts a single year is still seen.
pub(crate) fn peaks(heights: &[f64], columns: usize) -> Vec<f64> {
    let mut out = vec![None; columns];
    for (offset, h) in heights.iter().enumerate() {
        let most: &mut Option<f64> = &mut out[column(offset, columns, heights.len())];
        *most = Some(most.map_or(*h, |m| m.max(*h)));
    }
    let mut last = 0.0;
    out.into_iter()
        .map(|h| {
            last = h.unwrap_or(last);
            last
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::{chances, peaks};

    #[test]
    fn even_years_make_a_flat_curve_at_any_width() {
        for columns in 1..400 {
            for h in chances(&[1.0 / 277.0; 277], columns) {
                assert!((h - 1.0).abs() < 1e-9, "{columns}");
            }
        }
    }

    #[test]
    fn a_single_year_is_seen_at_any_width() {
        let mut years = [0.0; 277];
        years[92] = 1.0;
        for columns in 1..400 {
            assert!(peaks(&years, columns).contains(&1.0), "{columns}");
        }
    }
}
