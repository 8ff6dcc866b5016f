//! The figures quoted in the README must not fall, with a margin for honest changes of rules.

use printseam::internals::core::observation::Observed;

use crate::shipped::{museum, museum_pieces, museum_proof};

#[test]
fn the_quoted_figures_hold() {
    let all = museum_proof().all;
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
    assert!(museum().len() > 200);
    for (case, piece) in museum().iter().zip(museum_pieces()) {
        let account = piece.explanation();
        assert!(account.gap().abs() < 1e-6, "{}: {}", case.id, account.gap());
        let spoken = case
            .evidence
            .observations()
            .iter()
            .filter(|e| e.seen != Observed::CantTell);
        assert!(account.steps.len() <= spoken.count(), "{}", case.id);
    }
}
