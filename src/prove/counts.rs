//! What counting known pieces would be worth: drawn frequencies updated by counts, cross-validated.
//!
//! `rulebase::counted` counts; here is chosen how much a count is worth. A known piece is spread over the kinds
//! and places it may be of by its posterior within its catalogued years, kind and place. Folds are
//! whole collections: their pieces are judged by tables that never counted them. All starts from the
//! frequencies as drawn, whatever the rule base has counted already.

use super::cases::Known;
use super::count_choice::{Chosen, Counting, counted_tables, objective, with_tables};
use super::figures::{score, share, years};
use super::fit::{FOLDS, fold_of};
use super::judge::{Judged, judge};
use super::measures::Measures;
use super::ordered::{self, Progress};
use crate::core::grid::Year;
use crate::core::model::Model;
use crate::core::observation::Observed;
use crate::core::posterior::posterior;
use crate::piece::expert::Expert;
use crate::rulebase::definitions::{Counted, CountedPiece};
use crate::rulebase::ids::ClueId;

/// Strengths tried, in pieces; with infinitely many the counts would do nothing (common practice, no
/// source).
pub const STRENGTHS: [f64; 5] = [3.0, 10.0, 30.0, 100.0, 300.0];

/// Smoothings tried, in years (common practice, no source).
pub const SMOOTHINGS: [f64; 4] = [5.0, 10.0, 20.0, 40.0];

/// What every strength and smoothing is worth on collections that were not counted.
#[derive(Clone, Debug)]
pub struct CountFit {
    pub drawn: (Measures, Option<f64>),
    /// All clues counted.
    pub tried: Vec<(f64, f64, Measures, Option<f64>)>,
    /// Only the clues that gain by it.
    pub chosen: Chosen,
    /// What to write into the rule base: the findings of the chosen clues.
    pub counted: Counted,
}

/// Shares of a piece below this are not counted (common practice, no source).
const NEGLIGIBLE: f64 = 0.02;

/// The rules with nothing counted: known pieces that the rules have counted are no proof of them.
pub fn as_drawn(expert: &Expert) -> Expert {
    let mut base = expert.base.clone();
    base.counted = Counted::default();
    Expert::new(base, expert.present())
}

/// Tries every strength and smoothing.
pub fn fit(expert: &Expert, cases: &[Known], progress: Progress) -> CountFit {
    let drawn = as_drawn(expert);
    let model = &drawn.engine().model;
    let folds: Vec<usize> = cases.iter().map(|c| fold_of(c.collection())).collect();
    let pieces = ordered::map(cases, "placing", progress, |c| placed(&drawn, c));
    let judged = |models: &[Model]| -> Vec<Judged> {
        let numbered: Vec<usize> = (0..cases.len()).collect();
        ordered::map(&numbered, "counting", progress, |at| {
            let (case, model) = (&cases[*at], &models[folds[*at] % models.len()]);
            let prior = &drawn.engine().priors[case.setting];
            judge(&model.grid, &posterior(model, prior, &case.evidence), case)
        })
    };
    let scored = |judged: &[Judged]| (Measures::of(judged.iter()), objective(judged));
    let mut tried: Vec<(f64, f64, Measures, Option<f64>)> = Vec::new();
    for smoothing in SMOOTHINGS {
        for strength in STRENGTHS {
            let without: Vec<usize> = (0..FOLDS).collect();
            let models = ordered::map(&without, "tables", progress, |fold| {
                let outside = pieces.iter().zip(&folds).filter(|(_, f)| *f != fold);
                let outside: Vec<&CountedPiece> = outside.filter_map(|(p, _)| p.as_ref()).collect();
                counting(&drawn, &outside, (strength, smoothing))
            });
            let (measures, score) = scored(&judged(&models));
            tried.push((strength, smoothing, measures, score));
        }
    }
    let as_drawn = judged(std::slice::from_ref(model));
    let counting = Counting {
        drawn: &drawn,
        cases,
        pieces: &pieces,
        folds: &folds,
    };
    let chosen = counting.choose(&as_drawn, progress);
    let (strength, smoothing) = chosen.choice.how;
    let mut kept: Vec<CountedPiece> = pieces.iter().flatten().cloned().collect();
    for piece in &mut kept {
        let counts = |id: &ClueId| chosen.choice.clues.iter().any(|(c, _)| c == id);
        piece.saw.retain(|(id, _)| counts(id));
    }
    kept.retain(|piece| !piece.saw.is_empty());
    CountFit {
        drawn: scored(&as_drawn),
        tried,
        chosen,
        counted: Counted {
            strength,
            smoothing,
            pieces: kept,
            ..Counted::default()
        },
    }
}

