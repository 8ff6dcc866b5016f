//! What a line of notes gives, and what is passed between those who read it.

use std::ops::Range;

use super::mark::{Phrasebook, Unread};
use super::matcher::Matcher;
use super::vocabulary::{NamedKinds, Vocabulary};
use crate::core::grid::{ClueId, FindingId, KindId};
use crate::core::observation::{Observation, Observed, Origin, Sure};
use crate::registry::tables::Registry;

/// A spoken form of a finding.
#[derive(Clone, Debug)]
pub struct SpokenForm {
    /// Folded by `EarWords::normal`.
    pub form: String,
    pub clue: ClueId,
    pub finding: FindingId,
    pub sure: Sure,
    /// Heard only where this thing is spoken of, by index.
    pub about: Option<usize>,
    /// Heard only where a denial goes before; the finding is what the denial says.
    pub denied: Denied,
}

/// What a form has to do with a denial.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Denied {
    /// None: it is said, and a denial turns it round.
    Not,
    /// "No border": denied, it says this finding.
    Gives,
    /// Denied, it rules this finding out as well.
    RulesOut,
}

/// What a form of the matcher stands for.
#[derive(Clone, Debug)]
pub(super) enum Meaning {
    Finding {
        clue: ClueId,
        seen: Observed,
        sure: Sure,
        about: Option<usize>,
        denied: Denied,
    },
    Kind(usize),
    NotCounted(usize),
}

/// Spoken forms with what each stands for.
#[derive(Clone, Debug)]
pub struct Spoken {
    pub(super) matcher: Matcher<Meaning>,
    pub(super) kinds: Vec<NamedKinds>,
    /// Findings of each clue.
    pub(super) counts: Vec<usize>,
}

/// What else a line is read with.
#[derive(Clone, Copy, Debug)]
pub struct Beside<'a> {
    pub vocabulary: &'a Vocabulary,
    pub wording: &'a Phrasebook,
    pub registry: &'a Registry,
    pub present: i16,
}

/// Something understood, with the words it was heard in.
#[derive(Clone, Debug, PartialEq)]
pub struct Heard {
    pub text: String,
    /// Bytes of the text that was read, end not within.
    pub span: (usize, usize),
    pub observation: Observation,
}

impl Heard {
    pub fn clue(&self) -> ClueId {
        self.observation.clue
    }

    /// The same words of another source.
    #[must_use]
    pub fn from(mut self, origin: Origin) -> Heard {
        self.observation = self.observation.from(origin);
        self
    }
}

/// Why something heard does not count.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WhyNot {
    /// It is said of another thing: "the mark".
    Of(String),
    /// A denial of something that no finding says.
    Denied,
    /// The denial is taken back: "no mark but ENGLAND".
    Except,
    /// The writer can't tell.
    CantTell,
    /// No clue asks for it; the rule files say more.
    NoClue(String),
}

/// Heard and not counted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotCounted {
    pub text: String,
    pub span: (usize, usize),
    pub why: WhyNot,
}

/// What a line of notes says.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Notes {
    pub heard: Vec<Heard>,
    pub not_counted: Vec<NotCounted>,
    pub opinion: Option<Opinion>,
    pub unread: Vec<Unread>,
}

/// All that stands for the same words.
#[derive(Clone, Debug)]
pub(super) struct Group {
    pub words: Range<usize>,
    pub sure: Sure,
    pub meanings: Vec<Meaning>,
}

/// The writer's opinion.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Opinion {
    /// Kinds it names, the one it means first; empty = any.
    pub kinds: Vec<KindId>,
    /// Kinds it denies.
    pub not: Vec<KindId>,
    /// First and last year; `None` = open on that side.
    pub from: Option<i16>,
    pub to: Option<i16>,
    /// Its words, parted by commas.
    pub text: String,
}

/// A word for a kind in a line.
#[derive(Clone, Debug)]
pub(super) struct Named {
    pub words: Range<usize>,
    pub named: NamedKinds,
    pub denied: bool,
}
