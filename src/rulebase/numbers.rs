//! The third step of loading, numbers: texts to numbers, weights, curves, years and days, or into
//! problems with their place.

use std::fmt::Display;
use std::ops::RangeInclusive;
use std::str::FromStr;

use super::ladder;
use super::problem::{Check, nearest};
use super::resolve::Resolver;
use super::schema::{Point, Text};
use super::source::{Bare, Located, SourceFile};
use crate::core::curve::Curve;
use crate::registry::calendar::Date;

/// Years a rule file may speak of (common practice, no source).
pub(super) const YEARS: RangeInclusive<i16> = 1700..=2100;

/// The same for a curve.
pub(super) const CURVE_YEARS: RangeInclusive<f64> = 1700.0..=2100.0;

/// Least weight or height that is not 0: a thousandth of a thousandth of the rarest that is written.
/// Shares of numbers that all but vanish would be lost in the last bit of one (common practice, no
/// source).
const LEAST: f64 = 1e-9;

/// Seconds a look can take, how often it can be misread, and how often what it asks of is there
/// (common practice, no source).
pub(super) const SECONDS: RangeInclusive<f64> = 1.0..=600.0;
pub(super) const SLIP: RangeInclusive<f64> = 0.0..=0.5;
pub(super) const PRESENT: RangeInclusive<f64> = 0.0..=1.0;

impl Resolver<'_> {
    /// A finite number in a range.
    pub(super) fn number(
        &mut self,
        file: &SourceFile,
        value: f64,
        at: &str,
        range: RangeInclusive<f64>,
        what: &str,
    ) -> f64 {
        if value.is_finite() && range.contains(&value) {
            return value;
        }
        let (least, most) = (range.start(), range.end());
        let message = format!("{what} {at} is not a number from {least} to {most}");
        self.problem(file, at, Check::BadNumber, message, "");
        *least
    }

    /// A number in a range; 0 where none is written.
    pub(super) fn optional(
        &mut self,
        file: &SourceFile,
        written: Option<&Located<f64>>,
        range: RangeInclusive<f64>,
        what: &str,
    ) -> f64 {
        written.map_or(0.0, |n| self.number(file, n.value, n.src, range, what))
    }

    /// A whole number in a range, of any type that holds it.
    pub(super) fn whole<N>(
        &mut self,
        file: &SourceFile,
        text: Bare,
        range: RangeInclusive<N>,
        what: &str,
    ) -> Option<N>
    where
        N: Copy + PartialOrd + Display + FromStr,
    {
        let number = text.0.replace('_', "").parse().ok();
        let number = number.filter(|n| range.contains(n));
        if number.is_none() {
            let (at, least, most) = (text.0, range.start(), range.end());
            let message = format!("{what} {at} is not a whole number from {least} to {most}");
            self.problem(file, at, Check::BadNumber, message, "");
        }
        number
    }

    /// A year.
    pub(super) fn year(&mut self, file: &SourceFile, text: Bare) -> Option<i16> {
        self.whole(file, text, YEARS, "year")
    }

    /// A day, written as `YYYY-MM-DD`.
    pub(super) fn day(&mut self, file: &SourceFile, text: &Text) -> Option<Date> {
        let day = Date::from_iso(&text.value).filter(|d| YEARS.contains(&d.year()));
        if day.is_none() {
            let (first, last) = (YEARS.start(), YEARS.end());
            let message = format!("'{}' is no day of the years {first} to {last}", text.value);
            self.problem(file, text.src, Check::BadDay, message, "write YYYY-MM-DD");
        }
        day
    }

    /// 0, or a number that does not vanish beside others.
    fn size(&mut self, file: &SourceFile, value: f64, at: &str, most: f64, what: &str) -> f64 {
        if value > 0.0 && value < LEAST {
            let message = format!("{what} {at} is neither 0 nor at least {LEAST}");
            let help = "write 0 for what is never seen";
            self.problem(file, at, Check::BadNumber, message, help);
        }
        self.number(file, value, at, 0.0..=most, what)
    }

    /// A ladder word or a number ≥ 0.
    pub(super) fn weight(&mut self, file: &SourceFile, text: Bare) -> f64 {
        if let Some(weight) = ladder::weight(text.0) {
            return self.size(file, weight, text.0, 1e6, "weight");
        }
        let words = ladder::LADDER.map(|(word, _)| word);
        let known = words.join(", ");
        let message = format!("'{}' is no weight: use {known} or a number", text.0);
        let near = nearest(text.0, words).map_or(String::new(), |n| format!("did you mean {n}?"));
        self.problem(file, text.0, Check::BadWeight, message, near);
        0.0
    }

    /// A curve: ascending years (equal ones make a step), heights from 0.
    pub(super) fn curve(
        &mut self,
        file: &SourceFile,
        points: &[Point],
        range: RangeInclusive<f64>,
    ) -> Curve {
        let mut out: Vec<(f64, f64)> = Vec::with_capacity(points.len());
        for (x, height) in points {
            let year = self.number(file, x.value, x.src, range.clone(), "year");
            let height = self.size(file, height.value, height.src, 1000.0, "height");
            if let Some((before, _)) = out.last().copied() {
                let step_too_long = out.len() > 1 && out[out.len() - 2].0 == year;
                if year < before || step_too_long {
                    let message = format!("year {year} comes after {before}");
                    let help = "write the points in ascending order; at most two may share a year";
                    self.problem(file, x.src, Check::YearsReversed, message, help);
                    continue;
                }
            }
            out.push((year, height));
        }
        Curve::new(out)
    }
}
