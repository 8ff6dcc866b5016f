//! The rarity score against a plain enumeration of the whole market.

use printseam::internals::core::grid::{Grid, KindId, PlaceId, Year};
use printseam::internals::core::market::{AGE_YEARS, Market, Trait, ages, kind_ages};
use printseam::internals::core::posterior::{Posterior, Prior};
use printseam::internals::core::rarity::{Rarity, Seen, of_its_kind, rarity};
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

/// A trait of `n` findings; some findings of some kinds are never met.
fn random_trait(
    r: &mut Random,
    ages: usize,
    given: Option<usize>,
    givens: usize,
    n: usize,
) -> Trait {
    let row = |r: &mut Random| -> Vec<f64> {
        let mut w: Vec<f64> = (0..n).map(|_| r.unit() - 0.2).map(|x| x.max(0.0)).collect();
        w[0] += 0.01;
        let total: f64 = w.iter().sum();
        w.iter().map(|x| x / total).collect()
    };
    let by = (0..KINDS * ages * givens).map(|_| row(r)).collect();
    Trait { given, by }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// Against a plain enumeration: the share of cells commoner than the piece's own, averaged over what
    /// was not looked at. Cells within a step of probability count as equally common, so the score lies
    /// between counting all such cells and counting none.
    #[test]
    fn the_score_is_the_share_of_commoner_pieces(seed in any::<u64>()) {
        let mut r = Random(seed);
        let grid = grid();
        let prior = Prior::new((0..grid.cells()).map(|_| r.unit()).collect());
        let (base, ages) = (kind_ages(&grid, prior.cells()), ages(&grid));
        let colour = random_trait(&mut r, ages, None, 1, 4);
        let subject = random_trait(&mut r, ages, None, 1, 3);
        let form = random_trait(&mut r, ages, Some(1), 3, 5);
        let (kind, offset) = (r.below(KINDS), r.below(YEARS));
        let mut at = vec![0.0; grid.cells()];
        at[kind * YEARS + offset] = 1.0;
        let piece = posterior_of(at, &grid);
        let seen: Vec<Seen> = [4, 3, 5]
            .iter()
            .map(|n| match r.unit() < 0.5 {
                true => vec![(r.below(*n), 1.0)],
                false => Seen::new(),
            })
            .collect();
        let market = Market::new(&grid, prior.cells(), vec![colour.clone(), subject.clone(), form.clone()]);

        let mut cells: Vec<(usize, [usize; 3], f64)> = Vec::new();
        for (at, p) in base.iter().enumerate() {
            for c in 0..4 {
                for s in 0..3 {
                    for f in 0..5 {
                        let share = colour.by[at][c] * subject.by[at][s] * form.by[at * 3 + s][f];
                        cells.push((at, [c, s, f], p * share));
                    }
                }
            }
        }
        let own_at = kind * ages + offset / AGE_YEARS;
        let fits = |chosen: &[usize; 3]| {
            let mut pairs = chosen.iter().zip(&seen);
            pairs.all(|(c, s)| s.first().is_none_or(|(f, _)| f == c))
        };
        let own: Vec<&(usize, [usize; 3], f64)> =
            cells.iter().filter(|(at, chosen, p)| *at == own_at && fits(chosen) && *p > 0.0).collect();
        let weight: f64 = own.iter().map(|c| c.2).sum();
        let got = rarity(&grid, &market, &piece, &seen);
        if weight > 0.0 {
            let step = 2f64.powf(1.0 / 32.0);
            let commoner = |than: f64| -> f64 {
                cells.iter().map(|c| c.2).filter(|p| *p > than).sum()
            };
            let mean = |factor: f64| -> f64 {
                own.iter().map(|c| c.2 / weight * commoner(c.2 * factor)).sum()
            };
            let (least, most) = (100.0 * mean(step), 100.0 * mean(1.0 / step));
            assert!(least - 1e-9 <= got.score && got.score <= most + 1e-9, "{least} {got:?} {most}");
        } else {
            assert_eq!(got.score, 100.0);
        }
        for (s, bits) in seen.iter().zip(&got.traits) {
            assert_eq!(s.is_empty(), bits.is_none());
        }
        let within = of_its_kind(&grid, &market, &piece, &seen);
        assert!((0.0..=100.0).contains(&within), "{within}");
    }
}

/// Looking alone makes a piece no rarer: over all findings it may show, the scores average to the score
/// without the look.
#[test]
fn the_score_does_not_grow_by_looking() {
    let mut r = Random(7);
    let grid = grid();
    let prior = Prior::new((0..grid.cells()).map(|_| r.unit()).collect());
    let ages = ages(&grid);
    let colour = random_trait(&mut r, ages, None, 1, 4);
    let form = random_trait(&mut r, ages, Some(0), 4, 5);
    let mut at = vec![0.0; grid.cells()];
    at[YEARS + 30] = 1.0;
    let piece = posterior_of(at, &grid);
    let market = Market::new(&grid, prior.cells(), vec![colour.clone(), form]);
    let score = |seen: &[Seen]| rarity(&grid, &market, &piece, seen).score;
    let unseen = score(&[Seen::new(), Seen::new()]);
    let shares = colour.by[ages + 30 / AGE_YEARS].iter().enumerate();
    let mean: f64 = shares
        .filter(|(_, p)| **p > 0.0)
        .map(|(c, p)| p * score(&[vec![(c, 1.0)], Seen::new()]))
        .sum();
    assert!((mean - unseen).abs() < 1e-9, "{mean} {unseen}");
}

/// Half one kind, half another, and the market has no piece of the first with what was seen: the
/// first is there by misreading only, so the piece is as rare as one of the second.
#[test]
fn kinds_the_market_never_has_so_stay_out_of_the_score() {
    let grid = grid();
    let prior = Prior::new(vec![1.0; grid.cells()]);
    let ages = ages(&grid);
    let shares = [[1.0, 0.0, 0.0], [0.7, 0.29, 0.01], [0.5, 0.5, 0.0]];
    let by = shares
        .iter()
        .flat_map(|s| std::iter::repeat_n(s.to_vec(), ages));
    let colour = Trait {
        given: None,
        by: by.collect(),
    };
    let market = Market::new(&grid, prior.cells(), vec![colour]);
    let score = |kinds: &[usize], finding: usize| {
        let mut at = vec![0.0; grid.cells()];
        kinds.iter().for_each(|k| at[k * YEARS + 100] = 1.0);
        let piece = posterior_of(at, &grid);
        rarity(&grid, &market, &piece, &[vec![(finding, 1.0)]])
    };
    let same = |a: &Rarity, b: &Rarity| {
        let bits = |r: &Rarity| r.traits[0].unwrap();
        (a.score - b.score).abs() < 1e-9 && (bits(a) - bits(b)).abs() < 1e-9
    };
    assert!(same(&score(&[0, 1], 2), &score(&[1], 2)));
    assert!(same(&score(&[0, 1, 2], 1), &score(&[1, 2], 1)));
    assert!(!same(&score(&[0, 1], 0), &score(&[1], 0)));
    // Nothing like it at all: as rare as can be, and still a number of bits that means something.
    let never = score(&[0], 2);
    assert!(never.score > 100.0 - 1e-9, "{}", never.score);
    let bits = never.traits[0].unwrap();
    assert!((8.0..15.0).contains(&bits), "{bits}");
}
