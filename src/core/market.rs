//! The market: how many pieces of each kind, age and look turn up, cell by cell.
//!
//! P(cell) = P(kind, age) · Π P(finding of a trait | kind, age, finding of an earlier trait). Age is a
//! class of twenty-five years. Every cell is gone through, once to find how much of the market is
//! commoner than any probability, and once for each set of traits that somebody looks at, to average
//! over the traits not looked at: so scores of pieces described more and less fully can be compared.

use std::sync::OnceLock;

use super::grid::Grid;

/// Years of one age class (common practice, no source).
pub const AGE_YEARS: usize = 25;

/// Steps a bit is cut into: cells whose probabilities differ by less than about two in a hundred
/// count as equally common (common practice, no source).
const STEPS_OF_A_BIT: f64 = 32.0;

/// Bits beyond which nothing is told apart any more: one piece in 2^60 is none (common practice, no
/// source).
const MOST_BITS: f64 = 60.0;

const STEPS: usize = (STEPS_OF_A_BIT * MOST_BITS) as usize + 1;

/// How far within a step the powers of one half lie, as a part of it (common practice, no source).
const WITHIN: f64 = 1e-6;

/// One trait of a piece: how often each of its findings is met.
#[derive(Clone, Debug)]
pub struct Trait {
    /// Index of the earlier trait that this one depends on.
    pub given: Option<usize>,
    /// `by[(kind · ages + age) · givens + finding of the given trait][finding]`, each row summing to
    /// 1 or 0; `givens` is 1 without one.
    pub by: Vec<Vec<f64>>,
}

impl Trait {
    /// Number of findings.
    pub fn findings(&self) -> usize {
        self.by.first().map_or(0, Vec::len)
    }
}

/// For one set of traits looked at and one kind and age: what was summed over all the others, by the
/// findings of those traits, the last one's cycling fastest.
#[derive(Clone, Debug)]
struct Averages {
    /// P(findings looked at | kind, age).
    met: Vec<f64>,
    /// The same, times the share of the market that is commoner.
    commoner: Vec<f64>,
}

/// The market as one place has it.
#[derive(Debug)]
pub struct Market {
    /// P(kind, age) at `kind · ages + age`.
    base: Vec<f64>,
    traits: Vec<Trait>,
    /// −log2 of every figure in `traits`, in the same layout.
    bits: Vec<Vec<Vec<f64>>>,
    /// Share of the market in cells commoner than those of a step, by step.
    commoner: Vec<f64>,
    /// By the set of traits looked at (all but the whole set), bit `i` for trait `i`, and by kind and age;
    /// worked out when first asked for, as a piece may be of few kinds and ages.
    averages: Vec<OnceLock<Vec<OnceLock<Averages>>>>,
}

/// A cell, or all cells with the findings chosen so far.
#[derive(Clone, Copy)]
struct Cell {
    p: f64,
    /// −log2 of it, summed factor by factor: a logarithm for every cell would take most of the time.
    bits: f64,
    /// Where the traits looked at put it in a table of averages.
    index: usize,
}

/// Number of age classes.
pub fn ages(grid: &Grid) -> usize {
    grid.years().div_ceil(AGE_YEARS)
}

/// P(kind, age class) at `kind · ages + age`.
pub fn kind_ages(grid: &Grid, cells: &[f64]) -> Vec<f64> {
    let ages = ages(grid);
    let mut out = vec![0.0; grid.kinds() * ages];
    for (pair, (kind, _)) in grid.pairs().iter().enumerate() {
        let years = cells[grid.cells_of(pair)].chunks(AGE_YEARS);
        let kind = &mut out[usize::from(kind.0) * ages..];
        for (sum, years) in kind.iter_mut().zip(years) {
            *sum += years.iter().sum::<f64>();
        }
    }
    out
}

