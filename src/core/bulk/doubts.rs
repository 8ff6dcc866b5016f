//! Findings at odds with all the others.
//!
//! With finding i left out a cell has prior × likelihoods × P_i^(−λ) × Π_kin P_j^(λ′ − λ), where λ is the
//! damping of its family of m and λ′ that of m − 1. The finding is expected with
//!
//! p = Σ cell · P_i^(−λ) · P_i · Π P_j^(λ′ − λ) / Σ cell · P_i^(−λ) · Π P_j^(λ′ − λ),
//!
//! and at odds only when p is below `AT_ODDS`. Put the least factor of each class of age above and the
//! greatest below, and p can't be less: nearly all findings are settled so, from sums that are there already.

use std::sync::Arc;

use super::{Ground, Scratch};
use crate::core::at_odds::{AT_ODDS, odd};
use crate::core::grid::ClueId;
use crate::core::kept_powers::{LANES, Power};
use crate::core::left_out::{among, expected};
use crate::core::market::ages;
use crate::core::model::Gate;
use crate::core::observation::{Evidence, Observation, Observed, Sure};
use crate::core::posterior::{FindingLikelihood, in_family, posterior};
use crate::core::product::Factor;
use crate::core::scaling::{scale_to_one, sum};
use crate::core::table::Table;

/// Room left for rounding where a bound in f32 is held against the limit.
const ROUNDING: f64 = 1e-3;

/// One finding left out.
struct Left<'l> {
    observation: &'l Observation,
    table: &'l Table,
    /// P_i^λ.
    own: &'l Power,
    /// The others of its family, whose damping changes: P_j^(λ′ − λ).
    kin: Vec<(&'l Table, Arc<Power>)>,
}

