//! p(x, a): what is known now, and every answer that a look may have, x = (kind, decade).
//!
//! The table p(x, a) itself is not kept, only what is asked of it: its sums by kind and by span of years,
//! and Σ p log2 p. Kinds and decades that have no probability are passed over, and what all looks have in
//! common is summed once.

use std::borrow::Cow;
use std::ops::Range;

use super::grid::{Grid, KindId};
use super::observation::Sure;
use super::posterior::Posterior;
use super::read_bins::ReadBins;
use super::scaling::{dot, sum};
use super::surprisal::sum_p_log2_p;
use super::table::{Answers, Group, Moving, Table};

/// Cells below this probability are passed over: all of them together weigh less than 1e-12 bits.
const NEGLIGIBLE: f64 = 1e-18;

/// Years of a whole decade.
const DECADE: usize = 10;

/// What is known now, summed as looks need it.
pub struct Present<'p> {
    grid: &'p Grid,
    cells: &'p [f64],
    /// P(kind, year) at `kind · years + year`.
    of_kind: Vec<f64>,
    /// Pairs of each kind.
    pairs_of_kind: Vec<usize>,
    /// P(pair, decade) at `pair · decades + decade`.
    of_pair: Vec<f64>,
    /// P(kind, decade) at `kind · decades + decade`.
    by_decade: Vec<f64>,
    /// The decades between the first and the last that a kind has any probability in, from the beginning
    /// of a span on.
    alive: Vec<Range<usize>>,
    p_log2_p: f64,
    span_decades: usize,
}

impl<'p> Present<'p> {
    /// `span_decades`: decades in one of the spans that ages are told apart by.
    pub(super) fn new(
        grid: &'p Grid,
        posterior: &'p Posterior,
        span_decades: usize,
    ) -> Present<'p> {
        let (years, decades) = (grid.years(), grid.decades());
        let cells = posterior.cells();
        let mut pairs_of = vec![Vec::new(); grid.kinds()];
        for (pair, (KindId(kind), _)) in grid.pairs().iter().enumerate() {
            pairs_of[usize::from(*kind)].push(pair);
        }
        let in_decades = |of_pair: &[f64]| -> Vec<f64> {
            let decades = grid.decade_years().iter();
            decades
                .map(|years| of_pair[years.clone()].iter().sum())
                .collect()
        };
        let of_pair: Vec<f64> = cells.chunks(years).flat_map(in_decades).collect();
        let summed = |table: &[f64], width| -> Vec<f64> {
            let of_kind = pairs_of
                .iter()
                .map(|pairs| rows_summed(table, width, pairs));
            of_kind.flatten().collect()
        };
        let by_decade = summed(&of_pair, decades);
        let from_a_span =
            |alive: Range<usize>| alive.start / span_decades * span_decades..alive.end;
        let alive = by_decade
            .chunks(decades)
            .map(alive)
            .map(from_a_span)
            .collect();
        Present {
            p_log2_p: sum_p_log2_p(&by_decade),
            grid,
            of_kind: summed(cells, years),
            pairs_of_kind: pairs_of.iter().map(Vec::len).collect(),
            cells,
            of_pair,
            by_decade,
            alive,
            span_decades,
        }
    }

    /// Σ_x p(x) log2 p(x).
    pub(super) fn p_log2_p(&self) -> f64 {
        self.p_log2_p
    }

    /// The probability of the pairs of a group.
    fn summed(&self, group: &Group) -> Summed<'_> {
        let (years, decades) = (self.grid.years(), self.grid.decades());
        let kind = usize::from(group.kind.0);
        match group.pairs.as_slice() {
            all if all.len() == self.pairs_of_kind[kind] => Summed {
                years: Cow::Borrowed(&self.of_kind[kind * years..][..years]),
                decades: Cow::Borrowed(&self.by_decade[kind * decades..][..decades]),
            },
            [one] => Summed {
                years: Cow::Borrowed(&self.cells[self.grid.cells_of(*one)]),
                decades: Cow::Borrowed(&self.of_pair[one * decades..][..decades]),
            },
            some => Summed {
                years: Cow::Owned(rows_summed(self.cells, years, some)),
                decades: Cow::Owned(rows_summed(&self.of_pair, decades, some)),
            },
        }
    }
}

