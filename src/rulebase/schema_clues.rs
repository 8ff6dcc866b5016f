//! The rule files of clues and of rarity as written.

use serde::Deserialize;

use super::schema::{FrequencyEntry, Names, Text, file_of, written};
use super::source::{Bare, Located};

file_of!(RarityFile, FeatureEntry, features);
file_of!(ChangesFile, ChangeEntry, changes);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CluesFile<'a> {
    #[serde(borrow)]
    pub format: Bare<'a>,
    pub station: StationWord,
    #[serde(borrow)]
    pub clues: Vec<ClueEntry<'a>>,
}
written!(CluesFile);

#[derive(Clone, Copy, Deserialize)]
pub(super) enum StationWord {
    Front,
    Loupe,
    Glaze,
    Back,
    Shape,
    Mark,
    Condition,
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

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Feature")]
pub(super) struct FeatureEntry<'a> {
    #[serde(borrow)]
    pub clue: Text<'a>,
    pub name: String,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
    #[serde(borrow)]
    pub given: Option<Text<'a>>,
    #[serde(borrow, default)]
    pub cases: Vec<ShareEntry<'a>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "ShareCase")]
pub(super) struct ShareEntry<'a> {
    #[serde(borrow)]
    pub kinds: Option<Names<'a>>,
    #[serde(borrow)]
    pub given: Option<Names<'a>>,
    #[serde(borrow)]
    pub shares: Vec<(Text<'a>, Bare<'a>)>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Clue")]
pub(super) struct ClueEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    /// Where it is looked for, when that is not the station of the file.
    pub station: Option<StationWord>,
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
    #[serde(borrow)]
    pub answered_by_whole_mark: Option<Located<'a, bool>>,
    /// Ids that were findings once, each with what it reads as today.
    #[serde(borrow, default)]
    pub was: Vec<(Text<'a>, Names<'a>)>,
    #[serde(borrow, default)]
    pub findings: Vec<FindingEntry<'a>>,
}

/// A case that goes before those of a finding, or figures of a clue, that stand in another file.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Change")]
pub(super) struct ChangeEntry<'a> {
    #[serde(borrow)]
    pub clue: Text<'a>,
    #[serde(borrow)]
    pub finding: Option<Text<'a>>,
    #[serde(borrow)]
    pub case: Option<FrequencyEntry<'a>>,
    #[serde(borrow)]
    pub seconds: Option<Located<'a, f64>>,
    #[serde(borrow)]
    pub slip: Option<Located<'a, f64>>,
    #[serde(borrow)]
    pub present: Option<Located<'a, f64>>,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Finding")]
pub(super) struct FindingEntry<'a> {
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
