//! Refuses what can never be: kinds never made, kernels without a year, settings that hold nothing.
//!
//! Without these the sums of the engine would be 0 or infinite, and a share of them no number.

use super::base::RuleBase;
use super::definitions::{Frequency, Made};
use super::ids::{KindId, ids};
use super::numbers::YEARS;
use super::problem::Check;
use super::resolve::Resolver;
use super::schema::Text;
use super::source::SourceFile;
use crate::core::curve::Curve;
use crate::core::grid::{FIRST_YEAR, Year};

/// Product of all factors at most, as a power of ten: far from the end of the numbers, about 1e308
/// (common practice, no source).
const MOST_DIGITS: f64 = 200.0;

/// All that can be judged, up to the last a rule file may speak of.
fn years() -> impl Iterator<Item = Year> {
    (FIRST_YEAR.0..=*YEARS.end()).map(Year)
}

/// A kind must have been made somewhere in some year.
pub(super) fn kind(r: &mut Resolver, file: &SourceFile, id: &Text, made: &[Made]) {
    let ever = |m: &Made| m.weight > 0.0 && years().any(|y| m.curve.at(y) > 0.0);
    if !made.iter().any(ever) {
        let message = format!("kind '{}' is made nowhere", id.value);
        let help = "add made: [(place: \"…\", weight: …)], with a weight above 0 in some year";
        r.problem(file, id.src, Check::NeverMade, message, help);
    }
}

/// A kernel must be above 0 at some whole number of years: only such lags are asked for.
pub(super) fn kernel(r: &mut Resolver, file: &SourceFile, id: &Text, lag: &Curve, longest: i16) {
    if !(-longest..=longest).any(|lags| lag.at(Year(lags)) > 0.0) {
        let message = format!("kernel '{}' is 0 at every whole number of years", id.value);
        let help = "give it a height above 0 at some lag, such as (0, 1)";
        r.problem(file, id.src, Check::NeverSeen, message, help);
    }
}

/// A setting must leave some kind possible at some place and year, and all of it must be countable.
pub(super) fn setting(
    r: &mut Resolver,
    base: &RuleBase,
    file: &SourceFile,
    at: &str,
    curve: &Curve,
    factors: &[Frequency],
) {
    // What its kinds lack has been said already.
    if !r.problems.is_empty() {
        return;
    }
    let heights = |curve: &Curve| curve.points().iter().map(|p| p.1).reduce(f64::max);
    // A curve without points is 1 everywhere.
    let highest = |curve: &Curve| heights(curve).unwrap_or(1.0);
    let digits = |f: &Frequency| (f.weight * highest(&f.curve)).max(1.0).log10();
    let sum: f64 = factors.iter().map(digits).sum();
    let shown = at.trim_matches('"');
    if sum > MOST_DIGITS {
        let message = format!("the factors of '{shown}' multiply to more than 1e{MOST_DIGITS}");
        let help = "factors are ratios: divide them by the usual one";
        r.problem(file, at, Check::NothingPossible, message, help);
        return;
    }
    let holds = |kind: KindId, made: &Made, year: Year| {
        let fitting = factors.iter().filter(|f| f.fits(kind, made.place));
        let factor: f64 = fitting.map(|f| f.weight * f.curve.at(year)).product();
        made.weight * made.curve.at(year) * curve.at(year) * factor > 0.0
    };
    let any = ids::<KindId>(base.kinds.len())
        .zip(&base.kinds)
        .any(|(id, kind)| {
            let mut made = kind.made.iter();
            made.any(|m| years().any(|year| holds(id, m, year)))
        });
    if !any {
        let message = format!("'{shown}' leaves no kind, place and year possible");
        let help = "give it years above 0, and factors above 0 for some kind made in them";
        r.problem(file, at, Check::NothingPossible, message, help);
    }
}
