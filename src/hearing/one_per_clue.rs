//! One answer a clue: what counts where a clue is answered twice, and what gave way.
//!
//! The answer nearer to the piece counts: what is said outright before a line of notes, notes before
//! a registration given by itself, that before the wording of a mark; from the same source the surer
//! one, and of two as sure the one said later, so that a slip can be put right by saying it again.
//! What only follows from another finding gives way to what was said itself.

use std::cmp::Reverse;

use super::hearings::Heard;
use crate::core::observation::{Observation, Origin};

/// True when a later observation counts over an earlier one of the same clue.
pub fn counts_over(later: &Observation, earlier: &Observation) -> bool {
    let rank = |o: &Observation| (nearness(o.origin), Reverse(o.sure));
    rank(later) >= rank(earlier)
}

/// How near to the piece an observation is; the greater counts.
fn nearness(origin: Origin) -> u8 {
    match origin {
        Origin::Hand | Origin::File => 4,
        Origin::Notes => 3,
        Origin::Registration => 2,
        Origin::Mark => 1,
        Origin::Ticket => 0,
    }
}

/// Why a hearing does not count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GaveWay {
    /// The one that counts was said with less doubt.
    LessSure,
    /// The one that counts is as sure and was said later.
    SaidBefore,
    /// It only follows from another finding, and the one that counts was said itself.
    OnlyImplied,
}

/// A finding that was heard and does not count, as its clue has another answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Overridden {
    pub lost: Heard,
    /// The one that counts.
    pub by: Heard,
    pub why: GaveWay,
}

/// Findings with the words they were heard in, one a clue in the order of the text, and the others.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OnePerClue {
    pub kept: Vec<Heard>,
    pub overridden: Vec<Overridden>,
}

impl OnePerClue {
    /// Takes one more finding that was said. The same finding said again overrides nothing.
    pub fn hear(&mut self, said: Heard) {
        let Some(old) = self.kept.iter_mut().find(|k| k.clue() == said.clue()) else {
            self.kept.push(said);
            return;
        };
        let why = match said.observation.sure == old.observation.sure {
            true => GaveWay::SaidBefore,
            false => GaveWay::LessSure,
        };
        let counts = counts_over(&said.observation, &old.observation);
        let lost = match counts {
            true => std::mem::replace(old, said),
            false => said,
        };
        self.give_way(lost, why);
    }

    /// Takes a finding that only follows from another one.
    pub fn imply(&mut self, said: Heard) {
        if self.kept.iter().all(|k| k.clue() != said.clue()) {
            self.kept.push(said);
        } else {
            self.give_way(said, GaveWay::OnlyImplied);
        }
    }

    /// Notes what lost to the answer kept, and turns earlier losers of the clue to it.
    fn give_way(&mut self, lost: Heard, why: GaveWay) {
        let Some(by) = self.kept.iter().find(|k| k.clue() == lost.clue()) else {
            return;
        };
        let of_clue = |o: &&mut Overridden| o.lost.clue() == lost.clue();
        for earlier in self.overridden.iter_mut().filter(of_clue) {
            earlier.by = by.clone();
        }
        self.overridden.push(Overridden {
            lost,
            by: by.clone(),
            why,
        });
        let same = |a: &Observation, b: &Observation| a.clue == b.clue && a.seen == b.seen;
        self.overridden
            .retain(|o| !same(&o.lost.observation, &o.by.observation));
    }
}

#[cfg(test)]
mod tests {
    use super::{GaveWay, OnePerClue};
    use crate::core::grid::{ClueId, FindingId};
    use crate::core::observation::{Observation, Sure};
    use crate::hearing::hearings::Heard;

    fn said(clue: u16, finding: u16, sure: Sure) -> Observation {
        Observation::finding(ClueId(clue), FindingId(finding)).sure(sure)
    }

    fn heard(text: &str, observation: Observation) -> Heard {
        Heard {
            text: text.to_owned(),
            span: (0, text.len()),
            observation,
        }
    }

    fn hear(all: &[(&str, Observation)]) -> OnePerClue {
        let mut out = OnePerClue::default();
        for (text, entry) in all {
            out.hear(heard(text, entry.clone()));
        }
        out
    }

    #[test]
    fn the_surer_counts_and_then_the_later() {
        let out = hear(&[
            ("blue?", said(1, 0, Sure::Unsure)),
            ("crazed", said(2, 0, Sure::Sure)),
            ("brown", said(1, 1, Sure::Sure)),
            ("not crazed", said(2, 1, Sure::Sure)),
            ("pink??", said(1, 2, Sure::Guess)),
        ]);
        let kept: Vec<&str> = out.kept.iter().map(|k| k.text.as_str()).collect();
        assert_eq!(kept, ["brown", "not crazed"]);
        let lost: Vec<_> = out
            .overridden
            .iter()
            .map(|o| (o.lost.text.as_str(), o.by.text.as_str(), o.why))
            .collect();
        assert_eq!(
            lost,
            [
                ("blue?", "brown", GaveWay::LessSure),
                ("crazed", "not crazed", GaveWay::SaidBefore),
                ("pink??", "brown", GaveWay::LessSure),
            ]
        );
    }

    #[test]
    fn the_same_finding_again_overrides_nothing() {
        let out = hear(&[
            ("blue?", said(1, 0, Sure::Unsure)),
            ("brown??", said(1, 1, Sure::Guess)),
            ("blue", said(1, 0, Sure::Sure)),
        ]);
        assert_eq!(out.kept, [heard("blue", said(1, 0, Sure::Sure))]);
        assert_eq!(out.overridden.len(), 1);
        assert_eq!(out.overridden[0].by.text, "blue");
    }

    #[test]
    fn what_only_follows_gives_way_to_what_was_said() {
        let mut out = hear(&[("brown?", said(1, 1, Sure::Unsure))]);
        out.imply(heard("dark blue", said(1, 0, Sure::Sure)));
        out.imply(heard("dark blue", said(3, 0, Sure::Sure)));
        assert_eq!(out.kept.len(), 2);
        assert_eq!(out.overridden[0].why, GaveWay::OnlyImplied);
        assert_eq!(out.overridden[0].by.text, "brown?");
    }
}
