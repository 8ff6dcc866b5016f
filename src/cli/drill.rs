//! `drill`: lessons and rounds of questions, line by line.
//!
//! Without a name: what is due again, then the next lesson. A learner's record is kept after every
//! answer, so an end at any moment loses nothing.

use std::io::{BufRead, Write};
use std::path::Path;
use std::sync::Arc;

use anyhow::{Context, Result, anyhow, bail};

use super::args::DrillArgs;
use super::drill_piece;
use super::drill_talk::{Ended, Round, Talk};
use super::outcome::{Outcome, expert, setting};
use super::page_file::{self, PageKind};
use crate::core::seeded::Seeded;
use crate::learn::item::Item;
use crate::learn::learner::LearnerStore;
use crate::learn::memory::Day;
use crate::learn::{again, backs, drills};
use crate::piece::expert::Expert;
use crate::piece::notation::printable;
use crate::registry::calendar::Date;
use crate::report::handout::Handout;
use crate::report::html;
use crate::rulebase::ids::SettingId;
use crate::rulebase::problem::near;
use crate::say::progress::progress;
use crate::setup::Setup;
use crate::setup::learners::LearnerFiles;
use crate::setup::surroundings::today;

/// Rounds that are no lesson, with what they are.
const ROUNDS: [(&str, &str); 6] = [
    ("printed", "printed or painted? Two minutes"),
    ("which", "name what is shown"),
    ("misfit", "find the finding that does not fit"),
    ("back", "read worn marks and diamonds"),
    ("ask", "ask a hidden piece, then say what it is"),
    (
        "piece",
        "a piece of your own: you guess before the program does",
    ),
];

/// Questions of a round, and questions repeated before a lesson, at most
/// (common practice, no source).
const QUESTIONS: usize = 8;

/// Seconds of a round of printed-or-painted (common practice, no source).
const ROUND_SECONDS: u64 = 120;

/// Questions of a round of printed-or-painted, should somebody be quick: one in three seconds
/// (common practice, no source).
const MOST: usize = 40;

/// Drills until the input ends, `q`, or all is asked.
pub(super) fn run(
    setup: &Setup,
    args: &DrillArgs,
    input: impl BufRead,
    out: &mut dyn Write,
) -> Result<Outcome> {
    let expert = expert(setup)?;
    if let Some(file) = &args.sheet {
        return sheet(&expert, args, file, out);
    }
    let day = match &args.today {
        None => Day::of(today()),
        Some(text) => {
            let date = Date::from_iso(text);
            let date = date.ok_or_else(|| anyhow!("--today: write a day as 2026-11-26"))?;
            Day::of(date)
        }
    };
    let mut store = LearnerFiles::of_user()?;
    let learner = store.load(&args.learner)?;
    if args.progress {
        for (heading, lines) in progress(&expert, &learner, day) {
            writeln!(out, "{heading}")?;
            for line in lines {
                writeln!(out, "  {line}")?;
            }
        }
        return Ok(Outcome::Yes);
    }
    let what = match &args.lesson {
        Some(name) => Some(chosen(&expert, name)?),
        None => None,
    };
    let place = match &args.setting {
        Some(named) => setting(&expert, named)?,
        None => SettingId::default(),
    };
    let mut drill = Drill {
        seed: args.seed.unwrap_or_else(clock_seed),
        place,
        talk: Talk {
            input,
            out,
            expert: &expert,
            store: &mut store,
            name: &args.learner,
            learner,
            day,
        },
    };
    match what {
        None => drill.what_is_next()?,
        Some(What::Lesson(lesson)) => drill.lesson(lesson)?,
        Some(What::Round(name)) => drill.round(name)?,
    };
    Ok(Outcome::Yes)
}

/// Another seed every time somebody drills, unless one is named.
fn clock_seed() -> u64 {
    let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH);
    now.map_or(0, |d| d.as_nanos() as u64)
}

enum What {
    Lesson(usize),
    Round(&'static str),
}

/// A lesson by number, id or the only beginning of one; or a round by name.
fn chosen(expert: &Expert, name: &str) -> Result<What> {
    let lessons = &expert.base.lessons;
    if let Some((round, _)) = ROUNDS.iter().find(|(round, _)| *round == name) {
        return Ok(What::Round(round));
    }
    let numbered = name
        .parse::<usize>()
        .ok()
        .filter(|n| *n >= 1 && *n <= lessons.len());
    let exact = lessons.iter().position(|l| l.id == name);
    let mut begins = (0..lessons.len()).filter(|i| lessons[*i].id.starts_with(name));
    let only = begins.next().filter(|_| begins.next().is_none());
    if let Some(at) = numbered.map(|n| n - 1).or(exact).or(only) {
        return Ok(What::Lesson(at));
    }
    let known = lessons
        .iter()
        .map(|l| l.id.as_str())
        .chain(ROUNDS.map(|r| r.0));
    let close = near(name, known.clone(), 3);
    let shown = printable(name);
    match close.is_empty() {
        true => bail!(
            "unknown lesson '{shown}'; use {}",
            known.collect::<Vec<_>>().join(", ")
        ),
        false => bail!("unknown lesson '{shown}'; nearest: {}", close.join(", ")),
    }
}

/// Handouts: of the lesson named, or of all.
fn sheet(expert: &Expert, args: &DrillArgs, file: &Path, out: &mut dyn Write) -> Result<Outcome> {
    let lessons: Vec<usize> = match &args.lesson {
        None => (0..expert.base.lessons.len()).collect(),
        Some(name) => match chosen(expert, name)? {
            What::Lesson(at) => vec![at],
            What::Round(round) => {
                bail!("--sheet: '{round}' is a round and has no handout; name a lesson")
            }
        },
    };
    let handouts: Vec<Handout> = lessons
        .into_iter()
        .map(|at| Handout::new(expert, at))
        .collect();
    let page = html::handouts(&handouts).context("handouts")?;
    let file = Some(file).filter(|f| *f != Path::new("-"));
    page_file::put(PageKind::Sheet, &page, file, args.force, out)?;
    Ok(Outcome::Yes)
}

struct Drill<'a, I> {
    seed: u64,
    place: SettingId,
    talk: Talk<'a, I>,
}

