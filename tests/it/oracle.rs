//! The slow, obvious twin: nested loops over plain numbers, straight from the formulas.

use printseam::internals::core::grid::{ClueId, FindingId};
use printseam::internals::core::model::Gate;
use printseam::internals::core::observation::{Evidence, Observed, Sure};
use printseam::internals::core::posterior::posterior;
use printseam::internals::core::question::rank;
use printseam::internals::core::told::information;
use proptest::prelude::{ProptestConfig, any, proptest};

use crate::random_model::Plain;

/// P(finding | pair, year) for one clue, by the book.
pub fn likelihood(
    plain: &Plain,
    clue: usize,
    pair: usize,
    year: usize,
    seen: &Observed,
    sure: Sure,
) -> f64 {
    let c = &plain.clues[clue];
    let doubt = match sure {
        Sure::Sure => 0.0,
        Sure::Unsure => 0.15,
        Sure::Guess => 0.40,
    };
    let error = (c.slip + doubt).max(0.002);
    match (seen, &c.kernel) {
        (Observed::Finding(f), None) => {
            let row = &c.weights[pair][year];
            let total: f64 = row.iter().sum();
            let n = c.findings as f64;
            let share = if total > 0.0 {
                row[usize::from(f.0)] / total
            } else {
                1.0 / n
            };
            (1.0 - error) * share + error / n
        }
        (Observed::Year(read), Some(points)) => {
            let height = |lag: f64| {
                let mut h = points[0].1;
                for pair in points.windows(2) {
                    if lag >= pair[0].0 {
                        let t = ((lag - pair[0].0) / (pair[1].0 - pair[0].0)).min(1.0);
                        h = pair[0].1 + t * (pair[1].1 - pair[0].1);
                    }
                }
                h
            };
            let n = plain.years as i32;
            let total: f64 = (-n..=n).map(|lag| height(f64::from(lag))).sum();
            let lag = f64::from(plain.first) + year as f64 - f64::from(read.0);
            (1.0 - error) * height(lag) / total + error / plain.years as f64
        }
        (Observed::Soft(weights), None) => {
            let each = weights.by_finding().iter().enumerate();
            each.map(|(f, w)| {
                let seen = Observed::Finding(FindingId(f as u16));
                w * likelihood(plain, clue, pair, year, &seen, sure)
            })
            .sum()
        }
        _ => 1.0,
    }
}

/// Findings that speak: something was seen and the gate is not shut by another answer.
pub fn spoken(plain: &Plain, evidence: &Evidence) -> Vec<(usize, Observed, Sure)> {
    evidence
        .observations()
        .iter()
        .filter(|e| e.seen != Observed::CantTell)
        .filter(|e| match plain.clues[usize::from(e.clue.0)].gate {
            None => true,
            Some((on, finding)) => match evidence.of(ClueId(on as u16)).map(|e| &e.seen) {
                None | Some(Observed::CantTell) => true,
                Some(Observed::Finding(f)) => usize::from(f.0) == finding,
                Some(Observed::Soft(w)) => w.by_finding()[finding] > 0.0,
                Some(Observed::Year(_)) => false,
            },
        })
        .map(|e| (usize::from(e.clue.0), e.seen.clone(), e.sure))
        .collect()
}

pub fn slow_posterior(plain: &Plain, evidence: &Evidence) -> Vec<f64> {
    let said = spoken(plain, evidence);
    let mut p = Vec::new();
    for pair in 0..plain.pairs.len() {
        for year in 0..plain.years {
            let mut weight = plain.prior[pair * plain.years + year];
            for (clue, seen, sure) in &said {
                let (clue, sure) = (*clue, *sure);
                let family = plain.clues[clue].family;
                let kin = said
                    .iter()
                    .filter(|s| plain.clues[s.0].family == family)
                    .count();
                let power = match family {
                    Some(f) => (kin as f64).powf(-plain.deltas[f]),
                    None => 1.0,
                };
                weight *= likelihood(plain, clue, pair, year, seen, sure).powf(power);
            }
            p.push(weight);
        }
    }
    let total: f64 = p.iter().sum();
    p.iter().map(|x| x / total).collect()
}

pub fn entropy(p: &[f64]) -> f64 {
    -p.iter()
        .filter(|x| **x > 0.0)
        .map(|x| x * x.log2())
        .sum::<f64>()
}

