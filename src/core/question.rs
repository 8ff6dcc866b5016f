//! Which look tells most per second.
//!
//! I(X; A) = Σ_{x,a} p(x, a) · log2( p(x, a) / (p(x) · p(a)) ) with x = (kind, decade), in bits.
//! A clue whose family has already been answered m times counts only with λ = (m + 1)^(−δ),
//! as its finding will; λ ≤ 1 keeps 0 ≤ information ≤ H(A). The years of a dated clue are read
//! in bins of five, and only as often as there is a year to read, which can only lose information, never invent it.

use super::grid::{ClueId, Grid};
use super::likelihood::{Answers, Table};
use super::model::{ClueModel, Gate, Model, Station};
use super::observation::{Evidence, Observed, Sure};
use super::posterior::Posterior;

/// Seconds to turn the piece over, take out the loupe, hold it to the light
/// (common practice, no source).
const MOVE_SECONDS: f64 = 6.0;

/// Bin width for years read at dated clues.
const READ_BIN: usize = 5;

/// Cells below this probability are passed over: all of them together weigh less than 1e-12 bits.
const NEGLIGIBLE: f64 = 1e-18;

/// One possible next look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    pub clue: ClueId,
    /// Expected information about (kind, decade).
    pub bits: f64,
    /// Seconds the look takes, change of station included.
    pub seconds: f64,
}

impl Look {
    /// What the ranking goes by.
    pub fn bits_per_second(&self) -> f64 {
        self.bits / self.seconds
    }
}

/// Why no more looks are worth it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum StopReason {
    /// Every clue that can be asked has been.
    AllAsked,
    /// The best look left is worth fewer bits than asked for.
    LittleLeft { best: f64, least: f64 },
}

/// All clues that can still be asked, the most bits per second first (lower id on a tie). Mute
/// clues tell nothing of kind or year and are left out.
///
/// `at` is the station the piece is held at now.
pub fn rank(
    model: &Model,
    posterior: &Posterior,
    evidence: &Evidence,
    at: Option<Station>,
) -> Vec<Look> {
    let mut looks: Vec<Look> = model
        .clue_ids()
        .filter(|&id| evidence.of(id).is_none() && model.gate(id, evidence) == Gate::Open)
        .filter(|&id| !model.clue(id).is_mute())
        .map(|id| {
            let clue = model.clue(id);
            Look {
                clue: id,
                bits: clue.present
                    * information(&model.grid, &clue.table, posterior)
                    * model.damping(clue.family, answered_kin(model, clue, evidence) + 1),
                seconds: seconds(clue, at),
            }
        })
        .collect();
    looks.sort_by(|a, b| {
        b.bits_per_second()
            .total_cmp(&a.bits_per_second())
            .then(a.clue.cmp(&b.clue))
    });
    looks
}

/// Why to stop, if the best of the looks is worth less than `least` bits.
pub fn stop(looks: &[Look], least: f64) -> Option<StopReason> {
    let best = looks.iter().map(|l| l.bits).fold(0.0, f64::max);
    if looks.is_empty() {
        Some(StopReason::AllAsked)
    } else if best < least {
        Some(StopReason::LittleLeft { best, least })
    } else {
        None
    }
}

/// Seconds a look takes, with the move from the station the piece is held at.
pub fn seconds(clue: &ClueModel, at: Option<Station>) -> f64 {
    let moved = at.is_some_and(|s| s != clue.station);
    clue.seconds + if moved { MOVE_SECONDS } else { 0.0 }
}

fn answered_kin(model: &Model, clue: &ClueModel, evidence: &Evidence) -> usize {
    if clue.family.is_none() {
        return 0;
    }
    evidence
        .observations()
        .iter()
        .filter(|e| e.seen != Observed::CantTell && model.clue(e.clue).family == clue.family)
        .count()
}

