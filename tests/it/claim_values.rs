//! Claims on a made-up posterior, where the nearest one that stands can be counted out, and the limit at which a
//! guess contradicts itself.

use std::sync::{Arc, LazyLock};

use printseam::internals::claim::region::Region;
use printseam::internals::claim::standing::nearest;
use printseam::internals::claim::{Challenge, Claim, ClaimAnswer, challenge, read};
use printseam::internals::core::grid::{Grid, KindId, PlaceId, Year};
use printseam::internals::core::model::Gate;
use printseam::internals::core::observation::Sure;
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

/// The look between a claim and what is held against it, the nearest that stands or, when that is the claim itself,
/// all the rest: I = H(A) − ½H(A | one) − ½H(A | other), reckoned anew for every clue.
#[test]
fn the_look_advised_tells_most_between_the_claim_and_its_rival() {
    let piece = case_of(
        &EXPERT,
        "anywhere",
        &["line-make=engraved", "print-colour=blue"],
    );
    let (model, after) = (&EXPERT.engine().model, &piece.judgement().posterior);
    let grid = &model.grid;
    let entropy =
        |p: &[f64]| -> f64 { p.iter().filter(|x| **x > 0.0).map(|x| -x * x.log2()).sum() };
    let mut of_itself = 0;
    for guess in [
        "1830s",
        "flow blue",
        "decal, 1950s",
        "flow blue, 1840-1900",
        "1780s",
    ] {
        let c = put(&piece, read(&EXPERT, guess).unwrap());
        let cells = |kinds: &[KindId], from: Year, to: Year| -> Vec<f64> {
            let within = |at: usize| {
                let (kind, year) = (
                    grid.pairs()[at / grid.years()].0,
                    grid.year(at % grid.years()),
                );
                (kinds.is_empty() || kinds.contains(&kind)) && from <= year && year <= to
            };
            let all = after.cells().iter().enumerate();
            all.map(|(at, p)| if within(at) { *p } else { 0.0 })
                .collect()
        };
        let one = cells(&c.claim.kinds, c.from, c.to);
        let n = &c.nearest;
        let same_kinds = !n.of_kind || c.claim.kinds.is_empty() || c.claim.kinds.contains(&n.kind);
        let itself = (n.from, n.to) == (c.from, c.to) && same_kinds;
        let other: Vec<f64> = match itself {
            true => after
                .cells()
                .iter()
                .zip(&one)
                .map(|(all, x)| all - x)
                .collect(),
            false => {
                let kinds = if n.of_kind { vec![n.kind] } else { Vec::new() };
                cells(&kinds, n.from, n.to)
            }
        };
        of_itself += usize::from(itself);
        let bits = |clue| {
            let chances = |p: &[f64]| -> Vec<f64> {
                let raw = model.clue(clue).table.predictive(grid, p, Sure::Sure);
                let total: f64 = raw.iter().sum();
                raw.iter().map(|x| x / total).collect()
            };
            let (a, b) = (chances(&one), chances(&other));
            let mixed: Vec<f64> = a.iter().zip(&b).map(|(x, y)| 0.5 * x + 0.5 * y).collect();
            entropy(&mixed) - 0.5 * (entropy(&a) + entropy(&b))
        };
        let evidence = piece.evidence();
        let open = model
            .clue_ids()
            .filter(|c| evidence.of(*c).is_none() && model.gate(*c, evidence) == Gate::Open);
        let most = open.map(bits).fold(0.0, f64::max);
        let look = c.look.unwrap_or_else(|| panic!("{guess}: {most}"));
        assert!(
            (look.bits - most).abs() < 1e-9,
            "{guess}: {} {most}",
            look.bits
        );
        assert!((bits(look.clue) - most).abs() < 1e-9, "{guess}");
    }
    assert!((1..5).contains(&of_itself), "both sorts of rival");
}
