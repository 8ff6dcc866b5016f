//! Turns text into numbers, weights and curves, or into problems with their place.

use super::ladder;
use super::problem::nearest;
use super::resolve::Resolver;
use super::schema::Point;
use super::source::{Bare, SourceFile};
use crate::core::curve::Curve;

/// Years a curve may speak of.
pub const CURVE_YEARS: std::ops::RangeInclusive<f64> = 1700.0..=2100.0;

impl Resolver {
    /// A finite number in a range.
    pub fn number(
        &mut self,
        file: &SourceFile,
        value: f64,
        at: &str,
        range: std::ops::RangeInclusive<f64>,
        what: &str,
    ) -> f64 {
        if value.is_finite() && range.contains(&value) {
            return value;
        }
        self.problem(
            file,
            at,
            "bad-number",
            format!(
                "{what} {at} is not a number from {} to {}",
                range.start(),
                range.end()
            ),
            String::new(),
        );
        *range.start()
    }

    /// A ladder word or a number ≥ 0.
    pub fn weight(&mut self, file: &SourceFile, text: &Bare) -> f64 {
        match ladder::weight(text.0) {
            Some(w) => self.number(file, w, text.0, 0.0..=1e6, "weight"),
            None => {
                let words = ladder::LADDER.map(|(w, _)| w);
                let near =
                    nearest(text.0, words).map_or(String::new(), |n| format!("did you mean {n}?"));
                self.problem(
                    file,
                    text.0,
                    "bad-weight",
                    format!(
                        "'{}' is no weight: use {} or a number",
                        text.0,
                        words.join(", ")
                    ),
                    near,
                );
                0.0
            }
        }
    }

    /// A curve: ascending years (equal ones make a step), heights from 0.
    pub fn curve(
        &mut self,
        file: &SourceFile,
        points: &[Point],
        range: std::ops::RangeInclusive<f64>,
    ) -> Curve {
        let mut out: Vec<(f64, f64)> = Vec::with_capacity(points.len());
        for (x, height) in points {
            let year = self.number(file, x.value, x.src, range.clone(), "year");
            let height = self.number(file, height.value, height.src, 0.0..=1000.0, "height");
            if let Some((before, _)) = out.last().copied() {
                let step_too_long = out.len() > 1 && out[out.len() - 2].0 == year;
                if year < before || step_too_long {
                    self.problem(
                        file,
                        x.src,
                        "years-reversed",
                        format!("year {year} comes after {before}"),
                        "write the points in ascending order; at most two may share a year".into(),
                    );
                    continue;
                }
            }
            out.push((year, height));
        }
        Curve::new(out)
    }
}
