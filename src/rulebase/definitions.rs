//! The rule base after checking: names, sentences and frequencies, everything resolved.

use std::ops::Index;

use super::ids::{
    ClueId, FamilyId, FindingId, Id, KernelId, KindId, PlaceId, SettingId, SourceId, ids,
};
use crate::core::curve::Curve;
use crate::core::grid::Year;
use crate::core::model::{Clause, Station};
use crate::core::observation::{Observed, Weights};

pub use super::schema_clues::Tool;
pub use crate::registry::tables::Standing;

/// Where a figure comes from.
#[derive(Clone, Debug)]
pub struct Source {
    pub id: String,
    pub status: Standing,
    pub author: String,
    pub title: String,
    pub year: String,
    pub place: String,
    pub note: String,
}

impl Source {
    /// One line for people: author, title, year, place, and the mark of its standing.
    pub fn line(&self) -> String {
        let standing = match self.status {
            Standing::Published => "",
            Standing::CommonPractice => "common practice, no source",
            Standing::FromMemory => "from memory",
        };
        let work = [&self.author, &self.title, &self.year, &self.place]
            .into_iter()
            .filter(|part| !part.is_empty())
            .cloned()
            .collect::<Vec<_>>()
            .join(", ");
        match (work.is_empty(), standing.is_empty()) {
            (false, false) => format!("{work} ({standing})"),
            (false, true) => work,
            (true, _) => standing.to_owned(),
        }
    }
}

/// A kind of decoration.
#[derive(Clone, Debug)]
pub struct Kind {
    pub id: String,
    pub name: String,
    pub about: String,
    /// Getty AAT concept id, where there is one.
    pub aat: Option<String>,
    /// How much was made where and when.
    pub made: Vec<Made>,
    pub because: String,
    pub sources: Vec<SourceId>,
}

/// How much of a kind was made at one place.
#[derive(Clone, Debug)]
pub struct Made {
    pub place: PlaceId,
    pub weight: f64,
    pub curve: Curve,
}

/// A place of making.
#[derive(Clone, Debug)]
pub struct Place {
    pub id: String,
    pub name: String,
}

/// Which kinds and places a case is for, its weight and its curve.
#[derive(Clone, Debug)]
pub struct Frequency {
    /// `None` = all.
    pub kinds: Option<Vec<KindId>>,
    /// `None` = all.
    pub places: Option<Vec<PlaceId>>,
    pub weight: f64,
    pub curve: Curve,
    /// Empty: the finding's or clue's sources hold.
    pub sources: Vec<SourceId>,
}

/// What another file changed of a clue, for whoever asks why its figures are as they are.
#[derive(Clone, Debug)]
pub struct Change {
    pub clue: ClueId,
    /// In words: "seconds 4, was 15".
    pub what: String,
    /// The file that says so.
    pub file: String,
    pub because: String,
    pub sources: Vec<SourceId>,
}

impl Frequency {
    /// True when the case is for this kind and place.
    pub fn fits(&self, kind: KindId, place: PlaceId) -> bool {
        self.kinds.as_ref().is_none_or(|k| k.contains(&kind))
            && self.places.as_ref().is_none_or(|p| p.contains(&place))
    }
}

/// Where the piece was found: a kind of place, with or without the country it stands in.
#[derive(Clone, Debug)]
pub struct Setting {
    /// `thrift-shelf`, or with a country `thrift-shelf@north-america`.
    pub id: String,
    pub name: String,
    pub about: String,
    pub curve: Curve,
    /// Years by which one such place may as a whole differ from another (standard deviation).
    pub spread: f64,
    /// Share of the pieces of which this setting tells nothing, 0..=1: they may be of any year and
    /// kind, as they were made.
    pub doubt: f64,
    /// Index into the countries; `None`: not said.
    pub country: Option<usize>,
    pub factors: Vec<Frequency>,
    /// The curve is the chance of the years themselves, however much was made in them. A claim is
    /// weighed so when nobody says where the piece turned up.
    pub neutral: bool,
    pub because: String,
    pub sources: Vec<SourceId>,
}

impl Setting {
    /// The same kind of place where the country is known.
    pub(super) fn in_country(&self, at: usize, country: &Country) -> Setting {
        let factors = self.factors.iter().chain(&country.factors);
        let reasons = [self.because.as_str(), country.because.as_str()];
        let mut sources: Vec<SourceId> = [&self.sources[..], &country.sources].concat();
        sources.sort_unstable();
        sources.dedup();
        Setting {
            id: format!("{}@{}", self.id, country.id),
            name: format!("{}, {}", self.name, country.name),
            country: Some(at),
            factors: factors.cloned().collect(),
            because: reasons.join(" "),
            sources,
            ..self.clone()
        }
    }
}

