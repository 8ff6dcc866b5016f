//! Coverage, error, width and log scores of many judged cases.

use super::judge::Judged;

/// Stated shares of the bands reported.
pub const BANDS: [f64; 3] = [0.5, 0.8, 0.95];

/// Means over the cases that count; `None` where none does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measures {
    pub cases: usize,
    /// Cases whose span is short enough to count for dating.
    pub dated: usize,
    /// Cases whose kind is known.
    pub kinded: usize,
    /// Share of midpoints in the bands of `BANDS`.
    pub coverage: [Option<f64>; 3],
    /// |median − midpoint| in years.
    pub median_error: Option<f64>,
    pub mean_error: Option<f64>,
    /// Mean of median − midpoint: above 0 = dated too late.
    pub bias: Option<f64>,
    /// Median width of the 80 % band in years.
    pub width: Option<f64>,
    /// Mean ln P(catalogued span ± 5 years).
    pub log_date: Option<f64>,
    /// Share of cases whose leading kind is the catalogued one.
    pub kind_right: Option<f64>,
    /// Mean ln P(catalogued kind).
    pub log_kind: Option<f64>,
    /// Share of cases whose leading place is the catalogued one.
    pub place_right: Option<f64>,
}

impl Measures {
    /// Measures the cases given.
    pub fn of<'a>(judged: impl Iterator<Item = &'a Judged>) -> Measures {
        let judged: Vec<&Judged> = judged.collect();
        let dated: Vec<_> = judged.iter().filter_map(|j| j.date.as_ref()).collect();
        let kinded: Vec<_> = judged
            .iter()
            .filter_map(|j| j.kind.map(|k| (j, k)))
            .collect();
        let errors: Vec<f64> = dated.iter().map(|d| d.error().abs()).collect();
        Measures {
            cases: judged.len(),
            dated: dated.len(),
            kinded: kinded.len(),
            coverage: BANDS.map(|s| mean(dated.iter().map(|d| truth(d.inside(d.band(s)))))),
            median_error: median(&errors),
            mean_error: mean(errors.iter().copied()),
            bias: mean(dated.iter().map(|d| d.error())),
            width: median(
                &dated
                    .iter()
                    .map(|d| f64::from(d.band(0.8).width()))
                    .collect::<Vec<_>>(),
            ),
            log_date: mean(dated.iter().map(|d| d.log)),
            kind_right: mean(kinded.iter().map(|(j, k)| truth(j.leader == k.truth))),
            log_kind: mean(kinded.iter().map(|(_, k)| k.log)),
            place_right: mean(judged.iter().filter_map(|j| j.place_right.map(truth))),
        }
    }
}

/// 1 for true, 0 for false.
pub fn truth(yes: bool) -> f64 {
    f64::from(u8::from(yes))
}

/// Mean in the order given.
pub fn mean(values: impl Iterator<Item = f64>) -> Option<f64> {
    let (n, sum) = values.fold((0usize, 0.0), |(n, sum), x| (n + 1, sum + x));
    (n > 0).then(|| sum / n as f64)
}

/// The middle value, or the mean of the two middle ones.
pub fn median(values: &[f64]) -> Option<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let upper = *sorted.get(sorted.len() / 2)?;
    if sorted.len() % 2 == 1 {
        return Some(upper);
    }
    Some((sorted[sorted.len() / 2 - 1] + upper) / 2.0)
}
