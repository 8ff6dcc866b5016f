//! Laws of the engine, on random small rule bases.

use printseam::internals::core::at_odds::at_odds;
use printseam::internals::core::explanation::explain;
use printseam::internals::core::grid::{ClueId, FindingId, Year};
use printseam::internals::core::interval::{Band, mass, quantile};
use printseam::internals::core::left_out::{each_left_out, expected};
use printseam::internals::core::observation::{Evidence, Observation, Observed, Sure};
use printseam::internals::core::posterior::{Inference, posterior};
use printseam::internals::core::sensitivity::turning_points;
use printseam::internals::core::told::information;
use proptest::prelude::{ProptestConfig, any, proptest};

use crate::random_model::{Plain, Random};

fn reversed(evidence: &Evidence) -> Evidence {
    let mut out = Evidence::new();
    evidence
        .observations()
        .iter()
        .rev()
        .for_each(|e| out.add(e.clone()));
    out
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_posterior_sums_to_one_and_is_finite(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let after = posterior(&model, &prior, &plain.evidence(seed));
        let total: f64 = after.cells().iter().sum();
        assert!((total - 1.0).abs() < 1e-12, "{total}");
        assert!(after.cells().iter().all(|p| p.is_finite() && *p >= 0.0));
        assert!(after.log_evidence.is_finite() && after.log_evidence <= 1e-12);
    }

    #[test]
    fn order_does_not_matter(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let evidence = plain.evidence(seed);
        let there = posterior(&model, &prior, &evidence);
        let back = posterior(&model, &prior, &reversed(&evidence));
        assert_eq!(there.cells(), back.cells());
    }

    #[test]
    fn taking_a_finding_back_gives_the_same_bits(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let mut evidence = plain.evidence(seed);
        let before = posterior(&model, &prior, &evidence);
        let mut r = Random(seed);
        if let Some(free) = (0..plain.clues.len()).find(|c| evidence.of(ClueId(*c as u16)).is_none()) {
            evidence.add(plain.entry(free, &mut r));
            evidence.forget(ClueId(free as u16));
        }
        assert_eq!(before.cells(), posterior(&model, &prior, &evidence).cells());
    }

    #[test]
    fn cant_tell_changes_nothing(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let mut evidence = plain.evidence(seed);
        let before = posterior(&model, &prior, &evidence);
        for c in 0..plain.clues.len() {
            let clue = ClueId(c as u16);
            if evidence.of(clue).is_none() {
                evidence.add(Observation::new(clue, Observed::CantTell));
            }
        }
        assert_eq!(before.cells(), posterior(&model, &prior, &evidence).cells());
    }

    #[test]
    fn information_lies_between_nothing_and_the_entropy_of_the_answer(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let after = posterior(&model, &prior, &plain.evidence(seed));
        for (plain_clue, clue) in plain.clues.iter().zip(&model.clues) {
            let bits = information(&model.grid, &clue.table, &after).bits;
            assert!(bits >= 0.0);
            if plain_clue.kernel.is_none() {
                let mut h = 0.0;
                for f in 0..plain_clue.findings {
                    let row = clue.table.likelihood(&Observed::Finding(FindingId(f as u16)), Sure::Sure).unwrap();
                    let p: f64 = (0..plain.pairs.len())
                        .map(|pair| {
                            let from = clue.table.row(pair) * plain.years;
                            let cells = &after.cells()[pair * plain.years..(pair + 1) * plain.years];
                            cells.iter().zip(&row[from..from + plain.years]).map(|(p, l)| p * l).sum::<f64>()
                        })
                        .sum();
                    h -= p * p.log2();
                }
                assert!(bits <= h + 1e-9, "{bits} {h}");
            }
        }
    }

    #[test]
    fn prior_and_weights_add_up_to_the_posterior(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let account = explain(&model, &prior, &plain.evidence(seed), &each_left_out(&model, &prior, &plain.evidence(seed)), 0.8);
        // With a single kind the odds are infinite and the account has nothing to say.
        if account.posterior_decibans.abs() < 1000.0 {
            assert!(account.gap().abs() < 1e-6, "{}", account.gap());
        }
        assert!(account.earliest.year <= account.latest.year);
    }

    #[test]
    fn leaving_a_finding_out_equals_never_having_seen_it(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let evidence = plain.evidence(seed);
        let inference = Inference::new(&model, &prior, &evidence);
        let entries: Vec<Observation> = inference.likelihoods().iter().map(|v| v.observation.clone()).collect();
        for (i, entry) in entries.iter().enumerate() {
            let mut fewer = evidence.clone();
            fewer.forget(entry.clue);
            let fresh = posterior(&model, &prior, &fewer);
            let rest = inference.without(i);
            assert!((rest.log_evidence - fresh.log_evidence).abs() < 1e-6);
            for (a, b) in rest.cells().iter().zip(fresh.cells()) {
                assert!((a - b).abs() < 1e-9, "{a} {b}");
            }
        }
    }

    /// What a finding fights with is whatever makes it half as likely again when left out, worst first, three at most.
    #[test]
    fn a_finding_is_at_odds_with_all_that_really_speaks_against_it(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let evidence = plain.evidence(seed);
        let left_out = each_left_out(&model, &prior, &evidence);
        for odd in at_odds(&model, &prior, &evidence, &left_out) {
            let mut fewer = evidence.clone();
            fewer.forget(odd.observation.clue);
            let gain = |clue: ClueId| {
                let mut rest = fewer.clone();
                rest.forget(clue);
                let rest = posterior(&model, &prior, &rest);
                expected(&model, &rest, &odd.observation).0 / odd.p
            };
            let others = fewer.observations().iter().map(|o| (gain(o.clue), o.clue));
            let mut others: Vec<(f64, ClueId)> = others.collect();
            others.sort_by(|a, b| b.0.total_cmp(&a.0));
            for clue in &odd.against {
                let gain = gain(*clue);
                assert!(gain > 1.5 - 1e-6, "{gain}");
            }
            // Where two are as good as equal, or one stands at the limit, the last bit decides which.
            let apart = others.windows(2).all(|two| two[0].0 - two[1].0 > 1e-6);
            if apart && others.iter().all(|(gain, _)| (gain - 1.5).abs() > 1e-6) {
                let against = others.iter().filter(|(gain, _)| *gain > 1.5).take(3);
                let against: Vec<ClueId> = against.map(|(_, clue)| *clue).collect();
                assert_eq!(odd.against, against, "{others:?}");
            }
        }
    }

    #[test]
    fn bands_hold_their_share_and_nest(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let grid = &model.grid;
        let years = posterior(&model, &prior, &plain.evidence(seed)).years(grid);
        let [narrow, stated, wide] = Band::nested(&years, grid, 0.8, [0.5, 0.8, 0.95]);
        assert_eq!(stated, Band::shortest(&years, grid, 0.8));
        assert!(wide.from <= stated.from && stated.from <= narrow.from, "{wide:?} {stated:?} {narrow:?}");
        assert!(narrow.to <= stated.to && stated.to <= wide.to, "{wide:?} {stated:?} {narrow:?}");
        for band in [narrow, stated, wide] {
            assert!(mass(&years, grid, band.from, band.to) >= band.share - 1e-9);
        }
        // No shorter run holds as much: of all runs, of those inside the stated band, of those around it.
        let inside = |from: Year, to: Year| stated.from <= from && to <= stated.to;
        let around = |from: Year, to: Year| from <= stated.from && stated.to <= to;
        for first in (0..grid.years()).map(|offset| grid.year(offset)) {
            for (band, counts) in [
                (stated, &(|_, _| true) as &dyn Fn(Year, Year) -> bool),
                (narrow, &inside),
                (wide, &around),
            ] {
                let last = Year(first.0 + band.width() - 2);
                if counts(first, last) {
                    assert!(mass(&years, grid, first, last) < band.share + 1e-9);
                }
            }
        }
        let median = quantile(&years, grid, 0.5);
        assert!(mass(&years, grid, grid.first(), median) >= 0.5 - 1e-12);
    }

    #[test]
    fn a_turning_point_really_turns(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let evidence = plain.evidence(seed);
        let now = posterior(&model, &prior, &evidence);
        let band = Band::shortest(&now.years(&model.grid), &model.grid, 0.8);
        let answer = (now.leading(&model.grid).0, band);
        let turns = |changes: &[Observation]| {
            let mut changed = evidence.clone();
            changes.iter().for_each(|c| changed.add(c.clone()));
            let after = posterior(&model, &prior, &changed);
            let kind_changed = after.leading(&model.grid).0 != now.leading(&model.grid).0;
            let median = quantile(&after.years(&model.grid), &model.grid, 0.5);
            kind_changed || !band.holds(median)
        };
        for turn in turning_points(&model, &prior, &evidence, answer) {
            assert!(turns(&turn.changes));
            // A single change: none at all where that is enough, else no likelier finding would do.
            let ([one], Observed::Finding(named)) = (&turn.changes[..], &turn.changes[0].seen) else {
                continue;
            };
            let unseen = Observation { seen: Observed::CantTell, ..one.clone() };
            assert!(!turns(std::slice::from_ref(&unseen)));
            let mut rest = evidence.clone();
            rest.add(unseen);
            let rest = posterior(&model, &prior, &rest);
            let table = &model.clue(one.clue).table;
            let chances = table.predictive(&model.grid, rest.cells(), one.sure);
            let least = chances[usize::from(named.0)];
            for (f, chance) in chances.iter().enumerate() {
                let seen = Observed::Finding(FindingId(f as u16));
                let other = Observation { seen, ..one.clone() };
                let was = evidence.of(one.clue).map(|o| &o.seen) == Some(&other.seen);
                assert!(was || *chance <= least || !turns(&[other]), "{chance} over {least}");
            }
        }
    }
}

