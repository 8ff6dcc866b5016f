//! What is known about the clues of one piece: an ordered list of observations.
//!
//! A list, never a set: two clues that say the same thing count twice, and the order is kept
//! because the explanation is told in it. The posterior does not depend on the order.

use std::sync::Arc;

use super::grid::{ClueId, FindingId, Year};

/// How sure the picker is of what was seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sure {
    #[default]
    Sure,
    Unsure,
    Guess,
}

impl Sure {
    /// Sure, then unsure, then a guess, then sure again.
    pub fn next(self) -> Sure {
        match self {
            Sure::Sure => Sure::Unsure,
            Sure::Unsure => Sure::Guess,
            Sure::Guess => Sure::Sure,
        }
    }

    /// Doubt added to a clue's slip (design figures: 0, 0.15, 0.40; common practice, no source).
    pub fn doubt(self) -> f64 {
        match self {
            Sure::Sure => 0.0,
            Sure::Unsure => 0.15,
            Sure::Guess => 0.40,
        }
    }
}

/// Where an observation came from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Origin {
    /// Said outright: chosen on a screen, or `CLUE=FINDING` on the command line or in a file.
    #[default]
    Hand,
    /// Heard in a line of notes.
    Notes,
    /// Read in the wording of a mark.
    Mark,
    /// Decoded from a registration diamond or number.
    Registration,
    /// Taken for granted by what somebody claims of the piece.
    Ticket,
    /// A row of a table of many pieces.
    File,
}

/// How well each finding of a clue agrees with what is known: one weight of 0..=1 a finding, the
/// chance of saying just this of a piece that shows it. "Not willow" is 0 for willow and 1 for the
/// rest; "blue or black" is 1 for the two.
#[derive(Clone, Debug, PartialEq)]
pub struct Weights(Arc<[f64]>);

impl Weights {
    /// `None` unless all weights lie within 0..=1, at least one is positive and at least two
    /// differ: otherwise nothing is possible, or nothing is said.
    pub fn new(weights: &[f64]) -> Option<Weights> {
        let fits = weights.iter().all(|w| (0.0..=1.0).contains(w));
        let told = weights.windows(2).any(|w| w[0].total_cmp(&w[1]).is_ne());
        let possible = weights.iter().any(|w| *w > 0.0);
        (fits && told && possible).then(|| Weights(weights.into()))
    }

    /// Any of these findings out of `count`, each alike.
    pub fn any_of(findings: &[FindingId], count: usize) -> Option<Weights> {
        let weight = |i: usize| f64::from(u8::from(findings.iter().any(|f| usize::from(f.0) == i)));
        Weights::new(&(0..count).map(weight).collect::<Vec<_>>())
    }

    /// Any finding but these.
    pub fn none_of(findings: &[FindingId], count: usize) -> Option<Weights> {
        let weight = |i: usize| f64::from(u8::from(findings.iter().all(|f| usize::from(f.0) != i)));
        Weights::new(&(0..count).map(weight).collect::<Vec<_>>())
    }

    /// One weight a finding, in the clue's order.
    pub fn by_finding(&self) -> &[f64] {
        &self.0
    }

    /// Σ w_f · x_f over the findings.
    pub fn mean_of(&self, per_finding: &[f64]) -> f64 {
        self.0.iter().zip(per_finding).map(|(w, x)| w * x).sum()
    }
}

/// What was seen at a clue.
#[derive(Clone, Debug, PartialEq)]
pub enum Observed {
    /// One of the clue's listed findings.
    Finding(FindingId),
    /// A year read from the piece (dated clues only).
    Year(Year),
    /// Several findings, each to some degree (listed clues only).
    Soft(Weights),
    /// Looked, and can't tell. Says nothing.
    CantTell,
}

impl Observed {
    /// The one finding seen, where it is one.
    pub fn finding(&self) -> Option<FindingId> {
        match self {
            Observed::Finding(f) => Some(*f),
            Observed::Year(_) | Observed::Soft(_) | Observed::CantTell => None,
        }
    }
}

