//! Question economy: how few looks settle the answer.
//!
//! For each case only clues that the record answers may be asked, in three orders: the engine's
//! own, a fixed checklist (station by station, front to loupe) and a random one. Settled = the
//! leading kind of the full evidence has its probability to 5 points and the median its year to 5,
//! and both stay so to the end. First near = the same, but it may be lost again later.

use super::cases::Known;
use super::measures::{mean, median};
use super::ordered::{self, Progress};
use crate::core::grid::ClueId;
use crate::core::interval::quantile;
use crate::core::model::{Gate, Station};
use crate::core::observation::{Evidence, Observation};
use crate::core::posterior::{Posterior, posterior};
use crate::core::question::{rank, seconds};
use crate::piece::expert::Expert;

/// Nearness of the leading kind's probability.
const POINTS: f64 = 0.05;

/// Nearness of the median in years.
const YEARS: i16 = 5;

/// Random orders tried a case.
const SHUFFLES: u64 = 5;

/// The order clues are asked in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Order {
    Engine,
    Checklist,
    Random,
}

/// Looks made and seconds spent.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Cost {
    pub looks: f64,
    pub seconds: f64,
}

/// One case in one order.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Course {
    pub first_near: Cost,
    pub settled: Cost,
    pub all: Cost,
}

/// All cases in one order.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    pub order: Order,
    pub mean_first_near: Cost,
    pub mean_settled: Cost,
    pub median_settled: Cost,
    pub mean_all: Cost,
}

/// The table.
#[derive(Clone, Debug, PartialEq)]
pub struct Economy {
    /// Cases with at least one finding that speaks.
    pub cases: usize,
    pub lines: Vec<Line>,
}

/// Runs the simulation.
pub fn economy(expert: &Expert, cases: &[Known], progress: Progress) -> Economy {
    let orders = [Order::Engine, Order::Checklist, Order::Random];
    let courses: Vec<[Course; 3]> = ordered::map(cases, "asking", progress, |case| {
        let simulation = Simulation::new(expert, case)?;
        Some(orders.map(|order| match order {
            Order::Random => {
                let runs: Vec<Course> = (0..SHUFFLES)
                    .map(|turn| simulation.run(order, seed(&case.id, turn)))
                    .collect();
                averaged(&runs)
            }
            _ => simulation.run(order, 0),
        }))
    })
    .into_iter()
    .flatten()
    .collect();
    let lines = orders
        .iter()
        .enumerate()
        .map(|(at, &order)| {
            let of: Vec<Course> = courses.iter().map(|c| c[at]).collect();
            let means = averaged(&of);
            let middle = |pick: fn(&Course) -> f64| {
                median(&of.iter().map(pick).collect::<Vec<_>>()).unwrap_or(0.0)
            };
            Line {
                order,
                mean_first_near: means.first_near,
                mean_settled: means.settled,
                median_settled: Cost {
                    looks: middle(|c| c.settled.looks),
                    seconds: middle(|c| c.settled.seconds),
                },
                mean_all: means.all,
            }
        })
        .collect();
    Economy {
        cases: courses.len(),
        lines,
    }
}

fn averaged(courses: &[Course]) -> Course {
    let cost = |pick: fn(&Course) -> Cost| Cost {
        looks: mean(courses.iter().map(|c| pick(c).looks)).unwrap_or(0.0),
        seconds: mean(courses.iter().map(|c| pick(c).seconds)).unwrap_or(0.0),
    };
    Course {
        first_near: cost(|c| c.first_near),
        settled: cost(|c| c.settled),
        all: cost(|c| c.all),
    }
}

struct Simulation<'a> {
    expert: &'a Expert,
    case: &'a Known,
    /// What the record answers, in checklist order.
    record: Vec<Observation>,
    full: Posterior,
}

impl<'a> Simulation<'a> {
    fn new(expert: &'a Expert, case: &'a Known) -> Option<Simulation<'a>> {
        let model = &expert.engine().model;
        let mut record: Vec<Observation> = case
            .evidence
            .observations()
            .iter()
            .filter(|e| model.speaks(e, &case.evidence))
            .cloned()
            .collect();
        record.sort_by_key(|e| (model.clue(e.clue).station, e.clue));
        (!record.is_empty()).then(|| Simulation {
            expert,
            case,
            full: posterior(model, &expert.engine().priors[case.setting], &case.evidence),
            record,
        })
    }

    fn run(&self, order: Order, seed: u64) -> Course {
        let model = &self.expert.engine().model;
        let prior = &self.expert.engine().priors[self.case.setting];
        let mut left = self.record.clone();
        if order == Order::Random {
            shuffle(&mut left, seed);
        }
        let mut said = Evidence::new();
        let (mut spent, mut at): (Cost, Option<Station>) = (Cost::default(), None);
        let mut now = Posterior::of_prior(prior);
        let (mut first, mut settled): (Option<Cost>, Option<Cost>) = (None, None);
        loop {
            if self.near(&now) {
                first.get_or_insert(spent);
                settled.get_or_insert(spent);
            } else {
                settled = None;
            }
            if left.is_empty() {
                break;
            }
            let next = self.next(order, &left, &now, &said, at);
            let entry = left.remove(next);
            let clue = model.clue(entry.clue);
            spent.looks += 1.0;
            spent.seconds += seconds(clue, at);
            at = Some(clue.station);
            said.add(entry);
            now = posterior(model, prior, &said);
        }
        Course {
            first_near: first.unwrap_or(spent),
            settled: settled.unwrap_or(spent),
            all: spent,
        }
    }

    /// Which of the looks left comes next. A clue that waits for another comes after it where the
    /// record has both.
    fn next(
        &self,
        order: Order,
        left: &[Observation],
        now: &Posterior,
        said: &Evidence,
        at: Option<Station>,
    ) -> usize {
        let model = &self.expert.engine().model;
        let place = |clue: ClueId| left.iter().position(|e| e.clue == clue);
        let best = match order {
            Order::Engine => rank(model, now, said, at)
                .iter()
                .find_map(|look| place(look.clue)),
            Order::Checklist | Order::Random => left
                .iter()
                .position(|e| model.gate(e.clue, said) == Gate::Open),
        };
        best.unwrap_or(0)
    }

    fn near(&self, now: &Posterior) -> bool {
        let grid = &self.expert.engine().model.grid;
        let (leader, p) = self.full.leading(grid);
        let p_now = now.kinds(grid)[usize::from(leader.0)];
        let middle = |of: &Posterior| quantile(&of.years(grid), grid, 0.5).0;
        (p_now - p).abs() <= POINTS && (middle(now) - middle(&self.full)).abs() <= YEARS
    }
}

/// A seed from the case's id and the number of the shuffle.
fn seed(id: &str, turn: u64) -> u64 {
    id.bytes().fold(0x9e37_79b9_7f4a_7c15 ^ turn, |h, byte| {
        (h ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3)
    })
}

/// Fisher–Yates with the splitmix64 generator (Steele, Lea and Flood 2014, from memory).
fn shuffle(entries: &mut [Observation], seed: u64) {
    let mut state = seed;
    for i in (1..entries.len()).rev() {
        state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = state;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^= z >> 31;
        entries.swap(i, (z % (i as u64 + 1)) as usize);
    }
}
