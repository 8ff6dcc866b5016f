//! What each finding of a clue would make of the posterior, where only groups of kinds and spans of years
//! are told apart: a look is gone over once, not once a finding.
//!
//! P(h | evidence, f) ∝ P(h | evidence) · P(f | h)^λ · Π_kin P(g | h)^(λ − λ₀), with λ the damping of the family
//! after the look and λ₀ before it.

use super::grid::{ClueId, FindingId};
use super::model::Model;
use super::observation::{Observation, Observed, Sure};
use super::posterior::{Inference, Posterior, in_family};
use super::scaling::{dot, scale_to_one};

/// Cells that are counted together: by kind, and by year offset.
#[derive(Clone, Copy, Debug)]
pub struct Bins<'b> {
    pub group_of_kind: &'b [usize],
    pub groups: usize,
    pub span_of_year: &'b [usize],
    pub spans: usize,
}

impl Bins<'_> {
    /// Probability of each group and span, at `group · spans + span`.
    pub fn of(&self, model: &Model, cells: &[f64]) -> Vec<f64> {
        let grid = &model.grid;
        let mut out = vec![0.0; self.groups * self.spans];
        for (pair, (kind, _)) in grid.pairs().iter().enumerate() {
            let group = self.group_of_kind[usize::from(kind.0)] * self.spans;
            for (p, span) in cells[grid.cells_of(pair)].iter().zip(self.span_of_year) {
                out[group + span] += p;
            }
        }
        out
    }
}

/// A look at a listed clue that has not been answered, weighed beforehand.
pub struct Foreseen<'f> {
    known: &'f Inference<'f>,
    clue: ClueId,
    sure: Sure,
    bins: Bins<'f>,
    power: f64,
    /// P(h | evidence) · Π_kin, summed over the places and kinds of a group that the clue can't tell apart: row,
    /// group and years of each.
    sums: Vec<(usize, usize, Vec<f64>)>,
}

impl<'f> Foreseen<'f> {
    /// The look will be made as surely as this.
    pub fn new(
        known: &'f Inference<'f>,
        (clue, sure): (ClueId, Sure),
        bins: Bins<'f>,
    ) -> Foreseen<'f> {
        let (model, now) = (known.model(), known.posterior());
        let grid = &model.grid;
        let of = model.clue(clue);
        let said = known.likelihoods();
        let m = match of.family {
            Some(_) => in_family(said, of.family),
            None => 0,
        };
        let (before, after) = (model.damping(of.family, m), model.damping(of.family, m + 1));
        let kin = said.iter().filter(|l| m > 0 && l.family() == of.family);
        let kin: Vec<_> = kin
            .map(|l| {
                let o = &l.observation;
                (l.table(), l.table().power(&o.seen, o.sure, after - before))
            })
            .collect();
        let mut sums: Vec<(usize, usize, Vec<f64>)> = Vec::new();
        let mut changed = vec![0.0; grid.years()];
        for (pair, (kind, _)) in grid.pairs().iter().enumerate() {
            let (row, group) = (of.table.row(pair), bins.group_of_kind[usize::from(kind.0)]);
            changed.copy_from_slice(&now.cells()[grid.cells_of(pair)]);
            for (table, power) in &kin {
                let of_pair = &power.rows[table.row(pair) * grid.years()..];
                changed.iter_mut().zip(of_pair).for_each(|(x, k)| *x *= k);
            }
            match sums.iter_mut().find(|s| (s.0, s.1) == (row, group)) {
                Some((_, _, sum)) => sum.iter_mut().zip(&changed).for_each(|(s, p)| *s += p),
                None => sums.push((row, group, changed.clone())),
            }
        }
        Foreseen {
            known,
            clue,
            sure,
            bins,
            power: after,
            sums,
        }
    }

    /// Probability of each group and span if this were found, at `group · spans + span`.
    pub fn after(&self, finding: FindingId) -> Vec<f64> {
        if self.silences(finding) {
            let then = self.weighed_anew(finding);
            return self.bins.of(self.known.model(), then.cells());
        }
        let mut out = vec![0.0; self.bins.groups * self.bins.spans];
        self.each_run(finding, |group, sums, likelihoods| {
            let out = &mut out[group * self.bins.spans..(group + 1) * self.bins.spans];
            for ((p, likelihood), span) in sums.iter().zip(likelihoods).zip(self.bins.span_of_year)
            {
                out[*span] += p * likelihood;
            }
        });
        scale_to_one(&mut out);
        out
    }

    /// Probability of each group, and of each year, if this were found.
    pub fn marginals(&self, finding: FindingId) -> (Vec<f64>, Vec<f64>) {
        let grid = &self.known.model().grid;
        if self.silences(finding) {
            let then = self.weighed_anew(finding);
            let mut groups = vec![0.0; self.bins.groups];
            for (kind, p) in then.kinds(grid).into_iter().enumerate() {
                groups[self.bins.group_of_kind[kind]] += p;
            }
            return (groups, then.years(grid));
        }
        let (mut groups, mut years) = (vec![0.0; self.bins.groups], vec![0.0; grid.years()]);
        self.each_run(finding, |group, sums, likelihoods| {
            groups[group] += dot(sums, likelihoods);
            let each = years.iter_mut().zip(sums.iter().zip(likelihoods));
            each.for_each(|(year, (p, likelihood))| *year += p * likelihood);
        });
        scale_to_one(&mut groups);
        scale_to_one(&mut years);
        (groups, years)
    }

    /// Every run of years that the clue tells apart: its group, its probabilities, and how likely this
    /// finding is in each year.
    fn each_run(&self, finding: FindingId, mut what: impl FnMut(usize, &[f64], &[f64])) {
        let model = self.known.model();
        let years = model.grid.years();
        let table = &model.clue(self.clue).table;
        let power = table.power(&Observed::Finding(finding), self.sure, self.power);
        for (row, group, sums) in &self.sums {
            what(*group, sums, &power.rows[row * years..(row + 1) * years]);
        }
    }

    /// The posterior with this finding among the evidence.
    fn weighed_anew(&self, finding: FindingId) -> Posterior {
        let mut evidence = self.known.evidence().clone();
        evidence.add(Observation::finding(self.clue, finding).sure(self.sure));
        self.known.given(&evidence).into_posterior()
    }

    /// True when this finding shuts the gate of something that was seen: then that no longer speaks.
    fn silences(&self, finding: FindingId) -> bool {
        let found = Observation::finding(self.clue, finding);
        let mut said = self.known.evidence().observations().iter();
        said.any(|o| {
            let gate = &self.known.model().clue(o.clue).gate;
            gate.iter().any(|clause| clause.shut_by(&found))
        })
    }
}
