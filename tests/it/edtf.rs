//! Our EDTF text parsed back by an independent parser (crate `edtf`, levels 0 and 1).

use edtf::level_1::{Certainty, Edtf};
use printseam::core::axes::Year;
use printseam::core::band::Band;

#[test]
fn bands_come_back_as_the_same_approximate_years() {
    for from in (1750..=2026).step_by(7) {
        for to in (from..=2026).step_by(13) {
            let band = Band {
                share: 0.8,
                from: Year(from),
                to: Year(to),
            };
            let text = band.edtf();
            match Edtf::parse(&text) {
                Ok(Edtf::Interval(a, b)) => {
                    assert_eq!(
                        (a.year(), b.year()),
                        (i32::from(from), i32::from(to)),
                        "{text}"
                    );
                    assert_eq!(a.certainty(), Certainty::Approximate, "{text}");
                    assert_eq!(b.certainty(), Certainty::Approximate, "{text}");
                }
                Ok(Edtf::Date(only)) => {
                    assert_eq!((from, only.year()), (to, i32::from(from)), "{text}");
                    assert_eq!(only.certainty(), Certainty::Approximate, "{text}");
                }
                other => panic!("{text}: {other:?}"),
            }
        }
    }
}
