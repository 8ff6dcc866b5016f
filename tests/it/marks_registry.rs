//! Diamonds and registered numbers: every letter, every day, worked examples, impossible marks.

// A test stops at the first surprise.
#![allow(clippy::unwrap_used)]

use printseam::internals::registry::calendar::{Date, days_in};
use printseam::internals::registry::corners::{CornerMeaning, parts};
use printseam::internals::registry::decoded::{DateRange, Decoded};
use printseam::internals::registry::tables::{Layout, Registry};
use printseam::internals::registry::{diamond, numbers};
use printseam::internals::say::registration;

use crate::marks::BOOKS;

fn tables() -> &'static Registry {
    &BOOKS.1
}

fn decode(corners: &str) -> Decoded {
    diamond::decode(tables(), corners, Some("IV"))
}

fn number(text: &str) -> Decoded {
    numbers::decode(tables(), text)
}

fn runs(decoded: &Decoded) -> Vec<String> {
    decoded
        .dates
        .iter()
        .map(|d| {
            if d.from == d.to {
                d.from.to_string()
            } else {
                format!("{}/{}", d.from, d.to)
            }
        })
        .collect()
}

fn note(date: &DateRange) -> String {
    date.note
        .as_ref()
        .map(registration::note)
        .unwrap_or_default()
}

fn problem(decoded: &Decoded) -> String {
    registration::problem(decoded).unwrap()
}

/// What to look at again, in words.
fn look_again(decoded: &Decoded) -> Vec<String> {
    registration::look_again_all(decoded)
}

fn date(iso: &str) -> Date {
    Date::from_iso(iso).unwrap()
}

fn rows(text: &str) -> Vec<csv::StringRecord> {
    csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(text.as_bytes())
        .records()
        .map(|r| r.unwrap())
        .collect()
}

/// Letters typed in once more from the two published pages, apart from the rule file.
const FIRST: &str = "X1842 H1843 C1844 A1845 I1846 F1847 U1848 S1849 V1850 P1851 D1852 Y1853 J1854 \
    E1855 L1856 K1857 B1858 M1859 Z1860 R1861 O1862 G1863 N1864 W1865 Q1866 T1867";
const SECOND: &str = "X1868 H1869 C1870 A1871 I1872 F1873 U1874 S1875 V1876 P1877 D1878 Y1879 J1880 \
    E1881 L1882 K1883";
const MONTHS: &str = "C01 O01 G02 W03 H04 E05 M06 I07 R08 D09 B10 K11 A12";

#[test]
fn every_year_letter() {
    let mut seen = 0;
    for (layout, letters) in [(Layout::First, FIRST), (Layout::Second, SECOND)] {
        for entry in letters.split_whitespace() {
            let (letter, year) = entry.split_at(1);
            let decoded = match layout {
                Layout::First => decode(&format!("{letter},10,2,B")),
                _ => decode(&format!("10,{letter},B,2")),
            };
            assert_eq!(runs(&decoded), [format!("{year}-10-10")], "{entry}");
            assert_eq!(decoded.layout, Some(layout));
            assert_eq!(decoded.problems, []);
            seen += 1;
        }
    }
    assert_eq!(seen, 26 + 16);
}

#[test]
fn every_month_letter() {
    let mut used = String::new();
    for entry in MONTHS.split_whitespace() {
        let (letter, month) = entry.split_at(1);
        used.push_str(letter);
        // 1850 and 1871 have no odd days.
        let first = decode(&format!("V,20,2,{letter}"));
        let second = decode(&format!("20,A,{letter},2"));
        assert_eq!(runs(&first), [format!("1850-{month}-20")]);
        assert_eq!(runs(&second), [format!("1871-{month}-20")]);
        assert_eq!(first.dates[0].note.is_some(), letter == "O");
    }
    for letter in ('A'..='Z').filter(|&c| !used.contains(c)) {
        let decoded = decode(&format!("V,20,2,{letter}"));
        assert!(decoded.dates.is_empty());
        assert_eq!(look_again(&decoded), ["left"]);
        let problem = problem(&decoded);
        assert!(
            problem.contains(&format!("{letter} (left) was never a month letter")),
            "{problem}"
        );
    }
}

