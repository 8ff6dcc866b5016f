//! Reports by value: each figure of JSON, Markdown, sheet and picture against what the piece itself says.

use std::sync::{Arc, LazyLock};

use printseam::internals::claim::{challenge, read};
use printseam::internals::core::observation::Observed;
use printseam::internals::piece::Piece;
use printseam::internals::piece::expert::Expert;
use printseam::internals::report::sheet::Sheet;
use printseam::internals::report::{json, markdown};
use printseam::internals::rulebase::ids::Id;
use printseam::internals::say::caution::cautions;
use printseam::internals::say::origin;
use serde_json::Value;

use crate::shipped::case_of;

static EXPERT: LazyLock<Arc<Expert>> = LazyLock::new(crate::shipped::expert);

/// Findings whose weight in the order told, leave-one-out, medians and widths all differ.
const SAW: &[&str] = &[
    "line-make=engraved",
    "print-colour=blue",
    "subject=willow",
    "edge=clouded?",
    "country-word=england",
    "glaze-pool=blue??",
];

fn case() -> Piece {
    case_of(&EXPERT, "thrift-shelf", SAW)
}

/// A number as the JSON has it.
fn close(value: &Value, wanted: f64) {
    let got = value.as_f64().unwrap();
    assert!((got - wanted).abs() <= 5.1e-7, "{got} is not {wanted}");
}

#[test]
fn every_figure_of_the_json_is_that_of_the_piece() {
    let case = case();
    let (judgement, account) = (case.judgement(), case.explanation());
    let value = json::verdict(&case);
    let id = |clue| EXPERT.base.clue(clue).id.clone();
    for (told, (kind, p)) in value["kinds"]
        .as_array()
        .unwrap()
        .iter()
        .zip(&judgement.kinds)
    {
        let kind = &EXPERT.base.kinds[usize::from(kind.0)];
        assert_eq!(
            (told["id"].as_str().unwrap(), told["name"].as_str().unwrap()),
            (&*kind.id, &*kind.name)
        );
        close(&told["p"], *p);
    }
    for (told, (place, p)) in value["places"]
        .as_array()
        .unwrap()
        .iter()
        .zip(&judgement.places)
    {
        assert_eq!(told["id"], EXPERT.base.places[usize::from(place.0)].id);
        close(&told["p"], *p);
    }
    let bands = value["bands"].as_array().unwrap();
    assert_eq!(bands.len(), judgement.bands.len());
    for (told, band) in bands.iter().zip(&judgement.bands) {
        assert_eq!(told["share"], band.share);
        assert_eq!(
            (told["from"].as_i64(), told["to"].as_i64()),
            (Some(band.from.0.into()), Some(band.to.0.into()))
        );
        assert_eq!(told["edtf"], format!("{}~/{}~", band.from.0, band.to.0));
    }
    assert_eq!(
        value["band"],
        bands.iter().find(|b| b["share"] == 0.8).unwrap().clone()
    );
    assert_eq!(value["median"], judgement.median.0);
    for (name, end) in [("earliest", account.earliest), ("latest", account.latest)] {
        assert_eq!(value[name]["year"], end.year.0, "{name}");
        assert_eq!(
            value[name]["because"].as_str().map(str::to_owned),
            end.because.map(id),
            "{name}"
        );
        assert_eq!(value[name]["hard"], end.hard, "{name}");
    }
    assert!(account.earliest.year < account.latest.year);
    let because = value["because"].as_array().unwrap();
    assert_eq!(because.len(), account.steps.len());
    for (told, step) in because.iter().zip(&account.steps) {
        assert_eq!(told["clue"], id(step.observation.clue));
        close(&told["decibans"], step.decibans);
        close(&told["leave_one_out"], step.leave_one_out);
        for (name, wanted) in [
            ("median_before", step.median_before.0),
            ("median_after", step.median_after.0),
            ("width_before", step.width_before),
            ("width_after", step.width_after),
        ] {
            assert_eq!(told[name], wanted, "{name}");
        }
    }
    // The piece tells them apart, or the lines above could not.
    let steps = &account.steps;
    assert!(
        steps
            .iter()
            .any(|s| (s.decibans - s.leave_one_out).abs() > 0.5)
    );
    assert!(steps.iter().any(|s| s.width_before != s.width_after));
    assert!(steps.iter().any(|s| s.median_before != s.median_after));
    let sure: Vec<&str> = because
        .iter()
        .map(|b| b["sure"].as_str().unwrap())
        .collect();
    assert_eq!(sure, ["sure", "sure", "sure", "unsure", "sure", "guess"]);
    for (told, look) in value["next"]
        .as_array()
        .unwrap()
        .iter()
        .zip(&case.advice().looks)
    {
        assert_eq!(told["clue"], id(look.clue));
        close(&told["bits"], look.bits);
        close(&told["seconds"], look.seconds);
        close(&told["bits_per_second"], look.bits / look.seconds);
    }
    let turns = value["turning_points"].as_array().unwrap();
    assert_eq!(turns.len(), case.turning_points().len());
    for (told, turn) in turns.iter().zip(case.turning_points()) {
        assert_eq!(told["kind"], EXPERT.base.kinds[usize::from(turn.kind.0)].id);
        assert_eq!(told["median"], turn.median.0);
    }
    assert_eq!(value["rarity"]["score"], case.rarity().score.round());
    close(
        &value["rarity"]["bits"][0]["bits"],
        case.rarity().kind_and_age,
    );
}

