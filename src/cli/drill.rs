//! `drill`: lessons and rounds of questions, on the screens or line by line.
//!
//! Without a name: what is due again, then the next lesson. A learner's record is kept after every
//! answer, so an end at any moment loses nothing.

use std::io::{BufRead, IsTerminal, Write, stdin, stdout};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use anyhow::{Context, Result, anyhow, bail};

use super::args::DrillArgs;
use super::drill_from;
use super::drill_piece;
use super::drill_talk::{Ended, Talk};
use super::learners;
use super::outcome::{Outcome, expert, setting};
use super::page_file::{self, PageKind};
use crate::learn::learner::name_problem;
use crate::learn::memory::Day;
use crate::learn::recorded::Recorded;
use crate::learn::round::{Drill, ROUNDS, Round, Sitting};
use crate::piece::expert::Expert;
use crate::piece::notation::printable;
use crate::registry::calendar::Date;
use crate::report::class_sheet::ClassSheet;
use crate::report::handout::Handout;
use crate::report::html;
use crate::rulebase::ids::SettingId;
use crate::rulebase::problem::near;
use crate::say::progress::progress;
use crate::say::round;
use crate::setup::Setup;
use crate::setup::display::Display;
use crate::setup::surroundings::{chance, today};
use crate::stock::store::Store;

/// What the command leads to.
pub(super) enum Leads {
    Done(Outcome),
    /// To the screens, in front of a person, with the stock book named.
    Screens(Arc<Expert>, Sitting, Option<PathBuf>),
}

/// Writes what was asked for, else drills: on the screens in front of a person, line by line through
/// a pipe or where lines are asked for.
pub(super) fn run(
    setup: &Setup,
    args: &DrillArgs,
    input: impl BufRead,
    out: &mut dyn Write,
) -> Result<Leads> {
    let expert = expert(setup)?;
    if let Some(file) = &args.sheet {
        return sheet(&expert, args, file, out).map(Leads::Done);
    }
    let day = day(args)?;
    if let Some(file) = &args.class {
        return class(&expert, args, (file, day), out).map(Leads::Done);
    }
    let sitting = sitting(&expert, args, day)?;
    let to_person = stdin().is_terminal() && stdout().is_terminal() && can_show();
    if to_person && !args.lines && !args.progress {
        return Ok(Leads::Screens(expert, sitting, learners::named(args)));
    }
    let store: &mut dyn Store = &mut learners::open(args)?;
    let learner = store.learner(&sitting.learner)?;
    if args.progress {
        for (heading, lines) in progress(&expert, &learner, sitting.today) {
            writeln!(out, "{heading}")?;
            for line in lines {
                writeln!(out, "  {line}")?;
            }
        }
        return Ok(Leads::Done(Outcome::Yes));
    }
    let mut drill = Lines {
        seed: sitting.seed.unwrap_or_else(chance),
        place: sitting.place,
        recorded: &sitting.recorded,
        talk: Talk {
            input,
            out,
            expert: &expert,
            store,
            name: &sitting.learner,
            learner,
            day: sitting.today,
        },
    };
    match sitting.drill {
        None => drill.what_is_next()?,
        Some(wanted) => drill.drill(wanted)?,
    };
    Ok(Leads::Done(Outcome::Yes))
}

/// True where the terminal can show the screens, and this program keeps what is learnt there.
fn can_show() -> bool {
    cfg!(feature = "stock") && Display::of_process().refuses().is_none()
}

/// The day it is taken to be.
fn day(args: &DrillArgs) -> Result<Day> {
    let today = match &args.today {
        None => today(),
        Some(text) => {
            let date = Date::from_iso(text);
            date.ok_or_else(|| anyhow!("--today: write a day as 2026-11-26"))?
        }
    };
    Ok(Day::of(today))
}

/// Who sits down to what.
fn sitting(expert: &Arc<Expert>, args: &DrillArgs, today: Day) -> Result<Sitting> {
    if let Some(problem) = name_problem(&args.learner) {
        bail!("--learner: {problem}");
    }
    let place = match &args.setting {
        Some(named) => setting(expert, named)?,
        None => SettingId::default(),
    };
    let named = args.lesson.as_deref().map(|name| chosen(expert, name));
    let (drill, recorded) = match (named.transpose()?, &args.from) {
        (drill, None) => (drill, Vec::new()),
        (None | Some(Drill::Ask), Some(from)) => {
            let pieces = drill_from::pieces(expert, args, from)?;
            (Some(Drill::Ask), pieces)
        }
        (Some(_), Some(_)) => bail!("--from: only pieces can be asked; use drill ask --from"),
    };
    Ok(Sitting {
        learner: args.learner.clone(),
        drill,
        seed: args.seed,
        today,
        place,
        recorded,
    })
}

