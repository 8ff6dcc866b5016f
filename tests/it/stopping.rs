//! Pieces drawn from the rule base's own joint and asked about until the advice stops: how long that
//! takes, and whether what is stated then comes true.
//!
//! `ASKED_PIECES=400 cargo test --test it stopping -- --nocapture` is the whole measurement.

use printseam::internals::core::grid::ClueId;
use printseam::internals::core::seeded::Seeded;
use printseam::internals::learn::hidden::{Eyes, Hidden};
use printseam::internals::piece::Piece;

use crate::scenarios::{Scenario, course};
use crate::shipped::EXPERT;

/// Enough for the bounds below to catch advice that stops at once or never.
const PIECES: u64 = 40;

#[test]
fn what_is_stated_when_asking_stops_comes_true_as_often() {
    let asked = std::env::var("ASKED_PIECES").ok();
    let pieces = asked.map_or(PIECES, |n| n.parse().unwrap());
    let model = &EXPERT.engine().model;
    let setting = EXPERT.base.setting("thrift-shelf").unwrap();
    let order: Vec<ClueId> = model.clue_ids().collect();
    let (mut looks, mut seconds) = (Vec::new(), Vec::new());
    let (mut right, mut right_with_all, mut stated, mut spread) = (0.0, 0.0, 0.0, 0.0);
    for n in 0..pieces {
        let seed = Seeded::part(31, n).number();
        let hidden = Hidden::draw(
            model,
            &EXPERT.engine().priors[setting],
            seed,
            Eyes::Slipping,
        )
        .unwrap();
        let scenario = Scenario {
            id: n.to_string(),
            unseen: Piece::unseen(EXPERT.clone(), setting),
            answers: hidden.seen(model, &order, order.len()),
        };
        let all = scenario.answers.observations().iter().cloned();
        let with_all = scenario.unseen.with_all(all).judgement().leading().0;
        let course = course(&EXPERT, &scenario);
        let (kind, p) = course.then.judgement().leading();
        looks.push(course.settled.0 as f64);
        seconds.push(course.settled.1);
        right += f64::from(u8::from(kind == hidden.kind));
        right_with_all += f64::from(u8::from(with_all == hidden.kind));
        stated += p;
        spread += p * (1.0 - p);
    }
    let all = pieces as f64;
    let at = |sorted: &mut Vec<f64>, share: f64| {
        sorted.sort_by(f64::total_cmp);
        sorted[(share * (sorted.len() - 1) as f64).round() as usize]
    };
    println!(
        "{pieces} pieces: stopped after {} looks and {:.0} s in the median, nine of ten within {} and {:.0} s; \
         kind right {:.1} % (states {:.1} ± {:.1}), with all answered {:.1} %",
        at(&mut looks, 0.5),
        at(&mut seconds, 0.5),
        at(&mut looks, 0.9),
        at(&mut seconds, 0.9),
        100.0 * right / all,
        100.0 * stated / all,
        100.0 * spread.sqrt() / all,
        100.0 * right_with_all / all
    );
    assert!(right >= stated - 3.0 * spread.sqrt(), "{right} of {stated}");
    // Two minutes at a shelf, and not at the cost of one verdict in five.
    assert!(at(&mut seconds, 0.5) <= 120.0);
    assert!(right >= right_with_all - 0.2 * all);
}
