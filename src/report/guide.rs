//! The field guide: every kind, every look with its findings, and every trade word, each with the
//! origin of its figures. One structure for the book and for the terminal.

use std::sync::Arc;

use serde::Serialize;

use super::linked::{Linked, Linker};
use super::timeline::{self, Lane, Shape};
use crate::core::eras::scaled;
use crate::core::grid::ClueId;
use crate::core::model::Station;
use crate::core::observation::{Observation, Observed};
use crate::hearing::search::Search;
use crate::piece::expert::Expert;
use crate::piece::{Piece, notation};
use crate::rulebase::definitions::{Clue, Kind};
use crate::rulebase::ids::{FindingId, ids};
use crate::rulebase::origins::origins;
use crate::say::names::{capital, clue_name};
use crate::say::{leaning, origin, plain};

/// Height of a kind's years in the picture.
const TALL: f64 = 16.0;

/// A kind is at home where it was made at least half as much as in its best year: the same half as in
/// what a finding speaks for (common practice, no source).
const AT_HOME: f64 = 0.5;

/// Stations in the order in which a piece is looked at, with their headings.
const STATIONS: [(Station, &str); 7] = [
    (Station::Front, "The front"),
    (Station::Loupe, "Under the loupe"),
    (Station::Glaze, "The glaze"),
    (Station::Back, "The back"),
    (Station::Shape, "The shape"),
    (Station::Mark, "The mark"),
    (Station::Condition, "The condition"),
];

/// The whole guide.
#[derive(Clone, Debug, Serialize)]
pub struct Guide {
    pub chapters: Vec<Chapter>,
    pub cautions: Vec<String>,
    /// How many figures have which sort of origin.
    pub origins: String,
    /// Version of the rule base.
    pub rules: String,
    /// When each kind was made.
    #[serde(skip)]
    pub picture: String,
}

#[derive(Clone, Debug, Serialize)]
pub struct Chapter {
    /// For links within the book.
    pub id: String,
    pub heading: String,
    pub entries: Vec<Entry>,
}

/// A kind, a look or a word.
#[derive(Clone, Debug, Serialize)]
pub struct Entry {
    /// For links within the book; unique.
    pub id: String,
    pub name: String,
    /// Other ways to write it.
    pub also: Vec<String>,
    pub lines: Vec<Linked>,
    pub findings: Vec<FindingEntry>,
    pub origin: String,
    /// When a kind was made; else empty.
    pub picture: String,
}

/// A finding and what it tells.
#[derive(Clone, Debug, Serialize)]
pub struct FindingEntry {
    pub words: String,
    /// Its clue and itself, by which a picture of it is known: `edge=soft`.
    pub finding: String,
    pub because: Linked,
    pub leaning: Linked,
    pub origin: String,
}

impl Guide {
    /// The guide to a rule base.
    pub fn new(expert: &Arc<Expert>) -> Guide {
        let base = &expert.base;
        let mut linker = Linker::new(base);
        let mut chapters = vec![kinds(expert, &mut linker)];
        for (station, heading) in STATIONS {
            let all = ids::<ClueId>(base.clues.len());
            let here = all.filter(|c| base.clue(*c).station == station);
            let entries = here.map(|c| look(expert, c, &mut linker)).collect();
            chapters.push(Chapter {
                id: format!("{station:?}").to_lowercase(),
                heading: heading.to_owned(),
                entries,
            });
        }
        chapters.push(words(expert));
        chapters.retain(|c| !c.entries.is_empty());
        Guide {
            chapters,
            cautions: base.cautions.iter().map(|c| c.text.clone()).collect(),
            origins: origins(base).words(),
            rules: base.version.clone(),
            picture: timeline::draw(
                &expert.engine().model.grid,
                "When each kind was made, kind by kind, by the year",
                &lanes(expert),
            ),
        }
    }

    /// The entries in which every word typed stands; those with all of it in their names first.
    pub fn find(&self, typed: &str) -> Vec<&Entry> {
        let search = Search::new(typed);
        let all = || self.chapters.iter().flat_map(|c| &c.entries);
        let (mut named, rest): (Vec<&Entry>, Vec<&Entry>) =
            all().partition(|e| search.fits(e.names()));
        // An id is a name with hyphens.
        let typed = typed.trim().replace('-', " ");
        let exact = |e: &&Entry| {
            let mut names = e.names().map(|n| n.replace('-', " "));
            names.any(|n| n.eq_ignore_ascii_case(&typed))
        };
        if let Some(exact) = named.iter().position(exact) {
            let first = named.remove(exact);
            named.insert(0, first);
        }
        named.extend(rest.into_iter().filter(|e| {
            let texts: Vec<String> = e.texts();
            search.fits(texts.iter().map(String::as_str))
        }));
        named
    }
}

impl Entry {
    /// Names it goes by.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        let id = self.id.split_once('-').map_or("", |(_, id)| id);
        let own = [self.name.as_str(), id].into_iter();
        own.chain(self.also.iter().map(String::as_str))
    }

    /// All that it says.
    fn texts(&self) -> Vec<String> {
        let mut out: Vec<String> = self.names().map(str::to_owned).collect();
        out.extend(self.lines.iter().map(Linked::plain));
        for finding in &self.findings {
            out.extend([finding.words.clone(), finding.because.plain()]);
        }
        out
    }
}