impl<I: BufRead> Drill<'_, I> {
    /// What is due, then the next lesson; when all are done, what there is to choose.
    fn what_is_next(&mut self) -> Result<Ended> {
        let items = self.due();
        if !items.is_empty() {
            let count = items.len();
            self.talk
                .say(&format!("First what you met before: {count} to repeat."))?;
            let mut round = Round::new(Some(count));
            for item in &items {
                if self.talk.ask(item, &mut round)? == Ended::Quit {
                    return Ok(Ended::Quit);
                }
            }
            self.talk.tally(&round)?;
            self.talk.say("")?;
        }
        let lessons = &self.talk.expert.base.lessons;
        let done = &self.talk.learner.lessons;
        match lessons.iter().position(|l| !done.contains_key(&l.id)) {
            Some(next) => self.lesson(next),
            None => {
                self.talk.say("All lessons are done. To go on:")?;
                for (name, what) in ROUNDS {
                    self.talk
                        .say(&format!("  printseam drill {name:8} {what}"))?;
                }
                Ok(Ended::Done)
            }
        }
    }

    /// Questions that are due. What the rules no longer know is forgotten.
    fn due(&mut self) -> Vec<Item> {
        let keys: Vec<String> = self
            .talk
            .learner
            .due(self.talk.day)
            .into_iter()
            .map(str::to_owned)
            .collect();
        let mut items = Vec::new();
        for (n, key) in keys.iter().enumerate() {
            let seed = Seeded::part(self.seed, n as u64).number();
            match again::again(self.talk.expert, key, seed) {
                Some(item) => items.push(item),
                None => drop(self.talk.learner.memories.remove(key)),
            }
            if items.len() == QUESTIONS {
                break;
            }
        }
        items
    }

    /// The text of a lesson, what it shows, its practice items.
    fn lesson(&mut self, at: usize) -> Result<Ended> {
        let expert = self.talk.expert.clone();
        let lesson = &expert.base.lessons[at];
        self.talk
            .say(&format!("Lesson {}: {}", at + 1, lesson.title))?;
        for paragraph in &lesson.text {
            self.talk.say("")?;
            self.talk.say(paragraph)?;
        }
        self.talk.say("")?;
        for (clue, finding) in &lesson.shows {
            let question = &expert.base.clue(*clue).question;
            let words = &expert.base.finding(*clue, *finding).words;
            self.talk.say(&format!("  {question} {words}"))?;
            self.talk.show(*clue, *finding, self.seed)?;
        }
        let mut round = Round::new(Some(lesson.practice.len()));
        for item in 0..lesson.practice.len() {
            let seed = Seeded::part(self.seed, item as u64).number();
            let Some(item) = drills::practice(&expert, at, item, seed) else {
                continue;
            };
            if self.talk.ask(&item, &mut round)? == Ended::Quit {
                return Ok(Ended::Quit);
            }
        }
        self.talk
            .learner
            .lessons
            .insert(lesson.id.clone(), self.talk.day);
        self.talk.keep()?;
        self.talk.tally(&round)?;
        if let Some(day) = self.talk.learner.next_due() {
            self.talk
                .say(&format!("Come back on {day} or later: printseam drill"))?;
        }
        Ok(Ended::Done)
    }

    /// A round of one sort of question.
    fn round(&mut self, name: &str) -> Result<Ended> {
        match name {
            "ask" => return drill_piece::ask(&mut self.talk, self.place, self.seed),
            "piece" => return drill_piece::own(&mut self.talk, self.place),
            _ => {}
        }
        let timed = name == "printed";
        let begun = std::time::Instant::now();
        let mut round = Round::new((!timed).then_some(QUESTIONS));
        if timed {
            self.talk
                .say("Two minutes: printed or painted? 1 or 2 and Enter; q ends.")?;
        }
        let most = if timed { MOST } else { QUESTIONS };
        let expert: Arc<Expert> = self.talk.expert.clone();
        for n in 0..most {
            if timed && begun.elapsed().as_secs() >= ROUND_SECONDS {
                self.talk.say("Time.")?;
                break;
            }
            let seed = Seeded::part(self.seed, n as u64).number();
            let item = match name {
                "printed" => drills::printed(&expert, seed),
                "which" => drills::which(&expert, seed),
                "misfit" => drills::misfit(&expert, self.place, seed),
                _ => backs::read_the_back(&expert, seed),
            };
            let item = item
                .with_context(|| format!("the rules in use have nothing for the round '{name}'"))?;
            if self.talk.ask(&item, &mut round)? == Ended::Quit {
                break;
            }
        }
        self.talk.tally(&round)?;
        Ok(Ended::Done)
    }
}
