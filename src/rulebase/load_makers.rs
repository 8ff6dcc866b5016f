//! A user's own makers: names to be found in marks, and a clue that says when and where each worked.
//!
//! Of N makers each is a finding of weight 1 where and when it worked and 0 elsewhere; one more
//! finding, "another firm", takes what is left of N + 1. So the weights sum to the same everywhere, a
//! list with many makers of one time draws nothing towards that time, and a name that is read speaks
//! for the maker's years against others by 1/ε, whatever else stands in the list.

use std::collections::{BTreeMap, BTreeSet};

use super::base::RuleBase;
use super::definitions::{Clue, Finding, Frequency, Source, Standing, Tool};
use super::ids::{ClueId, FindingId, Id, PlaceId, SourceId};
use super::makers_table::{MakerRow, rows};
use super::numbers::YEARS;
use super::problem::Check;
use super::resolve::Resolver;
use super::source::{Bare, SourceFile};
use crate::core::curve::Curve;
use crate::core::model::Station;
use crate::hearing::fold::{Word, words};
use crate::hearing::mark::{Phrase, Reads};

/// Id of the clue.
const CLUE: &str = "listed-maker";

/// How often a name is misread, or the list is wrong about it: once in fifty (common practice, no
/// source).
const SLIP: f64 = 0.02;

/// Most makers in all lists: each is a finding, and the clue is weighed with every question (common
/// practice, no source).
const MOST: usize = 500;

/// A checked maker.
struct Maker {
    id: String,
    name: String,
    forms: Vec<String>,
    from: Option<i16>,
    to: Option<i16>,
    place: Option<PlaceId>,
    source: SourceId,
}

impl Maker {
    fn works_in(&self, year: i16) -> bool {
        self.from.is_none_or(|from| from <= year) && self.to.is_none_or(|to| year <= to)
    }

    fn works_at(&self, place: Option<PlaceId>) -> bool {
        self.place.is_none() || self.place == place
    }
}

/// Loads all `makers.csv`.
pub(super) fn makers<'a>(r: &mut Resolver<'a>, base: &mut RuleBase, files: Vec<&'a SourceFile>) {
    let mut makers: Vec<Maker> = Vec::new();
    let mut seen = BTreeMap::new();
    for file in files {
        for row in rows(file, &mut r.problems) {
            if makers.len() == MOST {
                let message = format!("this maker is one more than the {MOST} there can be");
                r.problem(file, row.name.src, Check::TooMany, message, "");
                break;
            }
            let forms = forms(r, file, &row, &mut seen);
            let id = free_id(&row.name.value, &makers);
            makers.extend(maker(r, base, file, row, forms, id));
        }
    }
    if makers.is_empty() || !r.problems.is_empty() {
        return;
    }
    let Some(id) = ClueId::at(base.clues.len()) else {
        return;
    };
    // The name of a firm is looked for where a firm is named.
    let firms = base.wording.clue_of_firms().map(|clue| base.clue(clue));
    let gate = firms.map(|clue| clue.gate.clone()).unwrap_or_default();
    let named = makers.iter().enumerate();
    let phrases: Vec<Phrase> = named
        .filter_map(|(i, maker)| Some(phrase(base, id, FindingId::at(i)?, maker)))
        .collect();
    let clue = Clue {
        gate,
        ..clue(base, &makers)
    };
    base.wording.add_makers(phrases);
    base.clues.push(clue);
}

/// The name and its variants, each with letters and of one maker only.
fn forms(
    r: &mut Resolver,
    file: &SourceFile,
    row: &MakerRow,
    seen: &mut BTreeMap<String, String>,
) -> Vec<String> {
    let name = &row.name.value;
    for form in std::iter::once(&row.name).chain(&row.variants) {
        let folded: String = words(&form.value).iter().map(Word::folded).collect();
        if folded.is_empty() {
            let message = format!("the name '{}' has no letters", form.value);
            r.problem(file, form.src, Check::EmptyForm, message, "");
            continue;
        }
        let of = seen.entry(folded).or_insert_with(|| name.clone());
        if of != name {
            let message = format!("'{}' is also a name of '{of}'", form.value);
            let help = "a name must lead to one maker: tell them apart, or leave it out";
            r.problem(file, form.src, Check::DuplicateForm, message, help);
        }
    }
    let all: BTreeSet<&String> = std::iter::once(&row.name)
        .chain(&row.variants)
        .map(|form| &form.value)
        .collect();
    all.into_iter().cloned().collect()
}

