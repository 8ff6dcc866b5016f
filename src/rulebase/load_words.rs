//! `words.ron` to a vocabulary: words folded, ids resolved, nothing said twice.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::RangeInclusive;
use std::sync::Arc;

use super::base::RuleBase;
use super::ids::{KindId, ids};
use super::load_ear;
use super::parse::Files;
use super::resolve::Resolver;
use super::schema_words::{
    AgeNameGroup, AgesEntry, DatesEntry, KindWords, PartGroup, PeriodGroup, PlaceWords, WordsFile,
};
use super::word_lists::{Sort, WordLists};
use crate::hearing::dates::words::{AgeName, Part, Period};
use crate::hearing::vocabulary::{NamedKinds, Vocabulary};

/// Years a word may stand for (common practice, no source).
const YEARS: RangeInclusive<f64> = 1000.0..=2100.0;

/// Ages a word may stand for, in years (common practice, no source).
const AGES: RangeInclusive<f64> = 0.0..=1000.0;

/// Builds the vocabulary from the files and from the names of the kinds, which are words for them.
/// Without a file there are no other words.
pub(super) fn words<'a>(
    r: &mut Resolver<'a>,
    base: &mut RuleBase,
    files: Files<'a, WordsFile<'a>>,
) {
    let mut words = Vocabulary::default();
    let mut taken = BTreeMap::new();
    for (file, parsed) in files {
        let mut lists = WordLists {
            r: &mut *r,
            file,
            taken: &mut taken,
        };
        let over = &parsed.passed_over;
        let mut everywhere = BTreeSet::new();
        lists.single(&over.everywhere, &mut everywhere);
        lists.single(&over.notes, &mut words.passed_over_in_notes);
        lists.single(&over.tickets, &mut words.passed_over_in_tickets);
        words
            .passed_over_in_notes
            .extend(everywhere.iter().cloned());
        words.passed_over_in_tickets.extend(everywhere);
        lists.single(&parsed.negations, &mut words.negations);
        load_ear::ear(&mut lists, base, &parsed.ear, &mut words.ear);
        lists.dates(&parsed.dates, &mut words);
        lists.ages(&parsed.ages, &mut words);
        for group in &parsed.parts {
            lists.parts(group, &mut words);
        }
        for group in &parsed.periods {
            lists.periods(group, &mut words);
        }
        for group in &parsed.age_names {
            lists.age_names(group, &mut words);
        }
        for entry in &parsed.kinds {
            lists.kinds(entry, &mut words);
        }
        for entry in &parsed.places {
            lists.place(entry, &mut words);
        }
    }
    for (k, kind) in ids(base.kinds.len()).zip(&base.kinds) {
        let named = NamedKinds {
            kinds: vec![k],
            years: None,
        };
        words.kinds.add(&kind.id, named.clone());
        words.kinds.add(&kind.name, named);
    }
    let over: Vec<String> = words
        .passed_over_in_notes
        .iter()
        .map(|w| words.ear.normal(w))
        .collect();
    words.ear.passed_over.extend(over);
    base.vocabulary = words;
}

