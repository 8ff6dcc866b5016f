//! A piece that is not there: kind, place and year drawn from a setting's prior, and what each look
//! at it shows drawn from the clues' own tables.
//!
//! Drawn so, the engine's probabilities for it must come true as often as they say: that is a proof
//! of the engine, not only a drill (`tests/it/drawn.rs`).

use crate::core::grid::{ClueId, FindingId, KindId, PlaceId, Year};
use crate::core::model::{Gate, Model};
use crate::core::observation::{Evidence, Observation, Observed, Sure};
use crate::core::posterior::Prior;
use crate::core::seeded::Seeded;
use crate::core::table::{Answers, Table};

/// Whose eyes look.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Eyes {
    /// Those of a careful beginner, who misreads a clue as often as its `slip` says.
    Slipping,
    /// Nothing is misread: for teaching, a picture must show what it is said to show.
    Perfect,
}

/// A drawn piece. Every look shows the same however often and in whatever order it is made.
#[derive(Clone, Debug, PartialEq)]
pub struct Hidden {
    pub kind: KindId,
    pub place: PlaceId,
    pub year: Year,
    pair: usize,
    offset: usize,
    seed: u64,
    eyes: Eyes,
}

/// What a look leads to.
#[derive(Clone, Debug, PartialEq)]
pub enum Shown {
    Seen(Observation),
    /// There is nothing to read: the piece bears no year.
    Nothing,
    /// The clue does not apply, or waits for another.
    NotAsked,
}

impl Hidden {
    /// Draws a piece; `None` only of a prior without any weight.
    pub fn draw(model: &Model, prior: &Prior, seed: u64, eyes: Eyes) -> Option<Hidden> {
        let cells = prior.cells();
        let total: f64 = cells.iter().sum();
        let cell = Seeded::new(seed).weighted(cells.iter().copied(), total)?;
        let grid = &model.grid;
        let (pair, offset) = (cell / grid.years(), cell % grid.years());
        let (kind, place) = grid.pairs()[pair];
        Some(Hidden {
            kind,
            place,
            year: grid.year(offset),
            pair,
            offset,
            seed,
            eyes,
        })
    }

    /// What a look at this clue shows, given what has been seen: gates hold as they do for a real piece.
    pub fn look(&self, model: &Model, evidence: &Evidence, clue: ClueId) -> Shown {
        if model.gate(clue, evidence) != Gate::Open {
            return Shown::NotAsked;
        }
        let mut stream = Seeded::part(self.seed, 1 + u64::from(clue.0));
        let of = model.clue(clue);
        // What says nothing of kind or year, such as a chip, is no part of the drill.
        if of.is_mute() || stream.share() >= of.present {
            return Shown::Nothing;
        }
        match self.answer(model.grid.years(), &of.table, &mut stream) {
            Some(seen) => Shown::Seen(Observation::new(clue, seen)),
            None => Shown::Nothing,
        }
    }

    /// Draws from P(answer | kind, place, year). Years outside the grid can't be answered with; they
    /// are the rest of the kernel, and nothing is read.
    fn answer(&self, years: usize, table: &Table, stream: &mut Seeded) -> Option<Observed> {
        let error = match self.eyes {
            Eyes::Slipping => table.error(Sure::Sure),
            Eyes::Perfect => 0.0,
        };
        let floor = error / table.breadth() as f64;
        let chance = |share: &f64| (1.0 - error) * share + floor;
        match table.answers() {
            Answers::Listed { n, .. } => {
                let row = table.row(self.pair);
                let each = (0..*n).map(|f| chance(&table.shares(row, f)[self.offset]));
                let total = each.clone().sum();
                let at = stream.weighted(each, total)?;
                Some(Observed::Finding(FindingId(u16::try_from(at).ok()?)))
            }
            Answers::Dated { density } => {
                // lag = made − read, at `lag + years`; read runs from 0 on.
                let lags = (0..years).map(|read| chance(&density[self.offset + years - read]));
                let read = i16::try_from(stream.weighted(lags, 1.0)?).ok()?;
                Some(Observed::Year(Year(
                    self.year.0 - self.offset as i16 + read,
                )))
            }
        }
    }

    /// Looks at these clues in turn until `most` have told something; those that wait for another are
    /// tried again once it has been answered.
    pub fn seen(&self, model: &Model, order: &[ClueId], most: usize) -> Evidence {
        let mut evidence = Evidence::new();
        let mut left: Vec<ClueId> = order.to_vec();
        loop {
            let before = left.len();
            let mut waiting = Vec::new();
            for clue in left {
                if evidence.observations().len() == most {
                    return evidence;
                }
                match self.look(model, &evidence, clue) {
                    Shown::Seen(observation) => evidence.add(observation),
                    Shown::Nothing => {}
                    Shown::NotAsked => waiting.push(clue),
                }
            }
            if waiting.len() == before {
                return evidence;
            }
            left = waiting;
        }
    }
}