/// Mutual information between a clue's answer and (kind, decade), in bits, undamped.
pub fn information(grid: &Grid, table: &Table, posterior: &Posterior) -> f64 {
    let joint = match table.answers() {
        Answers::Listed { n, share } => listed_joint(grid, table, posterior, *n, share),
        Answers::Dated { .. } => dated_joint(grid, table, posterior),
    };
    mutual_bits(&joint.p, joint.answers)
}

/// p(x, a) at `x · answers + a`.
struct Joint {
    p: Vec<f64>,
    answers: usize,
}

fn listed_joint(
    grid: &Grid,
    table: &Table,
    posterior: &Posterior,
    n: usize,
    share: &[f64],
) -> Joint {
    let error = table.error(Sure::Sure);
    let floor = error / n as f64;
    let (years, decades) = (grid.years(), grid.decades());
    let mut p = vec![0.0; grid.kinds() * decades * n];
    let mut weights = vec![0.0; years];
    for group in table.groups() {
        weights.fill(0.0);
        for &pair in &group.pairs {
            for (sum, q) in weights
                .iter_mut()
                .zip(&posterior.cells()[grid.cells_of(pair)])
            {
                *sum += q;
            }
        }
        let (kind, row) = (usize::from(group.kind.0), group.row);
        for (offset, &weight) in weights.iter().enumerate() {
            if weight < NEGLIGIBLE {
                continue;
            }
            let to = (kind * decades + grid.decade(offset)) * n;
            let from = (row * years + offset) * n;
            for (sum, s) in p[to..to + n].iter_mut().zip(&share[from..from + n]) {
                *sum += weight * s;
            }
        }
    }
    // (1 − ε) · Σ p · share + ε / n · Σ p: the shares of one cell sum to 1.
    for cell in p.chunks_mut(n) {
        let total: f64 = cell.iter().sum();
        cell.iter_mut()
            .for_each(|x| *x = (1.0 - error) * *x + floor * total);
    }
    Joint { p, answers: n }
}

fn dated_joint(grid: &Grid, table: &Table, posterior: &Posterior) -> Joint {
    let (years, decades) = (grid.years(), grid.decades());
    let bins = years.div_ceil(READ_BIN);
    // P(bin | year made); the rest of the kernel's mass falls outside the grid's years.
    let mut given = vec![0.0; years * bins];
    for read in 0..years {
        let seen = Observed::Year(grid.year(read));
        if let Some(row) = table.likelihood(&seen, Sure::Sure) {
            for (offset, chance) in row.iter().enumerate() {
                given[offset * bins + read / READ_BIN] += chance;
            }
        }
    }
    for row in given.chunks_mut(bins) {
        let total: f64 = row.iter().sum();
        row.iter_mut().for_each(|x| *x /= total);
    }
    let mut p = vec![0.0; grid.kinds() * decades * bins];
    for (pair, (kind, _)) in grid.pairs().iter().enumerate() {
        for (offset, q) in posterior.cells()[grid.cells_of(pair)].iter().enumerate() {
            let to = (usize::from(kind.0) * decades + grid.decade(offset)) * bins;
            let row = &given[offset * bins..(offset + 1) * bins];
            for (sum, g) in p[to..to + bins].iter_mut().zip(row) {
                *sum += q * g;
            }
        }
    }
    Joint { p, answers: bins }
}

fn mutual_bits(joint: &[f64], answers: usize) -> f64 {
    let mut by_answer = vec![0.0; answers];
    for row in joint.chunks(answers) {
        for (sum, p) in by_answer.iter_mut().zip(row) {
            *sum += p;
        }
    }
    // Σ p(x,a) log p(x,a) − Σ p(x) log p(x) − Σ p(a) log p(a), as no sum is taken twice.
    let plogp = |p: f64| if p > 0.0 { p * p.log2() } else { 0.0 };
    let mut bits = -by_answer.iter().copied().map(plogp).sum::<f64>();
    for row in joint.chunks(answers) {
        let x: f64 = row.iter().sum();
        if x > 0.0 {
            bits += row.iter().copied().map(plogp).sum::<f64>() - plogp(x);
        }
    }
    bits.max(0.0)
}
