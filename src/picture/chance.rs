//! Chance from a seed: the same seed gives the same picture on every machine.

use crate::core::seeded::{Seeded, mixed, share_of};

/// Numbers that look random, in the distributions that drawing takes.
#[derive(Clone, Debug)]
pub(super) struct Chance(Seeded);

impl Chance {
    /// Begins from a seed and from words, so that every finding has chances of its own.
    pub(super) fn new(seed: u64, words: &[&str]) -> Chance {
        // FNV-1a over the words (Fowler, Noll and Vo; constants from memory).
        let mut hash = 0xcbf2_9ce4_8422_2325_u64;
        for byte in words.iter().flat_map(|w| w.bytes().chain([0])) {
            hash = (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        }
        // An odd number near 2^64 over the golden ratio parts neighbouring seeds.
        let mut chance = Chance(Seeded::new(hash ^ seed.wrapping_mul(0x9e37_79b9_7f4a_7c15)));
        chance.next();
        chance
    }

    pub(super) fn next(&mut self) -> u64 {
        self.0.number()
    }

    /// Evenly from 0 to 1.
    pub(super) fn unit(&mut self) -> f64 {
        self.0.share()
    }

    pub(super) fn between(&mut self, from: f64, to: f64) -> f64 {
        from + (to - from) * self.unit()
    }

    /// Normal around 0: twelve even numbers summed are near enough to draw with.
    pub(super) fn normal(&mut self, deviation: f64) -> f64 {
        let sum: f64 = (0..12).map(|_| self.unit()).sum();
        (sum - 6.0) * deviation
    }

    /// A whole number below `n`.
    pub(super) fn below(&mut self, n: usize) -> usize {
        self.0.below(n)
    }

    pub(super) fn happens(&mut self, probability: f64) -> bool {
        self.unit() < probability
    }
}

/// Noise over a plane, the same wherever it is asked for again.
#[derive(Clone, Copy, Debug)]
pub(super) struct Noise {
    seed: u64,
    /// Size of its grains in mm.
    cell: f64,
}

impl Noise {
    pub(super) fn new(chance: &mut Chance, cell: f64) -> Noise {
        Noise {
            seed: chance.next(),
            cell,
        }
    }

    fn corner(&self, i: i64, j: i64, salt: u64) -> f64 {
        let at = (i as u64).wrapping_mul(0x9e37_79b9) ^ (j as u64).wrapping_mul(0x85eb_ca77_c2b2);
        share_of(mixed(self.seed ^ at ^ salt))
    }

    /// Between −1 and 1, smooth over a cell.
    pub(super) fn at(&self, x: f64, y: f64) -> f64 {
        let (x, y) = (x / self.cell, y / self.cell);
        let (i, j) = (x.floor(), y.floor());
        let smooth = |t: f64| t * t * (3.0 - 2.0 * t);
        let (u, v) = (smooth(x - i), smooth(y - j));
        let (i, j) = (i as i64, j as i64);
        let c = |di, dj| self.corner(i + di, j + dj, 0);
        let above = c(0, 0) + (c(1, 0) - c(0, 0)) * u;
        let below = c(0, 1) + (c(1, 1) - c(0, 1)) * u;
        2.0 * (above + (below - above) * v) - 1.0
    }

    /// Distance to the nearest of points strewn one a cell, in cells (Worley, "A cellular texture
    /// basis function", 1996).
    pub(super) fn nearest(&self, x: f64, y: f64) -> f64 {
        let (x, y) = (x / self.cell, y / self.cell);
        let (i, j) = (x.floor() as i64, y.floor() as i64);
        let mut least = f64::MAX;
        for (di, dj) in (-1..=1).flat_map(|a| (-1..=1).map(move |b| (a, b))) {
            let (ci, cj) = (i + di, j + dj);
            let px = ci as f64 + self.corner(ci, cj, 1);
            let py = cj as f64 + self.corner(ci, cj, 2);
            least = least.min((px - x).hypot(py - y));
        }
        least
    }
}