#[test]
fn worked_diamonds() {
    let rows = rows(include_str!("../data/diamond_examples.csv"));
    assert_eq!(rows.len(), 8);
    for row in rows {
        let (year, month, day) = (&row[4], &row[5], &row[6]);
        let parcel = if row[7].is_empty() { "?" } else { &row[7] };
        let corners = match &row[2] {
            "first" => format!("{year},{day},{parcel},{month}"),
            _ => format!("{day},{year},{month},{parcel}"),
        };
        let decoded = diamond::decode(tables(), &corners, Some(&row[3]));
        assert_eq!(runs(&decoded)[0], row[1], "{}", &row[0]);
        assert_eq!(decoded.class.as_deref(), Some(&row[3]));
        assert_eq!(!decoded.problems.is_empty(), &row[3] != "IV", "{}", &row[0]);
        assert!(row[9].contains("http"), "every example has its source");
    }
}

#[test]
fn examples_of_the_contract() {
    let first = decode("A,12,3,W");
    assert_eq!(
        (first.layout, runs(&first)),
        (Some(Layout::First), vec!["1845-03-12".into()])
    );
    assert!(registration::why(&first.why[0]).contains("1842-1867"));
    let second = decode("12,S,W,3");
    assert_eq!(
        (second.layout, runs(&second)),
        (Some(Layout::Second), vec!["1875-03-12".into()])
    );
    assert!(registration::why(&second.why[0]).contains("1868-1883"));
}

/// The corners a design registered on `day` got, with a parcel number: the tables read the other way
/// round, as the office did. `None` outside the two periods.
fn encode(day: Date, parcel: u8) -> Option<[String; 4]> {
    let registry = tables();
    let period = registry
        .periods
        .iter()
        .find(|p| p.from <= day && day <= p.to)?;
    let odd = registry
        .odd_days
        .iter()
        .find(|o| o.layout == period.layout && o.from <= day && day <= o.to);
    let (year, month) = match odd {
        Some(odd) => (odd.year_letter, odd.month_letter),
        None => {
            let year = period.years.iter().find(|y| y.1 == day.year())?.0;
            let month = registry.months.iter().find(|m| m.month == day.month())?;
            (year, month.letter)
        }
    };
    Some(parts(period.layout).map(|part| match part {
        CornerMeaning::Year => year.to_string(),
        CornerMeaning::Month => month.to_string(),
        CornerMeaning::Day => day.day().to_string(),
        CornerMeaning::Parcel => parcel.to_string(),
    }))
}

#[test]
fn every_day_there_and_back() {
    let mut days = 0;
    for (from, to) in [("1842-09-01", "1867-12-31"), ("1868-01-01", "1883-12-31")] {
        let mut day = date(from);
        while day <= date(to) {
            let corners = encode(day, 7).unwrap();
            let decoded = decode(&corners.join(","));
            assert!(
                decoded.dates.iter().any(|d| d.from <= day && day <= d.to),
                "{day} {corners:?} {decoded:?}"
            );
            assert_eq!(decoded.problems, [], "{day}");
            assert!(decoded.dates.len() <= 2, "{day} {decoded:?}");
            days += 1;
            day = day.next();
        }
    }
    // 26 years with 6 leap days (1844 to 1864) less the 243 days of January to August 1842, and 16
    // years with 4 leap days (1868 to 1880).
    assert_eq!(days, 26 * 365 + 6 - 243 + 16 * 365 + 4);
    assert_eq!(encode(date("1884-01-01"), 1), None);
    assert_eq!(encode(date("1842-08-31"), 1), None);
}

