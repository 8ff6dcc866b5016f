//! Questions in a row: what is due again, the practice items of a lesson, or a round of one sort; and
//! how it went.

use std::sync::Arc;

use super::again::again;
use super::asked::Asking;
use super::backs::read_the_back;
use super::drills::{misfit, practice, printed, which};
use super::item::Item;
use super::learner::{Answered, Learner};
use super::memory::Day;
use super::recorded::Recorded;
use super::scoring::points;
use crate::core::seeded::Seeded;
use crate::piece::expert::Expert;
use crate::rulebase::ids::SettingId;

/// Questions of a round, and questions repeated before a lesson, at most
/// (common practice, no source).
const QUESTIONS: usize = 8;

/// Seconds of a round of printed-or-painted (common practice, no source).
const ROUND_SECONDS: u64 = 120;

/// Questions of a round of printed-or-painted, should somebody be quick: one in three seconds
/// (common practice, no source).
const MOST: usize = 40;

/// What can be drilled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Drill {
    /// What is due again.
    Due,
    /// A lesson by its place in the list.
    Lesson(usize),
    Printed,
    Which,
    Misfit,
    Back,
    /// A hidden piece, look by look.
    Ask,
    /// A piece in the learner's own hands.
    Own,
}

/// Those that are no lesson, with their names, in the order they are offered.
pub const ROUNDS: [(&str, Drill); 6] = [
    ("printed", Drill::Printed),
    ("which", Drill::Which),
    ("misfit", Drill::Misfit),
    ("back", Drill::Back),
    ("ask", Drill::Ask),
    ("piece", Drill::Own),
];

/// Who sits down to what.
#[derive(Clone, Debug)]
pub struct Sitting {
    pub learner: String,
    /// `None`: whatever is next.
    pub drill: Option<Drill>,
    /// The same seed gives the same questions; `None`: others every time.
    pub seed: Option<u64>,
    pub today: Day,
    /// Where hidden pieces come from.
    pub place: SettingId,
    /// Pieces to be asked instead of drawn ones.
    pub recorded: Vec<Recorded>,
}

impl Sitting {
    /// The piece to be asked that this seed chooses; `None` when the rules make none.
    pub fn asking(
        expert: &Arc<Expert>,
        place: SettingId,
        recorded: &[Recorded],
        seed: u64,
    ) -> Option<Asking> {
        match Seeded::new(seed).one_of(recorded) {
            Some(piece) => Some(Asking::of(expert, place, piece.clone())),
            None => Asking::new(expert, place, seed),
        }
    }
}

/// Where the questions come from.
#[derive(Clone, Debug)]
enum Questions {
    Listed(Vec<Item>),
    /// Made one after the other.
    Of(Drill, SettingId),
}

/// How one answer did.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outcome {
    pub right: bool,
    /// The confidence stated, in percent, and the points it brought.
    pub stated: Option<(u8, f64)>,
}

/// Questions in a row.
#[derive(Clone, Debug)]
pub struct Round {
    questions: Questions,
    seed: u64,
    asked: usize,
    right: usize,
    /// Points for stated confidence, and answers that stated one.
    points: (f64, usize),
}

impl Round {
    fn new(questions: Questions, seed: u64) -> Round {
        Round {
            questions,
            seed,
            asked: 0,
            right: 0,
            points: (0.0, 0),
        }
    }

    /// What is due on this day, the most forgotten first. What the rules no longer know is forgotten.
    pub fn due(expert: &Arc<Expert>, learner: &mut Learner, today: Day, seed: u64) -> Round {
        let keys: Vec<String> = learner.due(today).into_iter().map(str::to_owned).collect();
        let mut items = Vec::new();
        for (n, key) in keys.iter().enumerate() {
            match again(expert, key, Seeded::part(seed, n as u64).number()) {
                Some(item) => items.push(item),
                None => drop(learner.memories.remove(key)),
            }
            if items.len() == QUESTIONS {
                break;
            }
        }
        Round::new(Questions::Listed(items), seed)
    }

    /// The practice items of a lesson.
    pub fn lesson(expert: &Arc<Expert>, lesson: usize, seed: u64) -> Round {
        let items = expert
            .base
            .lessons
            .get(lesson)
            .map_or(0, |l| l.practice.len());
        let item = |n| practice(expert, lesson, n, Seeded::part(seed, n as u64).number());
        Round::new(
            Questions::Listed((0..items).filter_map(item).collect()),
            seed,
        )
    }

    /// A round of one sort of question, hidden pieces from this setting.
    pub fn of(drill: Drill, place: SettingId, seed: u64) -> Round {
        Round::new(Questions::Of(drill, place), seed)
    }

    /// The next question; `None` when all are asked, or the rules have nothing to ask.
    pub fn next(&self, expert: &Arc<Expert>) -> Option<Item> {
        if self.is_over() {
            return None;
        }
        let seed = Seeded::part(self.seed, self.asked as u64).number();
        match &self.questions {
            Questions::Listed(items) => items.get(self.asked).cloned(),
            Questions::Of(Drill::Printed, _) => printed(expert, seed),
            Questions::Of(Drill::Which, _) => which(expert, seed),
            Questions::Of(Drill::Misfit, place) => misfit(expert, *place, seed),
            Questions::Of(Drill::Back, _) => read_the_back(expert, seed),
            Questions::Of(..) => None,
        }
    }

    /// Takes an answer in, with how sure the learner is of it in percent.
    pub fn take(
        &mut self,
        expert: &Expert,
        item: &Item,
        (said, confidence): (usize, Option<u8>),
        learner: &mut Learner,
        today: Day,
    ) -> Outcome {
        let right = said == item.right();
        let answered = Answered {
            key: &item.key(&expert.base),
            names: item.names(&expert.base, said),
            right,
            confidence,
        };
        learner.answered(&answered, today);
        self.asked += 1;
        self.right += usize::from(right);
        let stated = confidence.map(|percent| (percent, points(f64::from(percent) / 100.0, right)));
        if let Some((_, won)) = stated {
            self.points.0 += won;
            self.points.1 += 1;
        }
        Outcome { right, stated }
    }

    /// True when all is asked.
    pub fn is_over(&self) -> bool {
        self.asked >= self.most()
    }

    /// True of questions that belong together, and are all to be asked.
    pub fn is_listed(&self) -> bool {
        matches!(self.questions, Questions::Listed(_))
    }

    /// Questions at most.
    fn most(&self) -> usize {
        match &self.questions {
            Questions::Listed(items) => items.len(),
            Questions::Of(Drill::Printed, _) => MOST,
            Questions::Of(..) => QUESTIONS,
        }
    }

    /// How many questions there are; `None` of a round that goes by time.
    pub fn count(&self) -> Option<usize> {
        self.seconds().is_none().then(|| self.most())
    }

    /// How long the round goes, where that is limited.
    pub fn seconds(&self) -> Option<u64> {
        matches!(self.questions, Questions::Of(Drill::Printed, _)).then_some(ROUND_SECONDS)
    }

    /// Questions asked, and answered rightly.
    pub fn tally(&self) -> (usize, usize) {
        (self.asked, self.right)
    }

    /// Points for stated confidence on average; `None` when none was stated.
    pub fn mean_points(&self) -> Option<f64> {
        let (won, stated) = self.points;
        (stated > 0).then(|| won / stated as f64)
    }
}