/// Probability of some pairs of a kind, by year and by decade.
struct Summed<'s> {
    years: Cow<'s, [f64]>,
    decades: Cow<'s, [f64]>,
}

/// Some rows of a table added up.
fn rows_summed(table: &[f64], width: usize, rows: &[usize]) -> Vec<f64> {
    let mut out = vec![0.0; width];
    for row in rows {
        let row = &table[row * width..][..width];
        out.iter_mut().zip(row).for_each(|(sum, p)| *sum += p);
    }
    out
}

/// From the first to the last decade that is not negligible.
fn alive(p: &[f64]) -> Range<usize> {
    let from = p.iter().position(|x| *x >= NEGLIGIBLE).unwrap_or(0);
    let to = p.iter().rposition(|x| *x >= NEGLIGIBLE);
    from..to.map_or(from, |i| i + 1)
}

/// What is asked of p(x, a).
pub(super) struct Joint {
    pub answers: usize,
    /// p(kind, a) at `kind · answers + a`.
    pub by_kind: Vec<f64>,
    /// p(span, a) at `span · answers + a`.
    pub by_span: Vec<f64>,
    /// Σ p(x, a) log2 p(x, a).
    pub p_log2_p: f64,
}

impl Joint {
    /// Of every answer that a clue can have.
    pub(super) fn new(present: &Present, table: &Table) -> Joint {
        match (table.answers(), table.read_bins()) {
            (Answers::Dated { .. }, Some(bins)) => Joint::of_years_read(present, bins),
            _ => Joint::of_findings(present, table),
        }
    }

    fn empty(present: &Present, answers: usize) -> Joint {
        let spans = present.grid.decades().div_ceil(present.span_decades);
        Joint {
            answers,
            by_kind: vec![0.0; present.grid.kinds() * answers],
            by_span: vec![0.0; spans * answers],
            p_log2_p: 0.0,
        }
    }

    fn of_findings(present: &Present, table: &Table) -> Joint {
        let (grid, n) = (present.grid, table.breadth());
        let decades = grid.decades();
        let mut out = Joint::empty(present, n);
        let moving = table.moving(grid);
        let error = table.error(Sure::Sure);
        let floor = error / n as f64;
        // Of one kind Σ p · share, at `finding · decades + decade`.
        let mut p = vec![0.0; n * decades];
        for groups in table.groups().chunk_by(|a, b| a.kind == b.kind) {
            let kind = usize::from(groups[0].kind.0);
            let alive = present.alive[kind].clone();
            p.fill(0.0);
            for group in groups {
                let weights = present.summed(group);
                for (finding, sums) in p.chunks_mut(decades).enumerate() {
                    let moving = &moving[group.row * n + finding];
                    let shares = table.shares(group.row, finding);
                    add_by_decade(grid, alive.clone(), &weights, (shares, moving), sums);
                }
            }
            let of_kind = &present.by_decade[kind * decades..][..decades][alive.clone()];
            let first_span = alive.start / present.span_decades;
            for (finding, row) in p.chunks_mut(decades).enumerate() {
                let row = &mut row[alive.clone()];
                // (1 − ε) · Σ p · share + ε / n · Σ p: the shares of one cell sum to 1.
                for (x, sum) in row.iter_mut().zip(of_kind) {
                    *x = (1.0 - error) * *x + floor * sum;
                }
                let sums = out.by_span[first_span * n + finding..].iter_mut();
                for (sum, span) in sums.step_by(n).zip(row.chunks(present.span_decades)) {
                    *sum += span.iter().sum::<f64>();
                }
                out.by_kind[kind * n + finding] = sum(row);
                out.p_log2_p += sum_p_log2_p(row);
            }
        }
        out
    }

