//! Pieces drawn from the rule base's own joint, judged by the engine: what it states comes true as
//! often as it says. That proves engine and drawing at once, since they share nothing but the tables.
//!
//! `DRAWN_PIECES=2000 cargo test --test it drawn -- --nocapture` is the whole measurement.

use printseam::internals::core::grid::ClueId;
use printseam::internals::core::interval::{Band, mass};
use printseam::internals::core::model::Model;
use printseam::internals::core::posterior::posterior;
use printseam::internals::core::seeded::Seeded;
use printseam::internals::learn::hidden::{Eyes, Hidden, Shown};
use printseam::internals::rulebase::ids::SettingId;

use crate::shipped::EXPERT;

/// Enough for the bounds below to catch a wrong factor, few enough for every run of the suite.
const PIECES: u64 = 300;

/// What a number of looks at a number of pieces gave.
struct Measured {
    looks: usize,
    pieces: u64,
    /// Mean findings a piece had.
    findings: f64,
    held: f64,
    /// Mean probability the bands state: whole years hold a little more than 80 %.
    stated: f64,
    stated_error: f64,
    /// By kind: (times it was, sum of stated chances, standard error of that).
    kinds: Vec<(f64, f64, f64)>,
}

impl Measured {
    /// The kind farthest from what was stated, in standard errors; kinds expected less than five
    /// times are too rare for that.
    fn farthest(&self) -> f64 {
        let usable = self.kinds.iter().filter(|k| k.1 >= 5.0);
        usable
            .map(|(was, said, error)| (was - said).abs() / error)
            .fold(0.0, f64::max)
    }
}

fn measure(model: &Model, setting: SettingId, looks: usize, pieces: u64, eyes: Eyes) -> Measured {
    let (grid, prior) = (&model.grid, &EXPERT.engine().priors[setting]);
    let (mut findings, mut held, mut stated, mut spread) = (0, 0.0, 0.0, 0.0);
    let mut kinds = vec![(0.0, 0.0, 0.0); grid.kinds()];
    for n in 0..pieces {
        let seed = Seeded::part(12, n).number();
        let hidden = Hidden::draw(model, prior, seed, eyes).unwrap();
        let mut order: Vec<ClueId> = model.clue_ids().collect();
        Seeded::part(seed, 0).shuffle(&mut order);
        let seen = hidden.seen(model, &order, looks);
        findings += seen.observations().len();
        let after = posterior(model, prior, &seen);
        let years = after.years(grid);
        let band = Band::shortest(&years, grid, 0.8);
        let m = mass(&years, grid, band.from, band.to);
        held += f64::from(u8::from(band.holds(hidden.year)));
        stated += m;
        spread += m * (1.0 - m);
        for (k, p) in after.kinds(grid).into_iter().enumerate() {
            kinds[k].1 += p;
            kinds[k].2 += p * (1.0 - p);
        }
        kinds[usize::from(hidden.kind.0)].0 += 1.0;
    }
    let all = pieces as f64;
    Measured {
        looks,
        pieces,
        findings: findings as f64 / all,
        held: held / all,
        stated: stated / all,
        stated_error: spread.sqrt() / all,
        kinds: kinds
            .into_iter()
            .map(|(a, b, v): (f64, f64, f64)| (a, b, v.sqrt()))
            .collect(),
    }
}

fn shown(name: &str, m: &Measured) {
    println!(
        "{name}: {} pieces, {} looks ({:.1} findings): band holds {:.1} % (states {:.1} ± {:.1}); \
         kinds within {:.1} standard errors",
        m.pieces,
        m.looks,
        m.findings,
        100.0 * m.held,
        100.0 * m.stated,
        100.0 * m.stated_error,
        m.farthest()
    );
}

fn pieces() -> u64 {
    let asked = std::env::var("DRAWN_PIECES").ok();
    asked.map_or(PIECES, |n| n.parse().unwrap())
}

#[test]
fn what_is_stated_of_drawn_pieces_comes_true() {
    let mut independent = EXPERT.engine().model.clone();
    independent.families.fill(0.0);
    for looks in [5, 10, 20, 40] {
        let m = measure(&independent, SettingId(0), looks, pieces(), Eyes::Slipping);
        shown("every delta 0", &m);
        assert!(
            (m.held - m.stated).abs() <= 3.0 * m.stated_error,
            "{} looks",
            looks
        );
        // 78-82 % of 2,000 is two points and 2.2 standard errors; of fewer pieces the error is wider.
        let error = (0.8 * 0.2 / m.pieces as f64).sqrt();
        assert!(
            m.held >= 0.8 - (2.25 * error).max(0.02),
            "{} looks: {}",
            looks,
            m.held
        );
        // Some eighty comparisons: one in five runs has one beyond 3 standard errors, one in two
        // hundred beyond 4.
        assert!(m.farthest() <= 4.0, "{} looks: {}", looks, m.farthest());
    }
}

/// With the fitted dependence findings count for less than they are worth here, where they truly are
/// independent: what is stated may only be too modest.
#[test]
fn fitted_dependence_never_states_more_than_is_true() {
    let model = &EXPERT.engine().model;
    for looks in [5, 20] {
        let m = measure(model, SettingId(0), looks, pieces(), Eyes::Slipping);
        shown("fitted deltas", &m);
        assert!(m.held >= m.stated - 3.0 * m.stated_error, "{} looks", looks);
    }
}

#[test]
fn the_bounds_would_notice_an_engine_that_takes_too_much_from_a_finding() {
    let mut model = EXPERT.engine().model.clone();
    // Families of negative dependence count each finding more than once.
    model.families.fill(-1.0);
    let m = measure(&model, SettingId(0), 40, 100, Eyes::Slipping);
    assert!(
        m.held < m.stated - 3.0 * m.stated_error,
        "{} {}",
        m.held,
        m.stated
    );
}

#[test]
fn a_drawn_piece_shows_the_same_in_any_order_and_keeps_to_the_gates() {
    let model = &EXPERT.engine().model;
    let prior = &EXPERT.engine().priors[0];
    for seed in 0..20 {
        let hidden = Hidden::draw(model, prior, seed, Eyes::Slipping).unwrap();
        let order: Vec<ClueId> = model.clue_ids().collect();
        let back: Vec<ClueId> = order.iter().rev().copied().collect();
        let all = usize::MAX;
        let (one, other) = (
            hidden.seen(model, &order, all),
            hidden.seen(model, &back, all),
        );
        assert_eq!(one.observations().len(), other.observations().len());
        for seen in one.observations() {
            assert_eq!(other.of(seen.clue), Some(seen), "{seed}");
            assert!(model.speaks(seen, &one), "{seed}");
        }
        for clue in model.clue_ids().filter(|c| one.of(*c).is_none()) {
            assert!(
                !matches!(hidden.look(model, &one, clue), Shown::Seen(_)),
                "{seed}"
            );
        }
    }
}
