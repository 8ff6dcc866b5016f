//! How a drill talks: a question, a line for the answer, and why.

use std::io::{BufRead, Read, Write};
use std::sync::Arc;
use std::time::Instant;

use anyhow::{Context, Result};

use super::picture;
use crate::core::grid::{ClueId, FindingId};
use crate::learn::item::Item;
use crate::learn::learner::Learner;
use crate::learn::memory::Day;
use crate::learn::round::Round;
use crate::piece::expert::Expert;
use crate::say::drill::{question, why};
use crate::say::round as say;
use crate::setup::read::not_read;
use crate::stock::store::Store;

/// Bytes of a line read, at most (common practice, no source).
const MOST_BYTES: u64 = 10_000;

/// How a question or a round ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Ended {
    Done,
    /// `q`, or the input came to its end.
    Quit,
}

/// The two ends of the talk, and the learner it is with.
pub(super) struct Talk<'a, I> {
    pub input: I,
    pub out: &'a mut dyn Write,
    pub expert: &'a Arc<Expert>,
    pub store: &'a mut dyn Store,
    pub name: &'a str,
    pub learner: Learner,
    pub day: Day,
}

impl<I: BufRead> Talk<'_, I> {
    /// A line.
    pub(super) fn say(&mut self, line: &str) -> Result<()> {
        Ok(writeln!(self.out, "{line}")?)
    }

    /// The next line typed; `None` at the end or after `q`.
    pub(super) fn hear(&mut self) -> Result<Option<String>> {
        // Whoever listens must have the question before the answer is waited for.
        self.out.flush()?;
        let mut line = String::new();
        let mut input = self.input.by_ref().take(MOST_BYTES);
        let read = input.read_line(&mut line);
        let read = read.map_err(not_read)?;
        let line = line.trim();
        let quits = read == 0 || ["q", "quit"].contains(&line);
        Ok((!quits).then(|| line.to_owned()))
    }

    /// The picture of a finding, where there is one.
    pub(super) fn show(&mut self, clue: ClueId, finding: FindingId, seed: u64) -> Result<()> {
        let base = &self.expert.base;
        let (of, shown) = (&base.clue(clue).id, &base.finding(clue, finding).id);
        for line in picture::in_drill(of, shown, seed) {
            self.say(&format!("  {line}"))?;
        }
        Ok(())
    }

    /// Keeps the learner's record.
    pub(super) fn keep(&mut self) -> Result<()> {
        Ok(self.store.keep_learner(self.name, &self.learner)?)
    }

    /// Puts the questions of a round, then says how it went. Only what was listed ends early by `q`:
    /// a round is over whenever one likes.
    pub(super) fn round(&mut self, mut round: Round) -> Result<Ended> {
        let begun = Instant::now();
        while !round.is_over() {
            if round
                .seconds()
                .is_some_and(|most| begun.elapsed().as_secs() >= most)
            {
                self.say("Time.")?;
                break;
            }
            let item = round.next(self.expert);
            let item = item.context("the rules in use have nothing for this round")?;
            if self.ask(&item, &mut round)? == Ended::Quit {
                if let Some(line) = say::tally(&round).filter(|_| !round.is_listed()) {
                    self.say(&format!("\n{line}"))?;
                }
                return Ok(Ended::Quit);
            }
        }
        if let Some(line) = say::tally(&round) {
            self.say(&format!("\n{line}"))?;
        }
        Ok(Ended::Done)
    }

    /// Puts a question until it is answered, then says why.
    fn ask(&mut self, item: &Item, round: &mut Round) -> Result<Ended> {
        let put = question(self.expert, item);
        self.say(&format!("\n{}", say::number(round)))?;
        if let Item::Which { picture, .. } = item {
            self.show(picture.clue, picture.finding, picture.seed)?;
        }
        for line in &put.given {
            self.say(&format!("  {line}"))?;
        }
        self.say(&put.question)?;
        for (i, answer) in put.answers.iter().enumerate() {
            self.say(&format!("  {} {answer}", i + 1))?;
        }
        // Whoever has read it once knows.
        if round.tally().0 == 0 {
            self.say("  (number; how sure in percent may follow, as 2 80; q ends)")?;
        }
        let answer = loop {
            let Some(line) = self.hear()? else {
                return Ok(Ended::Quit);
            };
            match read_answer(&line, item.count()) {
                Some(answer) => break answer,
                None => self.say(&format!("Write a number from 1 to {}, or q.", item.count()))?,
            }
        };
        let outcome = round.take(self.expert, item, answer, &mut self.learner, self.day);
        self.keep()?;
        for line in say::verdict(&put, item, outcome) {
            self.say(&line)?;
        }
        for line in why(self.expert, item) {
            self.say(&format!("  {line}"))?;
        }
        Ok(Ended::Done)
    }
}

/// "2", "2 80", "2 80%": which answer, and how sure.
fn read_answer(line: &str, count: usize) -> Option<(usize, Option<u8>)> {
    let mut words = line.split_whitespace();
    let number: usize = words.next()?.parse().ok()?;
    let percent = match words.next() {
        None => None,
        Some(word) => {
            let percent: u8 = word.trim_end_matches('%').parse().ok()?;
            Some(percent).filter(|p| *p <= 100).map(Some)?
        }
    };
    let good = number >= 1 && number <= count && words.next().is_none_or(|w| w == "%");
    good.then_some((number - 1, percent))
}