#[test]
fn odd_days() {
    assert_eq!(runs(&decode("K,12,3,R")), ["1857-08-12", "1857-09-12"]);
    assert_eq!(runs(&decode("K,25,3,R")), ["1857-08-25"]);
    assert_eq!(
        runs(&decode("K,?,3,R")),
        ["1857-08-01/1857-08-31", "1857-09-01/1857-09-19"]
    );
    let september = decode("K,12,3,D");
    assert_eq!(runs(&september), ["1857-09-12"]);
    assert!(note(&september.dates[0]).contains("month letter R"));
    assert_eq!(runs(&decode("Z,5,3,K")), ["1860-11-05", "1860-12-05"]);
    assert_eq!(runs(&decode("Z,31,3,K")), ["1860-12-31"]);
    let december = decode("Z,1,3,K");
    assert!(note(&december.dates[1]).contains("from the 3rd"));
    let march = decode("3,W,G,4");
    assert_eq!(runs(&march), ["1878-03-03"]);
    assert!(note(&march.dates[0]).contains("1-6 March"));
    let disputed = decode("7,W,G,4");
    assert_eq!(runs(&disputed), ["1878-03-07"]);
    assert!(note(&disputed.dates[0]).contains("some lists only"));
    assert_eq!(
        runs(&decode("?,W,?,4")).join(" "),
        "1878-03-01/1878-03-06 1878-03-07"
    );
    for corners in ["8,W,G,4", "3,W,H,4"] {
        let decoded = decode(corners);
        assert!(decoded.dates.is_empty());
        assert!(problem(&decoded).contains("month letter G"), "{corners}");
    }
    let note = note(&decode("3,D,W,4").dates[0]);
    assert!(note.contains("year letter W"), "{note}");
}

#[test]
fn unreadable_corners_give_every_possible_date() {
    let month = decode("A,?,3,W");
    assert_eq!(runs(&month), ["1845-03-01/1845-03-31"]);
    assert_eq!(look_again(&month), ["right"]);
    let parcel = decode("A,12,?,W");
    assert_eq!(runs(&parcel), ["1845-03-12"]);
    assert!(parcel.look_again.is_empty());
    let year = decode(",12,3,W");
    // March of 1843 to 1867: in March 1842 there was no such mark yet.
    assert_eq!(year.dates.len(), 25);
    assert_eq!(look_again(&year), ["top"]);
    let whole = decode("A,,,");
    assert_eq!(
        runs(&whole),
        ["1845-01-01/1845-12-31"].map(String::from).to_vec()
    );
    assert_eq!(look_again(&whole), ["left", "right"]);
    assert_eq!(runs(&decode("A,1?,3,W")), ["1845-03-10/1845-03-19"]);
    assert_eq!(
        runs(&decode("A,?1,3,W")),
        ["1845-03-11", "1845-03-21", "1845-03-31"]
    );
    let blank = decode("?,?,?,?");
    assert_eq!(blank.layout, None);
    assert_eq!(look_again(&blank)[0], "right");
    assert_eq!(blank.years(), Some((1842, 1883)));
    // February 29 leaves leap years only.
    let leap = decode("?,29,3,G");
    assert_eq!(leap.dates.len(), 6);
}

/// Slow twin: tries every day of both periods by its own arithmetic.
#[test]
fn unreadable_corners_against_a_list() {
    for missing in 0..4 {
        let day = date("1852-11-09");
        let mut corners = encode(day, 5).unwrap();
        corners[missing] = "?".into();
        let decoded = decode(&corners.join(","));
        let mut want = 0;
        for entry in FIRST.split_whitespace() {
            let year: i16 = entry[1..].parse().unwrap();
            for month in 1..=12 {
                for d in 1..=days_in(year, month) {
                    let hits = [
                        missing == 0 || year == 1852,
                        missing == 1 || d == 9,
                        true,
                        // K of 1860 also stood for December (odd days).
                        missing == 3
                            || month == 11
                            || (missing == 0 && year == 1860 && month == 12),
                    ];
                    want += usize::from(hits.iter().all(|h| *h));
                }
            }
        }
        let mut got = 0;
        for run in &decoded.dates {
            let mut d = run.from;
            while d <= run.to {
                got += 1;
                d = d.next();
            }
        }
        assert_eq!(got, want, "corner {missing}");
    }
}

