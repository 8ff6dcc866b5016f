//! How a claim stands, and the nearest one that does.
//!
//! A claim is as good as its best part. Its parts are the smallest things worth claiming, a generation
//! of years and a kind: one kind in one generation, one generation whatever the kind, one kind
//! whenever it was made. Each part is held against the best of its own make. So whatever else a claim
//! allows can only help it: a wider claim never stands worse than one inside it.
//!
//! * share = P(part | findings) / P(best part | findings), the greatest within the claim;
//! * support = P(findings | part) / P(findings | best part), the greatest within the claim: the Bayes
//!   factor, from which the odds beforehand have been taken out.
//!
//! Years are held against a wrong ticket too. Whoever dates a piece wrongly is a generation or a few out,
//! so a wrong ticket that says these years belongs to a piece made 30 to 90 years earlier or later:
//!
//! * odds = P(generation | findings) / mean P(generation moved by 30 to 90 years | findings): the odds of a
//!   right ticket to a wrong one, when as many are wrong as right.
//!
//! A kind in a generation stands no better than its generation does.
//!
//! How far below the best a claim may be is a matter of convention; the limits are those of the scale
//! that also words the weight of findings (ENFSI guideline for evaluative reporting, 2015).

use super::region::Region;
use crate::core::grid::{Grid, KindId, Year};
use crate::core::posterior::Posterior;

/// How a claim stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ClaimAnswer {
    Supported,
    Possible,
    HardToSupport,
    RuledOut,
}

/// Years in a generation: what is seen on a piece dates it no closer (common practice, no source). A
/// year is judged by the generation around it.
pub const GENERATION: usize = 20;

/// Supported: the best of the same make is less than twice as probable, which ENFSI words as no
/// support for either; or the claim has half of all the probability.
pub const SUPPORTED: f64 = 1.0 / 2.0;

/// Hard to support below this: the best of the same make is more than a step of the ladder of frequency
/// as probable again, 5 decibans or the square root of ten, the middle of what ENFSI calls weak support.
pub const POSSIBLE: f64 = 0.316_227_766;

/// Years a wrong date is off, either way (common practice, no source; no file of wrong tickets is known to
/// count them in).
pub const APART: (usize, usize) = (30, 90);

/// Years are hard to support below this share of the best generation: ten times is where ENFSI begins to
/// speak of moderate support. The comparison with a wrong ticket does the rest.
pub const DATES_POSSIBLE: f64 = 1.0 / 10.0;

/// Years are hard to support when the odds of a right ticket to a wrong one are less than this: a little
/// under 1, so that a toss-up still may be. Once chosen on `tests/data/museum.csv` so that nine in ten
/// of its own dates stand, and not chosen again since.
pub const RIVALS: f64 = 0.8;

/// Ruled out: the best of the same make is a hundred times as probable, and the findings themselves
/// support it a hundred times better, where ENFSI begins to speak of moderately strong support.
/// Weaker support never rules out a claim, however rare the thing claimed.
pub const RULED_OUT: f64 = 1.0 / 100.0;

/// A guess contradicts itself when what it takes for granted supports another ten times better:
/// moderate support (ENFSI). In decibans.
pub const AGAINST: f64 = -10.0;

/// Why dates are hard to support, whatever the kind.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AgainstDates {
    /// A wrong ticket is likelier than a right one.
    WrongTicket,
    /// Other dates are far likelier.
    OtherDates,
}

/// The claim nearest to the guess that stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    pub kind: KindId,
    /// False when the guess names no kind: then any kind counts.
    pub of_kind: bool,
    pub from: Year,
    pub to: Year,
    pub p: f64,
}

/// The probability of every part a claim can have.
struct Parts {
    /// Of the generation around each year, by kind.
    both: Vec<Vec<f64>>,
    /// The same of all kinds together.
    generations: Vec<f64>,
    /// What the generation around each year has on average when it is moved by `APART`.
    elsewhere: Vec<f64>,
    kinds: Vec<f64>,
}

/// One part: a kind and the offset of a year; `None` = any.
type Part = (Option<usize>, Option<usize>);

impl Parts {
    fn new(grid: &Grid, cells: &[f64]) -> Parts {
        let mut by_kind = vec![vec![0.0; grid.years()]; grid.kinds()];
        for (pair, (kind, _)) in grid.pairs().iter().enumerate() {
            let sums = by_kind[usize::from(kind.0)].iter_mut();
            sums.zip(&cells[grid.cells_of(pair)])
                .for_each(|(sum, p)| *sum += p);
        }
        let mut years = vec![0.0; grid.years()];
        for kind in &by_kind {
            years.iter_mut().zip(kind).for_each(|(sum, p)| *sum += p);
        }
        let generation = generations(&years);
        Parts {
            both: by_kind.iter().map(|kind| generations(kind)).collect(),
            elsewhere: elsewhere(&generation),
            generations: generation,
            kinds: by_kind.iter().map(|kind| kind.iter().sum()).collect(),
        }
    }