#[test]
fn the_sheet_has_the_figures_in_their_places() {
    let case = case();
    let sheet = Sheet::new(&case, "a<b>c|d", None);
    let steps = &case.explanation().steps;
    assert_eq!(sheet.findings.len(), steps.len());
    let mut signs = std::collections::BTreeSet::new();
    for (line, step) in sheet.findings.iter().zip(steps) {
        assert_eq!(line.decibans, format!("{:+.1}", step.decibans));
        assert_eq!(line.leave_one_out, format!("{:+.1}", step.leave_one_out));
        // A factor of two is where a finding begins to count.
        let sign = match step.decibans / 10.0 {
            x if 10f64.powf(x) >= 2.0 => "▲",
            x if 10f64.powf(x) <= 0.5 => "▼",
            _ => "·",
        };
        assert_eq!(line.sign, sign, "{}", step.decibans);
        signs.insert(sign);
    }
    assert!(signs.len() >= 2, "{signs:?}");
    let (place, p) = case.judgement().places[0];
    assert!(case.judgement().places.iter().all(|other| other.1 <= p));
    let name = &EXPERT.base.places[usize::from(place.0)].name;
    assert!(sheet.place.starts_with(name), "{}", sheet.place);
    assert!(!sheet.parts.is_empty() && sheet.parts.iter().all(|part| !part.lines.is_empty()));
    let page = markdown::page(&sheet);
    assert!(
        page.contains("a\\<b\\>c\\|d") && !page.contains("a<b"),
        "{page}"
    );
    for (line, step) in sheet.findings.iter().zip(steps) {
        let row = page
            .lines()
            .find(|l| l.contains(&line.decibans) && l.contains(&line.clue));
        assert!(
            row.unwrap()
                .contains(&format!("{:+.1}", step.leave_one_out))
        );
    }
}

#[test]
fn the_band_of_the_picture_holds_its_last_year() {
    let case = case();
    let challenged = challenge(&case, read(&EXPERT, "1850 to 1859").unwrap());
    let sheet = Sheet::new(&case, "", Some((&case, &challenged)));
    let picture = roxmltree::Document::parse(&sheet.picture).unwrap();
    let grid = &EXPERT.engine().model.grid;
    // 420 wide, 8 to either side; a year has its own stretch, from its first day to its last.
    let x = |year: i16| 8.0 + f64::from(year - grid.first().0) / grid.years() as f64 * 404.0;
    let frame = |class: &str| {
        let found = picture
            .descendants()
            .find(|n| n.attribute("class") == Some(class))
            .unwrap();
        let number = |name: &str| found.attribute(name).unwrap().parse::<f64>().unwrap();
        (number("x"), number("width"))
    };
    let band = case.judgement().band();
    for (class, from, to) in [
        ("band", band.from.0, band.to.0),
        ("guess", challenged.from.0, challenged.to.0),
    ] {
        let (at, wide) = frame(class);
        assert!((at - x(from)).abs() < 0.06, "{class} begins at {at}");
        assert!(
            (at + wide - x(to + 1)).abs() < 0.11,
            "{class} ends at {}",
            at + wide
        );
    }
}