#[test]
fn impossible_marks_say_what_is_impossible() {
    for (corners, words, again) in [
        (
            "A,31,3,H",
            "day 31 does not exist: April 1845 has 30 days",
            "right",
        ),
        (
            "A,30,3,G",
            "day 30 does not exist: February 1845 has 28 days",
            "right",
        ),
        ("?,30,3,G", "February has 29 days", "right"),
        ("A,32,3,W", "no month has a day 32", "right"),
        ("A,0,3,W", "no month has a day 0", "right"),
        (
            "12,B,W,3",
            "B (right) was never a year letter of the second layout",
            "right",
        ),
        ("A,12,3,F", "F (left) was never a month letter", "left"),
        (
            "1,12,3,W",
            "top holds the number 1 where a letter (year letter) belongs, perhaps the letter I",
            "top",
        ),
        (
            "A,12,B,W",
            "bottom holds the letter B where a number (parcel number) belongs",
            "bottom",
        ),
        ("A,S,4,3", "fit neither layout", "top"),
        ("A,12,3,WX", "neither one letter nor a number", "left"),
        ("A,12,3", "3 corners are given", ""),
    ] {
        let decoded = decode(corners);
        assert!(decoded.dates.is_empty(), "{corners}: {:?}", runs(&decoded));
        let problem = problem(&decoded);
        assert!(problem.contains(words), "{corners}: {problem}");
        if !again.is_empty() {
            assert_eq!(look_again(&decoded)[0], again, "{corners}");
        }
    }
}

/// Diamonds came with the act in force from 1 September 1842: an earlier day is no date but a slip.
#[test]
fn a_day_before_the_act_was_in_force_is_a_problem() {
    for (corners, words) in [
        ("X,10,2,M", "10 June 1842 is before"),
        ("X,31,2,R", "31 August 1842 is before"),
        ("X,?,2,M", "June 1842 is before"),
        ("X,?1,2,C", "?1 January 1842 is before"),
    ] {
        let decoded = decode(corners);
        assert_eq!(runs(&decoded), [""; 0], "{corners}");
        assert!(decoded.impossible());
        let problem = problem(&decoded);
        assert!(problem.contains(words), "{corners}: {problem}");
        assert!(problem.contains("1842-09-01"), "{problem}");
        assert_eq!(look_again(&decoded)[0], "left", "{corners}");
    }
    assert_eq!(runs(&decode("X,1,2,D")), ["1842-09-01"]);
    assert_eq!(runs(&decode("X,?,?,?")), ["1842-09-01/1842-12-31"]);
    // A day that no month has is not blamed on the act.
    assert!(problem(&decode("X,31,2,M")).contains("June 1842 has 30 days"));
}

#[test]
fn classes() {
    let of = |class| diamond::decode(tables(), "A,12,3,W", class);
    assert_eq!(of(None).class, None);
    assert_eq!(of(Some("?")).problems, []);
    assert_eq!(of(Some("iv")).class.as_deref(), Some("IV"));
    let glass = of(Some("III"));
    assert!(problem(&glass).contains("class III is glass"));
    assert_eq!(glass.dates.len(), 1);
    assert!(problem(&of(Some("VI"))).contains("easy misreading"));
    assert!(problem(&of(Some("XIV"))).contains("no class"));
}

