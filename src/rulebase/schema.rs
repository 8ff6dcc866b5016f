//! The rule files as written, one struct a record, no logic.

use serde::Deserialize;

use super::source::{Bare, Located};

pub type Text<'a> = Located<'a, String>;
/// (year or lag, height)
pub type Point<'a> = (Located<'a, f64>, Located<'a, f64>);
pub type Names<'a> = Vec<Text<'a>>;

macro_rules! file_of {
    ($file:ident, $record:ident, $field:ident) => {
        #[derive(Deserialize)]
        #[serde(deny_unknown_fields)]
        pub struct $file<'a> {
            #[allow(dead_code)]
            pub format: u32,
            #[serde(borrow)]
            pub $field: Vec<$record<'a>>,
        }
    };
}
file_of!(PlacesFile, PlaceEntry, places);
file_of!(SettingsFile, SettingEntry, settings);
file_of!(FamiliesFile, FamilyEntry, families);
file_of!(KernelsFile, KernelEntry, kernels);
file_of!(SourcesFile, SourceEntry, sources);
file_of!(CautionsFile, CautionEntry, cautions);
file_of!(GlossaryFile, TermEntry, terms);
file_of!(RarityFile, FeatureEntry, features);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KindsFile<'a> {
    #[allow(dead_code)]
    pub format: u32,
    #[serde(borrow, default)]
    pub groups: Vec<(Text<'a>, Names<'a>)>,
    #[serde(borrow)]
    pub kinds: Vec<KindEntry<'a>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CluesFile<'a> {
    #[allow(dead_code)]
    pub format: u32,
    pub station: StationWord,
    #[serde(borrow)]
    pub clues: Vec<ClueEntry<'a>>,
}

#[derive(Clone, Copy, Deserialize)]
pub enum StationWord {
    Front,
    Loupe,
    Glaze,
    Back,
    Shape,
    Mark,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
pub enum Tool {
    Eye,
    Loupe,
    Torch,
    Fingernail,
    UvLamp,
    Ruler,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
pub enum Status {
    Published,
    CommonPractice,
    FromMemory,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Kind")]
pub struct KindEntry<'a> {
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
pub struct MadeEntry<'a> {
    #[serde(borrow)]
    pub place: Text<'a>,
    #[serde(borrow)]
    pub weight: Bare<'a>,
    #[serde(borrow, default)]
    pub years: Vec<Point<'a>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Place")]
pub struct PlaceEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub name: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Setting")]
pub struct SettingEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub name: String,
    pub about: Option<String>,
    #[serde(borrow)]
    pub years: Vec<Point<'a>>,
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
pub struct FrequencyEntry<'a> {
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
pub struct FamilyEntry<'a> {
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
pub struct KernelEntry<'a> {
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
pub struct SourceEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub status: Status,
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
pub struct CautionEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    #[serde(borrow)]
    pub when: Text<'a>,
    pub text: String,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Term")]
pub struct TermEntry<'a> {
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

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Feature")]
pub struct FeatureEntry<'a> {
    #[serde(borrow)]
    pub clue: Text<'a>,
    pub name: String,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
    #[serde(borrow)]
    pub cases: Vec<ShareEntry<'a>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "ShareCase")]
pub struct ShareEntry<'a> {
    #[serde(borrow)]
    pub kinds: Option<Names<'a>>,
    #[serde(borrow)]
    pub shares: Vec<(Text<'a>, Bare<'a>)>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Clue")]
pub struct ClueEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub question: String,
    pub look: String,
    #[serde(default)]
    pub tells: String,
    #[serde(borrow)]
    pub seconds: Located<'a, f64>,
    #[serde(default)]
    pub tools: Vec<Tool>,
    #[serde(borrow, default)]
    pub only_if: Vec<(Text<'a>, Names<'a>)>,
    #[serde(borrow)]
    pub family: Option<Text<'a>>,
    #[serde(borrow)]
    pub slip: Located<'a, f64>,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
    #[serde(borrow)]
    pub present: Option<Located<'a, f64>>,
    #[serde(borrow)]
    pub dated: Option<Text<'a>>,
    #[serde(borrow, default)]
    pub findings: Vec<FindingEntry<'a>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Finding")]
pub struct FindingEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub words: String,
    pub because: Option<String>,
    #[serde(default)]
    pub spoken: Vec<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
    #[serde(borrow, default)]
    pub cases: Vec<FrequencyEntry<'a>>,
}
