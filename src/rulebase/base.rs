//! The checked rule base as a whole, and how its parts are found by name.

use super::definitions::{
    Caution, Change, Clue, Counted, Country, Family, Finding, Kernel, Kind, Lesson, Place,
    RarityFeature, Setting, Source, Standing, Striking, Term,
};
use super::ids::{ClueId, FindingId, Id, KindId, SettingId, SourceId};
use super::prices::PriceGuesses;
use crate::hearing::mark::{Blanked, Phrasebook};
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
    /// Kinds of place first, then each of them with each country.
    pub settings: Vec<Setting>,
    pub countries: Vec<Country>,
    pub families: Vec<Family>,
    pub kernels: Vec<Kernel>,
    pub clues: Vec<Clue>,
    /// What `changes.ron` changed of them, in order.
    pub changes: Vec<Change>,
    pub market: Vec<RarityFeature>,
    /// What prices start from; `None` without `market.ron`.
    pub prices: Option<PriceGuesses>,
    /// Known pieces that are counted; none without `counted.ron`.
    pub counted: Counted,
    pub cautions: Vec<Caution>,
    pub glossary: Vec<Term>,
    /// The first glance, in the order of the rule files; may be empty.
    pub glance: Vec<Striking>,
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
            countries: Vec::new(),
            families: Vec::new(),
            kernels: Vec::new(),
            clues: Vec::new(),
            changes: Vec::new(),
            market: Vec::new(),
            prices: None,
            counted: Counted::default(),
            cautions: Vec::new(),
            glossary: Vec::new(),
            glance: Vec::new(),
            lessons: Vec::new(),
            printed_or_painted: Default::default(),
            wording: Phrasebook::new(Vec::new(), Blanked::default()),
            registry: Registry::default(),
            vocabulary: Vocabulary::default(),
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

    /// What other files changed of a clue.
    pub fn changes_of(&self, clue: ClueId) -> impl Iterator<Item = &Change> {
        self.changes.iter().filter(move |c| c.clue == clue)
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

    /// The settings that leave the country open: the kinds of place a piece is found in.
    pub fn kinds_of_place(&self) -> &[Setting] {
        let with_country = self.settings.iter().position(|s| s.country.is_some());
        &self.settings[..with_country.unwrap_or(self.settings.len())]
    }

    /// The kind of place of a setting, and its country.
    pub fn place_and_country(&self, setting: SettingId) -> (SettingId, Option<usize>) {
        let country = self.settings[setting].country;
        let id = self.settings[setting].id.split('@').next();
        let of_kind = self.settings.iter().position(|s| Some(&*s.id) == id);
        (of_kind.and_then(SettingId::at).unwrap_or(setting), country)
    }

    /// The setting of a kind of place in a country; the place alone where none is said.
    pub fn in_country(&self, place: SettingId, country: Option<usize>) -> SettingId {
        let (place, _) = self.place_and_country(place);
        let Some(country) = country.and_then(|c| self.countries.get(c)) else {
            return place;
        };
        let id = format!("{}@{}", self.settings[place].id, country.id);
        let found = self.settings.iter().position(|s| s.id == id);
        found.and_then(SettingId::at).unwrap_or(place)
    }

    /// The setting with this id, or the only one whose id begins so; `thrift@north` names both
    /// the place and its country.
    pub fn setting(&self, name: &str) -> Option<SettingId> {
        let (place, country) = match name.split_once('@') {
            Some((place, country)) => (place, Some(country)),
            None => (name, None),
        };
        let places = self.kinds_of_place().iter().map(|s| s.id.as_str());
        let place = SettingId::at(beginning(places, place)?)?;
        match country {
            Some(country) => Some(self.in_country(place, Some(self.country(country)?))),
            None => Some(place),
        }
    }

    /// The country with this id, or the only one whose id begins so.
    pub fn country(&self, name: &str) -> Option<usize> {
        beginning(self.countries.iter().map(|c| c.id.as_str()), name)
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

/// The id that is this name, or the only one that begins so.
fn beginning<'a>(ids: impl Iterator<Item = &'a str> + Clone, name: &str) -> Option<usize> {
    ids.clone().position(|id| id == name).or_else(|| {
        let mut begins = ids
            .enumerate()
            .filter(|(_, id)| !name.is_empty() && id.starts_with(name));
        begins
            .next()
            .filter(|_| begins.next().is_none())
            .map(|(at, _)| at)
    })
}
