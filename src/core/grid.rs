//! Ids, years, and the only place that turns (kind, place, year) into a flat index.

use std::ops::Range;

/// Index of a kind of decoration in the rule base's order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct KindId(pub u8);

/// Index of a place of making in the rule base's order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PlaceId(pub u8);

/// Index of a clue in the rule base's order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct ClueId(pub u16);

/// Index of a finding within its clue.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FindingId(pub u16);

/// Index of a family of clues that look at the same underlying thing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FamilyId(pub u8);

/// A calendar year of the common era.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Year(pub i16);

/// The first year of the grid: English printing on porcelain is a few years older than this
/// only by experiment (exhibition dates in `rules/sources.ron`).
pub const FIRST_YEAR: Year = Year(1750);

/// The hypotheses: every (kind, place) pair that was ever made, times every year.
///
/// Flat index of a cell = pair × years + (year − first): years cycle fastest.
#[derive(Clone, Debug)]
pub struct Grid {
    pairs: Vec<(KindId, PlaceId)>,
    kinds: usize,
    places: usize,
    first: Year,
    years: usize,
    /// Year offsets of each decade.
    decade_years: Vec<Range<usize>>,
}

impl Grid {
    /// `last` is the newest year a piece can have been made, handed in by the caller.
    /// A `last` before `first` is treated as `first`.
    pub fn new(
        pairs: Vec<(KindId, PlaceId)>,
        kinds: usize,
        places: usize,
        first: Year,
        last: Year,
    ) -> Grid {
        let years = usize::try_from(last.0 - first.0).unwrap_or(0) + 1;
        // Years of the first decade that lie before the axis.
        let before = usize::from(first.0.rem_euclid(10).unsigned_abs());
        let from = |decade: usize| (10 * decade).saturating_sub(before);
        let years_of = |decade| from(decade)..from(decade + 1).min(years);
        Grid {
            decade_years: (0..(before + years).div_ceil(10)).map(years_of).collect(),
            pairs,
            kinds,
            places,
            first,
            years,
        }
    }

    /// Number of kinds, whether or not any place made them.
    pub fn kinds(&self) -> usize {
        self.kinds
    }

    /// Number of places.
    pub fn places(&self) -> usize {
        self.places
    }

    /// Number of years.
    pub fn years(&self) -> usize {
        self.years
    }

    /// The (kind, place) pairs in index order.
    pub fn pairs(&self) -> &[(KindId, PlaceId)] {
        &self.pairs
    }

    /// Number of cells.
    pub fn cells(&self) -> usize {
        self.pairs.len() * self.years
    }

    /// First year of the grid.
    pub fn first(&self) -> Year {
        self.first
    }

    /// Last year of the grid.
    pub fn last(&self) -> Year {
        Year(self.first.0 + self.years as i16 - 1)
    }

    /// The year at position `offset` of the year axis.
    pub fn year(&self, offset: usize) -> Year {
        Year(self.first.0 + offset as i16)
    }

    /// Position of `year` on the year axis, or `None` outside it.
    pub fn offset(&self, year: Year) -> Option<usize> {
        usize::try_from(year.0 - self.first.0)
            .ok()
            .filter(|&o| o < self.years)
    }

    /// The cells of one pair, as a range of flat indices.
    pub fn cells_of(&self, pair: usize) -> Range<usize> {
        pair * self.years..(pair + 1) * self.years
    }

    /// Number of decades the year axis touches.
    pub fn decades(&self) -> usize {
        self.decade_years.len()
    }

    /// Year offsets of each decade: the first and the last may have fewer than ten.
    pub fn decade_years(&self) -> &[Range<usize>] {
        &self.decade_years
    }
}