impl Market {
    /// `cells` is what turns up, kind by place by year, summing to 1.
    pub fn new(grid: &Grid, cells: &[f64], traits: Vec<Trait>) -> Market {
        let base = kind_ages(grid, cells);
        let sets = 1 << traits.len();
        let of_row = |row: &Vec<f64>| row.iter().map(|p| bits(*p)).collect();
        let mut market = Market {
            base,
            bits: traits
                .iter()
                .map(|t| t.by.iter().map(of_row).collect())
                .collect(),
            traits,
            commoner: Vec::new(),
            averages: vec![OnceLock::new(); sets],
        };
        let mut of_step = vec![0.0; STEPS];
        for kind_age in 0..market.base.len() {
            market.each_cell(0, kind_age, |cell| of_step[step(cell.bits)] += cell.p);
        }
        market.commoner = above(&of_step);
        market
    }

    /// P(kind, age) at `kind · ages + age`.
    pub fn base(&self) -> &[f64] {
        &self.base
    }

    /// The traits, in order.
    pub fn traits(&self) -> &[Trait] {
        &self.traits
    }

    /// Share of the market commoner than a cell of so many bits.
    fn commoner_than(&self, bits: f64) -> f64 {
        self.commoner[step(bits)]
    }

    /// Of the pieces of one kind and age (`kind · ages + age`) with these findings (`None`: not looked
    /// at): how many of that kind and age they are, 0..=1, and the share of the whole market that is
    /// commoner, averaged over what was not looked at.
    pub fn of(&self, kind_age: usize, seen: &[Option<usize>]) -> (f64, f64) {
        let all: Option<Vec<usize>> = seen.iter().copied().collect();
        if let Some(chosen) = all {
            // One cell; a table of all of them would be the whole market.
            let (mut met, mut all_bits) = (1.0, bits(self.base[kind_age]));
            for (i, finding) in chosen.iter().enumerate() {
                let row = self.row(i, kind_age, &chosen);
                met *= self.traits[i].by[row][*finding];
                all_bits += self.bits[i][row][*finding];
            }
            return (met, self.commoner_than(all_bits));
        }
        let set = set_of(seen);
        let of_set = || self.base.iter().map(|_| OnceLock::new()).collect();
        let averages = &self.averages[set].get_or_init(of_set)[kind_age];
        let averages = averages.get_or_init(|| self.averages(set, kind_age));
        // The index that `walk` gives such cells.
        let seen = seen.iter().zip(&self.traits);
        let seen = seen.filter_map(|(s, t)| s.map(|s| (s, t.findings())));
        let at = seen.fold(0, |at, (s, findings)| at * findings + s);
        let met = averages.met[at];
        match met > 0.0 {
            true => (met, averages.commoner[at] / met),
            false => (0.0, 1.0),
        }
    }

    /// Of the pieces of one kind and age the share that is commoner than those with these findings,
    /// averaged over what was not looked at. Goes through all cells of that kind and age.
    pub fn commoner_within(&self, kind_age: usize, seen: &[Option<usize>]) -> f64 {
        let (mut all, mut own) = (vec![0.0; STEPS], vec![0.0; STEPS]);
        let mut chosen = vec![0; self.traits.len()];
        let whole = Cell {
            p: 1.0,
            bits: 0.0,
            index: 0,
        };
        let mut each = |cell: Cell, chosen: &[usize]| {
            let step = step(cell.bits);
            all[step] += cell.p;
            let mut looked_at = chosen.iter().zip(seen);
            if looked_at.all(|(c, s)| s.is_none_or(|s| s == *c)) {
                own[step] += cell.p;
            }
        };
        self.walk(kind_age, 0, 0, whole, &mut chosen, &mut each);
        let met: f64 = own.iter().sum();
        let sum: f64 = own
            .iter()
            .zip(above(&all))
            .map(|(p, above)| p * above)
            .sum();
        if met > 0.0 { sum / met } else { 1.0 }
    }

