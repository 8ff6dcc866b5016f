//! Reading the back: words of marks with letters worn away, and diamonds.

use std::sync::Arc;

use super::item::{ANSWERS, Item};
use crate::core::seeded::Seeded;
use crate::piece::expert::Expert;
use crate::registry::calendar::Date;
use crate::registry::corners::CornerMeaning;
use crate::registry::corners::parts;
use crate::registry::tables::Layout;

/// Share of letters that are worn away (common practice, no source).
const WORN: f64 = 0.35;

/// Letters a form must have to be worth reading (common practice, no source).
const LEAST_LETTERS: usize = 6;

/// Share of diamonds among the questions (common practice, no source).
const DIAMONDS: f64 = 0.3;

/// Worn words, or now and then a diamond.
pub fn read_the_back(expert: &Arc<Expert>, seed: u64) -> Option<Item> {
    let mut stream = Seeded::part(seed, 4);
    match stream.share() < DIAMONDS {
        true => diamond(expert, seed).or_else(|| worn(expert, seed)),
        false => worn(expert, seed).or_else(|| diamond(expert, seed)),
    }
}

/// Worn words of any phrase that dates a piece.
fn worn(expert: &Expert, seed: u64) -> Option<Item> {
    let phrases = expert.base.wording.phrases();
    let dating = |p: &usize| phrases[*p].says.is_some() && form_of(expert, *p).is_some();
    let all: Vec<usize> = (0..phrases.len()).filter(dating).collect();
    let mut stream = Seeded::part(seed, 5);
    let phrase = *stream.one_of(&all)?;
    worn_phrase(expert, phrase, seed)
}

/// Worn words of the phrase with this id.
pub(super) fn worn_of(expert: &Expert, id: &str, seed: u64) -> Option<Item> {
    let phrase = expert
        .base
        .wording
        .phrases()
        .iter()
        .position(|p| p.id == id)?;
    worn_phrase(expert, phrase, seed)
}

fn worn_phrase(expert: &Expert, phrase: usize, seed: u64) -> Option<Item> {
    let mut stream = Seeded::part(seed, 6);
    let whole = form_of(expert, phrase)?;
    let shown: String = whole
        .chars()
        .map(|c| match c.is_alphanumeric() && stream.share() < WORN {
            true => '?',
            false => c,
        })
        .collect();
    let mut others: Vec<(usize, String)> = (0..expert.base.wording.phrases().len())
        .filter(|p| *p != phrase)
        .filter_map(|p| Some((p, form_of(expert, p)?)))
        .filter(|(_, form)| !can_be(&shown, form))
        .collect();
    stream.shuffle(&mut others);
    // Those of the same length are the ones an eye could mistake it for.
    others.sort_by_key(|(_, form)| form.chars().count().abs_diff(whole.chars().count()));
    // Two phrases may have the same words: they date alike, and are one answer.
    let mut answers = vec![(phrase, whole)];
    for other in others {
        if answers.len() < ANSWERS && answers.iter().all(|(_, form)| *form != other.1) {
            answers.push(other);
        }
    }
    stream.shuffle(&mut answers);
    Some(Item::Worn {
        shown,
        answers,
        phrase,
    })
}

/// The first form of a phrase, in capitals as marks have it.
fn form_of(expert: &Expert, phrase: usize) -> Option<String> {
    let form = expert.base.wording.phrases()[phrase].forms.first()?;
    let letters = form.chars().filter(|c| c.is_alphabetic()).count();
    (letters >= LEAST_LETTERS).then(|| form.to_uppercase())
}

/// True when a form could be what is left of it.
fn can_be(shown: &str, form: &str) -> bool {
    let pairs = || shown.chars().zip(form.chars());
    shown.chars().count() == form.chars().count() && pairs().all(|(s, f)| s == '?' || s == f)
}

/// The diamond of any day, the parcel number worn away, the year asked for.
pub(super) fn diamond(expert: &Arc<Expert>, seed: u64) -> Option<Item> {
    let registry = &expert.base.registry;
    let mut stream = Seeded::part(seed, 7);
    let layout = *stream.one_of(&[Layout::First, Layout::Second])?;
    let period = registry.period(layout)?;
    let &(letter, year) = stream.one_of(&period.years)?;
    let month = stream.one_of(&registry.months)?;
    let day = Date::new(year, month.month, 1 + stream.below(28) as u8)?;
    // Days on which other letters were used would make the answer a dispute.
    let odd = registry.odd_days.iter().any(|o| {
        o.layout == layout
            && (o.year_letter == letter || o.from.year() == year || o.to.year() == year)
    });
    if odd || day < period.from || day > period.to {
        // The next seed will do; a year of 41 or a day before the first is seldom drawn.
        return diamond(expert, seed.wrapping_add(1));
    }
    let corner = |part: &CornerMeaning| match part {
        CornerMeaning::Year => letter.to_string(),
        CornerMeaning::Month => month.letter.to_string(),
        CornerMeaning::Day => day.day().to_string(),
        CornerMeaning::Parcel => "?".to_owned(),
    };
    let corners: Vec<String> = parts(layout).iter().map(corner).collect();
    // The same letter in the other layout is the likeliest mistake.
    let other = registry.periods.iter().filter(|p| p.layout != layout);
    let twins = other.flat_map(|p| p.years.iter().filter(|y| y.0 == letter).map(|y| y.1));
    let mut answers: Vec<i16> = std::iter::once(year).chain(twins).collect();
    let all: Vec<i16> = registry
        .periods
        .iter()
        .flat_map(|p| p.years.iter().map(|y| y.1))
        .collect();
    while answers.len() < ANSWERS.min(all.len()) {
        let more = *stream.one_of(&all)?;
        if !answers.contains(&more) {
            answers.push(more);
        }
    }
    answers.sort_unstable();
    Some(Item::Diamond {
        corners: corners.join(","),
        answers,
        year,
    })
}
