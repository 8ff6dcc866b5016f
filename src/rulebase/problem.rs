//! What is wrong with a rule file: where, what, what was allowed, what to do.

use std::fmt;

use super::source::{SourceFile, line_col};

/// Declares the checks once: the variants, their codes and the list of all.
macro_rules! checks {
    ($($(#[doc = $doc:literal])* $variant:ident = $code:literal,)*) => {
        /// Everything that is checked. `rules/README.md` explains each under its code.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Check {
            $($(#[doc = $doc])* $variant,)*
        }

        impl Check {
            /// All checks.
            pub const ALL: &[Check] = &[$(Check::$variant),*];

            /// The name shown, kebab-case.
            pub fn code(self) -> &'static str {
                match self {
                    $(Check::$variant => $code,)*
                }
            }
        }
    };
}

checks! {
    // Files
    /// No RON, or a field that is not known or is missing.
    Unreadable = "unreadable",
    /// Written for another version of this program.
    WrongFormat = "wrong-format",
    /// More bytes than a rule file may have.
    TooLong = "too-long",
    /// A table whose first line, columns or quotes are not as they should be.
    BadTable = "bad-table",
    /// The name of no topic.
    UnknownFile = "unknown-file",
    /// No kinds, places, settings or clues at all.
    NothingDefined = "nothing-defined",
    // Names
    /// Not lower-case letters, digits and single hyphens.
    BadId = "bad-id",
    /// Defined before.
    DuplicateId = "duplicate-id",
    /// More than ids can tell apart.
    TooMany = "too-many",
    UnknownKind = "unknown-kind",
    UnknownPlace = "unknown-place",
    UnknownClue = "unknown-clue",
    UnknownFinding = "unknown-finding",
    UnknownSource = "unknown-source",
    UnknownFamily = "unknown-family",
    UnknownKernel = "unknown-kernel",
    UnknownSetting = "unknown-setting",
    UnknownChannel = "unknown-channel",
    // Reasons and origins
    /// No `because`, or an empty one.
    MissingBecause = "missing-because",
    /// No `source`.
    MissingSource = "missing-source",
    /// Called published, but no work named.
    BareSource = "bare-source",
    // Numbers
    /// Not finite, not whole where it must be, or outside its range.
    BadNumber = "bad-number",
    /// Neither a word of the ladder nor a number.
    BadWeight = "bad-weight",
    /// No day of the calendar.
    BadDay = "bad-day",
    /// Years or days not in ascending order.
    YearsReversed = "years-reversed",
    // Kinds, clues and findings
    /// A kind that is made nowhere.
    NeverMade = "never-made",
    /// A kernel that is 0 at every whole number of years.
    NeverSeen = "never-seen",
    /// A setting that leaves no kind, place and year possible, or makes some so common that numbers
    /// can't hold it.
    NothingPossible = "nothing-possible",
    /// Fewer than two findings, or findings of a dated clue.
    Findings = "findings",
    /// A finding without a frequency.
    NoCases = "no-cases",
    /// A change of no figure, or of half a frequency.
    EmptyChange = "empty-change",
    /// As frequent at every kind, place and year.
    ChangesNothing = "changes-nothing",
    /// Clues that wait for one another.
    GateCircle = "gate-circle",
    /// A gate that no finding opens.
    EmptyGate = "empty-gate",
    /// A former id that became no finding, or all of its clue.
    EmptyFormer = "empty-former",
    /// A whole mark is to answer a clue that has no finding `none`.
    NoNone = "no-none",
    /// Shares in the market that sum to 0.
    NoShares = "no-shares",
    /// A market feature that depends on one that does not stand before it.
    GivenLater = "given-later",
    /// A caution that says neither a known occasion nor clues, or both.
    UnknownOccasion = "unknown-occasion",
    /// A trade word that another entry explains.
    DuplicateWord = "duplicate-word",
    /// No word, several where one is wanted, or a word that stands for nothing.
    BadWord = "bad-word",
    // Phrases of marks
    /// No forms to be found by.
    NoForms = "no-forms",
    /// A form without a letter or figure.
    EmptyForm = "empty-form",
    /// A form of two phrases.
    DuplicateForm = "duplicate-form",
    /// A finding, and no clue it belongs to.
    FindingWithoutClue = "finding-without-clue",
    /// A clue that lists findings, and none of them named.
    ClueWithoutFinding = "clue-without-finding",
    /// What is read is a year and the clue is not dated, or the other way round.
    ReadsAnotherSort = "reads-another-sort",
    // Tables of the registry
    /// A letter or layout with two meanings.
    DuplicateLetter = "duplicate-letter",
    /// Not one letter a year.
    LetterCount = "letter-count",
    /// Years and first numbers that do not rise together.
    NumbersReversed = "numbers-reversed",
    /// The class of ceramics is not among the classes.
    UnknownClass = "unknown-class",
    // Lessons
    /// No text, not three practice items, or an item that asks nothing, several things or names
    /// fewer than two answers.
    BadLesson = "bad-lesson",
    // Sightings
    /// A finding that can't be read.
    BadFinding = "bad-finding",
}

impl Check {
    /// True when the file as a whole could not be read, so that its names are missing elsewhere.
    pub fn leaves_unread(self) -> bool {
        matches!(
            self,
            Check::Unreadable | Check::WrongFormat | Check::TooLong
        )
    }

    /// True for a name that no file defines.
    pub fn names_unknown(self) -> bool {
        matches!(
            self,
            Check::UnknownKind
                | Check::UnknownPlace
                | Check::UnknownClue
                | Check::UnknownFinding
                | Check::UnknownSource
                | Check::UnknownFamily
                | Check::UnknownKernel
                | Check::UnknownSetting
                | Check::UnknownChannel
        )
    }
}

impl fmt::Display for Check {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.code())
    }
}

