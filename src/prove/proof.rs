//! The report: all cases judged, and the parts asked for.

use super::calibration::{Held, by_period};
use super::cases::Known;
use super::counts::CountFit;
use super::doubt::DoubtFit;
use super::drawn::{Drawn, drawn};
use super::economy::Economy;
use super::family_split::FamilySplit;
use super::fit::Fit;
use super::judge::{Judged, judge};
use super::left_out::{ClueRow, WithoutOne, Worst};
use super::measures::Measures;
use super::ordered::Progress;
use super::reliability::Reliability;
use super::setting_moves::{SettingMoves, setting_moves};
use super::{counts, doubt, economy, fit, left_out, ordered};
use crate::core::grid::KindId;
use crate::core::posterior::{Inference, Posterior};
use crate::piece::expert::Expert;
use crate::rulebase::ids::Id;

/// The main report.
#[derive(Clone, Debug)]
pub struct Proof {
    pub judged: Vec<Judged>,
    pub all: Measures,
    /// The same cases with nothing seen: what the setting alone would answer.
    pub nothing_seen: Measures,
    /// The same cases with δ = 0 in every family.
    pub independent: Measures,
    pub by_kind: Vec<(KindId, Measures)>,
    /// First year of the half century, and its dated cases.
    pub by_half_century: Vec<(i16, Measures)>,
    /// What the 80 % band held in each half century, before 1900 and since.
    pub calibration: Vec<Held>,
    pub reliability: Reliability,
    pub worst: Vec<Worst>,
    pub by_clue: Vec<ClueRow>,
}

/// The report and the parts asked for.
#[derive(Clone, Debug)]
pub struct Report {
    pub cases: Vec<Known>,
    pub proof: Proof,
    pub show_by_clue: bool,
    pub drawn: Option<Drawn>,
    pub economy: Option<Economy>,
    pub fit: Option<Fit>,
    pub doubt: Option<(DoubtFit, SettingMoves)>,
    pub counts: Option<CountFit>,
}

/// Which extra parts to work out.
#[derive(Clone, Copy, Debug, Default)]
pub struct Parts {
    pub by_clue: bool,
    pub drawn: bool,
    pub economy: bool,
    pub fit: bool,
    pub doubt: bool,
    pub counts: bool,
}

/// Works the whole report out. The result does not depend on the number of threads.
pub fn report(expert: &Expert, cases: Vec<Known>, parts: Parts, progress: Progress) -> Report {
    let proof = prove(expert, &cases, progress);
    let drawn_pieces = parts.drawn.then(|| drawn(expert, &cases, progress));
    let economy = parts
        .economy
        .then(|| economy::economy(expert, &cases, progress));
    // What is fitted on known pieces must not meet itself in what was counted of them.
    let drawn = (parts.fit || parts.doubt).then(|| counts::as_drawn(expert));
    let drawn = drawn.as_ref().unwrap_or(expert);
    let fit = parts.fit.then(|| fit::fit(drawn, &cases, progress));
    let doubt = parts.doubt.then(|| {
        let moves = setting_moves(drawn, &cases, progress);
        (doubt::fit(drawn, &cases, progress), moves)
    });
    let counts = parts.counts.then(|| counts::fit(expert, &cases, progress));
    Report {
        cases,
        proof,
        show_by_clue: parts.by_clue,
        drawn: drawn_pieces,
        economy,
        fit,
        doubt,
        counts,
    }
}

/// Judges all cases.
pub fn prove(expert: &Expert, cases: &[Known], progress: Progress) -> Proof {
    let model = &expert.engine().model;
    let grid = &model.grid;
    let bare: Vec<Posterior> = expert
        .engine()
        .priors
        .iter()
        .map(Posterior::of_prior)
        .collect();
    let results = ordered::map(cases, "judging", progress, |case| {
        let prior = &expert.engine().priors[case.setting];
        let inference = Inference::new(model, prior, &case.evidence);
        let independent = FamilySplit::new(expert, case).judge(&vec![0.0; model.families.len()]);
        Worked {
            full: judge(grid, inference.posterior(), case),
            nothing: judge(grid, &bare[case.setting.index()], case),
            independent,
            left: left_out::each_out(grid, &inference, case),
        }
    });
    let judged: Vec<Judged> = results.iter().map(|r| r.full.clone()).collect();
    let left: Vec<Vec<WithoutOne>> = results.iter().map(|r| r.left.clone()).collect();
    Proof {
        all: Measures::of(judged.iter()),
        nothing_seen: Measures::of(results.iter().map(|r| &r.nothing)),
        independent: Measures::of(results.iter().map(|r| &r.independent)),
        by_kind: by_kind(expert, cases, &judged),
        by_half_century: by_half_century(cases, &judged),
        calibration: by_period(cases, &judged),
        reliability: Reliability::of(&judged),
        worst: left_out::worst(
            &results.iter().map(|r| &r.nothing).collect::<Vec<_>>(),
            &judged,
            &left,
        ),
        by_clue: left_out::by_clue(cases, &judged, &left),
        judged,
    }
}

/// What is worked out for one case.
struct Worked {
    full: Judged,
    nothing: Judged,
    independent: Judged,
    left: Vec<WithoutOne>,
}

fn by_kind(expert: &Expert, cases: &[Known], judged: &[Judged]) -> Vec<(KindId, Measures)> {
    (0..expert.base.kinds.len() as u8)
        .map(KindId)
        .filter_map(|kind| {
            let of_kind = cases
                .iter()
                .zip(judged)
                .filter(|(c, _)| c.kind == Some(kind));
            let measures = Measures::of(of_kind.map(|(_, j)| j));
            (measures.cases > 0).then_some((kind, measures))
        })
        .collect()
}

fn by_half_century(cases: &[Known], judged: &[Judged]) -> Vec<(i16, Measures)> {
    let half = |case: &Known| ((case.midpoint() / 50.0).floor() * 50.0) as i16;
    let mut halves: Vec<i16> = cases.iter().filter(|c| c.datable()).map(half).collect();
    halves.sort_unstable();
    halves.dedup();
    halves
        .into_iter()
        .map(|start| {
            let within = cases
                .iter()
                .zip(judged)
                .filter(|(c, _)| c.datable() && half(c) == start);
            (start, Measures::of(within.map(|(_, j)| j)))
        })
        .collect()
}