#[test]
fn two_equal_answers_at_two_clues_count_twice() {
    // Any rule base with two independent clues will do: 1000 draws hold many.
    let mut tried = 0;
    for seed in 0..200 {
        let plain = Plain::random(seed);
        if plain.clues.len() < 2
            || plain.clues[..2]
                .iter()
                .any(|c| c.family.is_some() || c.kernel.is_some() || c.gate.is_some())
        {
            continue;
        }
        let (mut model, prior) = plain.compile();
        model.clues[1] = model.clues[0].clone();
        let say = |clues: &[u16]| {
            let mut e = Evidence::new();
            for c in clues {
                e.add(Observation::new(
                    ClueId(*c),
                    Observed::Finding(FindingId(0)),
                ));
            }
            posterior(&model, &prior, &e)
        };
        let (none, once, twice) = (say(&[]), say(&[0]), say(&[0, 1]));
        let ratio = |i: usize, a: &[f64], b: &[f64]| (a[i] / b[i]).ln();
        let live: Vec<usize> = (0..none.cells().len())
            .filter(|&i| none.cells()[i] > 0.0)
            .collect();
        for w in live.windows(2) {
            let first =
                ratio(w[1], once.cells(), none.cells()) - ratio(w[0], once.cells(), none.cells());
            let both =
                ratio(w[1], twice.cells(), none.cells()) - ratio(w[0], twice.cells(), none.cells());
            assert!((both - 2.0 * first).abs() < 1e-9);
        }
        tried += 1;
    }
    assert!(tried > 5, "only {tried} rule bases had two free clues");
}

#[test]
fn thirty_contradictory_findings_stay_finite() {
    let plain = Plain::random(7);
    let (mut model, prior) = plain.compile();
    let first = model.clues[0].clone();
    model.clues = (0..30).map(|_| first.clone()).collect();
    let mut evidence = Evidence::new();
    for c in 0..30u16 {
        evidence.add(Observation::new(
            ClueId(c),
            Observed::Finding(FindingId(c % 2)),
        ));
    }
    let after = posterior(&model, &prior, &evidence);
    assert!(after.cells().iter().all(|p| p.is_finite()));
    assert!((after.cells().iter().sum::<f64>() - 1.0).abs() < 1e-12);
}