/// One problem. Sorted by place.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Problem {
    pub file: String,
    /// From 1.
    pub line: usize,
    /// From 1, in characters.
    pub col: usize,
    /// What is wrong and what was allowed.
    pub message: String,
    /// Which check it failed.
    pub code: Check,
    /// What to do.
    pub help: String,
}

impl Problem {
    /// A problem at a slice of a file.
    pub fn at(
        file: &SourceFile,
        at: &str,
        code: Check,
        message: impl Into<String>,
        help: impl Into<String>,
    ) -> Problem {
        let (line, col) = line_col(&file.text, at);
        Problem {
            file: file.name.clone(),
            line,
            col,
            message: message.into(),
            code,
            help: help.into(),
        }
    }
}

impl Problem {
    /// Where and what, and below it what to do, where that is known.
    pub fn lines(&self) -> Vec<String> {
        let (file, line, col) = (&self.file, self.line, self.col);
        let mut lines = vec![format!(
            "{file}:{line}:{col}: {} [{}]",
            self.message, self.code
        )];
        if !self.help.is_empty() {
            lines.push(format!("  help: {}", self.help));
        }
        lines
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.lines().join("\n"))
    }
}

impl std::error::Error for Problem {}

/// The nearest of the allowed names, when one is near enough to be a slip of the pen.
pub fn nearest<'a>(name: &str, allowed: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    near(name, allowed, 1).into_iter().next()
}

/// Up to `most` allowed names that resemble `name`, the nearest first.
pub fn near<'a>(
    name: &str,
    allowed: impl IntoIterator<Item = &'a str>,
    most: usize,
) -> Vec<&'a str> {
    let mut close: Vec<(f64, &str)> = allowed
        .into_iter()
        .map(|a| {
            let inside = a.len() >= 3 && name.len() >= 3 && (a.contains(name) || name.contains(a));
            let likeness = strsim::jaro_winkler(name, a).max(if inside { 0.86 } else { 0.0 });
            (likeness, a)
        })
        .filter(|(likeness, _)| *likeness > 0.78)
        .collect();
    close.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(b.1)));
    close.dedup_by(|a, b| a.1 == b.1);
    close.into_iter().take(most).map(|(_, a)| a).collect()
}
