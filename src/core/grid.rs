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
    /// Decade of each year offset, counted from the first on the axis.
    decade_of: Vec<u16>,
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
        let decade = |offset: usize| {
            (i32::from(first.0) + offset as i32).div_euclid(10) - i32::from(first.0).div_euclid(10)
        };
        let decade_of: Vec<u16> = (0..years).map(|o| decade(o) as u16).collect();
        let runs = decade_of.chunk_by(|a, b| a == b);
        let decade_years = runs.scan(0, |end, run| {
            let from = *end;
            *end += run.len();
            Some(from..*end)
        });
        Grid {
            decade_years: decade_years.collect(),
            pairs,
            kinds,
            places,
            first,
            years,
            decade_of,
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
    pub fn cells_of(&self, pair: usize) -> std::ops::Range<usize> {
        pair * self.years..(pair + 1) * self.years
    }

    /// Number of decades the year axis touches.
    pub fn decades(&self) -> usize {
        self.decade(self.years - 1) + 1
    }

    /// Year offsets of each decade: the first and the last may have fewer than ten.
    pub fn decade_years(&self) -> &[Range<usize>] {
        &self.decade_years
    }

    /// Which decade (0 = the first on the axis) a year offset falls in.
    pub fn decade(&self, offset: usize) -> usize {
        usize::from(self.decade_of[offset])
    }
}
