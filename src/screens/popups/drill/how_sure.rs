//! How sure somebody is of an answer, as a list to choose from.

/// Confidences offered beside a mere guess, in percent (common practice, no source).
const STEPS: [(&str, u8); 4] = [
    ("leaning that way", 60),
    ("fairly sure", 75),
    ("very sure", 90),
    ("certain", 99),
];

/// What is asked.
const QUESTION: &str = "How sure are you?";

/// The list.
#[derive(Debug)]
pub(super) struct HowSure {
    words: Vec<String>,
    percents: Vec<u8>,
}

impl HowSure {
    /// Of one answer among so many: a guess is right as often as chance has it. The last item says
    /// nothing.
    pub(super) fn new(answers: usize) -> HowSure {
        let mut list = HowSure::stated(answers);
        list.words.push("rather not say".to_owned());
        list
    }

    /// The same where it must be said.
    pub(super) fn stated(answers: usize) -> HowSure {
        let guess = (100 / answers.max(1)) as u8;
        let all = [("only guessing", guess)].into_iter().chain(STEPS);
        HowSure {
            words: all.clone().map(|(w, p)| format!("{w} ({p} %)")).collect(),
            percents: all.map(|(_, percent)| percent).collect(),
        }
    }

    pub(super) fn question(&self) -> &'static str {
        QUESTION
    }

    pub(super) fn words(&self) -> &[String] {
        &self.words
    }

    pub(super) fn count(&self) -> usize {
        self.words.len()
    }

    /// The confidence of an item; `None` of one that says nothing.
    pub(super) fn percent(&self, item: usize) -> Option<u8> {
        self.percents.get(item).copied()
    }
}
