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
file_of!(PlacesFile, Place, places);
file_of!(SettingsFile, Setting, settings);
file_of!(FamiliesFile, Family, families);
file_of!(KernelsFile, Kernel, kernels);
file_of!(SourcesFile, Source, sources);
file_of!(CautionsFile, Caution, cautions);
file_of!(GlossaryFile, Term, terms);
file_of!(MarketFile, Feature, features);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct KindsFile<'a> {
    #[allow(dead_code)]
    pub format: u32,
    #[serde(borrow, default)]
    pub groups: Vec<(Text<'a>, Names<'a>)>,
    #[serde(borrow)]
    pub kinds: Vec<Kind<'a>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CluesFile<'a> {
    #[allow(dead_code)]
    pub format: u32,
    pub station: StationWord,
    #[serde(borrow)]
    pub clues: Vec<Clue<'a>>,
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
#[serde(deny_unknown_fields)]
pub struct Kind<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    #[serde(borrow)]
    pub name: Text<'a>,
    pub about: Option<String>,
    #[serde(borrow)]
    pub aat: Option<Text<'a>>,
    #[serde(borrow, default)]
    pub made: Vec<Made<'a>>,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Made<'a> {
    #[serde(borrow)]
    pub place: Text<'a>,
    #[serde(borrow)]
    pub weight: Bare<'a>,
    #[serde(borrow, default)]
    pub years: Vec<Point<'a>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Place<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub name: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Setting<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub name: String,
    pub about: Option<String>,
    #[serde(borrow)]
    pub years: Vec<Point<'a>>,
    #[serde(borrow, default)]
    pub factors: Vec<Case<'a>>,
    #[serde(default)]
    pub neutral: bool,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

/// A weight for some kinds, places and years; also a setting's factor.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Case<'a> {
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
#[serde(deny_unknown_fields)]
pub struct Family<'a> {
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
#[serde(deny_unknown_fields)]
pub struct Kernel<'a> {
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
#[serde(deny_unknown_fields)]
pub struct Source<'a> {
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
#[serde(deny_unknown_fields)]
pub struct Caution<'a> {
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
#[serde(deny_unknown_fields)]
pub struct Term<'a> {
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
#[serde(deny_unknown_fields)]
pub struct Feature<'a> {
    #[serde(borrow)]
    pub clue: Text<'a>,
    pub name: String,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
    #[serde(borrow)]
    pub cases: Vec<ShareCase<'a>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ShareCase<'a> {
    #[serde(borrow)]
    pub kinds: Option<Names<'a>>,
    #[serde(borrow)]
    pub shares: Vec<(Text<'a>, Bare<'a>)>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Clue<'a> {
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
    pub findings: Vec<Finding<'a>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Finding<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub words: String,
    pub because: Option<String>,
    #[serde(default)]
    pub spoken: Vec<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
    #[serde(borrow, default)]
    pub cases: Vec<Case<'a>>,
}
