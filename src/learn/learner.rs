//! What one learner got right and wrong, and where that is kept.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::memory::{Day, Grade, Memory, WEIGHTS};

/// The format of a learner's record.
const FORMAT: u32 = 1;

/// A confidence below this is a doubt: the answer was right, but hard
/// (common practice, no source).
const DOUBT: u8 = 60;

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
        let same = |c: &&mut Confusion| c.about == about && c.right == right && c.said == said;
        match self.confusions.iter_mut().find(same) {
            Some(known) => known.times += 1,
            None => self.confusions.push(Confusion {
                about: about.to_owned(),
                right: right.to_owned(),
                said: said.to_owned(),
                times: 1,
            }),
        }
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

/// Where learners are kept.
pub trait LearnerStore {
    /// Why a learner can't be read or kept.
    type Refusal;

    /// The learner of this name; a fresh one when there is none.
    ///
    /// # Errors
    /// When there is one that can't be read.
    fn load(&self, name: &str) -> Result<Learner, Self::Refusal>;

    /// Keeps the learner.
    ///
    /// # Errors
    /// When that can't be done; then the old state is still there.
    fn save(&mut self, name: &str, learner: &Learner) -> Result<(), Self::Refusal>;
}

/// Learners of this run only.
#[derive(Debug, Default)]
pub struct InMemory(BTreeMap<String, Learner>);

impl LearnerStore for InMemory {
    type Refusal = std::convert::Infallible;

    fn load(&self, name: &str) -> Result<Learner, Self::Refusal> {
        Ok(self.0.get(name).cloned().unwrap_or_default())
    }

    fn save(&mut self, name: &str, learner: &Learner) -> Result<(), Self::Refusal> {
        self.0.insert(name.to_owned(), learner.clone());
        Ok(())
    }
}