    fn of(&self, part: Part) -> f64 {
        match part {
            (Some(kind), Some(year)) => self.both[kind][year],
            (Some(kind), None) => self.kinds[kind],
            (None, Some(year)) => self.generations[year],
            (None, None) => 1.0,
        }
    }

    /// The best of the make of a part; the earlier of equals.
    fn best_of_make(&self, part: Part) -> Part {
        let kinds = || (0..self.kinds.len()).map(Some);
        let years = || (0..self.generations.len()).map(Some);
        let all: Vec<Part> = match part {
            (Some(_), Some(_)) => kinds().flat_map(|k| years().map(move |y| (k, y))).collect(),
            (Some(_), None) => kinds().map(|k| (k, None)).collect(),
            (None, Some(_)) => years().map(|y| (None, y)).collect(),
            (None, None) => vec![(None, None)],
        };
        all.into_iter().fold(part, |best, other| {
            if self.of(other) > self.of(best) {
                other
            } else {
                best
            }
        })
    }
}

/// The makes a part can have, one part of each.
const MAKES: [Part; 4] = [
    (Some(0), Some(0)),
    (Some(0), None),
    (None, Some(0)),
    (None, None),
];

/// All parts with what is best of each make, before and after the findings.
struct Scale {
    before: Parts,
    after: Parts,
    best: [Part; 4],
}

impl Scale {
    fn new(grid: &Grid, prior: &[f64], after: &Posterior) -> Scale {
        let (before, after) = (Parts::new(grid, prior), Parts::new(grid, after.cells()));
        Scale {
            best: MAKES.map(|make| after.best_of_make(make)),
            before,
            after,
        }
    }

    fn best(&self, part: Part) -> Part {
        let make =
            |m: &Part| (m.0.is_some(), m.1.is_some()) == (part.0.is_some(), part.1.is_some());
        let at = MAKES.iter().position(make).unwrap_or(0);
        self.best[at]
    }

    fn share(&self, part: Part) -> f64 {
        self.after.of(part) / self.after.of(self.best(part)).max(f64::MIN_POSITIVE)
    }

    /// How well the findings support a part, against the best of its make. Of a kind that was never
    /// made in those years, how well they support the kind and how well the years, the lesser.
    fn support(&self, part: Part) -> f64 {
        let before = |part: Part| self.before.of(part);
        match part {
            (Some(_), Some(_)) if before(part) <= 0.0 => {
                let kind = self.support((part.0, None));
                kind.min(self.support((None, part.1)))
            }
            _ if before(part) <= 0.0 => 1.0,
            _ => {
                let best = self.best(part);
                let odds_before = before(part) / before(best).max(f64::MIN_POSITIVE);
                self.share(part) / odds_before.max(f64::MIN_POSITIVE)
            }
        }
    }

    /// How a part stands by its share of the best alone.
    fn by_share(&self, part: Part) -> ClaimAnswer {
        let least = match part {
            (None, Some(_)) => DATES_POSSIBLE,
            _ => POSSIBLE,
        };
        match self.share(part) {
            s if s >= SUPPORTED => ClaimAnswer::Supported,
            s if s >= least => ClaimAnswer::Possible,
            _ => ClaimAnswer::HardToSupport,
        }
    }

    /// What speaks against a generation, whatever the kind.
    fn against_dates(&self, year: usize) -> Option<AgainstDates> {
        if self.after.generations[year] < RIVALS * self.after.elsewhere[year] {
            return Some(AgainstDates::WrongTicket);
        }
        let hard = self.by_share((None, Some(year))) == ClaimAnswer::HardToSupport;
        hard.then_some(AgainstDates::OtherDates)
    }

    /// How a part stands, as far as probabilities go.
    fn answer(&self, part: Part) -> ClaimAnswer {
        let by_share = self.by_share(part);
        match part.1 {
            Some(year) if self.against_dates(year).is_some() => ClaimAnswer::HardToSupport,
            Some(year) => by_share.max(self.by_share((None, Some(year)))),
            None => by_share,
        }
    }

    /// Why a part is hard to support though its share would let it stand.
    fn despite_share(&self, part: Part) -> Option<AgainstDates> {
        let stands = self.by_share(part) < ClaimAnswer::HardToSupport;
        part.1
            .filter(|_| stands)
            .and_then(|year| self.against_dates(year))
    }