/// All learners on one page.
fn class(
    expert: &Expert,
    args: &DrillArgs,
    (file, today): (&Path, Day),
    out: &mut dyn Write,
) -> Result<Outcome> {
    let learners = learners::open(args)?.learners()?;
    if learners.is_empty() {
        bail!("--class: nobody has drilled yet; printseam drill --learner NAME begins");
    }
    let page = html::class(&ClassSheet::new(expert, &learners, today)).context("class sheet")?;
    page_file::put(PageKind::Html, &page, Some(file), args.force, out)?;
    Ok(Outcome::Yes)
}

/// A lesson by number, id or the only beginning of one; or a round by name.
fn chosen(expert: &Expert, name: &str) -> Result<Drill> {
    let lessons = &expert.base.lessons;
    if let Some((_, drill)) = ROUNDS.iter().find(|(round, _)| *round == name) {
        return Ok(*drill);
    }
    let numbered = name
        .parse::<usize>()
        .ok()
        .filter(|n| *n >= 1 && *n <= lessons.len());
    let exact = lessons.iter().position(|l| l.id == name);
    let mut begins = (0..lessons.len()).filter(|i| lessons[*i].id.starts_with(name));
    let only = begins.next().filter(|_| begins.next().is_none());
    if let Some(at) = numbered.map(|n| n - 1).or(exact).or(only) {
        return Ok(Drill::Lesson(at));
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
            Drill::Lesson(at) => vec![at],
            _ => bail!("--sheet: '{name}' is a round and has no handout; name a lesson"),
        },
    };
    let handouts: Vec<Handout> = lessons
        .into_iter()
        .map(|at| Handout::new(expert, at))
        .collect();
    let page = html::handouts(&handouts).context("handouts")?;
    page_file::put(PageKind::Sheet, &page, Some(file), args.force, out)?;
    Ok(Outcome::Yes)
}

/// A drill line by line.
struct Lines<'a, I> {
    seed: u64,
    place: SettingId,
    recorded: &'a [Recorded],
    talk: Talk<'a, I>,
}

impl<I: BufRead> Lines<'_, I> {
    /// What is due, then the next lesson; when all are done, what there is to choose.
    fn what_is_next(&mut self) -> Result<Ended> {
        let talk = &mut self.talk;
        let due = Round::due(talk.expert, &mut talk.learner, talk.day, self.seed);
        if !due.is_over() {
            talk.say(&round::to_repeat(&due))?;
            if talk.round(due)? == Ended::Quit {
                return Ok(Ended::Quit);
            }
            talk.say("")?;
        }
        match talk.learner.next_lesson(&talk.expert.base) {
            Some(next) => self.lesson(next),
            None => {
                for line in round::all_done(talk.expert) {
                    talk.say(&line)?;
                }
                Ok(Ended::Done)
            }
        }
    }

    fn drill(&mut self, drill: Drill) -> Result<Ended> {
        let talk = &mut self.talk;
        match drill {
            Drill::Due => self.what_is_next(),
            Drill::Lesson(at) => self.lesson(at),
            Drill::Ask => {
                let asking = Sitting::asking(talk.expert, self.place, self.recorded, self.seed);
                let none = "the rules in use make no piece for this setting";
                drill_piece::ask(talk, asking.context(none)?)
            }
            Drill::Own => drill_piece::own(talk, self.place),
            Drill::Printed | Drill::Which | Drill::Misfit | Drill::Back => {
                let of = Round::of(drill, self.place, self.seed);
                if of.seconds().is_some() {
                    let two_minutes = round::TWO_MINUTES;
                    talk.say(&format!("{two_minutes} 1 or 2 and Enter; q ends."))?;
                }
                talk.round(of)
            }
        }
    }

    /// The text of a lesson, what it shows, its practice items.
    fn lesson(&mut self, at: usize) -> Result<Ended> {
        let talk = &mut self.talk;
        let expert = talk.expert.clone();
        let lesson = &expert.base.lessons[at];
        talk.say(&round::lesson(&expert, at))?;
        for paragraph in &lesson.text {
            talk.say("")?;
            talk.say(paragraph)?;
        }
        talk.say("")?;
        for (n, (clue, finding)) in lesson.shows.iter().enumerate() {
            talk.say(&format!("  {}", round::to_look_for(&expert, at, n)))?;
            talk.show(*clue, *finding, self.seed)?;
        }
        if talk.round(Round::lesson(&expert, at, self.seed))? == Ended::Quit {
            return Ok(Ended::Quit);
        }
        talk.learner.lessons.insert(lesson.id.clone(), talk.day);
        talk.keep()?;
        if let Some(line) = round::come_back(&talk.learner, talk.day) {
            talk.say(&line)?;
        }
        Ok(Ended::Done)
    }
}
