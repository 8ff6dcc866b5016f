//! First glance: what ticks on the list of what strikes the eye say.
//!
//! A tick is its finding. No tick says nothing, but where the rules say that nobody misses it: then
//! it is the finding they name, unsure.

use crate::core::observation::{Evidence, Observation, Sure};
use crate::rulebase::RuleBase;
use crate::rulebase::definitions::Striking;

/// Seconds to take the whole list in, and for each tick (common practice, no source).
pub const SECONDS: (f64, f64) = (10.0, 1.0);

/// What these ticks say, by line of the list, of a piece of which `known` is known: clues that
/// were answered by hand before keep their answers, unless another line of them is ticked now.
pub fn seen(base: &RuleBase, ticked: &[bool], known: &Evidence) -> Vec<Observation> {
    let lines = || base.glance.iter().zip(ticked);
    let mut out: Vec<Observation> = Vec::new();
    for (line, _) in lines().filter(|(_, ticked)| **ticked) {
        out.retain(|earlier| earlier.clue != line.clue);
        let is_known = |o: &Observation| o.seen.finding() == Some(line.finding);
        if !known.of(line.clue).is_some_and(is_known) {
            out.push(tick(line));
        }
    }
    // What the words of a tick say as well gives way to what was said of that clue itself.
    for (line, _) in lines().filter(|(_, ticked)| **ticked) {
        for (clue, finding) in &line.with {
            if known.of(*clue).is_none() && out.iter().all(|o| o.clue != *clue) {
                out.push(Observation::finding(*clue, *finding).sure(sure(line)));
            }
        }
    }
    for (line, _) in lines().filter(|(_, ticked)| !**ticked) {
        let another = |(other, ticked): (&Striking, &bool)| *ticked && other.clue == line.clue;
        let answered = known.of(line.clue).is_some() || out.iter().any(|o| o.clue == line.clue);
        if let (Some(finding), false) = (line.unticked, answered || lines().any(another)) {
            out.push(Observation::finding(line.clue, finding).sure(Sure::Unsure));
        }
    }
    out
}

/// The finding of a line, as a tick says it.
fn tick(line: &Striking) -> Observation {
    Observation::finding(line.clue, line.finding).sure(sure(line))
}

fn sure(line: &Striking) -> Sure {
    match line.unsure {
        true => Sure::Unsure,
        false => Sure::Sure,
    }
}

/// True for the lines whose finding is known of the piece.
pub fn ticked(base: &RuleBase, known: &Evidence) -> Vec<bool> {
    let known = |line: &Striking| {
        let seen = known.of(line.clue).map(|o| &o.seen);
        seen.and_then(|s| s.finding()) == Some(line.finding)
    };
    base.glance.iter().map(known).collect()
}
