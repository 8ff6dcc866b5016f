//! The slow twin of what looks are expected to tell: predictive chances, dated clues, and the ranking.

use std::collections::BTreeMap;

use printseam::internals::core::explanation::explain;
use printseam::internals::core::grid::{ClueId, FindingId, Year};
use printseam::internals::core::left_out::each_left_out;
use printseam::internals::core::model::{Gate, Model, Station};
use printseam::internals::core::observation::{Evidence, Observation, Observed, Sure};
use printseam::internals::core::posterior::{Posterior, posterior};
use printseam::internals::core::question::rank;
use printseam::internals::core::told::information;
use proptest::prelude::{ProptestConfig, any, proptest};

use crate::oracle::{entropy, likelihood, slow_posterior, spoken};
use crate::random_model::Plain;

/// All answers of a clue: its findings, or the years that can be read.
fn answers(plain: &Plain, clue: usize) -> Vec<Observed> {
    match plain.clues[clue].kernel {
        None => (0..plain.clues[clue].findings)
            .map(|f| Observed::Finding(FindingId(f as u16)))
            .collect(),
        Some(_) => (0..plain.years)
            .map(|y| Observed::Year(Year(plain.first + y as i16)))
            .collect(),
    }
}

/// P(made in this cell and this answer) of every cell.
fn joint(plain: &Plain, clue: usize, p: &[f64], seen: &Observed, sure: Sure) -> Vec<f64> {
    let each = p.iter().enumerate().map(|(i, p)| {
        let (pair, year) = (i / plain.years, i % plain.years);
        p * likelihood(plain, clue, pair, year, seen, sure)
    });
    each.collect()
}

/// H(kind, decade | weights), the weights summing to anything.
fn kind_and_decade(plain: &Plain, weights: &[f64]) -> f64 {
    let mut by: BTreeMap<(usize, i16), f64> = BTreeMap::new();
    for (i, p) in weights.iter().enumerate() {
        let decade = (plain.first + (i % plain.years) as i16) / 10;
        *by.entry((plain.pairs[i / plain.years].0, decade))
            .or_default() += p;
    }
    let total: f64 = weights.iter().sum();
    entropy(&by.values().map(|p| p / total).collect::<Vec<f64>>())
}

/// Bits of a dated clue whose years are read in bins of five, given that there is one to read.
fn slow_dated_bits(plain: &Plain, clue: usize, p: &[f64]) -> f64 {
    let years = answers(plain, clue);
    // P(year read | cell), made to sum to 1 over the years that can be read.
    let mut by_bin = vec![vec![0.0; p.len()]; plain.years.div_ceil(5)];
    for (i, weight) in p.iter().enumerate() {
        let (pair, year) = (i / plain.years, i % plain.years);
        let chances = years
            .iter()
            .map(|seen| likelihood(plain, clue, pair, year, seen, Sure::Sure));
        let chances: Vec<f64> = chances.collect();
        let total: f64 = chances.iter().sum();
        for (read, chance) in chances.iter().enumerate() {
            by_bin[read / 5][i] += weight * chance / total;
        }
    }
    let after = by_bin.iter().map(|joint| {
        let chance: f64 = joint.iter().sum();
        if chance > 0.0 {
            chance * kind_and_decade(plain, joint)
        } else {
            0.0
        }
    });
    kind_and_decade(plain, p) - after.sum::<f64>()
}