/// The model with these pieces counted.
fn counting(drawn: &Expert, pieces: &[&CountedPiece], how: (f64, f64)) -> Model {
    with_tables(&drawn.engine().model, counted_tables(drawn, pieces, how))
}

/// The posterior within what the catalogue says of years, kind and place, and the findings; `None` for a
/// piece whose span is too wide, or that can't be what its catalogue says.
fn placed(expert: &Expert, case: &Known) -> Option<CountedPiece> {
    let (model, prior) = (
        &expert.engine().model,
        &expert.engine().priors[case.setting],
    );
    let grid = &model.grid;
    let after = posterior(model, prior, &case.evidence);
    let years = (case.from.0..=case.to.0).filter_map(|y| grid.offset(Year(y)));
    let years: Vec<usize> = years.collect();
    let mut made = Vec::new();
    for (pair, (kind, place)) in grid.pairs().iter().enumerate() {
        if case.kind.is_none_or(|k| k == *kind) && case.place.is_none_or(|l| l == *place) {
            let from = grid.cells_of(pair).start;
            let p: f64 = years
                .iter()
                .map(|offset| after.cells()[from + offset])
                .sum();
            made.push((*kind, *place, p));
        }
    }
    let total: f64 = made.iter().map(|m| m.2).sum();
    if total <= 0.0 || !case.datable() {
        return None;
    }
    made.iter_mut()
        .for_each(|m| m.2 = (100.0 * m.2 / total).round() / 100.0);
    made.retain(|m| m.2 >= NEGLIGIBLE);
    let speaking = case.evidence.observations().iter();
    let saw = speaking
        .filter(|o| model.speaks(o, &case.evidence))
        .filter(|o| !model.clues[usize::from(o.clue.0)].table.is_flat())
        .filter_map(|o| match o.seen {
            Observed::Finding(f) => Some((o.clue, f)),
            Observed::Year(_) | Observed::Soft(_) | Observed::CantTell => None,
        });
    Some(CountedPiece {
        made,
        from: case.from.0,
        to: case.to.0,
        saw: saw.collect(),
    })
}

/// The pieces as a rule file, in the order of the tables.
pub fn written(expert: &Expert, tables: &[String], found: &CountFit) -> String {
    let base = &expert.base;
    let counted = &found.counted;
    let clues: Vec<&str> = found
        .chosen
        .choice
        .clues
        .iter()
        .map(|(id, _)| base.clue(*id).id.as_str())
        .collect();
    let figures = |m: &Measures, objective: Option<f64>| {
        format!(
            "ln P of date and kind {}, of the date {}, of the kind {}; kind right {}, 80 % band {} and {} years wide",
            score(objective),
            score(m.log_date),
            score(m.log_kind),
            share(m.kind_right),
            share(m.coverage[1]),
            years(m.width)
        )
    };
    let mut out = format!(
        "// Written by `printseam prove {} --count` from {} pieces; not by hand.\n\
         // Known pieces, counted into the frequencies of findings: a drawn frequency is worth `strength`\n\
         // pieces of its kind, place and year; a piece counts for years about it with a standard deviation of\n\
         // `smoothing`. Counted are the clues whose counts raise ln P of the date and do not lower that of the\n\
         // kind on collections left out: {}.\n\
         // Scored on collections that had no say in the choice:\n\
         // as drawn: {}\n// counted: {}\n\
         (\n    format: 1,\n    strength: {}, smoothing: {},\n    because: \"Where known pieces \
         differ from what was drawn from memory, they are believed as far as they are many.\",\n    \
         source: [\"common-practice\"],\n    pieces: [\n",
        tables.join(" "),
        counted.pieces.len(),
        clues.join(", "),
        figures(&found.drawn.0, found.drawn.1),
        figures(&found.chosen.held_out.0, found.chosen.held_out.1),
        counted.strength,
        counted.smoothing
    );
    for piece in &counted.pieces {
        let made = piece.made.iter().map(|(kind, place, share)| {
            format!(
                "(\"{}\", \"{}\", {share})",
                base.kinds[*kind].id, base.places[*place].id
            )
        });
        let saw = piece.saw.iter().map(|(clue, finding)| {
            format!(
                "(\"{}\", \"{}\")",
                base.clue(*clue).id,
                base.finding(*clue, *finding).id
            )
        });
        out += &format!(
            "        (made: [{}], from: {}, to: {}, saw: [{}]),\n",
            made.collect::<Vec<_>>().join(", "),
            piece.from,
            piece.to,
            saw.collect::<Vec<_>>().join(", ")
        );
    }
    out + "    ],\n)\n"
}