#[test]
fn a_finding_with_sources_of_its_own_is_told_with_these() {
    let base = &EXPERT.base;
    let mut own = 0;
    for (i, clue) in base.clues.iter().enumerate() {
        for (j, finding) in clue.findings.iter().enumerate() {
            let (clue_at, finding_at) = (
                printseam::internals::core::grid::ClueId::at(i).unwrap(),
                printseam::internals::core::grid::FindingId::at(j).unwrap(),
            );
            let seen = printseam::internals::core::observation::Observation::new(
                clue_at,
                Observed::Finding(finding_at),
            );
            let named = origin::named(&EXPERT, &seen);
            match finding.sources.is_empty() {
                true => assert_eq!(named, clue.sources),
                false => {
                    own += 1;
                    assert_eq!(named, finding.sources);
                }
            }
        }
    }
    assert!(own > 5, "{own} findings have sources of their own");
}

#[test]
fn a_year_still_to_come_is_remarked() {
    let told = |year: &str| {
        let said = format!("inscribed-year={year}");
        let case = case_of(&EXPERT, "thrift-shelf", &[said.as_str()]);
        cautions(&EXPERT, case.evidence())
    };
    let remark = "Inscribed year: 2040 is still to come, now it is 2026. Read the year again.";
    assert_eq!(told("2040")[0], remark);
    assert!(told("2026").iter().all(|c| !c.contains("still to come")));
}

/// Areas fill their lanes, of which points on nearly straight lines may be left out, up to 2 of height; labels stand
/// below one another.
#[test]
fn the_picture_has_every_area_within_its_lane() {
    let case = case();
    let sheet = Sheet::new(&case, "", None);
    let picture = roxmltree::Document::parse(&sheet.picture).unwrap();
    let number = |text: &str| text.parse::<f64>().unwrap();
    let y = |n: &roxmltree::Node| number(n.attribute("y").unwrap());
    let texts: Vec<_> = picture
        .descendants()
        .filter(|n| n.has_tag_name("text") && n.attribute("text-anchor").is_none())
        .collect();
    assert!(texts.len() > case.leanings().len());
    assert!(
        texts
            .windows(2)
            .all(|two| y(&two[1]) >= y(&two[0]) + 14.0 - 0.06)
    );
    let of = |class: &str| -> Vec<Vec<(f64, f64)>> {
        let paths = picture
            .descendants()
            .filter(|n| n.attribute("class") == Some(class));
        paths
            .map(|n| {
                let d = n.attribute("d").unwrap().trim_matches(['M', 'Z']);
                let point = |p: &str| p.split_once(' ').map(|(x, y)| (number(x), number(y)));
                d.split('L').map(|p| point(p).unwrap()).collect()
            })
            .collect()
    };
    let tall = |points: &[(f64, f64)]| {
        let base = points[0].1;
        assert_eq!(points[points.len() - 1].1, base, "closed along its base");
        let top = points.iter().map(|p| p.1).fold(base, f64::min);
        base - top
    };
    let eras = of("era");
    assert_eq!(eras.len(), case.leanings().len());
    for points in &eras {
        assert!((13.0..15.06).contains(&tall(points)), "{points:?}");
    }
    // From the first day of the grid, by way of the middle of its first year.
    let first = 8.0 + 0.5 / case.judgement().years.len() as f64 * 404.0;
    for points in &eras {
        assert_eq!(points[0].0, 8.0);
        assert!((points[1].0 - first).abs() < 0.06, "{points:?}");
    }
    // What they leave has its own height, and its year of most probability there.
    let sums = of("sum");
    assert_eq!(sums.len(), 1);
    assert!((64.0..66.06).contains(&tall(&sums[0])));
    let years = &case.judgement().years;
    let most = (0..years.len())
        .max_by(|a, b| years[*a].total_cmp(&years[*b]))
        .unwrap();
    let x = 8.0 + (most as f64 + 0.5) / years.len() as f64 * 404.0;
    let top = sums[0].iter().min_by(|a, b| a.1.total_cmp(&b.1)).unwrap();
    assert!((top.0 - x).abs() < 3.0, "{} {x}", top.0);
    // Years stand 2 below the last lane, their base line 11 further down.
    let years_of_axis = picture
        .descendants()
        .filter(|n| n.attribute("text-anchor").is_some());
    let base = sums[0][0].1;
    assert!(
        years_of_axis
            .map(|n| y(&n))
            .all(|y| (y - base - 13.0).abs() < 0.11)
    );
    // Half of the greatest probability is half as high.
    for (x, y) in &sums[0][1..sums[0].len() - 1] {
        let offset = ((x - 8.0) / 404.0 * years.len() as f64 - 0.5).round() as usize;
        let height = (sums[0][0].1 - y) / 66.0;
        assert!(
            (height - years[offset] / years[most]).abs() < 0.002,
            "{offset}"
        );
    }
}
