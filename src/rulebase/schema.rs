//! The rule files of the world as written, one struct a record, no logic: sources, places, kinds,
//! families, kernels, settings, cautions, trade words and the first glance.

use serde::Deserialize;

use super::source::{Bare, Located};
use crate::registry::tables::Standing;

/// A text that knows its place.
pub(super) type Text<'a> = Located<'a, String>;
/// (year or lag, height)
pub(super) type Point<'a> = (Located<'a, f64>, Located<'a, f64>);
/// Names of one sort.
pub(super) type Names<'a> = Vec<Text<'a>>;

/// A rule file as written.
pub(super) trait RuleFile<'a>: Deserialize<'a> {
    /// The number beside `format`.
    fn format(&self) -> Bare<'a>;
}

/// Declares a file that holds nothing but a list of records.
macro_rules! file_of {
    ($file:ident, $record:ident, $field:ident) => {
        #[derive(Deserialize)]
        #[serde(deny_unknown_fields)]
        pub(super) struct $file<'a> {
            #[serde(borrow)]
            pub format: Bare<'a>,
            #[serde(borrow)]
            pub $field: Vec<$record<'a>>,
        }
        written!($file);
    };
}

macro_rules! written {
    ($file:ident) => {
        impl<'a> $crate::rulebase::schema::RuleFile<'a> for $file<'a> {
            fn format(&self) -> $crate::rulebase::source::Bare<'a> {
                self.format
            }
        }
    };
}
pub(super) use {file_of, written};

file_of!(PlacesFile, PlaceEntry, places);
file_of!(FamiliesFile, FamilyEntry, families);
file_of!(KernelsFile, KernelEntry, kernels);
file_of!(SourcesFile, SourceEntry, sources);
file_of!(CautionsFile, CautionEntry, cautions);
file_of!(GlossaryFile, TermEntry, terms);
file_of!(GlanceFile, StrikingEntry, strikes);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct KindsFile<'a> {
    #[serde(borrow)]
    pub format: Bare<'a>,
    #[serde(borrow, default)]
    pub groups: Vec<(Text<'a>, Names<'a>)>,
    #[serde(borrow)]
    pub kinds: Vec<KindEntry<'a>>,
}
written!(KindsFile);

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Kind")]
pub(super) struct KindEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    #[serde(borrow)]
    pub name: Text<'a>,
    pub about: Option<String>,
    #[serde(borrow)]
    pub aat: Option<Text<'a>>,
    #[serde(borrow, default)]
    pub made: Vec<MadeEntry<'a>>,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Made")]
pub(super) struct MadeEntry<'a> {
    #[serde(borrow)]
    pub place: Text<'a>,
    #[serde(borrow)]
    pub weight: Bare<'a>,
    #[serde(borrow, default)]
    pub years: Vec<Point<'a>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Place")]
pub(super) struct PlaceEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub name: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SettingsFile<'a> {
    #[serde(borrow)]
    pub format: Bare<'a>,
    #[serde(borrow, default)]
    pub countries: Vec<CountryEntry<'a>>,
    #[serde(borrow)]
    pub settings: Vec<SettingEntry<'a>>,
}
written!(SettingsFile);

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Country")]
pub(super) struct CountryEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub name: String,
    pub about: Option<String>,
    #[serde(borrow)]
    pub factors: Vec<FrequencyEntry<'a>>,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Setting")]
pub(super) struct SettingEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub name: String,
    pub about: Option<String>,
    #[serde(borrow)]
    pub years: Vec<Point<'a>>,
    #[serde(borrow)]
    pub spread: Option<Located<'a, f64>>,
    #[serde(borrow)]
    pub doubt: Option<Located<'a, f64>>,
    #[serde(borrow, default)]
    pub factors: Vec<FrequencyEntry<'a>>,
    #[serde(default)]
    pub neutral: bool,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

/// A weight for some kinds, places and years; also a setting's factor.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Case")]
pub(super) struct FrequencyEntry<'a> {
    #[serde(borrow)]
    pub kinds: Option<Names<'a>>,
    #[serde(borrow)]
    pub places: Option<Names<'a>>,
    #[serde(borrow)]
    pub weight: Bare<'a>,
    #[serde(borrow, default)]
    pub years: Vec<Point<'a>>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Family")]
pub(super) struct FamilyEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub about: Option<String>,
    #[serde(borrow)]
    pub delta: Located<'a, f64>,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Kernel")]
pub(super) struct KernelEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub about: Option<String>,
    #[serde(borrow)]
    pub lag: Vec<Point<'a>>,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Source")]
pub(super) struct SourceEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub status: Standing,
    #[serde(default)]
    pub author: String,
    #[serde(default)]
    pub title: String,
    #[serde(default)]
    pub year: String,
    #[serde(default)]
    pub place: String,
    #[serde(default)]
    pub note: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Caution")]
pub(super) struct CautionEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    #[serde(borrow)]
    pub when: Option<Text<'a>>,
    #[serde(borrow)]
    pub clues: Option<Names<'a>>,
    pub text: String,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

/// A line of the first glance.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Strikes")]
pub(super) struct StrikingEntry<'a> {
    #[serde(borrow)]
    pub clue: Text<'a>,
    #[serde(borrow)]
    pub finding: Text<'a>,
    #[serde(borrow)]
    pub words: Text<'a>,
    /// Seen so it is only unsure.
    #[serde(default)]
    pub unsure: bool,
    #[serde(borrow)]
    pub unticked: Option<Text<'a>>,
    /// (clue, finding) that a tick says as well.
    #[serde(borrow, default)]
    pub with: Vec<(Text<'a>, Text<'a>)>,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Term")]
pub(super) struct TermEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub term: String,
    #[serde(borrow, default)]
    pub also: Names<'a>,
    #[serde(borrow)]
    pub aat: Option<Text<'a>>,
    pub text: String,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}
