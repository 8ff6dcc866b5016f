//! What one learner got right and wrong. Where that is kept stands in `stock::store`.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::memory::{Day, Grade, Memory, WEIGHTS};
use crate::rulebase::RuleBase;

/// The format of a learner's record.
const FORMAT: u32 = 1;

/// A confidence below this is a doubt: the answer was right, but hard
/// (common practice, no source).
const DOUBT: u8 = 60;

/// Characters of a learner's name, at most (common practice, no source).
const LONGEST: usize = 40;

/// What is wrong with a name; nothing with one that can be kept.
pub fn name_problem(name: &str) -> Option<String> {
    let plain = |c: char| c.is_alphanumeric() || c == '-' || c == '_';
    let count = name.chars().count();
    let bad = count == 0 || count > LONGEST || !name.chars().all(plain);
    bad.then(|| format!("a learner's name has 1 to {LONGEST} letters, figures, - and _"))
}

/// An answer that was taken for another.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Confusion {
    /// What it was about: a clue's id, or `kind`.
    pub about: String,
    pub right: String,
    pub said: String,
    pub times: u32,
}

/// How often an answer given with one confidence was right.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stated {
    pub answers: u32,
    pub right: u32,
}

/// One learner. Keys of `memories` are those of `Item::key`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Learner {
    format: u32,
    pub memories: BTreeMap<String, Memory>,
    pub confusions: Vec<Confusion>,
    /// By stated confidence in percent.
    pub stated: BTreeMap<u8, Stated>,
    /// Lessons gone through, and when last.
    pub lessons: BTreeMap<String, Day>,
}

impl Default for Learner {
    fn default() -> Learner {
        Learner {
            format: FORMAT,
            memories: BTreeMap::new(),
            confusions: Vec::new(),
            stated: BTreeMap::new(),
            lessons: BTreeMap::new(),
        }
    }
}

/// One answer to one item.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Answered<'a> {
    pub key: &'a str,
    /// What it was about, what it was, what was said: for the matrix. `None` where answers have no
    /// names that come back.
    pub names: Option<(&'a str, &'a str, &'a str)>,
    pub right: bool,
    /// 0 to 100.
    pub confidence: Option<u8>,
}

impl Learner {
    /// False for a record that a newer program wrote.
    pub fn readable(&self) -> bool {
        self.format == FORMAT
    }

    /// Takes an answer in.
    pub fn answered(&mut self, answer: &Answered, today: Day) {
        let grade = match (answer.right, answer.confidence) {
            (false, _) => Grade::Again,
            (true, Some(c)) if c < DOUBT => Grade::Hard,
            (true, _) => Grade::Good,
        };
        let now = match self.memories.get(answer.key) {
            Some(memory) => memory.then(grade, today, &WEIGHTS),
            None => Memory::first(grade, today, &WEIGHTS),
        };
        self.memories.insert(answer.key.to_owned(), now);
        self.stated(answer.confidence, answer.right);
        if let Some((about, right, said)) = answer.names {
            self.named(about, right, said);
        }
    }

    /// Counts a stated confidence.
    pub fn stated(&mut self, confidence: Option<u8>, right: bool) {
        if let Some(percent) = confidence {
            let stated = self.stated.entry(percent.min(100)).or_default();
            stated.answers += 1;
            stated.right += u32::from(right);
        }
    }

    /// Counts what was taken for what; right answers too, or the matrix would have no whole.
    pub fn named(&mut self, about: &str, right: &str, said: &str) {
        self.count(about, right, said, 1);
    }

    fn count(&mut self, about: &str, right: &str, said: &str, times: u32) {
        let same = |c: &&mut Confusion| c.about == about && c.right == right && c.said == said;
        match self.confusions.iter_mut().find(same) {
            Some(known) => known.times += times,
            None => self.confusions.push(Confusion {
                about: about.to_owned(),
                right: right.to_owned(),
                said: said.to_owned(),
                times,
            }),
        }
    }

    /// What several learners took for what, and how true their stated confidences are, as if they were
    /// one. What is due is each one's own.
    pub fn together<'a>(learners: impl Iterator<Item = &'a Learner>) -> Learner {
        let mut all = Learner::default();
        for learner in learners {
            for c in &learner.confusions {
                all.count(&c.about, &c.right, &c.said, c.times);
            }
            for (percent, stated) in &learner.stated {
                let sum = all.stated.entry(*percent).or_default();
                sum.answers += stated.answers;
                sum.right += stated.right;
            }
        }
        all
    }

    /// The first lesson that has not been gone through.
    pub fn next_lesson(&self, base: &RuleBase) -> Option<usize> {
        let done = |id: &String| self.lessons.contains_key(id);
        base.lessons.iter().position(|l| !done(&l.id))
    }

    /// Keys of what is to be asked again, the most forgotten first.
    pub fn due(&self, today: Day) -> Vec<&str> {
        let all = self.memories.iter().filter(|(_, m)| m.due() <= today);
        let mut due: Vec<(f64, &str)> = all.map(|(k, m)| (m.recall(today), k.as_str())).collect();
        due.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(b.1)));
        due.into_iter().map(|(_, key)| key).collect()
    }

    /// The first day on which something is due.
    pub fn next_due(&self) -> Option<Day> {
        self.memories.values().map(|m| m.due()).min()
    }

    /// What was taken for something else, most often first.
    pub fn mixed_up(&self) -> Vec<&Confusion> {
        let mut mixed: Vec<&Confusion> = self
            .confusions
            .iter()
            .filter(|c| c.right != c.said)
            .collect();
        mixed.sort_by_key(|c| std::cmp::Reverse(c.times));
        mixed
    }

    /// How often it was right, and asked, with the right answer named: a row of the matrix.
    pub fn row(&self, about: &str, right: &str) -> (u32, u32) {
        let of = self.confusions.iter();
        let of = of.filter(|c| c.about == about && c.right == right);
        of.fold((0, 0), |(hit, all), c| {
            (
                hit + if c.said == right { c.times } else { 0 },
                all + c.times,
            )
        })
    }
}