impl Ground<'_> {
    /// Clues whose finding is at odds, in the order given.
    pub(super) fn unlikely(
        &self,
        evidence: &Evidence,
        likelihoods: &[FindingLikelihood],
        factors: &[Factor],
        scratch: &mut Scratch,
    ) -> Vec<ClueId> {
        let given = evidence.observations().iter();
        given
            .filter_map(|o| {
                let i = likelihoods
                    .iter()
                    .position(|l| l.observation.clue == o.clue)?;
                if self.shuts(o.clue, evidence) {
                    return self.odd_at_length(o, evidence).then_some(o.clue);
                }
                let left = self.left(i, likelihoods, &factors[i]);
                let settled = self.least(&left, scratch) > AT_ODDS * (1.0 + ROUNDING);
                (!settled && self.odd(&left, scratch)).then_some(o.clue)
            })
            .collect()
    }

    /// True when an answer lies behind a shut gate that hangs on this clue: it may speak again as soon as
    /// this finding is left out.
    fn shuts(&self, clue: ClueId, evidence: &Evidence) -> bool {
        let mut others = evidence.observations().iter();
        others.any(|o| {
            let gate = &self.model.clue(o.clue).gate;
            gate.iter().any(|clause| clause.clue == clue)
                && self.model.gate(o.clue, evidence) == Gate::Closed
        })
    }

    /// By the road that one piece by itself takes.
    fn odd_at_length(&self, o: &Observation, evidence: &Evidence) -> bool {
        let mut fewer = evidence.clone();
        fewer.forget(o.clue);
        let rest = posterior(self.model, self.prior, &fewer);
        let expected = expected(self.model, &rest, o);
        let table = &self.model.clue(o.clue).table;
        odd(table, o.sure, expected, || self.alone(o))
    }

    fn left<'l>(
        &self,
        i: usize,
        likelihoods: &'l [FindingLikelihood],
        factor: &'l Factor,
    ) -> Left<'l> {
        let family = likelihoods[i].family();
        let m = in_family(likelihoods, family);
        let (now, then) = (
            self.model.damping(family, m),
            self.model.damping(family, m - 1),
        );
        let changes = family.is_some() && now.total_cmp(&then).is_ne();
        let others = likelihoods.iter().enumerate();
        let kin = others.filter(|(j, l)| changes && *j != i && l.family() == family);
        let power = |l: &'l FindingLikelihood| {
            let o = &l.observation;
            (l.table(), l.table().power(&o.seen, o.sure, then - now))
        };
        Left {
            observation: &likelihoods[i].observation,
            table: likelihoods[i].table(),
            own: factor.power(),
            kin: kin.map(|(_, l)| power(l)).collect(),
        }
    }

    /// p can't be less than this.
    fn least(&self, left: &Left, scratch: &Scratch) -> f64 {
        if let Observed::Year(year) = left.observation.seen
            && self.model.grid.offset(year).is_none()
        {
            return 0.0; // expected as seldom as a misreading, whatever the kernel says
        }
        let width = ages(&self.model.grid).div_ceil(LANES);
        let own = left.own.extremes();
        let kin = left
            .kin
            .iter()
            .map(|(table, power)| (table, power.extremes()));
        let kin: Vec<_> = kin.collect();
        let (mut above, mut below) = ([0.0; LANES], [0.0; LANES]);
        for (pair, shares) in self.pairs.iter().zip(scratch.shares.chunks_exact(width)) {
            let from = left.table.row(*pair) * width;
            let gain = &own.gain_low[from..from + width];
            let inverse = &own.inverse_low[from..from + width];
            for (at, (share, (gain, inverse))) in
                shares.iter().zip(gain.iter().zip(inverse)).enumerate()
            {
                let (mut least, mut most) = (*gain, *inverse);
                for (table, power) in &kin {
                    let row = table.row(*pair) * width + at;
                    let (low, high) = (&power.low[row], &power.high[row]);
                    for i in 0..LANES {
                        least[i] *= low[i];
                        most[i] *= high[i];
                    }
                }
                for i in 0..LANES {
                    above[i] += share[i] * least[i];
                    below[i] += share[i] * most[i];
                }
            }
        }
        let total = |lanes: [f32; LANES]| lanes.iter().map(|x| f64::from(*x)).sum::<f64>();
        total(above) / total(below)
    }

    /// Exactly.
    fn odd(&self, left: &Left, scratch: &mut Scratch) -> bool {
        let grid = &self.model.grid;
        let years = grid.years();
        let weights = &mut scratch.products;
        weights.clear();
        weights.resize(left.table.rows() * years, 0.0);
        let cells = scratch.cells.chunks_exact(years);
        for ((pair, alive), cells) in self.pairs.iter().zip(&self.alive).zip(cells) {
            let from = left.table.row(*pair) * years;
            let sums = &mut weights[from + alive.start..from + alive.end];
            let cells = &cells[alive.clone()];
            let kin = |at: usize| {
                let (table, power) = &left.kin[at];
                &power.rows[table.row(*pair) * years..][alive.clone()]
            };
            add(sums, cells, left.kin.len(), kin);
        }
        let own = &left.own.rows;
        weights.iter_mut().zip(own).for_each(|(w, own)| *w /= own);
        scale_to_one(weights);
        let o = left.observation;
        if let Some(p) = self.chance(left, weights)
            && p > AT_ODDS * (1.0 + ROUNDING)
        {
            return false;
        }
        let chances = left.table.predictive_by_row(weights, o.sure);
        let expected = among(left.table, grid, &chances, o);
        odd(left.table, o.sure, expected, || self.alone(o))
    }

    /// P(finding) when rows and years have these probabilities; `None` of other answers.
    fn chance(&self, left: &Left, weights: &[f64]) -> Option<f64> {
        let o = left.observation;
        o.seen.finding()?;
        let plain = left.table.power(&o.seen, o.sure, 1.0);
        let both = weights.iter().zip(&plain.rows);
        let each: Vec<f64> = both.map(|(w, p)| w * p).collect();
        Some(sum(&each))
    }

    /// P(finding) with nothing else seen.
    fn alone(&self, o: &Observation) -> f64 {
        let (grid, table) = (&self.model.grid, &self.model.clue(o.clue).table);
        let chances = self.alone[usize::from(o.clue.0)]
            .get_or_init(|| table.predictive(grid, self.prior.cells(), Sure::Sure));
        // Kept as seen for sure; of another sureness only the error differs.
        let (kept, wanted) = (table.error(Sure::Sure), table.error(o.sure));
        let n = table.breadth() as f64;
        let of = |p: &f64| (1.0 - wanted) * (p - kept / n) / (1.0 - kept) + wanted / n;
        let chances: Vec<f64> = chances.iter().map(of).collect();
        among(table, grid, &chances, o).0
    }
}

/// Adds cells × all kin to sums.
fn add<'r>(sums: &mut [f64], cells: &[f64], kin: usize, of: impl Fn(usize) -> &'r [f64]) {
    match kin {
        0 => sums.iter_mut().zip(cells).for_each(|(s, p)| *s += p),
        1 => {
            let rest = cells.iter().zip(of(0));
            sums.iter_mut()
                .zip(rest)
                .for_each(|(s, (p, a))| *s += p * a);
        }
        _ => {
            let mut product: Vec<f64> = cells.iter().zip(of(0)).map(|(p, a)| p * a).collect();
            for at in 1..kin {
                product.iter_mut().zip(of(at)).for_each(|(x, a)| *x *= a);
            }
            sums.iter_mut().zip(&product).for_each(|(s, p)| *s += p);
        }
    }
}