/// The country a place of finding stands in: its factors multiply those of the kind of place.
#[derive(Clone, Debug)]
pub struct Country {
    pub id: String,
    pub name: String,
    pub about: String,
    pub factors: Vec<Frequency>,
    pub because: String,
    pub sources: Vec<SourceId>,
}

/// Known pieces counted into the frequencies of findings, written by the program.
#[derive(Clone, Debug, Default)]
pub struct Counted {
    /// Pieces that a drawn frequency is worth.
    pub strength: f64,
    /// Years over which a piece counts (standard deviation).
    pub smoothing: f64,
    pub because: String,
    pub sources: Vec<SourceId>,
    pub pieces: Vec<CountedPiece>,
}

/// One of them.
#[derive(Clone, Debug, PartialEq)]
pub struct CountedPiece {
    /// What it may be and where made, with its share of the piece.
    pub made: Vec<(KindId, PlaceId, f64)>,
    pub from: i16,
    pub to: i16,
    pub saw: Vec<(ClueId, FindingId)>,
}

impl CountedPiece {
    /// Its share in a kind and place.
    pub fn share(&self, (kind, place): (KindId, PlaceId)) -> f64 {
        let here = self.made.iter().filter(|m| (m.0, m.1) == (kind, place));
        here.map(|m| m.2).sum()
    }
}

/// Clues that look at one underlying thing.
#[derive(Clone, Debug)]
pub struct Family {
    pub id: String,
    pub about: String,
    /// 0 = independent, 1 = average.
    pub delta: f64,
    pub because: String,
    pub sources: Vec<SourceId>,
}

/// A curve over year made − year read.
#[derive(Clone, Debug)]
pub struct Kernel {
    pub id: String,
    pub about: String,
    pub lag: Curve,
    pub because: String,
    pub sources: Vec<SourceId>,
}

/// One possible finding at a clue.
#[derive(Clone, Debug)]
pub struct Finding {
    pub id: String,
    pub words: String,
    pub because: String,
    /// How a dealer says it in a line of notes.
    pub spoken: Vec<String>,
    pub sources: Vec<SourceId>,
    pub cases: Vec<Frequency>,
}

/// One clue.
#[derive(Clone, Debug)]
pub struct Clue {
    pub id: String,
    pub station: Station,
    pub question: String,
    pub look: String,
    pub tells: String,
    pub seconds: f64,
    pub tools: Vec<Tool>,
    pub gate: Vec<Clause>,
    pub family: Option<FamilyId>,
    pub slip: f64,
    /// How often there is anything to read (dated clues).
    pub present: f64,
    pub because: String,
    pub sources: Vec<SourceId>,
    /// The kernel of a dated clue.
    pub dated: Option<KernelId>,
    /// What a whole, readable mark says of this clue when none of its words are there.
    pub absent_from_whole_mark: Option<FindingId>,
    pub findings: Vec<Finding>,
    pub former: Vec<FormerFinding>,
}

/// An id that was a finding's once: renamed (one part) or split (several).
#[derive(Clone, Debug)]
pub struct FormerFinding {
    pub id: String,
    pub parts: Vec<FindingId>,
}

impl Clue {
    /// The finding with this id.
    pub fn finding(&self, id: &str) -> Option<FindingId> {
        FindingId::at(self.findings.iter().position(|f| f.id == id)?)
    }

    /// The ids of its findings, in order.
    pub fn finding_ids(&self) -> impl Iterator<Item = &str> + Clone {
        self.findings.iter().map(|f| f.id.as_str())
    }

    /// What a former id reads as today: the finding it became, or any of its parts.
    pub fn former(&self, id: &str) -> Option<Observed> {
        let former = self.former.iter().find(|f| f.id == id)?;
        self.reads_as(former)
    }

    /// The former ids that read as this today.
    pub fn was(&self, seen: &Observed) -> Vec<&str> {
        let same = |f: &&FormerFinding| self.reads_as(f).as_ref() == Some(seen);
        let former = self.former.iter().filter(same);
        former.map(|f| f.id.as_str()).collect()
    }

    /// The former ids that this was part of.
    pub fn was_part_of(&self, seen: &Observed) -> Vec<&str> {
        let within = |former: &&FormerFinding| match seen {
            Observed::Finding(f) => former.parts.contains(f),
            Observed::Soft(weights) => {
                let all = ids::<FindingId>(self.findings.len()).zip(weights.by_finding());
                let mut said = all.filter(|(_, w)| **w > 0.0);
                said.all(|(f, _)| former.parts.contains(&f))
            }
            Observed::Year(_) | Observed::CantTell => false,
        };
        let former = self.former.iter().filter(within);
        former.map(|f| f.id.as_str()).collect()
    }

