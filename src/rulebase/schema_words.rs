//! `words.ron` as written, one struct a record, no logic. Every list may be left out.

use serde::Deserialize;

use super::schema::{Names, RuleFile, Text};
use super::source::{Bare, Located};

/// A word and the number it stands for.
pub(super) type NumberWord<'a> = (Text<'a>, Located<'a, f64>);

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WordsFile<'a> {
    #[serde(borrow)]
    pub format: Bare<'a>,
    #[serde(borrow, default)]
    pub passed_over: PassedOverEntry<'a>,
    #[serde(borrow, default)]
    pub negations: Names<'a>,
    #[serde(borrow, default)]
    pub ear: EarEntry<'a>,
    #[serde(borrow, default)]
    pub dates: DatesEntry<'a>,
    #[serde(borrow, default)]
    pub ages: AgesEntry<'a>,
    #[serde(borrow, default)]
    pub parts: Vec<PartGroup<'a>>,
    #[serde(borrow, default)]
    pub periods: Vec<PeriodGroup<'a>>,
    #[serde(borrow, default)]
    pub age_names: Vec<AgeNameGroup<'a>>,
    #[serde(borrow, default)]
    pub kinds: Vec<KindWords<'a>>,
    #[serde(borrow, default)]
    pub places: Vec<PlaceWords<'a>>,
}

impl<'a> RuleFile<'a> for WordsFile<'a> {
    fn format(&self) -> Bare<'a> {
        self.format
    }
}

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields, default, rename = "PassedOver")]
pub(super) struct PassedOverEntry<'a> {
    #[serde(borrow)]
    pub everywhere: Names<'a>,
    #[serde(borrow)]
    pub notes: Names<'a>,
    #[serde(borrow)]
    pub tickets: Names<'a>,
}

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields, default, rename = "Dates")]
pub(super) struct DatesEntry<'a> {
    #[serde(borrow)]
    pub about: Names<'a>,
    #[serde(borrow)]
    pub about_after: Names<'a>,
    #[serde(borrow)]
    pub run_on: Names<'a>,
    #[serde(borrow)]
    pub article: Names<'a>,
    #[serde(borrow)]
    pub to: Names<'a>,
    #[serde(borrow)]
    pub between: Names<'a>,
    #[serde(borrow)]
    pub after_dash: Names<'a>,
    #[serde(borrow)]
    pub before: Names<'a>,
    #[serde(borrow)]
    pub up_to: Names<'a>,
    #[serde(borrow)]
    pub since: Names<'a>,
    #[serde(borrow)]
    pub after: Names<'a>,
    #[serde(borrow)]
    pub or_later: Names<'a>,
    #[serde(borrow)]
    pub or_earlier: Names<'a>,
    #[serde(borrow)]
    pub century: Names<'a>,
    #[serde(borrow)]
    pub era: Names<'a>,
    #[serde(borrow)]
    pub part_of: Names<'a>,
    #[serde(borrow)]
    pub ordinals: Vec<NumberWord<'a>>,
    #[serde(borrow)]
    pub decades: Vec<NumberWord<'a>>,
}

#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields, default, rename = "Ages")]
pub(super) struct AgesEntry<'a> {
    #[serde(borrow)]
    pub over: Names<'a>,
    #[serde(borrow)]
    pub under: Names<'a>,
    #[serde(borrow)]
    pub within: Names<'a>,
    #[serde(borrow)]
    pub old: Names<'a>,
    #[serde(borrow)]
    pub of: Names<'a>,
    #[serde(borrow)]
    pub numbers: Vec<NumberWord<'a>>,
    #[serde(borrow)]
    pub units: Vec<NumberWord<'a>>,
}

macro_rules! group_of {
    ($group:ident, $record:ident) => {
        /// Names whose figures come from one place. `because` is shown beside the years.
        #[derive(Deserialize)]
        #[serde(deny_unknown_fields, rename = "Group")]
        pub(super) struct $group<'a> {
            pub because: Option<String>,
            #[serde(borrow, default)]
            pub source: Names<'a>,
            #[serde(borrow)]
            pub names: Vec<$record<'a>>,
        }
    };
}
group_of!(PartGroup, PartEntry);
group_of!(PeriodGroup, PeriodEntry);
group_of!(AgeNameGroup, AgeNameEntry);

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Part")]
pub(super) struct PartEntry<'a> {
    #[serde(borrow)]
    pub words: Names<'a>,
    #[serde(borrow)]
    pub from: Located<'a, f64>,
    #[serde(borrow)]
    pub to: Located<'a, f64>,
    #[serde(borrow)]
    pub of: Located<'a, f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Period")]
