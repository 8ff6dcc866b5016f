//! Which look to make next, and when enough is seen.
//!
//! What a picker decides on is the kind, and about when. A look's worth is the expected gain in the
//! quadratic score (Brier 1950, from memory) of the kind, and `AGE_WORTH` of that of the span of
//! `SPAN_DECADES` the piece was made in:
//!
//!   Σ_{a,x} p(x, a)² / p(a) − Σ_x p(x)²,  x = kind, or span.
//!
//! Unlike bits it has little use for telling unlikely kinds apart. Looks are ranked by worth per
//! second. What a look tells of (kind, decade) is said in bits all the same:
//!
//!   I(X; A) = Σ_{x,a} p(x, a) · log2( p(x, a) / (p(x) · p(a)) ), x = (kind, decade).
//!
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

/// Part of a move that will be made again because of it: half of all moves are there and back
/// (common practice, no source). Ranking counts it; the seconds of a look don't.
const WAY_BACK: f64 = 0.5;

/// What a gain about the age counts beside one about the kind (common practice, no source). There
/// are more spans than kinds one hesitates between, so the kind comes first at even worth.
const AGE_WORTH: f64 = 1.0;

/// Decades in one of the spans that a decision about the age names: twenty years, about a generation
/// (common practice, no source).
const SPAN_DECADES: usize = 2;

/// What being right about the span counts beside being right about the kind, when it is asked
/// whether to stop (common practice, no source).
const AGE_GAIN: f64 = 0.5;

/// From these odds of the leading kind against the next one a picker acts on it: right four times in
/// five when there are two to choose from (common practice, no source).
pub const ENOUGH_ODDS: f64 = 4.0;

/// A look is worth while that is expected to make the answer right more often by 1 in 100 for every
/// seven seconds it takes, the mean of the shipped clues (common practice, no source). Of 400 drawn
/// pieces nine in ten are then done within two minutes, what somebody at a shelf has:
/// `tests/it/stopping.rs`.
pub const LEAST_GAIN: f64 = 0.01;
pub const GAIN_SECONDS: f64 = 7.0;

/// Bin width for years read at dated clues (common practice, no source).
const READ_BIN: usize = 5;

/// Cells below this probability are passed over: all of them together weigh less than 1e-12 bits.
const NEGLIGIBLE: f64 = 1e-18;

/// One possible next look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Look {
    pub clue: ClueId,
    /// Expected information about (kind, decade).
    pub bits: f64,
    /// Expected gain in the chance of naming kind and years right, see `Told::gain`.
    pub gain: f64,
    /// Seconds the look takes, change of station included.
    pub seconds: f64,
    /// What the ranking goes by: worth per second, with part of the way back.
    pub rate: f64,
}

impl Look {
    /// A look that is not ranked.
    pub fn unranked(clue: ClueId, bits: f64, seconds: f64) -> Look {
        Look {
            clue,
            bits,
            gain: 0.0,
            seconds,
            rate: 0.0,
        }
    }

    /// Information per second.
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
    /// The leading kind stands at these odds or more against the next one, and no look left is
    /// expected to make the answer right more often by `least` in `seconds`.
    Decided { odds: f64, least: f64, seconds: f64 },
    /// Nor is it then, but the leading kind is not clear: it hangs between what leads.
    Undecided { least: f64, seconds: f64 },
}

/// All clues that can still be asked, the most worth per second first (lower id on a tie). Mute
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
        .filter(|&id| !follows_cant_tell(model.clue(id), evidence))
        .filter(|&id| !model.clue(id).is_mute())
        .map(|id| {
            let clue = model.clue(id);
            let told = information(&model.grid, &clue.table, posterior);
            let counts =
                clue.present * model.damping(clue.family, answered_kin(model, clue, evidence) + 1);
            let seconds = seconds(clue, at);
            let back = WAY_BACK * move_seconds(clue, at);
            Look {
                clue: id,
                bits: counts * told.bits,
                gain: counts * told.gain,
                seconds,
                rate: counts * told.worth / (seconds + back),
            }
        })
        .collect();
    looks.sort_by(|a, b| b.rate.total_cmp(&a.rate).then(a.clue.cmp(&b.clue)));
    looks
}

/// Why to stop, if it is time to: no look is worth its time, or the best is worth less than `least`
/// bits.
///
/// A single look may change nothing although two together would: who hangs between two kinds can go
/// on, and is told so.
pub fn stop(looks: &[Look], odds: f64, least: f64) -> Option<StopReason> {
    let best = |of: fn(&Look) -> f64| looks.iter().map(of).fold(0.0, f64::max);
    let bits = best(|look| look.bits);
    if looks.is_empty() {
        Some(StopReason::AllAsked)
    } else if bits < least {
        Some(StopReason::LittleLeft { best: bits, least })
    } else if best(|look| look.gain / look.seconds) >= LEAST_GAIN / GAIN_SECONDS {
        None
    } else if odds >= ENOUGH_ODDS {
        Some(StopReason::Decided {
            odds: ENOUGH_ODDS,
            least: LEAST_GAIN,
            seconds: GAIN_SECONDS,
        })
    } else {
        Some(StopReason::Undecided {
            least: LEAST_GAIN,
            seconds: GAIN_SECONDS,
        })
    }
}

