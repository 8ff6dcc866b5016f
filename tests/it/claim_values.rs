//! Claims on a made-up posterior, where the nearest one that stands can be counted out, and the limit at which a
//! guess contradicts itself.

use std::sync::{Arc, LazyLock};

use printseam::internals::claim::region::Region;
use printseam::internals::claim::standing::nearest;
use printseam::internals::claim::{Challenge, Claim, ClaimAnswer, challenge, read};
use printseam::internals::core::grid::{Grid, KindId, PlaceId, Year};
use printseam::internals::core::posterior::{Posterior, Prior};
use printseam::internals::piece::Piece;
use printseam::internals::piece::expert::Expert;

use crate::shipped::case_of;

static EXPERT: LazyLock<Arc<Expert>> = LazyLock::new(crate::shipped::expert);

const FIRST: i16 = 1780;
const YEARS: usize = 240;

/// One kind, 1780 to 2019. By the findings 1860 to 1919 count 10 each and 1920 to 1939 12 each, others nothing.
fn plateau() -> (Grid, Prior, Posterior) {
    let last = Year(FIRST + YEARS as i16 - 1);
    let grid = Grid::new(vec![(KindId(0), PlaceId(0))], 1, 1, Year(FIRST), last);
    let weight = |offset: usize| match offset {
        80..140 => 10.0,
        140..160 => 12.0,
        _ => 0.0,
    };
    let seen = Prior::new((0..YEARS).map(weight).collect());
    let even = Prior::new(vec![1.0; YEARS]);
    let after = Posterior::of_prior(&seen);
    (grid, even, after)
}

fn nearest_to(from: i16, to: i16) -> (i16, i16) {
    let (grid, prior, after) = plateau();
    let claim = Region {
        kinds: Vec::new(),
        from: Year(from),
        to: Year(to),
    };
    let everything = (grid.first(), grid.last());
    let refused = ClaimAnswer::RuledOut;
    let found = nearest(&grid, prior.cells(), &after, &claim, refused, everything);
    (found.from.0, found.to.0)
}

/// A generation stands from half of the best on: 1920 to 1939 has 240, so 120 will do. Twelve years of the plateau
/// at its beginning, ten at its end.
#[test]
fn the_nearest_claim_is_moved_no_further_than_need_be() {
    assert_eq!(nearest_to(1800, 1819), (1852, 1871));
    assert_eq!(nearest_to(1975, 1994), (1930, 1949));
    // A claim that stands already stays where it is, though there are better ones.
    assert_eq!(nearest_to(1870, 1889), (1870, 1889));
}

/// Who names no years is told the best of them.
#[test]
fn without_years_the_nearest_claim_is_the_best() {
    let all = nearest_to(FIRST, FIRST + YEARS as i16 - 1);
    assert_eq!(all, (1920, 1939));
}

fn put(piece: &Piece, claim: Claim) -> Challenge {
    challenge(piece, claim)
}

/// What a guess takes for granted is weighed as if it had been seen: it contradicts the guess from ten times
/// (ten decibans) on, and then as much as the finding would.
#[test]
fn a_guess_contradicts_itself_from_ten_decibans_on() {
    let blank = case_of(&EXPERT, "anywhere", &[]);
    let (mut just_under, mut just_over) = (0, 0);
    for (words, decades) in [
        ("Made in England", [1880, 1890, 1900, 1930]),
        ("ironstone", [1780, 1800, 1840, 1900]),
        ("dishwasher safe", [1900, 1940, 1950, 1980]),
    ] {
        for from in decades {
            let guess = format!("{from}-{}, {words}", from + 9);
            let own = read(&EXPERT, &guess).unwrap();
            let bare = read(&EXPERT, &format!("{from}-{}", from + 9)).unwrap();
            let granted: Vec<_> = own.findings.iter().map(|(_, o)| o.clone()).collect();
            let seen = put(&blank.with_all(granted), bare);
            let said = put(&blank, own);
            let wanted = match seen.weight <= -10.0 {
                true => seen.answer.max(ClaimAnswer::Possible),
                false => ClaimAnswer::Possible,
            };
            assert_eq!(said.answer, wanted, "{guess}: {} decibans", seen.weight);
            assert_eq!(said.own.is_empty(), wanted == ClaimAnswer::Possible);
            let hard = seen.answer > ClaimAnswer::Possible;
            just_under += usize::from(hard && (-10.0..-5.0).contains(&seen.weight));
            just_over += usize::from(hard && (-20.0..-10.0).contains(&seen.weight));
        }
    }
    // Guesses on either side of the limit, or nothing was tried.
    assert!(just_under > 0 && just_over > 0, "{just_under} {just_over}");
}