fn kinds(expert: &Arc<Expert>, linker: &mut Linker) -> Chapter {
    let grid = &expert.engine().model.grid;
    let lanes = lanes(expert);
    let entries = expert.base.kinds.iter().zip(lanes).map(|(kind, lane)| {
        let made = made(expert, kind);
        Entry {
            id: format!("kind-{}", kind.id),
            name: capital(&kind.name),
            also: Vec::new(),
            lines: [
                format!("{}.", capital(&kind.about)),
                kind.because.clone(),
                made,
            ]
            .iter()
            .map(|line| linker.link(line))
            .collect(),
            findings: Vec::new(),
            origin: origin::sources(expert, &kind.sources),
            picture: timeline::draw(grid, &format!("When made: {}", kind.name), &[lane]),
        }
    });
    Chapter {
        id: "kinds".to_owned(),
        heading: "Kinds".to_owned(),
        entries: entries.collect(),
    }
}

/// "Made above all in: Britain 1783 to 1868, …".
fn made(expert: &Expert, kind: &Kind) -> String {
    let grid = &expert.engine().model.grid;
    let places = kind.made.iter().filter_map(|made| {
        let heights = scaled(made.curve.heights(grid.first(), grid.years()));
        let from = heights.iter().position(|h| *h >= AT_HOME)?;
        let to = heights.iter().rposition(|h| *h >= AT_HOME)?;
        let place = &expert.base.places[made.place].name;
        Some(format!(
            "{place} {} to {}",
            grid.year(from).0,
            grid.year(to).0
        ))
    });
    let places: Vec<String> = places.collect();
    format!("Made above all in: {}.", places.join(", "))
}

/// A lane a kind: how much of it was made, year by year, all places together.
fn lanes(expert: &Expert) -> Vec<Lane> {
    let grid = &expert.engine().model.grid;
    let lane = |kind: &Kind| {
        let mut heights = vec![0.0; grid.years()];
        for made in &kind.made {
            let there = made.curve.heights(grid.first(), grid.years());
            let sum = heights.iter_mut().zip(there);
            sum.for_each(|(all, there)| *all += made.weight * there);
        }
        Lane {
            label: capital(&kind.name),
            shape: Shape::Heights(scaled(heights)),
            tall: TALL,
        }
    };
    expert.base.kinds.iter().map(lane).collect()
}

fn look(expert: &Arc<Expert>, id: ClueId, linker: &mut Linker) -> Entry {
    let clue = expert.base.clue(id);
    let lines = [
        clue.question.clone(),
        format!("How to look: {} ({})", clue.look, tools(clue)),
        clue.tells.clone(),
        clue.because.clone(),
    ];
    let findings = ids::<FindingId>(clue.findings.len());
    Entry {
        id: format!("look-{}", clue.id),
        name: capital(&clue_name(expert, id)),
        also: Vec::new(),
        lines: lines.iter().map(|line| linker.link(line)).collect(),
        findings: findings.map(|f| finding(expert, id, f, linker)).collect(),
        origin: origin::sources(expert, &clue.sources),
        picture: String::new(),
    }
}

/// "loupe or eye, about 8 seconds".
fn tools(clue: &Clue) -> String {
    let tools: Vec<&str> = clue.tools.iter().map(|t| plain::tool(*t)).collect();
    match tools.is_empty() {
        true => format!("about {:.0} seconds", clue.seconds),
        false => format!("{}, about {:.0} seconds", tools.join(" or "), clue.seconds),
    }
}

/// A finding, and what it speaks for when nothing else has been seen and every year counts alike.
fn finding(expert: &Arc<Expert>, clue: ClueId, id: FindingId, linker: &mut Linker) -> FindingEntry {
    let finding = expert.base.finding(clue, id);
    let observation = Observation::new(clue, Observed::Finding(id));
    let alone = Piece::unseen(expert.clone(), expert.base.neutral()).with(observation.clone());
    let leanings = leaning::leanings_of(&alone);
    let because = match finding.because.is_empty() {
        true => &expert.base.clue(clue).because,
        false => &finding.because,
    };
    FindingEntry {
        words: capital(&finding.words),
        finding: notation::write(&expert.base, &observation),
        because: linker.link(because),
        leaning: linker.link(leaning::leaning_of(&leanings, &observation)),
        origin: origin::sources_of(expert, &observation),
    }
}

fn words(expert: &Expert) -> Chapter {
    let entries = expert.base.glossary.iter().map(|term| {
        // Not linked: words explained by words explained lead a beginner in circles.
        let plain = |text: &String| Linked::of(text);
        Entry {
            id: format!("word-{}", term.id),
            name: capital(&term.term),
            also: term.also.clone(),
            lines: [&term.text, &term.because].into_iter().map(plain).collect(),
            findings: Vec::new(),
            origin: origin::sources(expert, &term.sources),
            picture: String::new(),
        }
    });
    Chapter {
        id: "words".to_owned(),
        heading: "Words".to_owned(),
        entries: entries.collect(),
    }
}