/// An id made of the name's letters and figures, with a number when it is taken.
fn free_id(name: &str, makers: &[Maker]) -> String {
    let parts: Vec<String> = words(name).iter().map(Word::folded).collect();
    let plain = |c: &char| c.is_ascii_lowercase() || c.is_ascii_digit();
    let parts = parts.iter().map(|p| p.chars().filter(plain).collect());
    let parts: Vec<String> = parts.filter(|p: &String| !p.is_empty()).collect();
    let stem = match parts.is_empty() {
        true => "maker".to_owned(),
        false => parts.join("-"),
    };
    let taken = |id: &str| id == OTHER || makers.iter().any(|m| m.id == id);
    let numbered = (2..).map(|n| format!("{stem}-{n}"));
    let mut ids = std::iter::once(stem.clone()).chain(numbered);
    ids.find(|id| !taken(id)).unwrap_or(stem)
}

/// A maker with its years, place and source. `None` when something is missing.
fn maker<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    file: &'a SourceFile,
    row: MakerRow<'a>,
    forms: Vec<String>,
    id: String,
) -> Option<Maker> {
    let (from, to) = (year(r, file, row.from.src), year(r, file, row.to.src));
    if let (Some(from), Some(to)) = (from, to)
        && from > to
    {
        let message = format!("{} works from {from} to {to}", row.name.value);
        r.problem(file, row.to.src, Check::YearsReversed, message, "");
    }
    let placed = !row.place.value.is_empty();
    let place = placed
        .then(|| r.lookup::<PlaceId>(file, &row.place))
        .flatten();
    let dated = !(row.from.value.is_empty() && row.to.value.is_empty());
    if !placed && !dated {
        let message = format!("nothing is said of {}", row.name.value);
        let help = "write from, to or place: the name alone would change nothing";
        r.problem(file, row.name.src, Check::ChangesNothing, message, help);
    }
    if row.source.value.is_empty() {
        let message = format!("{} has no source", row.name.value);
        let help =
            "write where you have it from: a book and page, a page of the web, or from memory";
        r.problem(file, row.name.src, Check::MissingSource, message, help);
    }
    Some(Maker {
        id,
        forms,
        name: row.name.value,
        from,
        to,
        place,
        source: source(base, &row.source.value)?,
    })
}

fn year(r: &mut Resolver, file: &SourceFile, written: &str) -> Option<i16> {
    let bare = written.trim_matches('"').trim();
    (!bare.is_empty()).then(|| r.year(file, Bare(bare)))?
}

/// The source of a maker: one of the rules' own by its id, or a new one in the user's words.
fn source(base: &mut RuleBase, written: &str) -> Option<SourceId> {
    let same = |s: &Source| s.id == written || (s.id == LISTED && s.title == written);
    if let Some(at) = base.sources.iter().position(same) {
        return SourceId::at(at);
    }
    let low = written.to_lowercase();
    let status = match low.as_str() {
        "from memory" => Standing::FromMemory,
        "common practice" => Standing::CommonPractice,
        _ => Standing::Published,
    };
    let title = match status {
        Standing::Published => written.to_owned(),
        _ => String::new(),
    };
    let id = SourceId::at(base.sources.len())?;
    base.sources.push(Source {
        id: LISTED.to_owned(),
        status,
        author: String::new(),
        title,
        year: String::new(),
        place: String::new(),
        note: "named in your own list of makers".to_owned(),
    });
    Some(id)
}

/// Id of every source that only a list of makers names.
const LISTED: &str = "own-list";

/// Id of the finding for any firm that is not in the list.
const OTHER: &str = "another";