/// What is known about one clue, how surely, and where it came from.
#[derive(Clone, Debug, PartialEq)]
pub struct Observation {
    pub clue: ClueId,
    pub seen: Observed,
    pub sure: Sure,
    pub origin: Origin,
}

impl Observation {
    /// Surely seen, by hand.
    pub fn new(clue: ClueId, seen: Observed) -> Observation {
        Observation {
            clue,
            seen,
            sure: Sure::Sure,
            origin: Origin::Hand,
        }
    }

    /// A listed finding, surely seen, by hand.
    pub fn finding(clue: ClueId, finding: FindingId) -> Observation {
        Observation::new(clue, Observed::Finding(finding))
    }

    /// A year read from the piece.
    pub fn year(clue: ClueId, year: Year) -> Observation {
        Observation::new(clue, Observed::Year(year))
    }

    /// Looked, and can't tell.
    pub fn cant_tell(clue: ClueId) -> Observation {
        Observation::new(clue, Observed::CantTell)
    }

    /// The same, this sure.
    pub fn sure(self, sure: Sure) -> Observation {
        Observation { sure, ..self }
    }

    /// The same, from elsewhere.
    pub fn from(self, origin: Origin) -> Observation {
        Observation { origin, ..self }
    }

    /// True when both say the same of the same clue, wherever it came from.
    pub fn says_as(&self, other: &Observation) -> bool {
        self.clue == other.clue && self.seen == other.seen && self.sure == other.sure
    }
}

/// The observations so far, one a clue.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Evidence {
    observations: Vec<Observation>,
}

impl Evidence {
    /// Nothing seen yet.
    pub fn new() -> Evidence {
        Evidence::default()
    }

    /// Adds an observation, or replaces the earlier one of the same clue where it stands.
    pub fn add(&mut self, observation: Observation) {
        let same = |o: &&mut Observation| o.clue == observation.clue;
        match self.observations.iter_mut().find(same) {
            Some(old) => *old = observation,
            None => self.observations.push(observation),
        }
    }

    /// Takes back what is known of a clue; false when nothing was.
    pub fn forget(&mut self, clue: ClueId) -> bool {
        let before = self.observations.len();
        self.observations.retain(|o| o.clue != clue);
        self.observations.len() < before
    }

    /// What is known of a clue.
    pub fn of(&self, clue: ClueId) -> Option<&Observation> {
        self.observations.iter().find(|o| o.clue == clue)
    }

    /// The observations in the order given.
    pub fn observations(&self) -> &[Observation] {
        &self.observations
    }

    /// True when no clue has been answered.
    pub fn is_empty(&self) -> bool {
        self.observations.is_empty()
    }

    /// True when no clue says anything: none was looked at, or none could be told.
    pub fn says_nothing(&self) -> bool {
        let mut all = self.observations.iter();
        all.all(|o| o.seen == Observed::CantTell)
    }
}

impl FromIterator<Observation> for Evidence {
    fn from_iter<I: IntoIterator<Item = Observation>>(observations: I) -> Evidence {
        let mut evidence = Evidence::new();
        observations.into_iter().for_each(|o| evidence.add(o));
        evidence
    }
}

#[cfg(test)]
mod tests {
    use super::{FindingId, Weights};

    #[test]
    fn weights_that_say_nothing_or_allow_nothing_are_refused() {
        assert_eq!(Weights::new(&[1.0, 1.0, 1.0]), None);
        assert_eq!(Weights::new(&[0.0, 0.0]), None);
        assert_eq!(Weights::new(&[0.5, 1.5]), None);
        assert_eq!(Weights::new(&[0.5, f64::NAN]), None);
        assert!(Weights::new(&[0.5, 0.25]).is_some());
    }

    #[test]
    fn any_and_none_are_each_others_rest() {
        let two = [FindingId(0), FindingId(2)];
        let any = Weights::any_of(&two, 3).unwrap();
        let none = Weights::none_of(&two, 3).unwrap();
        assert_eq!(any.by_finding(), [1.0, 0.0, 1.0]);
        assert_eq!(none.by_finding(), [0.0, 1.0, 0.0]);
    }
}
