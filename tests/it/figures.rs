//! The figures quoted in the README must not fall, with a margin for honest changes of rules.

use std::fs::File;
use std::path::Path;

use printseam::internals::core::explanation::explain;
use printseam::internals::core::left_out::each_left_out;
use printseam::internals::core::observation::Observed;
use printseam::internals::prove::cases::{Known, read};
use printseam::internals::prove::prove;

use crate::shipped::expert;

fn known(name: &str) -> Vec<Known> {
    let expert = expert();
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("tests/data")
        .join(name);
    let museum = expert.base.setting("museum-drawer").unwrap();
    read(&expert, museum, File::open(path).unwrap()).unwrap()
}

#[test]
fn the_quoted_figures_hold() {
    let expert = expert();
    let cases = known("museum.csv");
    let all = prove(&expert, &cases, &|_, _, _| {}).all;
    // Bands of 50, 80 and 95 %.
    let covered = |band: usize| all.coverage[band].unwrap();
    assert!(all.dated >= 200, "{}", all.dated);
    assert!(all.kind_right.unwrap() >= 0.93, "{:?}", all.kind_right);
    assert!((0.73..=0.88).contains(&covered(1)), "{}", covered(1));
    assert!((0.45..=0.60).contains(&covered(0)), "{}", covered(0));
    assert!(all.log_date.unwrap() >= -1.62, "{:?}", all.log_date);
    assert!(all.median_error.unwrap() <= 14.0, "{:?}", all.median_error);
    assert!(all.width.unwrap() <= 70.0, "{:?}", all.width);
}

#[test]
fn prior_and_weights_add_up_on_every_museum_piece() {
    let expert = expert();
    let model = &expert.engine.model;
    let cases = known("museum.csv");
    assert!(cases.len() > 200);
    for case in &cases {
        let prior = &expert.engine.priors[case.setting];
        let left_out = each_left_out(model, prior, &case.evidence);
        let account = explain(model, prior, &case.evidence, &left_out, 0.8);
        assert!(account.gap().abs() < 1e-6, "{}: {}", case.id, account.gap());
        let spoken = case
            .evidence
            .observations()
            .iter()
            .filter(|e| e.seen != Observed::CantTell);
        assert!(account.steps.len() <= spoken.count(), "{}", case.id);
    }
}
