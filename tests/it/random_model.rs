//! Small random rule bases for the law and oracle tests: numbers only, from a seed.

use printseam::internals::core::curve::Curve;
use printseam::internals::core::grid::{ClueId, FamilyId, FindingId, Grid, KindId, PlaceId, Year};
use printseam::internals::core::model::{Clause, ClueModel, Model, Station};
use printseam::internals::core::observation::{Evidence, Observation, Observed, Sure, Weights};
use printseam::internals::core::posterior::Prior;
use printseam::internals::core::table::Table;

/// splitmix64: a plain generator, so that a failing seed can be run again anywhere.
pub struct Random(pub u64);

impl Random {
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    pub fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1u64 << 53) as f64
    }

    pub fn below(&mut self, n: usize) -> usize {
        (self.next() % n as u64) as usize
    }
}

/// A random clue as plain numbers: the slow twin reads these, never the compiled tables.
pub struct PlainClue {
    /// weight[pair][year][finding]
    pub weights: Vec<Vec<Vec<f64>>>,
    pub findings: usize,
    pub slip: f64,
    pub family: Option<usize>,
    /// (clue, finding) that must have been seen.
    pub gate: Option<(usize, usize)>,
    pub kernel: Option<Vec<(f64, f64)>>,
}

pub struct Plain {
    pub pairs: Vec<(usize, usize)>,
    pub years: usize,
    pub first: i16,
    pub prior: Vec<f64>,
    pub clues: Vec<PlainClue>,
    pub deltas: Vec<f64>,
}

const STATIONS: [Station; 3] = [Station::Front, Station::Mark, Station::Loupe];

impl Plain {
    pub fn random(seed: u64) -> Plain {
        let mut r = Random(seed);
        let (kinds, places) = (1 + r.below(4), 1 + r.below(3));
        let mut pairs: Vec<(usize, usize)> = (0..kinds)
            .flat_map(|k| (0..places).map(move |l| (k, l)))
            .filter(|_| r.unit() < 0.8)
            .collect();
        if pairs.is_empty() {
            pairs.push((0, 0));
        }
        let years = 3 + r.below(40);
        let prior = (0..pairs.len() * years)
            .map(|_| if r.unit() < 0.1 { 0.0 } else { r.unit() + 1e-3 })
            .collect::<Vec<f64>>();
        let deltas: Vec<f64> = (0..2).map(|_| r.unit()).collect();
        let clues = (0..1 + r.below(6))
            .map(|c| {
                let findings = 2 + r.below(4);
                let dated = r.unit() < 0.2;
                PlainClue {
                    weights: pairs
                        .iter()
                        .map(|_| {
                            (0..years)
                                .map(|_| {
                                    (0..findings)
                                        .map(|_| {
                                            if r.unit() < 0.2 {
                                                0.0
                                            } else {
                                                r.unit() * 100.0
                                            }
                                        })
                                        .collect()
                                })
                                .collect()
                        })
                        .collect(),
                    findings,
                    slip: r.unit() * 0.3,
                    family: (r.unit() < 0.6).then(|| r.below(2)),
                    gate: (c > 0 && r.unit() < 0.3).then_some((0, 0)),
                    kernel: dated.then(|| vec![(-1.0, 0.0), (0.0, 1.0), (5.0, 1.0), (20.0, 0.1)]),
                }
            })
            .collect();
        Plain {
            pairs,
            years,
            first: 1835,
            prior,
            clues,
            deltas,
        }
    }

    pub fn grid(&self) -> Grid {
        let pairs = self
            .pairs
            .iter()
            .map(|&(k, l)| (KindId(k as u8), PlaceId(l as u8)))
            .collect();
        let kinds = self.pairs.iter().map(|p| p.0).max().unwrap_or(0) + 1;
        let places = self.pairs.iter().map(|p| p.1).max().unwrap_or(0) + 1;
        let last = Year(self.first + self.years as i16 - 1);
        Grid::new(pairs, kinds, places, Year(self.first), last)
    }

    /// The same rules in the engine's own form.
    pub fn compile(&self) -> (Model, Prior) {
        let grid = self.grid();
        let clues = self
            .clues
            .iter()
            .enumerate()
            .map(|(i, c)| {
                let table = match &c.kernel {
                    Some(points) => Table::dated(&grid, &Curve::new(points.clone()), c.slip),
                    None => {
                        let of_finding = |pair: &Vec<Vec<f64>>, f: usize| -> Vec<f64> {
                            pair.iter().map(|year| year[f]).collect()
                        };
                        let row =
                            |pair| (0..c.findings).flat_map(|f| of_finding(pair, f)).collect();
                        let rows: Vec<Vec<f64>> = c.weights.iter().map(row).collect();
                        let row_of_pair = (0..rows.len() as u16).collect();
                        Table::listed(&grid, row_of_pair, &rows, c.findings, c.slip)
                    }
                };
                let gate = c.gate.iter().map(|&(clue, f)| Clause {
                    clue: ClueId(clue as u16),
                    any_of: vec![FindingId(f as u16)],
                });
                ClueModel {
                    table,
                    family: c.family.map(|f| FamilyId(f as u8)),
                    gate: gate.collect(),
                    station: STATIONS[i % STATIONS.len()],
                    seconds: 3.0 + i as f64,
                    present: 1.0,
                }
            })
            .collect();
        let model = Model {
            grid,
            clues,
            families: self.deltas.clone(),
        };
        (model, Prior::new(self.prior.clone()))
    }

    /// Findings for some of the clues, in random order.
    pub fn evidence(&self, seed: u64) -> Evidence {
        let mut r = Random(seed ^ 0xabcd);
        let mut order: Vec<usize> = (0..self.clues.len()).collect();
        for i in (1..order.len()).rev() {
            order.swap(i, r.below(i + 1));
        }
        let mut evidence = Evidence::new();
        for c in order {
            if r.unit() < 0.75 {
                evidence.add(self.entry(c, &mut r));
            }
        }
        evidence
    }

    pub fn entry(&self, clue: usize, r: &mut Random) -> Observation {
        let seen = if r.unit() < 0.1 {
            Observed::CantTell
        } else if self.clues[clue].kernel.is_some() {
            Observed::Year(Year(self.first + r.below(self.years) as i16))
        } else {
            let findings = self.clues[clue].findings;
            let one = Observed::Finding(FindingId(r.below(findings) as u16));
            let soft = (r.unit() < 0.2).then(|| {
                let weights: Vec<f64> = (0..findings).map(|_| r.unit()).collect();
                Weights::new(&weights).map(Observed::Soft)
            });
            soft.flatten().unwrap_or(one)
        };
        let sure = [Sure::Sure, Sure::Unsure, Sure::Guess][r.below(3)];
        Observation::new(ClueId(clue as u16), seen).sure(sure)
    }
}