/// Clues that can be asked, with bits and worth per second, by the book.
fn slow_rank(
    plain: &Plain,
    model: &Model,
    evidence: &Evidence,
    at: Option<Station>,
) -> Vec<(ClueId, f64, f64, f64)> {
    let now = Posterior::of_prior(&printseam::internals::core::posterior::Prior::new(
        slow_posterior(plain, evidence),
    ));
    let said = spoken(plain, evidence);
    let mut looks = Vec::new();
    for (i, clue) in plain.clues.iter().enumerate() {
        let id = ClueId(i as u16);
        let waits = clue.gate.is_some_and(|(on, _)| {
            let before = evidence.of(ClueId(on as u16));
            before.is_none_or(|o| o.seen == Observed::CantTell)
        });
        if evidence.of(id).is_some() || waits || model.gate(id, evidence) != Gate::Open {
            continue;
        }
        let told = information(&model.grid, &model.clues[i].table, &now);
        let kin = said
            .iter()
            .filter(|s| clue.family.is_some() && plain.clues[s.0].family == clue.family);
        let damped = clue
            .family
            .map_or(1.0, |f| ((kin.count() + 1) as f64).powf(-plain.deltas[f]));
        // 6 seconds to another station; the ranking counts half a way back as well.
        let moves = at.is_some_and(|s| s != model.clues[i].station);
        let (seconds, back) = (
            model.clues[i].seconds + if moves { 6.0 } else { 0.0 },
            if moves { 3.0 } else { 0.0 },
        );
        looks.push((
            id,
            damped * told.bits,
            seconds,
            damped * told.worth / (seconds + back),
        ));
    }
    looks
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn fast_and_slow_predictive_chances_agree(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let now = posterior(&model, &prior, &plain.evidence(seed));
        for clue in 0..plain.clues.len() {
            for sure in [Sure::Sure, Sure::Guess] {
                let fast = model.clues[clue].table.predictive(&model.grid, now.cells(), sure);
                let answers = answers(&plain, clue);
                assert_eq!(fast.len(), answers.len());
                for (fast, seen) in fast.iter().zip(&answers) {
                    let slow: f64 = joint(&plain, clue, now.cells(), seen, sure).iter().sum();
                    assert!((fast - slow).abs() < 1e-10, "{fast} {slow} {seen:?}");
                }
            }
        }
    }

    #[test]
    fn fast_and_slow_information_of_years_agree(seed in any::<u64>()) {
        let mut plain = Plain::random(seed);
        // One clue in five is dated by itself; here all are.
        for clue in &mut plain.clues {
            clue.kernel = Some(vec![(-3.0, 0.0), (0.0, 1.0), (2.0, 0.3), (20.0, 0.05)]);
            clue.gate = None;
        }
        let (model, prior) = plain.compile();
        let now = posterior(&model, &prior, &plain.evidence(seed));
        for clue in 0..plain.clues.len() {
            let fast = information(&model.grid, &model.clues[clue].table, &now).bits;
            let slow = slow_dated_bits(&plain, clue, now.cells());
            assert!((fast - slow).abs() < 1e-9, "{fast} {slow}");
        }
    }

    #[test]
    fn looks_are_ranked_as_by_the_book(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let evidence = plain.evidence(seed);
        let now = posterior(&model, &prior, &evidence);
        for at in [None, Some(Station::Front), Some(Station::Mark)] {
            let fast = rank(&model, &now, &evidence, at);
            let slow = slow_rank(&plain, &model, &evidence, at);
            assert_eq!(fast.len(), slow.len());
            for look in &fast {
                let (_, bits, seconds, rate) = slow.iter().find(|s| s.0 == look.clue).unwrap();
                assert!((look.bits - bits).abs() < 1e-9, "{} {bits}", look.bits);
                assert_eq!(look.seconds, *seconds);
                assert!((look.rate - rate).abs() < 1e-9, "{} {rate}", look.rate);
            }
            assert!(fast.windows(2).all(|w| w[0].rate >= w[1].rate));
        }
    }

    /// Weights, leave-one-out, and medians of the account, each from a posterior of its own.
    #[test]
    fn the_account_is_what_posteriors_say(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let evidence = plain.evidence(seed);
        let now = slow_posterior(&plain, &evidence);
        let kinds = |p: &[f64]| {
            let mut by = vec![0.0; model.grid.kinds()];
            p.iter().enumerate().for_each(|(i, p)| by[plain.pairs[i / plain.years].0] += p);
            by
        };
        let account = explain(&model, &prior, &evidence, &each_left_out(&model, &prior, &evidence), 0.8);
        let leader = usize::from(account.kind.0);
        let odds = |p: &[f64]| {
            let against: f64 = kinds(p).iter().enumerate().filter(|(k, _)| *k != leader).map(|(_, p)| p).sum();
            10.0 * (kinds(p)[leader] / against).log10()
        };
        let years = |p: &[f64]| {
            let mut by = vec![0.0; plain.years];
            p.iter().enumerate().for_each(|(i, p)| by[i % plain.years] += p);
            by
        };
        let median = |p: &[f64]| {
            let mut held = 0.0;
            let first = years(p).iter().position(|p| { held += p; held >= 0.5 - 1e-9 });
            plain.first + first.unwrap() as i16
        };
        let width = |p: &[f64]| {
            let years = years(p);
            let wide = |w: &usize| years.windows(*w).any(|run| run.iter().sum::<f64>() >= 0.8 - 1e-9);
            (1..=plain.years).find(wide).unwrap() as i16
        };
        // With one kind the odds are infinite.
        let told = |decibans: f64| decibans.is_finite() && decibans.abs() < 100.0;
        let mut before = slow_posterior(&plain, &Evidence::new());
        let mut said = Evidence::new();
        let speaks = |o: &Observation| model.speaks(o, &evidence);
        assert_eq!(account.steps.len(), evidence.observations().iter().filter(|o| speaks(o)).count());
        for step in &account.steps {
            said.add(step.observation.clone());
            let mut without = evidence.clone();
            without.forget(step.observation.clue);
            let (after, without) = (slow_posterior(&plain, &said), slow_posterior(&plain, &without));
            if told(odds(&now)) && told(odds(&without)) && told(odds(&before)) && told(odds(&after)) {
                assert!((step.leave_one_out - (odds(&now) - odds(&without))).abs() < 1e-5, "{step:?}");
                assert!((step.decibans - (odds(&after) - odds(&before))).abs() < 1e-5, "{step:?}");
            }
            assert_eq!((step.median_before.0, step.median_after.0), (median(&before), median(&after)));
            assert_eq!((step.width_before, step.width_after), (width(&before), width(&after)));
            before = after;
        }
    }
}
