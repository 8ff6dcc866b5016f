//! The third step of loading, frequencies: for which kinds, places and years a weight holds.

use super::definitions::Frequency;
use super::numbers::CURVE_YEARS;
use super::resolve::Resolver;
use super::schema::FrequencyEntry;
use super::source::SourceFile;

impl Resolver<'_> {
    /// A weighted case.
    pub(super) fn frequency(&mut self, file: &SourceFile, written: &FrequencyEntry) -> Frequency {
        let places = written.places.as_ref();
        Frequency {
            kinds: written.kinds.as_ref().map(|names| self.kinds(file, names)),
            places: places.map(|names| names.iter().filter_map(|n| self.lookup(file, n)).collect()),
            weight: self.weight(file, written.weight),
            curve: self.curve(file, &written.years, CURVE_YEARS),
            sources: self.sources(file, &written.source, None),
        }
    }
}
