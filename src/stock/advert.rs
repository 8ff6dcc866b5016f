//! A piece of the book as it is offered online: written only as sure as the evidence.

use serde_json::{Value, json};

use super::entry::Entry;
use crate::buy::condition::SOUND;
use crate::core::grid::ClueId;
use crate::core::observation::{Observed, Sure};
use crate::piece::Piece;
use crate::rulebase::RuleBase;
use crate::say::card;
use crate::say::names::{capital, clue_name};
use crate::say::observation::seen;

/// Letters a title has room for (what large online markets allow; common practice, no source).
pub const TITLE: usize = 80;

/// Age from which things are called antique, in years (common practice, no source).
pub const ANTIQUE: i16 = 100;

/// Share of the years that must be that old before the word is used (IPCC: very likely).
const SURE: f64 = 0.9;

/// Clues that tell a size.
const SIZES: [&str; 1] = ["size-word"];

/// An offer in parts.
#[derive(Clone, Debug, PartialEq)]
pub struct Advert {
    /// At most `TITLE` letters.
    pub title: String,
    pub description: Vec<String>,
    pub condition: String,
    pub sizes: Vec<String>,
    /// As read; empty when no mark was told.
    pub mark: String,
    /// Name and value of what was seen for certain.
    pub attributes: Vec<(String, String)>,
    pub photograph: Vec<String>,
    /// True when it may be called antique.
    pub antique: bool,
    /// What the seller has to see to before it is offered.
    pub before: Vec<String>,
}

impl Advert {
    /// The offer of a piece as today's rules judge it; `this_year` decides what is antique.
    pub fn new(piece: &Piece, entry: &Entry, this_year: i16) -> Advert {
        let antique = is_antique(piece, this_year);
        let claimed = !antique && says_antique(&entry.title);
        let base = &piece.expert().base;
        let mut before = Vec::new();
        if claimed {
            before.push(format!(
                "Your title says antique; what was seen does not bear out that it is over {ANTIQUE} years old, so the title is left out."
            ));
        }
        if entry.condition.is_empty() {
            before.push("Look for chips, cracks and stains, and note what you find (stock edit ID --condition).".to_owned());
        }
        if entry.asking.is_none() {
            before.push("Set a price (stock price ID AMOUNT).".to_owned());
        }
        let own = if claimed { "" } else { entry.title.as_str() };
        Advert {
            title: title(own, piece),
            description: description(piece, entry, antique),
            condition: condition(base, &entry.condition),
            sizes: sizes(piece),
            mark: entry.sighting.mark.clone(),
            attributes: attributes(piece),
            photograph: photograph(base, entry),
            antique,
            before,
        }
    }

    /// Line by line.
    pub fn lines(&self) -> Vec<String> {
        let mut out = vec![self.title.clone(), String::new()];
        out.extend(self.description.iter().cloned());
        out.push(format!("Condition: {}", self.condition));
        if !self.sizes.is_empty() {
            out.push(format!("Size: {}.", self.sizes.join("; ")));
        }
        out.push(String::new());
        let named = |(name, value): &(String, String)| format!("  {name}: {value}");
        out.extend(self.attributes.iter().map(named));
        out.push(String::new());
        out.push("Photograph:".to_owned());
        out.extend(self.photograph.iter().map(|p| format!("  - {p}")));
        if !self.before.is_empty() {
            out.push(String::new());
            out.push("Before you offer it:".to_owned());
            out.extend(self.before.iter().map(|b| format!("  - {b}")));
        }
        out
    }

    /// As one object.
    pub fn object(&self, entry: &Entry) -> Value {
        let named = |(name, value): &(String, String)| json!({"name": name, "value": value});
        let attributes: Vec<Value> = self.attributes.iter().map(named).collect();
        json!({"format": 1, "id": entry.id.as_str(), "title": self.title,
               "description": self.description.join("\n"), "condition": self.condition,
               "sizes": self.sizes, "mark": self.mark, "attributes": attributes,
               "photos": entry.photos, "photograph": self.photograph, "antique": self.antique,
               "asking": entry.asking, "currency": entry.currency.code(),
               "quantity": entry.count(), "before": self.before})
    }
}

/// Over a hundred years old with all of the band, and very likely.
fn is_antique(piece: &Piece, this_year: i16) -> bool {
    let newest = this_year - ANTIQUE;
    let judgement = piece.judgement();
    let grid = &piece.expert().engine().model.grid;
    let years = judgement.years.iter().enumerate();
    let old = years.filter(|(offset, _)| grid.year(*offset).0 <= newest);
    judgement.band().to.0 <= newest && old.map(|(_, p)| p).sum::<f64>() >= SURE
}