/// H(kind, decade) − Σ P(f) H(kind, decade | f), spelled out.
fn slow_information(plain: &Plain, clue: usize, p: &[f64]) -> f64 {
    let cell = |pair: usize, year: usize| {
        let decade = (usize::try_from(plain.first).unwrap() + year) / 10;
        plain.pairs[pair].0 * 1000 + decade
    };
    let grouped = |weights: &[f64]| {
        let mut by = std::collections::BTreeMap::new();
        for pair in 0..plain.pairs.len() {
            for year in 0..plain.years {
                *by.entry(cell(pair, year)).or_insert(0.0) += weights[pair * plain.years + year];
            }
        }
        by.into_values().collect::<Vec<f64>>()
    };
    let mut after = 0.0;
    for f in 0..plain.clues[clue].findings {
        let joint: Vec<f64> = (0..p.len())
            .map(|i| {
                let seen = Observed::Finding(FindingId(f as u16));
                p[i] * likelihood(
                    plain,
                    clue,
                    i / plain.years,
                    i % plain.years,
                    &seen,
                    Sure::Sure,
                )
            })
            .collect();
        let total: f64 = joint.iter().sum();
        if total > 0.0 {
            let given: Vec<f64> = grouped(&joint).iter().map(|x| x / total).collect();
            after += total * entropy(&given);
        }
    }
    entropy(&grouped(p)) - after
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn fast_and_slow_posteriors_agree(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let evidence = plain.evidence(seed);
        let slow = slow_posterior(&plain, &evidence);
        let fast = posterior(&model, &prior, &evidence);
        for (a, b) in fast.cells().iter().zip(&slow) {
            assert!((a - b).abs() < 1e-10, "{a} {b}");
        }
    }

    #[test]
    fn fast_and_slow_information_agree(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let after = posterior(&model, &prior, &plain.evidence(seed));
        for clue in 0..plain.clues.len() {
            if plain.clues[clue].kernel.is_none() {
                let fast = information(&model.grid, &model.clues[clue].table, &after).bits;
                let slow = slow_information(&plain, clue, after.cells());
                assert!((fast - slow).abs() < 1e-9, "{fast} {slow}");
            }
        }
    }

    /// The gains, answer by answer from the posterior that each answer would lead to.
    #[test]
    fn fast_and_slow_gains_agree(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let evidence = plain.evidence(seed);
        let grid = &model.grid;
        let now = posterior(&model, &prior, &evidence);
        let spans = |p: &[f64]| {
            let mut by = std::collections::BTreeMap::new();
            for (i, p) in p.iter().enumerate() {
                let year = plain.first + (i % plain.years) as i16;
                let decade = year.div_euclid(10) - plain.first.div_euclid(10);
                *by.entry(decade / 2).or_insert(0.0) += p;
            }
            by.into_values().collect::<Vec<f64>>()
        };
        let kinds = |p: &[f64]| {
            let mut by = vec![0.0; grid.kinds()];
            for (i, p) in p.iter().enumerate() {
                by[plain.pairs[i / plain.years].0] += p;
            }
            by
        };
        let square = |p: &[f64]| p.iter().map(|x| x * x).sum::<f64>();
        let top = |p: &[f64]| p.iter().copied().fold(0.0, f64::max);
        let scores = |p: &[f64]| {
            let (kinds, spans) = (kinds(p), spans(p));
            [square(&kinds) + square(&spans), top(&kinds) + 0.5 * top(&spans)]
        };
        for clue in (0..plain.clues.len()).filter(|c| plain.clues[*c].kernel.is_none()) {
            let told = information(grid, &model.clues[clue].table, &now);
            let mut slow = scores(now.cells()).map(|score| -score);
            for f in 0..plain.clues[clue].findings {
                let seen = Observed::Finding(FindingId(f as u16));
                let joint = (0..now.cells().len()).map(|i| {
                    let (pair, year) = (i / plain.years, i % plain.years);
                    now.cells()[i] * likelihood(&plain, clue, pair, year, &seen, Sure::Sure)
                });
                let joint: Vec<f64> = joint.collect();
                let p: f64 = joint.iter().sum();
                let then: Vec<f64> = joint.iter().map(|x| x / p).collect();
                for (slow, score) in slow.iter_mut().zip(scores(&then)) {
                    *slow += p * score;
                }
            }
            assert!((told.worth - slow[0]).abs() < 1e-9, "{} {}", told.worth, slow[0]);
            assert!((told.gain - slow[1]).abs() < 1e-9, "{} {}", told.gain, slow[1]);
            assert!(told.worth >= 0.0 && told.gain >= 0.0);
        }
    }

    #[test]
    fn only_open_unanswered_clues_are_ranked(seed in any::<u64>()) {
        let plain = Plain::random(seed);
        let (model, prior) = plain.compile();
        let evidence = plain.evidence(seed);
        let after = posterior(&model, &prior, &evidence);
        let looks = rank(&model, &after, &evidence, None);
        for look in &looks {
            assert!(evidence.of(look.clue).is_none());
            assert_eq!(model.gate(look.clue, &evidence), Gate::Open);
        }
        assert!(looks.windows(2).all(|w| w[0].rate >= w[1].rate));
    }
}