pub(super) struct PeriodEntry<'a> {
    #[serde(borrow)]
    pub words: Names<'a>,
    #[serde(borrow)]
    pub from: Option<Located<'a, f64>>,
    #[serde(borrow)]
    pub to: Option<Located<'a, f64>>,
}

/// Ages in years back from the present.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "AgeName")]
pub(super) struct AgeNameEntry<'a> {
    #[serde(borrow)]
    pub words: Names<'a>,
    #[serde(borrow)]
    pub least: Option<Located<'a, f64>>,
    #[serde(borrow)]
    pub most: Option<Located<'a, f64>>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Kinds")]
pub(super) struct KindWords<'a> {
    #[serde(borrow)]
    pub words: Names<'a>,
    /// One of these must follow.
    #[serde(borrow, default)]
    pub then: Names<'a>,
    #[serde(borrow)]
    pub kinds: Names<'a>,
    #[serde(borrow)]
    pub from: Option<Located<'a, f64>>,
    #[serde(borrow)]
    pub to: Option<Located<'a, f64>>,
    /// Shown beside the years; needed where there are years.
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Place")]
pub(super) struct PlaceWords<'a> {
    #[serde(borrow)]
    pub words: Names<'a>,
    #[serde(borrow)]
    pub place: Text<'a>,
}

/// The words a line of notes is listened to with; see `hearing::ear_words`.
#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields, default, rename = "Ear")]
pub(super) struct EarEntry<'a> {
    #[serde(borrow)]
    pub dropped: Names<'a>,
    #[serde(borrow)]
    pub spelling: Vec<(Text<'a>, Text<'a>)>,
    #[serde(borrow)]
    pub abbreviations: Names<'a>,
    #[serde(borrow)]
    pub denials: Names<'a>,
    #[serde(borrow)]
    pub exceptions: Names<'a>,
    #[serde(borrow)]
    pub hedges: Names<'a>,
    #[serde(borrow)]
    pub cant_tell: Names<'a>,
    #[serde(borrow)]
    pub or_words: Names<'a>,
    #[serde(borrow)]
    pub breaks: Names<'a>,
    #[serde(borrow)]
    pub prepositions: Names<'a>,
    #[serde(borrow)]
    pub says: Names<'a>,
    #[serde(borrow)]
    pub in_mark: Names<'a>,
    #[serde(borrow)]
    pub numbers: Vec<NumberWord<'a>>,
    /// Tenths of a millimetre.
    #[serde(borrow)]
    pub units: Vec<NumberWord<'a>>,
    #[serde(borrow)]
    pub colours: Names<'a>,
    #[serde(borrow)]
    pub things: Vec<ThingEntry<'a>>,
    #[serde(borrow)]
    pub not_counted: Vec<NotCountedEntry<'a>>,
    #[serde(borrow)]
    pub kind_clues: Names<'a>,
    #[serde(borrow)]
    pub no_kind_alone: Names<'a>,
    #[serde(borrow)]
    pub colour_clues: Names<'a>,
    #[serde(borrow)]
    pub picture_clues: Names<'a>,
    #[serde(borrow)]
    pub sizes: Vec<SizeEntry<'a>>,
    #[serde(borrow)]
    pub two_parts: Vec<TwoPartsEntry<'a>>,
    /// (word before a year, dated clue)
    #[serde(borrow)]
    pub dated: Vec<(Text<'a>, Text<'a>)>,
}

/// A part of the piece that colours can belong to.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Thing")]
pub(super) struct ThingEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub name: String,
    #[serde(borrow)]
    pub words: Names<'a>,
    #[serde(borrow, default)]
    pub clues: Names<'a>,
    /// (colour words, `clue=finding`); no words = any other colour.
    #[serde(borrow, default)]
    pub colours: Vec<(Names<'a>, Text<'a>)>,
}

/// Heard and not counted.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "NotCounted")]
pub(super) struct NotCountedEntry<'a> {
    pub because: String,
    #[serde(borrow)]
    pub words: Names<'a>,
}

/// What a measure in millimetres says.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Size")]
pub(super) struct SizeEntry<'a> {
    #[serde(borrow)]
    pub of: Names<'a>,
    #[serde(borrow)]
    pub over: Located<'a, f64>,
    #[serde(borrow)]
    pub says: Text<'a>,
}

/// Two things of different colours.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "TwoParts")]
pub(super) struct TwoPartsEntry<'a> {
    #[serde(borrow)]
    pub first: Text<'a>,
    #[serde(borrow)]
    pub second: Text<'a>,
    #[serde(borrow)]
    pub says: Names<'a>,
}
