//! Our EDTF text parsed back by an independent parser (crate `edtf`, levels 0 and 1).

use edtf::level_1::{Certainty, Edtf};
use printseam::internals::claim::read;
use printseam::internals::core::grid::Year;
use printseam::internals::core::interval::Band;

use crate::shipped::expert;
use crate::tables::{Row, table};

/// What a row of the table says the text names, and whether each end is open or unknown.
fn meant(row: &Row) -> (Option<i16>, Option<i16>) {
    (row.year("earliest"), row.year("latest"))
}

/// A guess may be an EDTF text: it is understood as the specification means it, or refused.
/// "About" a single year reaches some years either way, which is ours.
#[test]
fn a_guess_in_edtf_is_understood_as_meant() {
    let expert = expert();
    let years = expert.engine().model.grid.first()..=expert.engine().model.grid.last();
    let (mut understood, mut refused) = (0, 0);
    for row in table("data/edtf_cases.csv")
        .rows()
        .filter(|r| r.text("valid") == "yes")
    {
        let (text, (from, to)) = (row.text("text"), meant(&row));
        let inside = from.or(to).is_some_and(|y| years.contains(&Year(y)));
        match read(&expert, text) {
            Ok(claim) if claim.ends.about() && from == to => {
                let year = from.unwrap();
                let (a, b) = (claim.from.unwrap(), claim.to.unwrap());
                assert!(
                    (year - 5..=year).contains(&a) && (year..=year + 5).contains(&b),
                    "{text}"
                );
                understood += 1;
            }
            Ok(claim) => {
                assert_eq!((claim.from, claim.to), (from, to), "{text}");
                assert!(
                    claim.kinds.is_empty() && claim.not_understood.is_empty(),
                    "{text}"
                );
                understood += 1;
            }
            // Only what lies outside the years judged, or the highest level, may be refused.
            Err(_) => {
                assert!(!inside || row.text("level") == "2", "{text}");
                refused += 1;
            }
        }
    }
    assert!(understood >= 20 && refused <= 2, "{understood} {refused}");
}

/// The parser our own texts are checked with below reads the specification's examples as meant.
#[test]
fn the_independent_parser_reads_the_table_as_it_says() {
    let (mut read, mut refused) = (0, 0);
    for row in table("data/edtf_cases.csv").rows() {
        let text = row.text("text");
        let parsed = Edtf::parse(text);
        assert_eq!(
            parsed.is_ok(),
            row.text("crate") == "yes",
            "{text}: {parsed:?}"
        );
        match parsed {
            Ok(parsed) => {
                let (from, to) = meant(&row);
                let ends = match parsed {
                    Edtf::Date(d) => vec![(d.year(), from)],
                    Edtf::Interval(a, b) => vec![(a.year(), from), (b.year(), to)],
                    Edtf::IntervalFrom(a, _) => vec![(a.year(), from)],
                    Edtf::IntervalTo(_, b) => vec![(b.year(), to)],
                    other => panic!("{text}: {other:?}"),
                };
                for (year, expected) in ends {
                    // An X counts from 0 there, so the end of 184X/186X is given as 1860.
                    let expected = i32::from(expected.unwrap());
                    let unspecified = text.contains('X') && year / 10 == expected / 10;
                    assert!(year == expected || unspecified, "{text}: {year} {expected}");
                }
                read += 1;
            }
            Err(_) => refused += 1,
        }
    }
    assert!(read >= 19 && refused >= 9, "{read} {refused}");
}

/// Bands printed once and read back by another program in another language: we still print years
/// the same way.
#[test]
fn bands_are_printed_as_python_edtf_read_them() {
    let mut bands = 0;
    for row in table("reference/edtf_python.csv").rows() {
        if row.text("from") != "printseam judge" {
            continue;
        }
        let (from, to) = meant(&row);
        let band = Band {
            share: 0.8,
            from: Year(from.unwrap()),
            to: Year(to.unwrap()),
        };
        assert_eq!(band.edtf(), row.text("text"));
        assert!(row.text("approximate").split(' ').all(|end| end == "yes"));
        bands += 1;
    }
    assert!(bands >= 39, "{bands}");
}

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
