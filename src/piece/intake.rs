//! All that is told of a piece at once, taken in by one rule.
//!
//! Of several observations of one clue one counts, by the rule of `hearing::one_per_clue`. What loses
//! is handed back with what it lost to: nothing is dropped in silence.

use super::expert::Expert;
use super::notation::Refused;
use super::reading::{self, MarkHeard};
use super::registered::registered;
use super::sighting_file::Sighting;
use crate::core::observation::{Evidence, Observation, Origin};
use crate::hearing::mark::Unread;
use crate::hearing::notes::NotCounted;
use crate::hearing::one_per_clue::counts_over;
use crate::hearing::opinion::Opinion;

/// What somebody tells of a piece. Empty texts tell nothing.
#[derive(Clone, Debug, Default)]
pub struct Told<'a> {
    /// A sighting file; everything below comes after it.
    pub sighting: Option<&'a Sighting>,
    /// What can be read on the back.
    pub mark: &'a str,
    /// Nothing else stands in the mark: words that are not there speak too.
    pub mark_complete: bool,
    /// A registration by itself: a year, an ISO date, or `Rd` and a number.
    pub registered: &'a str,
    /// A line in trade words.
    pub notes: &'a str,
    /// What is said outright, in the order said.
    pub saw: &'a [Observation],
}

/// One thing that was understood, and what became of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Hearing {
    /// The words it was heard in; empty for what was said outright.
    pub text: String,
    /// Bytes of the line of notes or the mark that say it, end not within; `None` for what was said
    /// outright and for what a mark says by leaving it out.
    pub span: Option<(usize, usize)>,
    pub observation: Observation,
    /// What counts in its place; `None` when it counts itself.
    pub overridden_by: Option<Observation>,
}

/// What was made of all that was told.
#[derive(Clone, Debug, Default)]
pub struct Taken {
    /// What counts.
    pub evidence: Evidence,
    /// Everything understood, in the order told.
    pub hearings: Vec<Hearing>,
    /// Heard in notes, and no finding of the piece.
    pub not_counted: Vec<NotCounted>,
    /// What the notes take the piece to be: no finding, and nothing is judged by it.
    pub opinion: Option<Opinion>,
    /// Words of marks and notes that say nothing the rules know.
    pub not_understood: Vec<Unread>,
    /// The marks as read.
    pub marks: Vec<MarkHeard>,
}

impl Taken {
    /// What was understood and does not count.
    pub fn overridden(&self) -> impl Iterator<Item = &Hearing> {
        self.hearings.iter().filter(|h| h.overridden_by.is_some())
    }
}

/// Takes in all that is told.
///
/// # Errors
/// One line when the registration given by itself can't be read.
pub fn intake(expert: &Expert, told: &Told) -> Result<Taken, Refused> {
    let mut taken = Taken::default();
    let complete = told.mark_complete || told.sighting.is_some_and(|s| s.mark_complete);
    let file = |text: fn(&Sighting) -> &str| told.sighting.map_or("", text);
    for text in [file(|s| &s.mark), told.mark] {
        take_mark(&mut taken, expert, text, complete);
    }
    if let Some(seen) = registered(expert, told.registered.trim())? {
        let text = told.registered.trim().to_owned();
        hear(&mut taken, text, None, seen);
    }
    for text in [file(|s| &s.notes), told.notes] {
        take_notes(&mut taken, expert, text);
    }
    let outright = told.sighting.map_or(&[][..], |s| &s.saw);
    for seen in outright.iter().chain(told.saw) {
        hear(&mut taken, String::new(), None, seen.clone());
    }
    decide(&mut taken);
    Ok(taken)
}

fn take_mark(taken: &mut Taken, expert: &Expert, text: &str, complete: bool) {
    if text.trim().is_empty() {
        return;
    }
    let mark = reading::mark(expert, text, complete);
    for seen in &mark.entries {
        let mut phrases = mark.reading.phrases.iter();
        let says = phrases.find(|p| p.says.as_ref().is_some_and(|(clue, _)| *clue == seen.clue));
        let (text, span) = match says {
            Some(phrase) => (phrase.text.clone(), Some(phrase.span)),
            None => ("mark".to_owned(), None),
        };
        hear(taken, text, span, seen.clone());
    }
    // Of several words that speak for one clue the youngest counts; the others were heard as well.
    let counts = |clue| mark.entries.iter().find(|e| e.clue == clue);
    for phrase in &mark.reading.phrases {
        if let Some((clue, said)) = &phrase.says
            && counts(*clue).is_some_and(|e| e.seen != *said)
        {
            let seen = Observation::new(*clue, said.clone()).sure(phrase.sure);
            taken.hearings.push(Hearing {
                text: phrase.text.clone(),
                span: Some(phrase.span),
                observation: seen.from(Origin::Mark),
                overridden_by: counts(*clue).cloned(),
            });
        }
    }
    let unread = mark.reading.unread.iter().filter(|u| !u.name);
    taken.not_understood.extend(unread.cloned());
    taken.marks.push(mark);
}

fn take_notes(taken: &mut Taken, expert: &Expert, text: &str) {
    if text.trim().is_empty() {
        return;
    }
    let notes = reading::notes(expert, text);
    // What gave way within the line is told as well, before what it gave way to.
    let lost = notes.overridden.into_iter().map(|o| o.lost);
    for said in lost.chain(notes.heard) {
        hear(taken, said.text, Some(said.span), said.observation);
    }
    taken.not_counted.extend(notes.not_counted);
    taken.opinion = notes.opinion.or(taken.opinion.take());
    taken.not_understood.extend(notes.unread);
}

fn hear(taken: &mut Taken, text: String, span: Option<(usize, usize)>, observation: Observation) {
    taken.hearings.push(Hearing {
        text,
        span,
        observation,
        overridden_by: None,
    });
}

/// Decides what counts. A clue keeps the place at which it was first told of.
fn decide(taken: &mut Taken) {
    // What gave way to another word of the same mark has lost already.
    for hearing in taken.hearings.iter().filter(|h| h.overridden_by.is_none()) {
        let new = &hearing.observation;
        if taken
            .evidence
            .of(new.clue)
            .is_none_or(|old| counts_over(new, old))
        {
            taken.evidence.add(new.clone());
        }
    }
    for hearing in &mut taken.hearings {
        let counts = taken.evidence.of(hearing.observation.clue);
        hearing.overridden_by = counts.filter(|c| !c.says_as(&hearing.observation)).cloned();
    }
}
