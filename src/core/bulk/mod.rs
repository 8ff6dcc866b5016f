//! Judging many pieces one after another: what a table of them prints, and nothing else.
//!
//! The same posterior as `posterior`, and the same findings at odds as `at_odds`, with other roads to them:
//!
//! | file | what |
//! |---|---|
//! | `plan` | which rows are multiplied with which, so that no product is made twice |
//! | `tiles` | the plan carried out, fifty years at a time |
//! | `doubts` | findings at odds: bounds first, exactly only where they settle nothing |

mod doubts;
mod plan;
mod tiles;

use std::ops::Range;
use std::sync::OnceLock;

use super::at_odds::unlikely;
use super::grid::ClueId;
use super::kept_powers::{Bounds, LANES};
use super::left_out::each_left_out;
use super::market::{AGE_YEARS, ages, kind_ages};
use super::model::Model;
use super::observation::Evidence;
use super::posterior::{Prior, damped, posterior, speaking};
use super::product::UNSCALED;
use super::scaling::sum;
use plan::Plan;

/// What is printed of one piece among many.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    /// P(kind), by kind id.
    pub kinds: Vec<f64>,
    /// P(year), by year offset.
    pub years: Vec<f64>,
    /// P(kind, age class) at `kind · ages + age`.
    pub kind_ages: Vec<f64>,
    /// Clues whose finding the others make very unlikely, in the order given.
    pub unlikely: Vec<ClueId>,
}

/// A prior made ready for many pieces.
#[derive(Debug)]
pub struct Ground<'m> {
    model: &'m Model,
    prior: &'m Prior,
    /// Pairs that have any probability.
    pairs: Vec<usize>,
    /// From the first to the last year they have any.
    alive: Vec<Range<usize>>,
    /// P(answer) with nothing seen, by clue, as far as somebody asked.
    alone: Vec<OnceLock<Vec<f64>>>,
}

/// Room to work in, used again from piece to piece.
#[derive(Debug, Default)]
pub struct Scratch {
    plan: Plan,
    /// Products of the plan over one tile; afterwards what `doubts` adds up by row and year.
    products: Vec<f64>,
    needed: Vec<bool>,
    /// Prior × likelihoods of each live pair, not normalised, at `pair · years + year`.
    cells: Vec<f64>,
    /// The same summed over each age class, at `pair · ages + age`.
    mass: Vec<f64>,
    /// The same as shares of all, filled up with 0.
    shares: Bounds,
    years: Vec<f64>,
}

impl<'m> Ground<'m> {
    /// Looks over a prior once.
    pub fn new(model: &'m Model, prior: &'m Prior) -> Ground<'m> {
        let grid = &model.grid;
        let (mut pairs, mut alive) = (Vec::new(), Vec::new());
        for pair in 0..grid.pairs().len() {
            let cells = &prior.cells()[grid.cells_of(pair)];
            let any = |p: &f64| *p != 0.0;
            if let (Some(from), Some(last)) =
                (cells.iter().position(any), cells.iter().rposition(any))
            {
                pairs.push(pair);
                alive.push(from..last + 1);
            }
        }
        Ground {
            model,
            prior,
            pairs,
            alive,
            alone: model.clues.iter().map(|_| OnceLock::new()).collect(),
        }
    }

    /// The outline of one piece.
    pub fn outline(&self, evidence: &Evidence, scratch: &mut Scratch) -> Outline {
        let likelihoods = speaking(self.model, evidence);
        if likelihoods.len() > UNSCALED || self.pairs.is_empty() {
            return outline_at_length(self.model, self.prior, evidence);
        }
        let factors = damped(self.model, &likelihoods);
        scratch.plan.make(&factors, &self.pairs);
        self.multiply(&factors, scratch);
        let total = sum(&scratch.mass);
        self.share_out(total, scratch);
        let unlikely = self.unlikely(evidence, &likelihoods, &factors, scratch);
        self.summed(scratch, total, unlikely)
    }

    /// Masses as shares, for bounds.
    fn share_out(&self, total: f64, scratch: &mut Scratch) {
        scratch.shares.clear();
        for mass in scratch.mass.chunks(ages(&self.model.grid)) {
            for some in mass.chunks(LANES) {
                let mut lanes = [0.0; LANES];
                for (lane, p) in lanes.iter_mut().zip(some) {
                    *lane = (p / total) as f32;
                }
                scratch.shares.push(lanes);
            }
        }
    }

    /// The marginals.
    fn summed(&self, scratch: &Scratch, total: f64, unlikely: Vec<ClueId>) -> Outline {
        let grid = &self.model.grid;
        let ages = ages(grid);
        let mut kind_ages = vec![0.0; grid.kinds() * ages];
        for (pair, mass) in self.pairs.iter().zip(scratch.mass.chunks(ages)) {
            let kind = usize::from(grid.pairs()[*pair].0.0);
            let of_kind = &mut kind_ages[kind * ages..];
            for (sum, p) in of_kind.iter_mut().zip(mass) {
                *sum += p / total;
            }
        }
        Outline {
            kinds: kind_ages.chunks(ages).map(|k| k.iter().sum()).collect(),
            years: scratch.years.iter().map(|p| p / total).collect(),
            kind_ages,
            unlikely,
        }
    }
}

/// The same by the roads that one piece by itself takes.
pub fn outline_at_length(model: &Model, prior: &Prior, evidence: &Evidence) -> Outline {
    let grid = &model.grid;
    let after = posterior(model, prior, evidence);
    let left_out = each_left_out(model, prior, evidence);
    let odd = unlikely(model, prior, &left_out).into_iter();
    Outline {
        kinds: after.kinds(grid),
        years: after.years(grid),
        kind_ages: kind_ages(grid, after.cells()),
        unlikely: odd.map(|s| s.observation.clue).collect(),
    }
}
