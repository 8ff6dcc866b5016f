//! One known piece against its posterior.

use super::cases::Known;
use crate::core::grid::{Grid, KindId, PlaceId, Year};
use crate::core::interval::{Band, mass, quantile};
use crate::core::posterior::{Posterior, leading};
use crate::piece::judgement::SHARE;

/// Years allowed on either side of a catalogued span: most spans are circa
/// (common practice, no source).
pub const TOLERANCE: i16 = 5;

/// A log score never falls below ln of this, so that one piece cannot be minus infinity
/// (common practice, no source).
pub const LEAST: f64 = 1e-9;

/// Stated shares of the bands whose coverage is counted.
pub const SHARES: [f64; 11] = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.99];

/// The answer about the date of a piece whose span is short enough.
#[derive(Clone, Debug, PartialEq)]
pub struct Dated {
    pub midpoint: f64,
    pub median: Year,
    /// Bands of `SHARES`, as the verdict shows them: nested about the usual one.
    pub bands: [Band; SHARES.len()],
    /// ln P(from − 5 ..= to + 5).
    pub log: f64,
}

impl Dated {
    /// Median − midpoint.
    pub fn error(&self) -> f64 {
        f64::from(self.median.0) - self.midpoint
    }

    /// The band of a share of `SHARES`; the widest if it is none of them.
    pub fn band(&self, share: f64) -> Band {
        let at = SHARES.iter().position(|s| (s - share).abs() < 1e-9);
        self.bands[at.unwrap_or(SHARES.len() - 1)]
    }

    /// True when the catalogued midpoint lies in the band.
    pub fn inside(&self, band: Band) -> bool {
        f64::from(band.from.0) <= self.midpoint && self.midpoint <= f64::from(band.to.0)
    }
}

/// The answer about the kind of a piece whose kind is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Kinded {
    /// Catalogued.
    pub truth: KindId,
    /// ln P(truth).
    pub log: f64,
}

/// One case judged.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    pub leader: KindId,
    /// Probability of the leading kind.
    pub p: f64,
    /// The usual band, for the record, also of cases that do not count for dating.
    pub band: Band,
    pub date: Option<Dated>,
    pub kind: Option<Kinded>,
    /// Whether the leading place is the catalogued one.
    pub place_right: Option<bool>,
}

impl Judged {
    /// Sum of the log scores that count for this case.
    pub fn log(&self) -> f64 {
        self.date.as_ref().map_or(0.0, |d| d.log) + self.kind.map_or(0.0, |k| k.log)
    }

    /// False when neither date nor kind counts.
    pub fn counts(&self) -> bool {
        self.date.is_some() || self.kind.is_some()
    }
}

/// ln P(catalogued span ± `TOLERANCE`), given P(year).
pub fn log_date(years: &[f64], grid: &Grid, case: &Known) -> f64 {
    let (from, to) = (case.from.0 - TOLERANCE, case.to.0 + TOLERANCE);
    mass(years, grid, Year(from), Year(to)).max(LEAST).ln()
}

/// ln P(kind), given P(kind).
pub fn log_kind(kinds: &[f64], kind: KindId) -> f64 {
    kinds[usize::from(kind.0)].max(LEAST).ln()
}

/// Judges a case by its posterior.
pub fn judge(grid: &Grid, after: &Posterior, case: &Known) -> Judged {
    let (years, kinds) = (after.years(grid), after.kinds(grid));
    Judged {
        place_right: case.place.map(|place| place == leading_place(grid, after)),
        ..judge_years_and_kinds(grid, &years, &kinds, case)
    }
}

/// Judges a case by P(year) and P(kind); the place stays open.
pub fn judge_years_and_kinds(grid: &Grid, years: &[f64], kinds: &[f64], case: &Known) -> Judged {
    let (leader, p) = leading(kinds);
    let date = case.datable().then(|| Dated {
        midpoint: case.midpoint(),
        median: quantile(years, grid, 0.5),
        bands: Band::nested(years, grid, SHARE, SHARES),
        log: log_date(years, grid, case),
    });
    let kind = case.kind.map(|truth| Kinded {
        truth,
        log: log_kind(kinds, truth),
    });
    Judged {
        leader,
        p,
        band: Band::shortest(years, grid, SHARE),
        date,
        kind,
        place_right: None,
    }
}

fn leading_place(grid: &Grid, after: &Posterior) -> PlaceId {
    let mut best = (PlaceId(0), f64::NEG_INFINITY);
    for (i, p) in after.places(grid).into_iter().enumerate() {
        if p > best.1 {
            best = (PlaceId(i as u8), p);
        }
    }
    best.0
}
