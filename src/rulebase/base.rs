//! The checked rule base as a whole, and how its parts are found by name.

use super::definitions::{
    Caution, Clue, Family, Finding, Kernel, Kind, Lesson, Place, RarityFeature, Setting, Source,
    Standing, Term,
};
use super::ids::{ClueId, FindingId, Id, KindId, SettingId, SourceId, ids};
use crate::hearing::mark::{Blanked, Phrasebook};
use crate::hearing::notes::Spoken;
use crate::hearing::vocabulary::Vocabulary;
use crate::registry::tables::{Origin, Registry};

/// A checked rule base.
#[derive(Clone, Debug)]
pub struct RuleBase {
    /// Changes whenever any rule file changes: FNV-1a over names and texts, in hexadecimal.
    pub version: String,
    pub sources: Vec<Source>,
    pub kinds: Vec<Kind>,
    pub places: Vec<Place>,
    pub settings: Vec<Setting>,
    pub families: Vec<Family>,
    pub kernels: Vec<Kernel>,
    pub clues: Vec<Clue>,
    pub market: Vec<RarityFeature>,
    pub cautions: Vec<Caution>,
    pub glossary: Vec<Term>,
    /// In the order they are given; empty without `lessons.ron`.
    pub lessons: Vec<Lesson>,
    /// Kinds that a round of printed-or-painted takes for printed, and for painted.
    pub printed_or_painted: [Vec<KindId>; 2],
    /// Phrases of marks; empty without `marks/wording.ron`.
    pub wording: Phrasebook,
    /// Registration tables; empty without `marks/registry.ron`.
    pub registry: Registry,
    /// Words of notes, tickets and dates; without `words.ron` only the kinds' own names.
    pub vocabulary: Vocabulary,
    /// How findings are said in a line of notes.
    pub spoken: Spoken,
}

impl RuleBase {
    /// A rule base in which nothing is defined yet.
    pub(super) fn empty(version: String) -> RuleBase {
        RuleBase {
            version,
            sources: Vec::new(),
            kinds: Vec::new(),
            places: Vec::new(),
            settings: Vec::new(),
            families: Vec::new(),
            kernels: Vec::new(),
            clues: Vec::new(),
            market: Vec::new(),
            cautions: Vec::new(),
            glossary: Vec::new(),
            lessons: Vec::new(),
            printed_or_painted: Default::default(),
            wording: Phrasebook::new(Vec::new(), Blanked::default()),
            registry: Registry::default(),
            vocabulary: Vocabulary::default(),
            spoken: Spoken::new(Vec::new(), Vec::new(), &Vocabulary::default()),
        }
    }

    /// The clue with this id.
    pub fn clue_id(&self, id: &str) -> Option<ClueId> {
        ClueId::at(self.clues.iter().position(|c| c.id == id)?)
    }

    /// The clue's texts.
    pub fn clue(&self, id: ClueId) -> &Clue {
        &self.clues[id]
    }

    /// A finding's texts.
    pub fn finding(&self, clue: ClueId, finding: FindingId) -> &Finding {
        &self.clue(clue).findings[finding]
    }

    /// The setting in which a claim is weighed when nobody says where the piece turned up.
    pub fn neutral(&self) -> SettingId {
        let neutral = self.settings.iter().position(|s| s.neutral);
        neutral.and_then(SettingId::at).unwrap_or_default()
    }

    /// The setting with this id, or the only one whose id begins so.
    pub fn setting(&self, name: &str) -> Option<SettingId> {
        let all = || ids::<SettingId>(self.settings.len());
        all().find(|s| self.settings[*s].id == name).or_else(|| {
            let mut begins =
                all().filter(|s| !name.is_empty() && self.settings[*s].id.starts_with(name));
            begins.next().filter(|_| begins.next().is_none())
        })
    }

    /// The kind with this id.
    pub fn kind_id(&self, id: &str) -> Option<KindId> {
        KindId::at(self.kinds.iter().position(|k| k.id == id)?)
    }

    /// The works behind a figure, in words. It stands no better than the weakest of them.
    pub fn origin(&self, sources: &[SourceId]) -> Origin {
        let works = || sources.iter().map(|id| &self.sources[*id]);
        let lines: Vec<String> = works().map(Source::line).collect();
        let weakest = works().map(|s| s.status).max();
        Origin {
            text: lines.join("; "),
            standing: weakest.unwrap_or(Standing::CommonPractice),
        }
    }
}