impl<'a> WordLists<'a, '_> {
    fn dates(&mut self, entry: &DatesEntry<'a>, words: &mut Vocabulary) {
        let dates = &mut words.dates;
        for (list, out) in [
            (&entry.about, &mut dates.about),
            (&entry.about_after, &mut dates.about_after),
            (&entry.article, &mut dates.article),
            (&entry.to, &mut dates.to),
            (&entry.between, &mut dates.between),
            (&entry.before, &mut dates.before),
            (&entry.up_to, &mut dates.up_to),
            (&entry.since, &mut dates.since),
            (&entry.after, &mut dates.after),
            (&entry.or_later, &mut dates.or_later),
            (&entry.or_earlier, &mut dates.or_earlier),
            (&entry.century, &mut dates.century),
            (&entry.era, &mut dates.era),
            (&entry.part_of, &mut dates.part_of),
        ] {
            self.phrases(list, out);
        }
        for text in &entry.run_on {
            dates.run_on.extend(self.word(text));
        }
        self.single(&entry.after_dash, &mut dates.after_dash);
        self.number_words(&entry.ordinals, &(1.0..=30.0), &mut dates.ordinals);
        self.number_words(&entry.decades, &(20.0..=90.0), &mut dates.decades);
    }

    fn ages(&mut self, entry: &AgesEntry<'a>, words: &mut Vocabulary) {
        let age = &mut words.dates.age;
        self.phrases(&entry.over, &mut age.over);
        self.phrases(&entry.under, &mut age.under);
        self.phrases(&entry.within, &mut age.within);
        self.phrases(&entry.old, &mut age.old);
        self.phrases(&entry.of, &mut age.of);
        self.numbers(&entry.numbers, &(1.0..=1000.0), &mut age.numbers);
        self.numbers(&entry.units, &(1.0..=1000.0), &mut age.units);
    }

    fn parts(&mut self, group: &PartGroup<'a>, words: &mut Vocabulary) {
        let first = group.names.iter().find_map(|e| e.words.first());
        self.origin(group.because.as_ref(), &group.source, first);
        for entry in &group.names {
            let of = self.whole(&entry.of, 1.0..=100.0, "of");
            let from = self.whole(&entry.from, 0.0..=f64::from(of - 1), "from");
            let to = self.whole(&entry.to, f64::from(from + 1)..=f64::from(of), "to");
            let part = Part {
                from: from.into(),
                to: to.into(),
                of: of.into(),
            };
            self.add(Sort::Part, &entry.words, part, &mut words.dates.parts);
        }
    }

    fn periods(&mut self, group: &PeriodGroup<'a>, words: &mut Vocabulary) {
        let first = group.names.iter().find_map(|e| e.words.first());
        let origin = self.origin(group.because.as_ref(), &group.source, first);
        for entry in &group.names {
            let (from, to) = self.between(entry.from.as_ref(), entry.to.as_ref(), &YEARS, "year");
            self.says_something(from.or(to).is_some(), &entry.words, "from, to or both");
            let period = Period {
                from,
                to,
                origin: Arc::clone(&origin),
            };
            self.add(Sort::Name, &entry.words, period, &mut words.dates.periods);
        }
    }

    fn age_names(&mut self, group: &AgeNameGroup<'a>, words: &mut Vocabulary) {
        let first = group.names.iter().find_map(|e| e.words.first());
        let origin = self.origin(group.because.as_ref(), &group.source, first);
        for entry in &group.names {
            let (least, most) =
                self.between(entry.least.as_ref(), entry.most.as_ref(), &AGES, "age");
            self.says_something(
                least.or(most).is_some(),
                &entry.words,
                "least, most or both",
            );
            let name = AgeName {
                least,
                most,
                origin: Arc::clone(&origin),
            };
            self.add(Sort::Name, &entry.words, name, &mut words.dates.age_names);
        }
    }

    fn kinds(&mut self, entry: &KindWords<'a>, words: &mut Vocabulary) {
        // One by one: the order says which kind the words mean first.
        let mut kinds: Vec<KindId> = Vec::new();
        for name in &entry.kinds {
            for kind in self.r.kinds(self.file, &vec![name.clone()]) {
                if !kinds.contains(&kind) {
                    kinds.push(kind);
                }
            }
        }
        self.says_something(!entry.kinds.is_empty(), &entry.words, "kinds: [\"…\"]");
        let (from, to) = self.between(entry.from.as_ref(), entry.to.as_ref(), &YEARS, "year");
        let years = from.or(to).is_some().then(|| Period {
            from,
            to,
            origin: self.origin(entry.because.as_ref(), &entry.source, entry.words.first()),
        });
        let named = NamedKinds { kinds, years };
        if entry.then.is_empty() {
            return self.add(Sort::Name, &entry.words, named, &mut words.kinds);
        }
        for word in &entry.words {
            for then in &entry.then {
                let phrase = format!("{} {}", word.value, then.value);
                if self.fresh(Sort::Name, &phrase, word.src) {
                    words.kinds.add(&phrase, named.clone());
                }
            }
        }
    }

    fn place(&mut self, entry: &PlaceWords<'a>, words: &mut Vocabulary) {
        if let Some(place) = self.r.lookup(self.file, &entry.place) {
            self.add(Sort::Name, &entry.words, place, &mut words.places);
        }
    }
}