    /// A year is read alike whatever the kind and place.
    fn of_years_read(present: &Present, read: &ReadBins) -> Joint {
        let (grid, bins) = (present.grid, read.widths.len());
        let (years, decades) = (grid.years(), grid.decades());
        let mut out = Joint::empty(present, bins);
        let mut row = vec![0.0; bins];
        for decade in 0..decades {
            let made = grid.decade_years()[decade].clone();
            let banded = read.bins_of(made.clone());
            let outside: Vec<f64> = (0..bins)
                .filter(|bin| !banded.contains(bin))
                .map(|bin| read.widths[bin])
                .collect();
            for (kind, _) in present
                .alive
                .iter()
                .enumerate()
                .filter(|(_, a)| a.contains(&decade))
            {
                let weights = &present.of_kind[kind * years..][..years];
                let mut level = 0.0;
                row.fill(0.0);
                for (year, weight) in made.clone().zip(&weights[made.clone()]) {
                    level += weight * read.level[year];
                    let (from, band) = &read.band[year];
                    for (sum, chance) in row[*from..].iter_mut().zip(band) {
                        *sum += weight * chance;
                    }
                }
                for (p, width) in row.iter_mut().zip(&read.widths) {
                    *p += level * width;
                }
                let span = &mut out.by_span[decade / present.span_decades * bins..][..bins];
                span.iter_mut().zip(&row).for_each(|(sum, p)| *sum += p);
                let of_kind = &mut out.by_kind[kind * bins..][..bins];
                of_kind.iter_mut().zip(&row).for_each(|(sum, p)| *sum += p);
                // Outside the band most bins are as wide, and as likely, as each other.
                out.p_log2_p += sum_p_log2_p(&row[banded.clone()]) + alike(level, &outside);
            }
        }
        out
    }
}

/// Σ p log2 p of bins of these widths with a probability of `level` for each year.
fn alike(level: f64, widths: &[f64]) -> f64 {
    let whole = widths.first().copied().unwrap_or(0.0);
    let same = widths.iter().filter(|w| **w == whole).count() as f64;
    let others = widths.iter().filter(|w| **w != whole);
    let other: f64 = others.map(|w| sum_p_log2_p(&[level * w])).sum();
    same * sum_p_log2_p(&[level * whole]) + other
}

/// Adds weight times share of the years of each of these decades to that decade's sum.
fn add_by_decade(
    grid: &Grid,
    alive: Range<usize>,
    weights: &Summed,
    (shares, moving): (&[f64], &Moving),
    sums: &mut [f64],
) {
    let mut still = |decades: Range<usize>, share: f64| {
        if share > 0.0 && !decades.is_empty() {
            let sums = sums[decades.clone()].iter_mut();
            sums.zip(&weights.decades[decades])
                .for_each(|(sum, w)| *sum += share * w);
        }
    };
    let from = moving.decades.start.clamp(alive.start, alive.end);
    let to = moving.decades.end.clamp(from, alive.end);
    still(alive.start..from, moving.before);
    still(to..alive.end, moving.after);
    let years = grid.decade_years();
    let mut partly = |decade: usize| {
        let years = years[decade].clone();
        sums[decade] += dot(&weights.years[years.clone()], &shares[years]);
    };
    // Only the first and the last decade of the axis can have fewer than ten years.
    let whole = |decade: &usize| years[*decade].len() == DECADE;
    let first = (from..to).find(whole).unwrap_or(to);
    let end = (first..to).rfind(whole).map_or(first, |last| last + 1);
    (from..first).for_each(&mut partly);
    (end..to).for_each(&mut partly);
    if first < end {
        let (w, _) = weights.years[years[first].start..].as_chunks::<DECADE>();
        let (s, _) = shares[years[first].start..].as_chunks::<DECADE>();
        for (sum, (w, s)) in sums[first..end].iter_mut().zip(w.iter().zip(s)) {
            *sum += dot_of_a_decade(w, s);
        }
    }
}

/// Σ w · s in two lanes, which is what every processor has.
fn dot_of_a_decade(w: &[f64; DECADE], s: &[f64; DECADE]) -> f64 {
    let mut lanes = [0.0; 2];
    for pair in 0..DECADE / 2 {
        lanes[0] += w[2 * pair] * s[2 * pair];
        lanes[1] += w[2 * pair + 1] * s[2 * pair + 1];
    }
    lanes[0] + lanes[1]
}