#[test]
fn worked_numbers() {
    let rows = rows(include_str!("../data/rd_examples.csv"));
    assert_eq!(rows.len(), 6);
    for row in rows {
        let decoded = number(&row[0]);
        let (first, last) = decoded.years().unwrap();
        let (from, to, slack): (i16, i16, i16) = (
            row[1].parse().unwrap(),
            row[2].parse().unwrap(),
            row[3].parse().unwrap(),
        );
        assert!(
            first >= from - slack && last <= to + slack,
            "{row:?} {first}-{last}"
        );
        let note = note(&decoded.dates[0]);
        assert!(note.contains("an estimate"), "{note}");
        assert!(row[5].contains("http"));
    }
}

#[test]
fn every_first_number_is_its_year() {
    let list = &tables().lists[0];
    assert_eq!(list.firsts.len(), 106);
    for &(year, first) in &list.firsts {
        let years = |n: u32| {
            number(&n.to_string())
                .dates
                .iter()
                .map(|d| d.from.year())
                .collect::<Vec<_>>()
        };
        assert_eq!(years(first)[0], year);
        if first > 1 {
            assert_eq!(years(first - 1)[0], year - 1, "{first}");
        }
    }
}

#[test]
fn numbers_of_the_contract() {
    let decoded = number("123456");
    assert_eq!(decoded.layout, Some(Layout::Number));
    assert_eq!(runs(&decoded), ["1889-01-01/1889-12-31"]);
    let note = note(&decoded.dates[0]);
    // (123456 − 116648) / (141273 − 116648) = 0.276, the fourth month.
    assert!(note.contains("April 1889"), "{note}");
}

#[test]
fn lists_that_differ_are_both_given() {
    let decoded = number("540000");
    let years: Vec<i16> = decoded.dates.iter().map(|d| d.from.year()).collect();
    assert_eq!(years, [1909, 1908]);
    assert!(decoded.dates.iter().all(|d| note(d).contains("differ")));
    let agreed = number("430000");
    assert_eq!(agreed.dates.len(), 1);
    assert!(note(&agreed.dates[0]).contains("both published lists"));
}

#[test]
fn partial_numbers_give_a_range() {
    assert_eq!(runs(&number("331???")), ["1898-01-01/1899-12-31"]);
    assert_eq!(
        look_again(&number("331???")),
        ["digit 4 of 6", "digit 5 of 6", "digit 6 of 6"]
    );
    assert_eq!(runs(&number("1234?6")), ["1889-01-01/1889-12-31"]);
    assert_eq!(runs(&number("33I746")), runs(&number("33?746")));
    assert!(number("9999??").dates[0].from.year() >= 1981);
}

/// Slow twin: all numbers that look like the pattern, one by one.
#[test]
fn partial_numbers_against_a_list() {
    for pattern in [
        "?31746", "4?1?", "8?33?3", "?", "??", "5?00?0", "10?0?00", "20????1",
    ] {
        let digits: Vec<char> = pattern.chars().collect();
        let low = 10u32.pow(digits.len() as u32 - 1);
        let mut years = std::collections::BTreeSet::new();
        for n in low..low * 10 {
            let text = n.to_string();
            if text.chars().zip(&digits).all(|(c, p)| *p == '?' || c == *p) {
                for list in &tables().lists {
                    years.extend(list.spans().filter(|s| s.1 <= n && n <= s.2).map(|s| s.0));
                }
            }
        }
        let mut got = std::collections::BTreeSet::new();
        for run in number(pattern).dates {
            got.extend(run.from.year()..=run.to.year());
        }
        assert_eq!(got, years, "{pattern}");
    }
}

#[test]
fn numbers_outside_the_lists_say_so() {
    for (text, words) in [
        ("0", "began at 1"),
        ("1500000", "between two series"),
        ("3000000", "beyond the lists"),
        ("999999999", "beyond the lists"),
        ("9999999???", "no registered number is so long"),
        ("", "no number"),
        ("12X4", "'X' is no figure"),
    ] {
        let decoded = number(text);
        assert!(decoded.dates.is_empty(), "{text}");
        let problem = problem(&decoded);
        assert!(problem.contains(words), "{text}: {problem}");
    }
}
