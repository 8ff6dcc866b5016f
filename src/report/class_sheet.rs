//! All learners of a class on one page: what each mixes up, how true stated confidence is, what is
//! due; and the same of the class together.

use serde::Serialize;

use crate::learn::learner::Learner;
use crate::learn::memory::Day;
use crate::piece::expert::Expert;
use crate::say::progress::{InBrief, calibration, in_brief, mixed_up};

/// Confusions named of the whole class, at most (common practice, no source).
const NAMED: usize = 10;

/// The page.
#[derive(Clone, Debug, Serialize)]
pub struct ClassSheet {
    pub day: String,
    pub learners: Vec<One>,
    /// What all of them together take for something else, most often first.
    pub mixed: Vec<String>,
    pub sure: Vec<String>,
}

/// One learner.
#[derive(Clone, Debug, Serialize)]
pub struct One {
    pub name: String,
    #[serde(flatten)]
    pub stands: InBrief,
}

impl ClassSheet {
    pub fn new(expert: &Expert, learners: &[(String, Learner)], today: Day) -> ClassSheet {
        let together = Learner::together(learners.iter().map(|(_, learner)| learner));
        let one = |(name, learner): &(String, Learner)| One {
            name: name.clone(),
            stands: in_brief(expert, learner, today),
        };
        ClassSheet {
            day: today.to_string(),
            learners: learners.iter().map(one).collect(),
            mixed: mixed_up(expert, &together, NAMED),
            sure: calibration(&together),
        }
    }
}