    fn reads_as(&self, former: &FormerFinding) -> Option<Observed> {
        match former.parts.as_slice() {
            [one] => Some(Observed::Finding(*one)),
            parts => Weights::any_of(parts, self.findings.len()).map(Observed::Soft),
        }
    }
}

/// How common the findings of one clue are in the market, by kind.
#[derive(Clone, Debug)]
pub struct RarityFeature {
    pub clue: ClueId,
    pub name: String,
    pub because: String,
    pub sources: Vec<SourceId>,
    /// Index of an earlier feature that this one depends on.
    pub given: Option<usize>,
    /// The first case that fits counts; none at all: the clue's own figures do.
    pub cases: Vec<ShareCase>,
}

/// How common the findings are, where it applies.
#[derive(Clone, Debug)]
pub struct ShareCase {
    /// `None`: all kinds.
    pub kinds: Option<Vec<KindId>>,
    /// Findings of the given feature; `None`: all.
    pub given: Option<Vec<FindingId>>,
    /// Weight of each finding.
    pub weights: Vec<f64>,
}

/// When a caution is shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Occasion {
    Always,
    /// Wherever what a piece is worth may be asked.
    Value,
    /// Wherever somebody may eat from the piece.
    Food,
    /// When any of these clues has been looked at, or this finding seen there.
    Looking(Vec<(ClueId, Option<FindingId>)>),
}

/// A warning shown where it matters.
#[derive(Clone, Debug)]
pub struct Caution {
    pub id: String,
    pub occasion: Occasion,
    pub text: String,
    pub because: String,
    pub sources: Vec<SourceId>,
}

/// Something that strikes the eye at arm's length: a line of the first glance.
#[derive(Clone, Debug)]
pub struct Striking {
    pub clue: ClueId,
    pub finding: FindingId,
    /// Few enough letters for two columns on a phone.
    pub words: String,
    /// Seen from so far away the finding is only unsure.
    pub unsure: bool,
    /// What is seen, unsurely, of a piece on which it does not strike the eye, when nobody can
    /// miss it. `None`: no tick says nothing.
    pub unticked: Option<FindingId>,
    /// What its words say as well, of other clues: "clouded blue" is blue.
    pub with: Vec<(ClueId, FindingId)>,
    pub because: String,
    pub sources: Vec<SourceId>,
}

/// A trade word in plain English.
#[derive(Clone, Debug)]
pub struct Term {
    pub id: String,
    pub term: String,
    /// Other ways to write it.
    pub also: Vec<String>,
    /// Getty AAT concept id, where there is one.
    pub aat: Option<String>,
    pub text: String,
    pub because: String,
    pub sources: Vec<SourceId>,
}

impl Term {
    /// Every way to write it.
    pub fn written(&self) -> impl Iterator<Item = &str> {
        std::iter::once(&self.term)
            .chain(&self.also)
            .map(String::as_str)
    }
}

/// A short guided lesson.
#[derive(Clone, Debug)]
pub struct Lesson {
    pub id: String,
    pub title: String,
    /// Paragraphs.
    pub text: Vec<String>,
    /// Findings to be shown beside the text.
    pub shows: Vec<(ClueId, FindingId)>,
    /// Three items.
    pub practice: Vec<Practice>,
    pub because: String,
    pub sources: Vec<SourceId>,
}

/// A piece described, and what is asked of it.
#[derive(Clone, Debug)]
pub struct Practice {
    pub saw: Vec<(ClueId, FindingId)>,
    /// What can be read on the back; may be empty.
    pub mark: String,
    pub asks: Asks,
}

/// What is asked; the right answer stands first.
#[derive(Clone, Debug, PartialEq)]
pub enum Asks {
    Kind(Vec<KindId>),
    /// Runs of years, both ends within.
    Years(Vec<(Year, Year)>),
    /// Which of two pieces is the less common: this one, or one that shows the findings here.
    RarerThan(Vec<(ClueId, FindingId)>),
}

/// Lists of a rule base are read by their ids.
macro_rules! read_by {
    ($($id:ident reads $record:ident),*) => {$(
        impl Index<$id> for Vec<$record> {
            type Output = $record;

            fn index(&self, id: $id) -> &$record {
                &self[id.index()]
            }
        }
    )*};
}
read_by!(SourceId reads Source, KindId reads Kind, PlaceId reads Place, SettingId reads Setting);
read_by!(FamilyId reads Family, KernelId reads Kernel, ClueId reads Clue, FindingId reads Finding);
