//! δ of the families by cross-validated log score.
//!
//! Objective: mean over cases of ln P(catalogued span ± 5) + ln P(catalogued kind), each where it
//! counts. Coordinate ascent over δ ∈ {0, 0.1, …, 1}, from 0.5 everywhere, one family at a time in
//! the rule base's order until nothing changes. Five folds by a hash of the collection's name, so that
//! no museum is scored by δ fitted on itself and a new case moves no other. The held-out score is what the fit is worth; the final δ are fitted on all
//! cases. δ is drawn towards 0.5 as by a normal prior of spread `SPREAD`, so that a handful of cases
//! does not push it to an end. A family that fewer than `LEAST_CASES` cases bear upon keeps its δ.

use std::collections::BTreeMap;

use super::cases::Known;
use super::family_split::FamilySplit;
use super::judge::{Judged, log_date, log_kind};
use super::measures::{Measures, mean};
use super::ordered::{self, Progress};
use crate::piece::expert::Expert;

/// Folds of the cross-validation (common practice, no source).
pub const FOLDS: usize = 5;

/// Fewer cases than this with two findings of a family: not fitted (common practice, no source).
pub const LEAST_CASES: usize = 10;

/// Standard deviation of δ about 0.5 before any piece is seen (common practice, no source;
/// chosen once, not tuned).
const SPREAD: f64 = 0.3;

/// Steps of δ from 0 to 1.
const STEPS: usize = 11;

/// Position on the grid that stands for "as the rule base has it".
const KEPT: u8 = STEPS as u8;

/// Where every fitted δ starts.
const START: u8 = 5;

/// Sweeps after which the search stops in any case.
const MOST_SWEEPS: usize = 12;

/// One family's result.
#[derive(Clone, Debug, PartialEq)]
pub struct FamilyFit {
    pub id: String,
    /// Cases with two or more findings of the family.
    pub cases: usize,
    pub before: f64,
    /// Fitted on all cases; `before` when not fitted.
    pub after: f64,
    pub fitted: bool,
    /// Chosen in each fold.
    pub folds: Vec<f64>,
}

/// One fold's held-out score, mean a case, beside what other δ give the same cases.
#[derive(Clone, Debug, PartialEq)]
pub struct Fold {
    pub cases: usize,
    pub held_out: Option<f64>,
    pub rule_base: Option<f64>,
    pub independent: Option<f64>,
}

/// The fit.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    pub families: Vec<FamilyFit>,
    pub folds: Vec<Fold>,
    /// Mean objective over all cases, each judged by the δ of the fold that had not seen it.
    pub held_out: Option<f64>,
    /// What, and how good: δ = 0, the rule base, held out, fitted on all.
    pub effect: Vec<(&'static str, Measures, Option<f64>)>,
}

/// A case and what is known of its score, by the grid positions of its own families.
struct Noted<'a> {
    weighed: FamilySplit<'a>,
    families: Vec<usize>,
    fold: usize,
    scores: BTreeMap<Vec<u8>, f64>,
}

/// Fits.
pub fn fit(expert: &Expert, cases: &[Known], progress: Progress) -> Fit {
    let model = &expert.engine().model;
    let before = model.families.clone();
    let mut noted: Vec<Noted> = ordered::map(cases, "inference", progress, |case| {
        let weighed = FamilySplit::new(expert, case);
        Noted {
            families: weighed.families().collect(),
            fold: fold_of(case.collection()),
            scores: BTreeMap::new(),
            weighed,
        }
    });
    let counts: Vec<usize> = (0..before.len())
        .map(|f| noted.iter().filter(|n| n.families.contains(&f)).count())
        .collect();
    let fitted: Vec<usize> = (0..before.len())
        .filter(|&f| counts[f] >= LEAST_CASES)
        .collect();
    let search = Search {
        expert,
        before: &before,
        fitted: &fitted,
    };
    let mut chosen = Vec::with_capacity(FOLDS + 1);
    for fold in 0..=FOLDS {
        progress("fitting", fold, FOLDS + 1);
        // The last round leaves nothing out.
        let place = search.ascend(&mut noted, (fold < FOLDS).then_some(fold));
        chosen.push(search.deltas(&place));
    }
    progress("fitting", FOLDS + 1, FOLDS + 1);

    let judged = |deltas: &dyn Fn(&Noted) -> Vec<f64>| -> Vec<Judged> {
        noted.iter().map(|n| n.weighed.judge(&deltas(n))).collect()
    };
    let independent = judged(&|_| vec![0.0; before.len()]);
    let rule_base = judged(&|_| before.clone());
    let held_out = judged(&|n| chosen[n.fold].clone());
    let on_all = judged(&|_| chosen[FOLDS].clone());
    let folds = (0..FOLDS)
        .map(|fold| {
            let of = |all: &[Judged]| {
                let within = noted.iter().zip(all).filter(|(n, _)| n.fold == fold);
                objective(within.map(|(_, j)| j))
            };
            Fold {
                cases: noted.iter().filter(|n| n.fold == fold).count(),
                held_out: of(&held_out),
                rule_base: of(&rule_base),
                independent: of(&independent),
            }
        })
        .collect();
    let effect = [
        ("independent (all 0)", &independent),
        ("rule base as it is", &rule_base),
        ("fitted, held out", &held_out),
        ("fitted on all", &on_all),
    ]
    .map(|(name, j)| (name, Measures::of(j.iter()), objective(j.iter())));
    Fit {
        families: (0..before.len())
            .map(|f| FamilyFit {
                id: expert.base.families[f].id.clone(),
                cases: counts[f],
                before: before[f],
                after: chosen[FOLDS][f],
                fitted: fitted.contains(&f),
                folds: chosen[..FOLDS].iter().map(|d| d[f]).collect(),
            })
            .collect(),
        folds,
        held_out: objective(held_out.iter()),
        effect: effect.to_vec(),
    }
}