/// Odds of the leading kind against the next one; infinite when there is no other.
pub fn lead(grid: &Grid, posterior: &Posterior) -> f64 {
    let mut kinds = posterior.kinds(grid);
    kinds.sort_by(|a, b| b.total_cmp(a));
    kinds.first().unwrap_or(&0.0) / kinds.get(1).unwrap_or(&0.0)
}

/// Seconds a look takes, with the move from the station the piece is held at.
pub fn seconds(clue: &ClueModel, at: Option<Station>) -> f64 {
    clue.seconds + move_seconds(clue, at)
}

fn move_seconds(clue: &ClueModel, at: Option<Station>) -> f64 {
    match at.is_some_and(|s| s != clue.station) {
        true => MOVE_SECONDS,
        false => 0.0,
    }
}

/// True when a clue goes on from a look that could not tell: it could tell even less.
pub fn follows_cant_tell(clue: &ClueModel, evidence: &Evidence) -> bool {
    let unseen = |clue| {
        evidence
            .of(clue)
            .is_some_and(|o| o.seen == Observed::CantTell)
    };
    clue.gate.iter().any(|clause| unseen(clause.clue))
}

/// Members of the clue's family that count in the posterior: those behind a closed gate don't.
fn answered_kin(model: &Model, clue: &ClueModel, evidence: &Evidence) -> usize {
    if clue.family.is_none() {
        return 0;
    }
    evidence
        .observations()
        .iter()
        .filter(|e| model.speaks(e, evidence) && model.clue(e.clue).family == clue.family)
        .count()
}

/// What a clue's answer is expected to tell, undamped.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Told {
    /// Mutual information with (kind, decade).
    pub bits: f64,
    /// Expected gain in quadratic score, see above.
    pub worth: f64,
    /// Expected gain in the chance that the likeliest kind is the right one, and half of that for the
    /// likeliest span: Σ_a max_x p(x, a) − max_x p(x), the value of information to somebody who has
    /// to name one x (Raiffa and Schlaifer 1961, from memory).
    pub gain: f64,
}

/// What a clue's answer is expected to tell of kind and decade.
pub fn information(grid: &Grid, table: &Table, posterior: &Posterior) -> Told {
    let joint = match table.answers() {
        Answers::Listed { n, share } => listed_joint(grid, table, posterior, *n, share),
        Answers::Dated { .. } => dated_joint(grid, table, posterior),
    };
    let (decades, spans) = (grid.decades(), grid.decades().div_ceil(SPAN_DECADES));
    let by_kind = joint.sums(grid.kinds(), |row| row / decades);
    let by_span = joint.sums(spans, |row| row % decades / SPAN_DECADES);
    let both = |of: fn(&[f64], usize) -> f64, age: f64| {
        of(&by_kind, joint.answers) + age * of(&by_span, joint.answers)
    };
    Told {
        bits: mutual_bits(&joint.p, joint.answers),
        worth: both(quadratic_gain, AGE_WORTH),
        gain: both(right_gain, AGE_GAIN),
    }
}

/// p(x, a) at `x · answers + a`.
struct Joint {
    p: Vec<f64>,
    answers: usize,
}

impl Joint {
    /// p(group, a) when rows x are summed into groups.
    fn sums(&self, groups: usize, group: impl Fn(usize) -> usize) -> Vec<f64> {
        let mut out = vec![0.0; groups * self.answers];
        for (x, row) in self.p.chunks(self.answers).enumerate() {
            let to = group(x) * self.answers;
            for (sum, p) in out[to..to + self.answers].iter_mut().zip(row) {
                *sum += p;
            }
        }
        out
    }
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

/// Σ_{a,x} p(x, a)² / p(a) − Σ_x p(x)²: never below 0, by Cauchy and Schwarz.
fn quadratic_gain(joint: &[f64], answers: usize) -> f64 {
    let mut by_answer = vec![0.0; answers];
    let mut squares = vec![0.0; answers];
    let mut now = 0.0;
    for row in joint.chunks(answers) {
        now += row.iter().sum::<f64>().powi(2);
        for ((sum, square), p) in by_answer.iter_mut().zip(&mut squares).zip(row) {
            *sum += p;
            *square += p * p;
        }
    }
    let then = by_answer.iter().zip(&squares);
    let then: f64 = then.filter(|(p, _)| **p > 0.0).map(|(p, s)| s / p).sum();
    (then - now).max(0.0)
}

/// Σ_a max_x p(x, a) − max_x p(x): never below 0, as a maximum of sums is no more than the sum of
/// maxima.
fn right_gain(joint: &[f64], answers: usize) -> f64 {
    let mut best = vec![0.0f64; answers];
    let mut now = 0.0f64;
    for row in joint.chunks(answers) {
        now = now.max(row.iter().sum());
        for (best, p) in best.iter_mut().zip(row) {
            *best = best.max(*p);
        }
    }
    (best.iter().sum::<f64>() - now).max(0.0)
}
