//! How a drill talks: a question, a line for the answer, and why.

use std::io::{BufRead, Read, Write};
use std::sync::Arc;

use anyhow::{Context, Result};

use super::picture;
use crate::core::grid::{ClueId, FindingId};
use crate::learn::item::Item;
use crate::learn::learner::{Answered, Learner, LearnerStore};
use crate::learn::memory::Day;
use crate::learn::scoring::points;
use crate::piece::expert::Expert;
use crate::say::drill::{question, why};
use crate::setup::learners::LearnerFiles;

/// Bytes of a line read, at most.
const MOST_BYTES: u64 = 10_000;

/// How a question or a round ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Ended {
    Done,
    /// `q`, or the input came to its end.
    Quit,
}

/// How a round goes.
#[derive(Debug)]
pub(super) struct Round {
    /// Questions in all, where that is known.
    of: Option<usize>,
    asked: usize,
    right: usize,
    /// Points for stated confidence, and answers that stated one.
    points: (f64, usize),
}

impl Round {
    pub(super) fn new(of: Option<usize>) -> Round {
        Round {
            of,
            asked: 0,
            right: 0,
            points: (0.0, 0),
        }
    }
}

/// The two ends of the talk, and the learner it is with.
pub(super) struct Talk<'a, I> {
    pub input: I,
    pub out: &'a mut dyn Write,
    pub expert: &'a Arc<Expert>,
    pub store: &'a mut LearnerFiles,
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
        let read = read.context("standard input: not UTF-8 text")?;
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
        self.store.save(self.name, &self.learner)
    }

    /// Puts a question until it is answered, then says why.
    pub(super) fn ask(&mut self, item: &Item, round: &mut Round) -> Result<Ended> {
        let put = question(self.expert, item);
        let number = round.asked + 1;
        let of = round.of.map_or(String::new(), |of| format!(" of {of}"));
        self.say(&format!("\nQuestion {number}{of}"))?;
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
        if round.asked == 0 {
            self.say("  (number; how sure in percent may follow, as 2 80; q ends)")?;
        }
        let (said, confidence) = loop {
            let Some(line) = self.hear()? else {
                return Ok(Ended::Quit);
            };
            match read_answer(&line, item.count()) {
                Some(answer) => break answer,
                None => self.say(&format!("Write a number from 1 to {}, or q.", item.count()))?,
            }
        };
        let right = said == item.right();
        let base = &self.expert.base;
        let answered = Answered {
            key: &item.key(base),
            names: item.names(base, said),
            right,
            confidence,
        };
        self.learner.answered(&answered, self.day);
        self.keep()?;
        round.asked += 1;
        round.right += usize::from(right);
        match right {
            true => self.say("Right.")?,
            false => self.say(&format!(
                "No: {} {}.",
                item.right() + 1,
                put.answers[item.right()]
            ))?,
        }
        if let Some(percent) = confidence {
            let won = points(f64::from(percent) / 100.0, right);
            round.points.0 += won;
            round.points.1 += 1;
            self.say(&format!("{won:.0} points of 100 for saying {percent} %."))?;
        }
        for line in why(self.expert, item) {
            self.say(&format!("  {line}"))?;
        }
        Ok(Ended::Done)
    }

    /// How a round went.
    pub(super) fn tally(&mut self, round: &Round) -> Result<()> {
        if round.asked == 0 {
            return Ok(());
        }
        let (won, stated) = round.points;
        let points = match stated {
            0 => String::new(),
            _ => format!(
                "; {:.0} points on average for how sure you were",
                won / stated as f64
            ),
        };
        self.say(&format!(
            "\n{} of {} right{points}.",
            round.right, round.asked
        ))
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
