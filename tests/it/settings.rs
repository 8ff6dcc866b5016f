//! Settings that know they may be wrong, and the countries that multiply them.

use printseam::internals::piece::Piece;
use printseam::internals::piece::setting_effect::{MOVES, trusted, years_effect};
use printseam::internals::prove::calibration::by_period;
use printseam::internals::prove::cases::Known;
use printseam::internals::prove::prove;
use printseam::internals::prove::setting_moves::{WELL_DESCRIBED, setting_moves};
use printseam::internals::rulebase::ids::{Id, SettingId};

use crate::shipped::{EXPERT, case_of, further, museum, museum_proof};

const QUIET: &(dyn Fn(&str, usize, usize) + Sync) = &|_, _, _| {};

fn setting(name: &str) -> SettingId {
    EXPERT
        .base
        .setting(name)
        .unwrap_or_else(|| panic!("{name}"))
}

#[test]
fn no_setting_forbids_what_was_made() {
    let (base, engine) = (&EXPERT.base, EXPERT.engine());
    for (at, told) in base.settings.iter().enumerate().filter(|(_, s)| !s.neutral) {
        assert!(told.doubt > 0.0, "{}", told.id);
        let prior = engine.priors[SettingId::at(at).unwrap()].cells();
        let total: f64 = prior.iter().sum();
        assert!((total - 1.0).abs() < 1e-9, "{total}");
        let least = prior
            .iter()
            .zip(engine.priors.wide())
            .all(|(p, w)| *p >= told.doubt * w * (1.0 - 1e-9));
        assert!(least, "{}", told.id);
    }
    // Every year alike: what is neutral is not mixed with anything.
    let years = Piece::unseen(EXPERT.clone(), base.neutral())
        .judgement()
        .years
        .clone();
    let even = 1.0 / years.len() as f64;
    assert!(years.iter().all(|p| (p - even).abs() < 1e-9));
}

#[test]
fn a_country_multiplies_the_kind_of_place() {
    let base = &EXPERT.base;
    assert_eq!(
        base.setting("thrift-shelf@north-america"),
        base.setting("thrift@north")
    );
    assert_eq!(base.setting("thrift@nowhere"), None);
    assert_eq!(
        base.kinds_of_place().len() * (base.countries.len() + 1),
        base.settings.len()
    );
    let (shelf, america) = (
        setting("thrift-shelf"),
        setting("thrift-shelf@north-america"),
    );
    let north = base.country("north-america");
    assert_eq!(base.in_country(shelf, north), america);
    assert_eq!(base.place_and_country(america), (shelf, north));
    assert_eq!(base.in_country(america, None), shelf);
    // The same findings, from shelf to shelf: where a thing was made follows where it lies.
    let saw = ["print-colour=blue", "edge=clouded", "subject=flowers"];
    let here = case_of(&EXPERT, "antiques-fair", &saw);
    let at = |country: &str| here.in_setting(setting(&format!("antiques-fair@{country}")));
    let share = |piece: &Piece, of: &dyn Fn(&Piece) -> f64| of(piece);
    let place = |id: &'static str| {
        move |piece: &Piece| {
            let at = EXPERT.base.places.iter().position(|p| p.id == id).unwrap();
            piece
                .judgement()
                .places
                .iter()
                .find(|(p, _)| usize::from(p.0) == at)
                .unwrap()
                .1
        }
    };
    let flow = |piece: &Piece| {
        let at = EXPERT.base.kind_id("flow-blue").unwrap();
        piece
            .judgement()
            .kinds
            .iter()
            .find(|(k, _)| *k == at)
            .unwrap()
            .1
    };
    let (britain, america, continent) = (at("britain"), at("north-america"), at("continent"));
    assert!(share(&america, &place("usa")) > 3.0 * share(&britain, &place("usa")));
    assert!(share(&continent, &place("germany")) > 2.0 * share(&britain, &place("germany")));
    assert!(share(&america, &flow) > share(&britain, &flow));
}

#[test]
fn findings_overrule_a_shelf() {
    // A specialist says 1800 to 1835 of it, wherever it lies.
    let saw = [
        "line-make=engraved",
        "print-colour=blue",
        "subject=willow",
        "glaze-pool=blue",
        "stilt-marks=front",
        "mark-way=none",
        "potting=uneven",
    ];
    let here = case_of(&EXPERT, "thrift-shelf", &saw);
    assert!(
        here.judgement().median.0 < 1850,
        "{}",
        here.judgement().median.0
    );
    let common = case_of(&EXPERT, "thrift-shelf", &["care-word=dishwasher-safe"]);
    assert!(trusted(&here) < trusted(&common));
    assert!((0.0..=1.0).contains(&trusted(&here)));
    let neutral = here.in_setting(EXPERT.base.neutral());
    assert_eq!(years_effect(&neutral), None);
    if let Some(effect) = years_effect(&here) {
        let moved = here.judgement().median.0 - neutral.judgement().median.0;
        assert!(effect.moved == moved && moved.abs() >= MOVES, "{effect:?}");
    }
}

/// A design figure of the program: where a well-described piece is said to lie must not date it.
#[test]
fn a_well_described_piece_hangs_little_on_its_setting() {
    let some: Vec<Known> = museum().iter().step_by(2).cloned().collect();
    let found = setting_moves(&EXPERT, &some, QUIET);
    assert!(
        found.pieces >= 40,
        "{} with {WELL_DESCRIBED} findings",
        found.pieces
    );
    assert!(found.median.unwrap() < 15.0, "{found:?}");
}

/// Floors with a margin under what was measured, on pieces most of which no curve was drawn by.
#[test]
fn bands_of_later_pieces_hold_about_as_often_as_they_say() {
    let later = further();
    let proof = prove(&EXPERT, later, QUIET);
    assert!(proof.all.dated >= 80);
    let held = proof.all.coverage[1].unwrap();
    assert!((0.72..0.92).contains(&held), "{held}");
    let both: Vec<Known> = museum().iter().chain(later).cloned().collect();
    let judged = [museum_proof().judged.clone(), proof.judged].concat();
    let periods = by_period(&both, &judged);
    for period in periods
        .iter()
        .filter(|p| p.from >= 1800 || p.from == i16::MIN)
    {
        assert!(
            period.interval.1 > 0.75 && period.interval.0 < 0.9,
            "{period:?}"
        );
    }
    let since = periods.iter().find(|p| p.to.is_none()).unwrap();
    assert!(since.share() > 0.70, "{since:?}");
}