    /// The parts within a claim.
    fn parts(grid: &Grid, claim: &Region) -> Vec<Part> {
        let years = claim.offsets(grid);
        let kinds = || (0..grid.kinds()).filter(|k| claim.has(KindId(*k as u8)));
        let of_kinds = kinds().flat_map(|k| years.clone().map(move |y| (Some(k), Some(y))));
        let mut parts: Vec<Part> = of_kinds.collect();
        let every_kind = kinds().count() == grid.kinds();
        let every_year = years.len() == grid.years();
        if every_kind {
            parts.extend(years.clone().map(|y| (None, Some(y))));
        }
        if every_year {
            parts.extend(kinds().map(|k| (Some(k), None)));
        }
        if every_kind && every_year {
            parts.push((None, None));
        }
        parts
    }
}

/// Chance of the generation around each year; at either end of the grid the last whole one.
fn generations(years: &[f64]) -> Vec<f64> {
    let width = GENERATION.min(years.len());
    let runs: Vec<f64> = years.windows(width).map(|w| w.iter().sum()).collect();
    (0..years.len())
        .map(|year| runs[year.saturating_sub(width / 2).min(runs.len() - 1)])
        .collect()
}

/// Mean of the generations `APART` from each, either way; there is none beyond the grid.
fn elsewhere(generations: &[f64]) -> Vec<f64> {
    let at = |year: Option<usize>| {
        year.and_then(|y| generations.get(y))
            .copied()
            .unwrap_or(0.0)
    };
    let count = 2 * (APART.1 - APART.0 + 1);
    (0..generations.len())
        .map(|year| {
            let moved = |by| at(year.checked_sub(by)) + at(Some(year + by));
            (APART.0..=APART.1).map(moved).sum::<f64>() / count as f64
        })
        .collect()
}

/// The numbers an answer is read from.
pub struct ClaimOdds {
    pub p: f64,
    pub share: f64,
    /// 10·log10 of the support, in decibans: what the findings say of the best part of the claim,
    /// against the best there is.
    pub weight: f64,
    /// How its best part stands, unless it is ruled out.
    best_part: ClaimAnswer,
    /// Why the likeliest part whose share would let it stand is hard to support all the same.
    pub despite_share: Option<AgainstDates>,
}

impl ClaimOdds {
    pub fn new(grid: &Grid, prior: &[f64], after: &Posterior, claim: &Region) -> ClaimOdds {
        ClaimOdds::of(&Scale::new(grid, prior, after), grid, after, claim)
    }

    fn of(scale: &Scale, grid: &Grid, after: &Posterior, claim: &Region) -> ClaimOdds {
        let mut odds = ClaimOdds {
            p: claim.sides(grid, after.cells()).0,
            share: 0.0,
            weight: 0.0,
            best_part: ClaimAnswer::HardToSupport,
            despite_share: None,
        };
        let mut support: f64 = 0.0;
        let mut held_back: f64 = 0.0;
        for part in Scale::parts(grid, claim) {
            let share = scale.share(part);
            odds.best_part = odds.best_part.min(scale.answer(part));
            odds.share = odds.share.max(share);
            support = support.max(scale.support(part));
            let reason = scale.despite_share(part).filter(|_| share > held_back);
            if reason.is_some() {
                (odds.despite_share, held_back) = (reason, share);
            }
        }
        odds.weight = 10.0 * support.max(f64::MIN_POSITIVE).log10();
        odds
    }

    /// With no finding that speaks there is nothing for or against.
    pub fn answer(&self, findings: usize) -> ClaimAnswer {
        let ruled_out = 10.0 * RULED_OUT.log10();
        if findings == 0 {
            ClaimAnswer::Possible
        } else if self.p >= SUPPORTED {
            ClaimAnswer::Supported
        } else if self.share < RULED_OUT && self.weight <= ruled_out {
            ClaimAnswer::RuledOut
        } else {
            self.best_part
        }
    }
}

/// Greatest sum of any `width` years in a row.
fn best_run(p: &[f64], width: usize) -> f64 {
    p.windows(width.clamp(1, p.len()))
        .map(|w| w.iter().sum::<f64>())
        .fold(0.0, f64::max)
}