/// "1842 to 1867, Britain", as far as it is known.
fn when_and_where(base: &RuleBase, maker: &Maker) -> String {
    let years = match (maker.from, maker.to) {
        (Some(from), Some(to)) => Some(format!("from {from} to {to}")),
        (Some(from), None) => Some(format!("from {from} on")),
        (None, Some(to)) => Some(format!("until {to}")),
        (None, None) => None,
    };
    let place = maker
        .place
        .map(|place| format!("in {}", base.places[place].name));
    let known: Vec<String> = [years, place].into_iter().flatten().collect();
    known.join(", ")
}

/// What the list says of a maker, in a sentence.
fn because(base: &RuleBase, maker: &Maker) -> String {
    let known = when_and_where(base, maker);
    format!("By your own list of makers {} worked {known}.", maker.name)
}

fn phrase(base: &RuleBase, clue: ClueId, finding: FindingId, maker: &Maker) -> Phrase {
    Phrase {
        id: maker.id.clone(),
        says: Some((clue, Some(finding))),
        forms: maker.forms.clone(),
        reads: Reads::Words,
        from: maker.from,
        usual_from: None,
        to: maker.to,
        because: because(base, maker),
        origin: base.origin(&[maker.source]),
    }
}

/// The clue of the list.
fn clue(base: &RuleBase, makers: &[Maker]) -> Clue {
    let mut findings: Vec<Finding> = makers.iter().map(|maker| finding(base, maker)).collect();
    findings.push(another(makers));
    Clue {
        former: Vec::new(),
        id: CLUE.to_owned(),
        station: Station::Mark,
        question: "Which maker of your own list does the mark name?".to_owned(),
        look: "Read the name in the mark letter by letter and find it in your list.".to_owned(),
        tells: "A maker's years are a floor and a ceiling, as sure as your list is.".to_owned(),
        // A name has to be looked up (common practice, no source).
        seconds: 60.0,
        tools: vec![Tool::Eye],
        gate: Vec::new(),
        family: None,
        slip: SLIP,
        present: 1.0,
        because: "A maker named in the mark made the piece in the years it worked. The years are \
            those of your own list; names were also taken over by successors and copied."
            .to_owned(),
        sources: makers.first().map(|m| m.source).into_iter().collect(),
        dated: None,
        absent_from_whole_mark: None,
        findings,
    }
}

fn finding(base: &RuleBase, maker: &Maker) -> Finding {
    let works = |year| f64::from(u8::from(maker.works_in(year)));
    Finding {
        id: maker.id.clone(),
        words: maker.name.clone(),
        because: because(base, maker),
        spoken: Vec::new(),
        sources: vec![maker.source],
        cases: vec![case(maker.place, works)],
    }
}

/// Any other firm: what the makers at a place leave of the sum of all weights.
fn another(makers: &[Maker]) -> Finding {
    let places: BTreeSet<PlaceId> = makers.iter().filter_map(|m| m.place).collect();
    let left = |place: Option<PlaceId>| {
        let at_work = move |year| {
            let here = makers
                .iter()
                .filter(|m| m.works_at(place) && m.works_in(year));
            here.count()
        };
        case(place, move |year| (makers.len() + 1 - at_work(year)) as f64)
    };
    let mut cases: Vec<Frequency> = places.into_iter().map(|place| left(Some(place))).collect();
    cases.push(left(None));
    Finding {
        id: OTHER.to_owned(),
        words: "another firm, or none of your list".to_owned(),
        because: "Says only that none of the makers you know is named.".to_owned(),
        spoken: Vec::new(),
        sources: Vec::new(),
        cases,
    }
}

/// A case whose height changes from year to year; points stand only where it does.
fn case(place: Option<PlaceId>, height: impl Fn(i16) -> f64) -> Frequency {
    let mut points: Vec<(f64, f64)> = Vec::new();
    for year in YEARS {
        let here = height(year);
        if let Some(&(_, before)) = points.last()
            && before != here
        {
            points.push((f64::from(year - 1), before));
        }
        if points.last().is_none_or(|&(_, before)| before != here) {
            points.push((f64::from(year), here));
        }
    }
    Frequency {
        kinds: None,
        places: place.map(|place| vec![place]),
        weight: 1.0,
        curve: Curve::new(points),
        sources: Vec::new(),
    }
}
