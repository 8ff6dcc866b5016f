//! The rarity score against a plain enumeration of the whole market.

use printseam::internals::core::grid::{Grid, KindId, PlaceId, Year};
use printseam::internals::core::posterior::{Posterior, Prior};
use printseam::internals::core::rarity::{Feature, Market, Rarity, rarity};
use proptest::prelude::{ProptestConfig, any, proptest};

use crate::random_model::Random;

const KINDS: usize = 3;
const FIRST: i16 = 1750;
const YEARS: usize = 160;

fn posterior_of(weights: Vec<f64>, grid: &Grid) -> Posterior {
    let model = printseam::internals::core::model::Model {
        grid: grid.clone(),
        clues: Vec::new(),
        families: Vec::new(),
    };
    let none = printseam::internals::core::observation::Evidence::new();
    printseam::internals::core::posterior::posterior(&model, &Prior::new(weights), &none)
}

fn grid() -> Grid {
    let pairs = (0..KINDS as u8).map(|k| (KindId(k), PlaceId(0))).collect();
    Grid::new(pairs, KINDS, 1, Year(FIRST), Year(FIRST + YEARS as i16 - 1))
}

fn random_feature(r: &mut Random, n: usize) -> Feature {
    let share = (0..KINDS)
        .map(|_| {
            let w: Vec<f64> = (0..n).map(|_| r.unit()).collect();
            let total: f64 = w.iter().sum();
            w.iter().map(|x| x / total).collect()
        })
        .collect();
    Feature { share }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_score_is_the_share_of_commoner_pieces(seed in any::<u64>()) {
        let mut r = Random(seed);
        let grid = grid();
        let market = Prior::new((0..grid.cells()).map(|_| r.unit()).collect());
        // The piece is known exactly: one kind, one year.
        let (kind, offset) = (r.below(KINDS), r.below(YEARS));
        let mut at = vec![0.0; grid.cells()];
        at[kind * YEARS + offset] = 1.0;
        let piece = posterior_of(at, &grid);
        let features = [random_feature(&mut r, 4), random_feature(&mut r, 6)];
        let seen = [Some(r.below(4)), if r.unit() < 0.5 { Some(r.below(6)) } else { None }];

        let age = |offset: usize| offset / 50;
        let ages = age(YEARS - 1) + 1;
        let mut base = vec![0.0; KINDS * ages];
        for k in 0..KINDS {
            for o in 0..YEARS {
                base[k * ages + age(o)] += market.cells()[k * YEARS + o];
            }
        }
        let own_share = |f: usize, k: usize| seen[f].map_or(1.0, |s| features[f].share[k][s]);
        let mine = base[kind * ages + age(offset)] * own_share(0, kind) * own_share(1, kind);
        let mut commoner = 0.0;
        for k in 0..KINDS {
            for a in 0..ages {
                for one in &features[0].share[k] {
                    if seen[1].is_some() {
                        for two in &features[1].share[k] {
                            let p = base[k * ages + a] * one * two;
                            if p > mine { commoner += p; }
                        }
                    } else {
                        let p = base[k * ages + a] * one;
                        if p > mine { commoner += p; }
                    }
                }
            }
        }
        let got = rarity(&grid, &Market::new(&grid, market.cells()), &piece, &features, &seen);
        assert!((got.score - 100.0 * commoner).abs() < 1e-9, "{} {}", got.score, 100.0 * commoner);
        assert_eq!(got.features[1].is_some(), seen[1].is_some());
    }
}

/// Half one kind, half another, and the market has no piece of the first with what was seen: the
/// first is there by misreading only, so the piece is as rare as one of the second.
#[test]
fn kinds_the_market_never_has_so_stay_out_of_the_score() {
    let grid = grid();
    let market = Prior::new(vec![1.0; grid.cells()]);
    let colour = Feature {
        share: vec![
            vec![1.0, 0.0, 0.0],
            vec![0.7, 0.29, 0.01],
            vec![0.5, 0.5, 0.0],
        ],
    };
    let score = |kinds: &[usize], finding: usize| {
        let mut at = vec![0.0; grid.cells()];
        kinds.iter().for_each(|k| at[k * YEARS + 100] = 1.0);
        let piece = posterior_of(at, &grid);
        rarity(
            &grid,
            &Market::new(&grid, market.cells()),
            &piece,
            std::slice::from_ref(&colour),
            &[Some(finding)],
        )
    };
    let same = |a: &Rarity, b: &Rarity| {
        let bits = |r: &Rarity| r.features[0].unwrap();
        (a.score - b.score).abs() < 1e-9 && (bits(a) - bits(b)).abs() < 1e-9
    };
    assert!(same(&score(&[0, 1], 2), &score(&[1], 2)));
    assert!(same(&score(&[0, 1, 2], 1), &score(&[1, 2], 1)));
    assert!(!same(&score(&[0, 1], 0), &score(&[1], 0)));
    // Nothing like it at all: as rare as can be, and still a number of bits that means something.
    let never = score(&[0], 2);
    assert!(never.score > 100.0 - 1e-9, "{}", never.score);
    let bits = never.features[0].unwrap();
    assert!((8.0..15.0).contains(&bits), "{bits}");
}