    fn averages(&self, set: usize, kind_age: usize) -> Averages {
        let looked_at = self.traits.iter().enumerate();
        let findings = looked_at.filter(|(i, _)| set >> i & 1 == 1);
        let cells = findings.fold(1, |n, (_, t)| n * t.findings());
        let (mut met, mut commoner) = (vec![0.0; cells], vec![0.0; cells]);
        let p = self.base[kind_age];
        self.each_cell(set, kind_age, |cell| {
            let share = cell.p / p;
            met[cell.index] += share;
            commoner[cell.index] += share * self.commoner_than(cell.bits);
        });
        Averages { met, commoner }
    }

    /// Every cell of a kind and age that is met; its index is by the traits of `set`.
    fn each_cell(&self, set: usize, kind_age: usize, mut what: impl FnMut(Cell)) {
        let p = self.base[kind_age];
        if p > 0.0 {
            let all = Cell {
                p,
                bits: bits(p),
                index: 0,
            };
            let mut chosen = vec![0; self.traits.len()];
            self.walk(
                kind_age,
                set,
                0,
                all,
                &mut chosen,
                &mut |cell, _: &[usize]| what(cell),
            );
        }
    }

    fn walk(
        &self,
        kind_age: usize,
        set: usize,
        at: usize,
        above: Cell,
        chosen: &mut [usize],
        what: &mut impl FnMut(Cell, &[usize]),
    ) {
        if at == self.traits.len() {
            return what(above, chosen);
        }
        let row = self.row(at, kind_age, chosen);
        let shares = &self.traits[at].by[row];
        let looked_at = set >> at & 1 == 1;
        for (finding, (share, bits)) in shares.iter().zip(&self.bits[at][row]).enumerate() {
            if *share > 0.0 {
                chosen[at] = finding;
                let index = match looked_at {
                    true => above.index * shares.len() + finding,
                    false => above.index,
                };
                let cell = Cell {
                    p: above.p * share,
                    bits: above.bits + bits,
                    index,
                };
                match at + 1 == self.traits.len() {
                    true => what(cell, chosen),
                    false => self.walk(kind_age, set, at + 1, cell, chosen, what),
                }
            }
        }
    }

    /// Which row of a trait tells how often each finding is met at this kind and age, after the earlier
    /// traits.
    fn row(&self, of: usize, kind_age: usize, chosen: &[usize]) -> usize {
        match self.traits[of].given {
            Some(given) => kind_age * self.traits[given].findings() + chosen[given],
            None => kind_age,
        }
    }
}

/// −log2 of a probability.
fn bits(p: f64) -> f64 {
    -p.log2()
}

/// The step that so many bits fall into; the commonest first. Halves and quarters lie well within a
/// step, not at its edge, where the last bit would choose between two.
fn step(bits: f64) -> usize {
    (bits.clamp(0.0, MOST_BITS) * STEPS_OF_A_BIT + WITHIN) as usize
}

/// The sum of all steps before each.
fn above(of_step: &[f64]) -> Vec<f64> {
    let mut sum = 0.0;
    let each = of_step.iter().map(|p| {
        sum += p;
        sum - p
    });
    each.collect()
}

/// Bit `i` for each trait looked at.
fn set_of(seen: &[Option<usize>]) -> usize {
    let bits = seen.iter().enumerate();
    bits.map(|(i, s)| usize::from(s.is_some()) << i).sum()
}

#[cfg(test)]
mod tests {
    use super::{bits, step};

    #[test]
    fn no_power_of_a_half_lies_at_the_edge_of_a_step() {
        for power in 0..59 {
            let p = 0.5f64.powi(power);
            let step = |p: f64| step(bits(p));
            let (up, down) = (p * (1.0 + 1e-12), p * (1.0 - 1e-12));
            assert_eq!(
                (step(up.min(1.0)), step(down)),
                (step(p), step(p)),
                "{power}"
            );
            assert_eq!(step(p), 32 * power as usize);
        }
        assert!(step(bits(0.5)) < step(bits(0.48)));
    }
}