/// Mean of the log scores of the cases that count.
fn objective<'a>(judged: impl Iterator<Item = &'a Judged>) -> Option<f64> {
    mean(judged.filter(|j| j.counts()).map(Judged::log))
}

/// FNV-1a of a collection's name, modulo the folds.
pub fn fold_of(id: &str) -> usize {
    let hash = id.bytes().fold(0xcbf2_9ce4_8422_2325_u64, |h, byte| {
        (h ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    });
    // The low bits of FNV are the weakest.
    ((hash >> 32) % FOLDS as u64) as usize
}

struct Search<'a> {
    expert: &'a Expert,
    before: &'a [f64],
    fitted: &'a [usize],
}

impl Search<'_> {
    /// δ at grid positions.
    fn deltas(&self, place: &[u8]) -> Vec<f64> {
        let value = |(&at, &before): (&u8, &f64)| {
            if at == KEPT {
                before
            } else {
                f64::from(at) / (STEPS - 1) as f64
            }
        };
        place.iter().zip(self.before).map(value).collect()
    }

    /// Coordinate ascent over the cases outside one fold.
    fn ascend(&self, noted: &mut [Noted], left_out: Option<usize>) -> Vec<u8> {
        let mut place = vec![KEPT; self.before.len()];
        self.fitted.iter().for_each(|&f| place[f] = START);
        for _ in 0..MOST_SWEEPS {
            let mut moved = false;
            for &family in self.fitted {
                let lines = ordered::map_mut(noted, |n| {
                    let trains = Some(n.fold) != left_out && n.families.contains(&family);
                    trains.then(|| self.line(n, family, &place))
                });
                // ln of the normal prior, but for a constant.
                let mut sums: [f64; STEPS] = std::array::from_fn(|at| {
                    let delta = at as f64 / (STEPS - 1) as f64;
                    -(delta - 0.5).powi(2) / (2.0 * SPREAD * SPREAD)
                });
                for line in lines.iter().flatten() {
                    sums.iter_mut().zip(line).for_each(|(sum, x)| *sum += x);
                }
                let now = usize::from(place[family]);
                let mut best = now;
                for (at, sum) in sums.iter().enumerate() {
                    // Rounding must not make it wander between equals.
                    if *sum > sums[best] + 1e-9 {
                        best = at;
                    }
                }
                moved |= best != now;
                place[family] = best as u8;
            }
            if !moved {
                break;
            }
        }
        place
    }

    /// The case's score at every δ of one family, the others as they stand.
    fn line(&self, noted: &mut Noted, family: usize, place: &[u8]) -> [f64; STEPS] {
        let key = |at: u8| -> Vec<u8> {
            let own = noted.families.iter();
            own.map(|&f| if f == family { at } else { place[f] })
                .collect()
        };
        let keys: Vec<Vec<u8>> = (0..STEPS as u8).map(key).collect();
        if !noted.scores.contains_key(&keys[0]) {
            let grid = &self.expert.engine().model.grid;
            let case = noted.weighed.case;
            let deltas = self.deltas(place);
            let rest = noted.weighed.but_for(family, &deltas);
            for (at, key) in keys.iter().enumerate() {
                let delta = at as f64 / (STEPS - 1) as f64;
                let after = noted.weighed.with(&rest, family, delta);
                let date = case
                    .datable()
                    .then(|| log_date(&after.years(grid), grid, case));
                let kind = case.kind.map(|k| log_kind(&after.kinds(grid), k));
                let score = date.unwrap_or(0.0) + kind.unwrap_or(0.0);
                noted.scores.insert(key.clone(), score);
            }
        }
        let mut line = [0.0; STEPS];
        for (x, key) in line.iter_mut().zip(&keys) {
            *x = noted.scores.get(key).copied().unwrap_or(0.0);
        }
        line
    }
}
