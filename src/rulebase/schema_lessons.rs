//! The file of lessons as written.

use serde::Deserialize;

use super::schema::{Names, Text, written};
use super::source::Bare;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LessonsFile<'a> {
    #[serde(borrow)]
    pub format: Bare<'a>,
    /// Kinds and groups on either side of the round printed-or-painted.
    #[serde(borrow, default)]
    pub printed: Names<'a>,
    #[serde(borrow, default)]
    pub painted: Names<'a>,
    #[serde(borrow)]
    pub lessons: Vec<LessonEntry<'a>>,
}
written!(LessonsFile);

/// A clue and its finding.
pub(super) type Saw<'a> = (Text<'a>, Text<'a>);

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Lesson")]
pub(super) struct LessonEntry<'a> {
    #[serde(borrow)]
    pub id: Text<'a>,
    pub title: String,
    pub text: Vec<String>,
    #[serde(borrow, default)]
    pub shows: Vec<Saw<'a>>,
    #[serde(borrow)]
    pub practice: Vec<PracticeEntry<'a>>,
    pub because: Option<String>,
    #[serde(borrow, default)]
    pub source: Names<'a>,
}

/// What is seen of a piece, and one thing asked; the right answer first.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename = "Practice")]
pub(super) struct PracticeEntry<'a> {
    #[serde(borrow, default)]
    pub saw: Vec<Saw<'a>>,
    #[serde(default)]
    pub mark: String,
    #[serde(borrow)]
    pub kinds: Option<Names<'a>>,
    #[serde(borrow)]
    pub years: Option<Vec<(Bare<'a>, Bare<'a>)>>,
    #[serde(borrow)]
    pub rarer_than: Option<Vec<Saw<'a>>>,
}