fn says_antique(text: &str) -> bool {
    text.to_lowercase().contains("antique")
}

/// "probably 1890 to 1920": the band that holds 8 in 10 of the chance.
fn probably(piece: &Piece) -> String {
    let band = piece.judgement().band();
    match (band.from.0, band.to.0) {
        (from, to) if from == to => format!("probably {from}"),
        (from, to) => format!("probably {from} to {to}"),
    }
}

/// As many parts as there is room for, the first ones first; the years are never left out.
fn title(own: &str, piece: &Piece) -> String {
    let years = probably(piece);
    let room = TITLE - years.chars().count() - 2; // ", "
    let first = match own {
        "" => card::what(piece),
        own => own.to_owned(),
    };
    let mut out: String = first.chars().take(room).collect();
    if first.chars().count() > room {
        // No half words.
        out.truncate(out.rfind(' ').unwrap_or(out.len()));
    }
    let form = word_of(piece, "form").filter(|_| own.is_empty());
    if let Some(form) = form {
        let longer = format!("{out}, {form}");
        if longer.chars().count() <= room {
            out = longer;
        }
    }
    format!("{out}, {years}")
}

/// What was found for certain of a clue, in its short words.
fn word_of(piece: &Piece, clue: &str) -> Option<String> {
    let (_, words) = certain(piece).find(|(id, _)| piece.expert().base.clue(*id).id == clue)?;
    Some(words)
}

/// Findings seen for certain, in words.
fn certain(piece: &Piece) -> impl Iterator<Item = (ClueId, String)> {
    let all = piece.evidence().observations().iter();
    let sure = all.filter(|o| {
        o.sure == Sure::Sure && matches!(o.seen, Observed::Finding(_) | Observed::Year(_))
    });
    sure.map(|o| (o.clue, seen(piece.expert(), o)))
}

fn description(piece: &Piece, entry: &Entry, antique: bool) -> Vec<String> {
    let mut out = vec![format!(
        "{}, {}. {}",
        card::what(piece),
        probably(piece),
        card::about(piece)
    )];
    if antique {
        out.push(format!(
            "Antique: over {ANTIQUE} years old by what was found on it."
        ));
    }
    let reasons = card::reasons(piece).into_iter();
    out.extend(reasons.map(|r| format!("{}. {}", r.seen, r.tells)));
    out.push(match entry.sighting.mark.replace('\n', " / ") {
        mark if mark.is_empty() => "No mark was read.".to_owned(),
        mark => format!("Mark as read: \"{mark}\"."),
    });
    if entry.count() > 1 {
        out.push(format!("{} pieces alike.", entry.count()));
    }
    out
}

fn condition(base: &RuleBase, words: &[String]) -> String {
    if words.is_empty() {
        return "not looked over yet.".to_owned();
    }
    if words.iter().any(|w| w == SOUND) {
        return "no chips, cracks or repairs were found.".to_owned();
    }
    let named: Vec<String> = words.iter().map(|w| defect(base, w)).collect();
    format!("{}.", named.join(", "))
}

/// A defect by its name, or as the seller wrote it.
fn defect(base: &RuleBase, word: &str) -> String {
    let guesses = base.prices.as_ref();
    let known = guesses.and_then(|g| Some(g.defects[g.defect(word)?].factor.name.clone()));
    known.unwrap_or_else(|| word.replace('-', " "))
}

fn sizes(piece: &Piece) -> Vec<String> {
    let base = &piece.expert().base;
    let of_size = |(clue, _): &(ClueId, String)| SIZES.contains(&base.clue(*clue).id.as_str());
    certain(piece)
        .filter(of_size)
        .map(|(_, words)| words)
        .collect()
}

fn attributes(piece: &Piece) -> Vec<(String, String)> {
    let named = |(clue, words)| (capital(&clue_name(piece.expert(), clue)), words);
    certain(piece).map(named).collect()
}

/// What a buyer who can't hold the piece wants to see.
fn photograph(base: &RuleBase, entry: &Entry) -> Vec<String> {
    let mark = match entry.sighting.mark.is_empty() {
        true => "the whole back, so that the buyer sees there is no mark, or reads it",
        false => "the mark, near enough to read",
    };
    let mut out = vec![
        "the whole front, straight from above".to_owned(),
        mark.to_owned(),
        "the edge of the pattern from a hand's breadth, where it tells how it was printed"
            .to_owned(),
        "the foot, with light from the side".to_owned(),
    ];
    let found = entry.condition.iter().filter(|w| *w != SOUND);
    out.extend(found.map(|w| format!("the damage, with a coin beside it: {}", defect(base, w))));
    out
}
