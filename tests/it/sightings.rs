//! Museum pieces typed as a dealer would: the catalogued midpoint lies in the 95 % band.

use std::fs;
use std::path::Path;

use printseam::internals::core::grid::Year;
use printseam::internals::piece::Piece;
use printseam::internals::piece::sighting_file::read;
use printseam::internals::rulebase::source::SourceFile;

use crate::shipped::expert;

#[test]
fn catalogued_midpoints_lie_in_the_band() {
    let expert = expert();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/sightings");
    let mut pieces = 0;
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let text = fs::read_to_string(&path).unwrap();
        let years: Vec<i16> = text
            .lines()
            .next()
            .unwrap()
            .rsplit_once("catalogued ")
            .unwrap()
            .1
            .split(' ')
            .filter_map(|w| w.parse().ok())
            .collect();
        let file = SourceFile {
            name: path.display().to_string(),
            text: text.clone(),
        };
        let sighting = read(&expert.base, &file).unwrap();
        let saw = sighting.saw.iter().cloned().collect();
        let case = Piece::new(expert.clone(), sighting.setting.unwrap(), saw);
        let middle = Year((years[0] + years[1]) / 2);
        let band = case.judgement().bands[2];
        assert!(
            band.holds(middle),
            "{}: {middle:?} not in {band:?}",
            path.display()
        );
        pieces += 1;
    }
    assert!(pieces >= 6, "{pieces}");
}