/// The claim itself if it is supported, else as many years, a generation at least, moved as little as
/// need be until they are: of the kinds named if those can stand at all, else of the leading kind, and
/// within the years `possible`.
pub fn nearest(
    grid: &Grid,
    prior: &[f64],
    after: &Posterior,
    claim: &Region,
    answer: ClaimAnswer,
    possible: (Year, Year),
) -> Nearest {
    let all_years = claim.from == grid.first() && claim.to == grid.last();
    let likeliest = |kinds: &[KindId]| {
        let p = after.kinds(grid);
        let all: Vec<KindId> = (0..grid.kinds() as u8).map(KindId).collect();
        let among = if kinds.is_empty() { &all } else { kinds };
        among.iter().copied().fold(among[0], |best, k| {
            if p[usize::from(k.0)] > p[usize::from(best.0)] {
                k
            } else {
                best
            }
        })
    };
    let named = !claim.kinds.is_empty();
    if answer == ClaimAnswer::Supported {
        return Nearest {
            kind: likeliest(&claim.kinds),
            of_kind: named,
            from: claim.from,
            to: claim.to,
            p: claim.sides(grid, after.cells()).0,
        };
    }
    let (first, last) = (grid.offset(possible.0), grid.offset(possible.1));
    let (first, last) = (first.unwrap_or(0), last.unwrap_or(grid.years() - 1));
    let room = last.saturating_sub(first) + 1;
    let width = if all_years {
        GENERATION
    } else {
        claim.offsets(grid).len()
    };
    let width = width.max(GENERATION).min(room);
    let starts = first..=last + 1 - width;
    let scale = Scale::new(grid, prior, after);
    let wanted = grid.offset(claim.from).unwrap_or(0);
    // The best any kind (or all of them, when none is named) does with so many years.
    let of =
        |kinds: &[KindId]| after.years_where(grid, |k, _| kinds.is_empty() || kinds.contains(&k));
    let leader = after.leading(grid).0;
    let best_of_leader = best_run(&of(&[leader]), width);
    // Of several kinds named the likeliest is put forward, unless the leading kind leaves it no room;
    // last the kind that is likeliest in any one generation.
    let likely = likeliest(&claim.kinds);
    let in_one = scale.best((Some(0), Some(0))).0.unwrap_or(0);
    let candidates: Vec<Vec<KindId>> = match named {
        false => vec![Vec::new()],
        // Failing all of these, years without a kind.
        true => vec![
            vec![likely],
            vec![leader],
            vec![KindId(in_one as u8)],
            Vec::new(),
        ],
    };
    let mut found = None;
    for kinds in candidates {
        let years = of(&kinds);
        let of_kind = !kinds.is_empty();
        let least = if of_kind { best_of_leader } else { 0.0 };
        let goal = SUPPORTED * best_run(&years, width).max(least);
        let runs: Vec<f64> = years.windows(width).map(|w| w.iter().sum()).collect();
        let stands = |start: &usize| {
            let there = Region {
                kinds: kinds.clone(),
                from: grid.year(*start),
                to: grid.year(*start + width - 1),
            };
            runs[*start] >= goal * (1.0 - 1e-9)
                && ClaimOdds::of(&scale, grid, after, &there).answer(1) == ClaimAnswer::Supported
        };
        let most = |a: &usize, b: &usize| runs[*a].total_cmp(&runs[*b]).then(b.cmp(a));
        let standing = starts.clone().filter(stands);
        let start = match all_years {
            true => standing.max_by(most),
            false => standing.min_by_key(|i| (i.abs_diff(wanted), *i)),
        };
        let put_forward = |start: usize| Nearest {
            kind: likeliest(&kinds),
            of_kind,
            from: grid.year(start),
            to: grid.year(start + width - 1),
            p: runs[start],
        };
        if let Some(start) = start {
            return put_forward(start);
        }
        found = starts.clone().max_by(most).map(put_forward);
    }
    found.unwrap_or(Nearest {
        kind: likely,
        of_kind: named,
        from: claim.from,
        to: claim.to,
        p: claim.sides(grid, after.cells()).0,
    })
}

#[cfg(test)]
mod tests {
    use super::{APART, GENERATION, elsewhere, generations};

    #[test]
    fn a_generation_lies_around_its_year_and_within_the_grid() {
        let years: Vec<f64> = (0..60).map(f64::from).collect();
        let around = generations(&years);
        let sum = |from: usize| years[from..from + GENERATION].iter().sum::<f64>();
        assert_eq!(around[30], sum(30 - GENERATION / 2));
        assert_eq!(around[11], sum(11 - GENERATION / 2));
        assert_eq!(around[3], sum(0));
        assert_eq!(around[59], sum(60 - GENERATION));
    }

    #[test]
    fn elsewhere_is_a_mean_over_all_years_a_date_may_be_off() {
        let level = elsewhere(&[1.0; 400]);
        assert!((level[200] - 1.0).abs() < 1e-12);
        // At the beginning there is nothing on one side.
        assert!((level[0] - 0.5).abs() < 1e-12);
        let mut one = vec![0.0; 400];
        one[200 + APART.0] = 1.0;
        let count = 2 * (APART.1 - APART.0) + 2;
        assert!((elsewhere(&one)[200] - 1.0 / count as f64).abs() < 1e-12);
        assert_eq!(elsewhere(&one)[200 + APART.0], 0.0);
    }
}
