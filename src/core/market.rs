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

/// For one set of traits looked at: what was summed over all the others.
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
    /// Share of the market in cells commoner than those of a step, by step.
    commoner: Vec<f64>,
    /// By the set of traits looked at (all but the whole set), bit `i` for trait `i`; worked out when
    /// first asked for.
    averages: Vec<OnceLock<Averages>>,
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
        let mut market = Market {
            base,
            traits,
            commoner: Vec::new(),
            averages: vec![OnceLock::new(); sets],
        };
        let mut of_step = vec![0.0; STEPS];
        market.each_cell(|p, _, _| of_step[step(p)] += p);
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

    /// Share of the market commoner than a cell of this probability.
    fn commoner_than(&self, p: f64) -> f64 {
        self.commoner[step(p)]
    }

    /// Of the pieces of one kind and age (`kind · ages + age`) with these findings (`None`: not looked
    /// at): how many of that kind and age they are, 0..=1, and the share of the whole market that is
    /// commoner, averaged over what was not looked at.
    pub fn of(&self, kind_age: usize, seen: &[Option<usize>]) -> (f64, f64) {
        let all: Option<Vec<usize>> = seen.iter().copied().collect();
        if let Some(chosen) = all {
            // One cell; a table of all of them would be the whole market.
            let of = |i: usize| self.row(&self.traits[i], kind_age, &chosen)[chosen[i]];
            let met: f64 = (0..chosen.len()).map(of).product();
            return (met, self.commoner_than(self.base[kind_age] * met));
        }
        let set = set_of(seen);
        let averages = self.averages[set].get_or_init(|| self.averages(set));
        let at = self.index(set, kind_age, &|i| seen[i].unwrap_or(0));
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
        self.walk(kind_age, 0, 1.0, &mut chosen, &mut |p, chosen| {
            all[step(p)] += p;
            let mut looked_at = chosen.iter().zip(seen);
            if looked_at.all(|(c, s)| s.is_none_or(|s| s == *c)) {
                own[step(p)] += p;
            }
        });
        let met: f64 = own.iter().sum();
        let sum: f64 = own
            .iter()
            .zip(above(&all))
            .map(|(p, above)| p * above)
            .sum();
        if met > 0.0 { sum / met } else { 1.0 }
    }

    fn averages(&self, set: usize) -> Averages {
        let looked_at = self.traits.iter().enumerate();
        let findings = looked_at.filter(|(i, _)| set >> i & 1 == 1);
        let cells = findings.fold(self.base.len(), |n, (_, t)| n * t.findings());
        let (mut met, mut commoner) = (vec![0.0; cells], vec![0.0; cells]);
        self.each_cell(|p, kind_age, chosen| {
            let at = self.index(set, kind_age, &|i| chosen[i]);
            let share = p / self.base[kind_age];
            met[at] += share;
            commoner[at] += share * self.commoner_than(p);
        });
        Averages { met, commoner }
    }

    fn index(&self, set: usize, kind_age: usize, chosen: &dyn Fn(usize) -> usize) -> usize {
        let looked_at = self.traits.iter().enumerate();
        looked_at
            .filter(|(i, _)| set >> i & 1 == 1)
            .fold(kind_age, |at, (i, t)| at * t.findings() + chosen(i))
    }

    /// P(cell), kind and age, and the finding of each trait, of every cell that is met.
    fn each_cell(&self, mut what: impl FnMut(f64, usize, &[usize])) {
        let mut chosen = vec![0; self.traits.len()];
        for (kind_age, p) in self.base.iter().enumerate().filter(|(_, p)| **p > 0.0) {
            self.walk(kind_age, 0, *p, &mut chosen, &mut |p, chosen| {
                what(p, kind_age, chosen);
            });
        }
    }

    fn walk(
        &self,
        kind_age: usize,
        at: usize,
        p: f64,
        chosen: &mut Vec<usize>,
        what: &mut dyn FnMut(f64, &[usize]),
    ) {
        let Some(next) = self.traits.get(at) else {
            return what(p, chosen);
        };
        for (finding, share) in self.row(next, kind_age, chosen).iter().enumerate() {
            if *share > 0.0 {
                chosen[at] = finding;
                self.walk(kind_age, at + 1, p * share, chosen, what);
            }
        }
    }

    /// How often each finding of a trait is met at this kind and age, after the earlier traits.
    fn row<'t>(&self, of: &'t Trait, kind_age: usize, chosen: &[usize]) -> &'t [f64] {
        match of.given {
            Some(given) => &of.by[kind_age * self.traits[given].findings() + chosen[given]],
            None => &of.by[kind_age],
        }
    }
}

/// The step that a probability falls into; the commonest first. Halves and quarters lie well within
/// a step, not at its edge, where the last bit would choose between two.
fn step(p: f64) -> usize {
    let bits = (-p.log2()).clamp(0.0, MOST_BITS);
    (bits * STEPS_OF_A_BIT + WITHIN) as usize
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
    use super::step;

    #[test]
    fn no_power_of_a_half_lies_at_the_edge_of_a_step() {
        for bits in 0..59 {
            let p = 0.5f64.powi(bits);
            let (up, down) = (p * (1.0 + 1e-12), p * (1.0 - 1e-12));
            assert_eq!(
                (step(up.min(1.0)), step(down)),
                (step(p), step(p)),
                "{bits}"
            );
            assert_eq!(step(p), 32 * bits as usize);
        }
        assert!(step(0.5) < step(0.48));
    }
}
