//! A guess put to the findings: what is understood, what is answered, how often rightly.

use std::sync::{Arc, LazyLock};

use printseam::internals::claim::guess::Unread;
use printseam::internals::claim::standing::POSSIBLE;
use printseam::internals::claim::{Challenge, Claim, ClaimAnswer, challenge, read};
use printseam::internals::piece::Piece;
use printseam::internals::piece::expert::Expert;
use printseam::internals::report;
use printseam::internals::say::{claim as words, claim_read};
use proptest::prelude::*;

use crate::shipped::case_of;

static EXPERT: LazyLock<Arc<Expert>> = LazyLock::new(crate::shipped::expert);

fn understood(guess: &str) -> Claim {
    read(&EXPERT, guess).unwrap_or_else(|e| panic!("{guess}: {e:?}"))
}

fn put(case: &Piece, guess: &str) -> Challenge {
    challenge(case, understood(guess))
}

fn first_kind(claim: &Claim) -> Option<&str> {
    let kind = claim.kinds.first()?;
    Some(&EXPERT.base.kinds[usize::from(kind.0)].id)
}

#[test]
fn years_are_understood_as_people_write_them() {
    let table: &[(&str, Option<i16>, Option<i16>)] = &[
        ("1880s", Some(1880), Some(1889)),
        ("1880's", Some(1880), Some(1889)),
        ("c. 1840-60", Some(1840), Some(1860)),
        ("c1840\u{2013}60", Some(1840), Some(1860)),
        ("circa 1840 to circa 1860", Some(1840), Some(1860)),
        // EDTF writes months and days so; with a long dash, or where no century turns, it is years.
        ("1898-05", Some(1898), Some(1898)),
        ("1898\u{2013}05", Some(1898), Some(1905)),
        ("1901-05", Some(1901), Some(1905)),
        ("1890-05-12", Some(1890), Some(1890)),
        ("1890-05-12~", Some(1885), Some(1895)),
        ("1888-02-29/1890-05", Some(1888), Some(1890)),
        ("flow blue, 1890-05-12", Some(1890), Some(1890)),
        ("1898-1905", Some(1898), Some(1905)),
        ("between 1830 and 1840", Some(1830), Some(1840)),
        ("Victorian", Some(1837), Some(1901)),
        ("late Victorian", Some(1875), Some(1901)),
        ("Georgian", Some(1714), Some(1837)),
        ("Regency", Some(1811), Some(1820)),
        ("Edwardian era", Some(1901), Some(1910)),
        ("Victorian to Edwardian", Some(1837), Some(1910)),
        ("pre-war", None, Some(1939)),
        ("prewar", None, Some(1939)),
        ("inter-war", Some(1918), Some(1939)),
        ("post-war", Some(1945), Some(1970)),
        ("between the wars", Some(1918), Some(1939)),
        // The tests' present is 2026.
        ("over 100 years old", None, Some(1926)),
        ("more than a century old", None, Some(1926)),
        ("under 50 years old", Some(1976), Some(2026)),
        ("about 150 years old", Some(1861), Some(1891)),
        ("a hundred years old", Some(1916), Some(1936)),
        ("200 years ago", Some(1806), Some(1846)),
        ("the last ten years", Some(2016), Some(2026)),
        ("last decade", Some(2016), Some(2026)),
        ("last century", Some(1901), Some(2000)),
        ("this century", Some(2001), None),
        ("1st quarter 20th century", Some(1901), Some(1925)),
        ("3rd quarter of the 19th c.", Some(1851), Some(1875)),
        ("last quarter of the 18th century", Some(1776), Some(1800)),
        ("modern", Some(1996), Some(2026)),
        ("mid-century", Some(1945), Some(1969)),
        ("Art Deco", Some(1920), Some(1940)),
        ("19th century", Some(1801), Some(1900)),
        ("late 19th century", Some(1868), Some(1900)),
        ("early to mid 19th c.", Some(1801), Some(1867)),
        ("late 19th/early 20th century", Some(1868), Some(1934)),
        (
            "first half of the nineteenth century",
            Some(1801),
            Some(1850),
        ),
        ("last quarter of the 19th century", Some(1876), Some(1900)),
        ("C19th", Some(1801), Some(1900)),
        ("1800s", Some(1800), Some(1899)),
        ("mid-1800s", Some(1834), Some(1866)),
        ("early 1880s", Some(1880), Some(1883)),
        ("1880s-90s", Some(1880), Some(1899)),
        ("1920s or 30s", Some(1920), Some(1939)),
        ("the thirties", Some(1930), Some(1939)),
        ("hand painted, around 1900", Some(1895), Some(1905)),
        ("mulberry ironstone 1850ish", Some(1845), Some(1855)),
        ("1850 or so", Some(1845), Some(1855)),
        ("1868", Some(1868), Some(1868)),
        ("before 1850", None, Some(1849)),
        ("pre-1891", None, Some(1890)),
        ("not later than 1850", None, Some(1850)),
        ("after 1891", Some(1891), None),
        ("after the 1880s", Some(1890), None),
        ("post 1945", Some(1945), None),
        ("1890 or later", Some(1890), None),
        ("1890+", Some(1890), None),
        ("184X", Some(1840), Some(1849)),
        ("18XX", Some(1800), Some(1899)),
        ("1840~/1860~", Some(1840), Some(1860)),
        ("1840/1860", Some(1840), Some(1860)),
        ("1840/..", Some(1840), None),
        ("../1860", None, Some(1860)),
        ("1840?", Some(1835), Some(1845)),
        ("[1840..1860]", Some(1840), Some(1860)),
        ("early flow blue", Some(1840), Some(1860)),
        ("Victorian, 1880s", Some(1880), Some(1889)),
        ("antique", None, Some(1926)),
    ];
    for (guess, from, to) in table {
        let claim = understood(guess);
        assert_eq!((claim.from, claim.to), (*from, *to), "{guess}");
    }
}

/// The ends of a run of years give way by five years, whatever its length; about one year or a round
/// age says the years around it already.
#[test]
fn about_softens_every_run_of_years_alike() {
    let case = case_of(&EXPERT, "anywhere", &[]);
    let judged = |guess: &str| {
        let answer = put(&case, guess);
        (answer.from.0, answer.to.0)
    };
    assert_eq!(judged("c. 1840-49"), (1835, 1854));
    assert_eq!(judged("c. 1840-50"), (1835, 1855));
    assert_eq!(judged("c. 1840-51"), (1835, 1856));
    assert_eq!(judged("1840~/1850~"), (1835, 1855));
    // 1840 to 1850.
    assert_eq!(judged("c. 1845"), judged("1840-50"));
    // Round numbers a tenth either way, and no more.
    assert_eq!(judged("about 50 years old"), judged("1971-1981"));
    assert_eq!(judged("about 150 years old"), judged("1861-1891"));
    assert_eq!(judged("the last 60 years"), (1961, 2026));
    assert_eq!(judged("over 150 years old"), (1750, 1881));
}

#[test]
fn kinds_are_understood_by_trade_words() {
    let table = [
        ("flow blue, 1890s", Some("flow-blue")),
        ("early flow blue", Some("flow-blue")),
        ("hand painted, around 1900", Some("painted-over")),
        ("blue transferware", Some("printed-blue")),
        ("brown transferware", Some("printed-colour")),
        ("Brown Transferware plate, 1830s", Some("printed-colour")),
        ("spongeware", Some("sponged")),
        ("cut-sponge", Some("cut-sponge")),
        ("decal", Some("decal")),
        ("silk-screened, mid-century", Some("screen-printed")),
        ("bat printed, Regency", Some("bat-printed")),
        ("shell edge", Some("moulded-edge")),
        ("printed-multi", Some("printed-multi")),
        ("1880s", None),
    ];
    for (guess, kind) in table {
        assert_eq!(first_kind(&understood(guess)), kind, "{guess}");
    }
    // A wide word names every kind it may mean.
    assert!(understood("transferware").kinds.len() > 5);
}

#[test]
fn what_is_not_understood_is_said() {
    let claim = understood("flow blue by aunt Maud, 1890s");
    assert_eq!(claim.not_understood, ["aunt Maud"]);
    assert!(claim_read::understood(&EXPERT, &claim).contains("not understood: 'aunt Maud'"));
    let granted = understood("mulberry ironstone 1850ish");
    assert_eq!(granted.findings.len(), 2, "{:?}", granted.findings);
    assert!(
        granted.not_understood.is_empty(),
        "{:?}",
        granted.not_understood
    );
    for nothing in [
        "",
        "   ",
        "???",
        "pretty",
        "..",
        "12",
        "99999",
        // no day of the calendar, and no run of years either
        "1890-13-45",
        "1889-02-29",
        "99999 years old",
        // turned round it would be any other year
        "not Victorian",
    ] {
        assert_eq!(
            read(&EXPERT, nothing).unwrap_err(),
            Unread::Nothing,
            "{nothing}"
        );
    }
    let outside = read(&EXPERT, "1650").unwrap_err();
    assert!(matches!(outside, Unread::Outside { .. }));
    assert!(claim_read::unread(&EXPERT, &outside).contains("1750"));
    assert!(understood("1650-1800").from == Some(1650));
    // An age that can't be is not the year of that number.
    let ancient = read(&EXPERT, "2000 years old").unwrap_err();
    assert!(matches!(ancient, Unread::Outside { .. }), "{ancient:?}");
}

/// "Not X" claims every other kind, and is never heard as X.
#[test]
fn what_a_piece_is_not_leaves_the_other_kinds() {
    let flow = EXPERT.base.kind_id("flow-blue").unwrap();
    for guess in ["not flow blue", "isn't flow blue", "not a flow blue, 1890s"] {
        let claim = understood(guess);
        assert_eq!(claim.kinds.len(), EXPERT.base.kinds.len() - 1, "{guess}");
        assert!(!claim.kinds.contains(&flow), "{guess}");
        assert_eq!(claim.denied, [flow], "{guess}");
        assert!(claim.not_understood.is_empty(), "{guess}");
        let said = claim_read::understood(&EXPERT, &claim);
        assert!(said.starts_with("any kind but flow blue"), "{said}");
    }
    let blue = understood("blue transferware, not a reproduction");
    let revival = EXPERT.base.kind_id("revival-print").unwrap();
    assert!(!blue.kinds.contains(&revival) && !blue.kinds.is_empty());
    assert_eq!(
        first_kind(&understood("reproduction")),
        Some("revival-print")
    );
    // Words that begin a date deny nothing; a date denied is left out, not heard as meant.
    assert_eq!(understood("decal, not before 1900").from, Some(1900));
    let undated = understood("decal, not 1890s");
    assert!(!undated.dated() && undated.not_understood == ["not 1890s"]);
    let none = read(&EXPERT, "flow blue, not flow blue").unwrap_err();
    assert_eq!(none, Unread::EveryKindDenied);
    // On a clouded plate the claim stands or falls with the kinds that are left.
    let case = case_of(&EXPERT, "anywhere", &["line-make=engraved", "edge=clouded"]);
    assert!(put(&case, "not decal").answer <= put(&case, "not flow blue").answer);
}

#[test]
fn with_nothing_seen_nothing_is_ruled_out() {
    let case = case_of(&EXPERT, "thrift-shelf", &[]);
    for guess in [
        "1750s",
        "Georgian",
        "flow blue, 1890s",
        "2020s",
        "bat printed",
    ] {
        let answer = put(&case, guess);
        assert_eq!(answer.answer, ClaimAnswer::Possible, "{guess}");
        assert!(answer.opposing.is_empty());
    }
    // Not even when the rules know of no such thing; but then it is said.
    let never = put(&case, "screen printed, Victorian");
    assert_eq!(never.answer, ClaimAnswer::HardToSupport);
    assert!(never.never_made);
}

#[test]
fn georgian_and_made_in_england_do_not_go_together() {
    let case = case_of(
        &EXPERT,
        "antiques-fair",
        &["line-make=engraved", "country-word=made-in-england"],
    );
    let answer = put(&case, "Georgian");
    assert_eq!(answer.answer, ClaimAnswer::RuledOut);
    assert!(answer.refuted());
    let worst = words::opposing_finding(&EXPERT, &answer.claim, &answer.opposing[0]);
    assert!(
        worst.contains("'Georgian' and 'Made in England' do not go together"),
        "{worst}"
    );
    assert!(answer.opposing[0].decibans < -20.0);
    assert!(
        answer.nearest.from.0 > 1837 || answer.nearest.to.0 > 1900,
        "{:?}",
        answer.nearest
    );
    // The same said of itself, with nothing seen.
    let none = case_of(&EXPERT, "antiques-fair", &[]);
    let own = put(&none, "Georgian, Made in England");
    assert_eq!(own.answer, ClaimAnswer::RuledOut);
    assert!(
        words::account(&case, &own)
            .iter()
            .any(|l| l.contains("contradicts itself"))
    );
    assert_eq!(
        put(&none, "1930s, Made in England").answer,
        ClaimAnswer::Possible
    );
}

#[test]
fn a_good_guess_is_supported_and_a_bad_one_hears_of_a_better() {
    let case = case_of(
        &EXPERT,
        "antiques-fair",
        &[
            "line-make=engraved",
            "repeats=identical",
            "print-colour=blue",
            "depth-of-blue=dark",
            "edge=clouded",
            "country-word=england",
        ],
    );
    let good = put(&case, "flow blue, about 1900");
    assert_eq!(
        good.answer,
        ClaimAnswer::Supported,
        "{}",
        words::verdict(&case, &good)
    );
    let bad = put(&case, "decal, 1950s");
    assert_eq!(
        bad.answer,
        ClaimAnswer::RuledOut,
        "{}",
        words::verdict(&case, &bad)
    );
    assert_eq!(
        EXPERT.base.kinds[usize::from(bad.nearest.kind.0)].id,
        "flow-blue"
    );
    // The nearest claim stands when it is made.
    let again = format!("flow blue, {}-{}", bad.nearest.from.0, bad.nearest.to.0);
    assert_eq!(put(&case, &again).answer, ClaimAnswer::Supported, "{again}");
    // Colours claimed are compared with those seen.
    let brown = put(&case, "brown, 1900");
    let said = words::account(&case, &brown).join("\n");
    assert!(said.contains("on the piece it is"), "{said}");
}

#[test]
fn the_json_keeps_its_contract() {
    let case = case_of(&EXPERT, "antiques-fair", &["country-word=made-in-england"]);
    let json = report::challenge::json(&case, &put(&case, "Georgian flow blue"));
    assert_eq!(json["format"], 1);
    assert_eq!(json["understood"]["kind"], "flow-blue");
    assert_eq!(json["understood"]["from"], 1714);
    assert_eq!(json["understood"]["to"], 1837);
    assert_eq!(json["answer"], "ruled-out");
    assert_eq!(json["hurts"][0]["clue"], "country-word");
    assert_eq!(json["hurts"][0]["finding"], "made-in-england");
    assert!(json["hurts"][0]["decibans"].as_f64().unwrap() < 0.0);
    assert!(json["p"].as_f64().unwrap() < 0.01);
    for key in ["kind", "from", "to", "p"] {
        assert!(!json["nearest"][key].is_null(), "{key}");
    }
    assert!(json["earliest"]["year"].is_i64() && json["latest"]["year"].is_i64());
}

/// The answer weighs a claim against the best of its make, the word for chance says how probable
/// it is by itself: said in one breath they must agree.
#[test]
fn the_answer_and_the_word_for_chance_agree() {
    let late = case_of(
        &EXPERT,
        "thrift-shelf",
        &["edge=clouded", "print-colour=blue", "country-word=england"],
    );
    let mut answers = Vec::new();
    for kind in ["", "flow blue", "decal", "painted"] {
        for years in [
            "",
            "1890s",
            "1850s",
            "1905",
            "1840-1990",
            "Victorian",
            "1960s",
        ] {
            let guess = format!("{kind} {years}");
            if guess.trim().is_empty() {
                continue;
            }
            let c = put(&late, guess.trim());
            let said = words::verdict(&late, &c);
            match c.answer {
                ClaimAnswer::Supported | ClaimAnswer::Possible => {
                    assert!(!said.contains("unlikely"), "{guess}: {said}");
                }
                ClaimAnswer::HardToSupport | ClaimAnswer::RuledOut => assert!(
                    !said.contains("(likely")
                        && !said.contains("(very likely")
                        && !said.contains("certain"),
                    "{guess}: {said}"
                ),
            }
            // A small share is excused, and held against the best that could be had.
            if c.answer == ClaimAnswer::Supported && c.p < 0.3 {
                let beside = said.contains("fit best") || said.contains("fit better");
                assert!(said.contains("narrow") && beside, "{guess}: {said}");
            }
            answers.push(c.answer);
        }
    }
    for answer in [
        ClaimAnswer::Supported,
        ClaimAnswer::HardToSupport,
        ClaimAnswer::RuledOut,
    ] {
        assert!(answers.contains(&answer), "{answers:?}");
    }
}

/// A claim that is hard to support although its share is high says why.
#[test]
fn a_high_share_that_does_not_stand_is_explained() {
    let mut explained = 0;
    for findings in [
        &["country-word=england"][..],
        &["print-colour=blue"],
        &["line-make=engraved", "print-colour=brown"],
    ] {
        let case = case_of(&EXPERT, "anywhere", findings);
        for from in (1760..2020).step_by(20) {
            for kind in ["", "flow blue, "] {
                let guess = format!("{kind}{from}-{}", from + 19);
                let c = put(&case, &guess);
                let said = words::verdict(&case, &c);
                let hard = c.answer == ClaimAnswer::HardToSupport;
                let high = hard && !c.never_made && c.share >= POSSIBLE;
                assert!(!high || c.despite_share.is_some(), "{guess}: {said}");
                let reason =
                    said.contains("likelier on average") || said.contains("whatever the kind");
                assert_eq!(hard && c.despite_share.is_some(), reason, "{guess}: {said}");
                explained += usize::from(reason);
            }
        }
    }
    assert!(explained > 0);
}

/// A claim is judged by what is seen on the piece, not by what the shelf usually holds, unless it is
/// said where it turned up.
#[test]
fn a_neutral_setting_counts_every_year_alike() {
    let neutral = &EXPERT.base.settings[EXPERT.base.neutral()];
    assert!(neutral.neutral && neutral.id == "anywhere");
    let case = case_of(&EXPERT, "anywhere", &[]);
    let years = &case.judgement().years;
    let even = 1.0 / years.len() as f64;
    assert!(years.iter().all(|p| (p - even).abs() < 1e-9));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn no_guess_upsets_the_reader(guess in "\\PC{0,60}|[0-9cxX~/?.s' -]{0,20}|([a-z]{1,8}|[0-9]{1,5}s?|early|late|c\\.|-|to|century|19th| ){0,9}") {
        if let Ok(claim) = read(&EXPERT, &guess) {
            let text = claim_read::understood(&EXPERT, &claim);
            prop_assert!(!text.chars().any(char::is_control));
            prop_assert!(!claim.kinds.is_empty() || claim.dated());
            if let (Some(from), Some(to)) = (claim.from, claim.to) {
                prop_assert!(from <= to, "{guess}: {from} to {to}");
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]

    #[test]
    fn any_claim_can_be_judged(from in 1700i16..2026, width in 0i16..200, kind in 0usize..19) {
        let id = &EXPERT.base.kinds[kind].id;
        let case = case_of(&EXPERT, "family-attic", &["line-make=engraved", "country-word=england"]);
        if let Ok(claim) = read(&EXPERT, &format!("{id} {from}-{}", from + width)) {
            let c = challenge(&case, claim);
            prop_assert!((0.0..=1.0 + 1e-9).contains(&c.p) && c.share.is_finite() && c.weight.is_finite());
            prop_assert!(c.nearest.p >= 0.0 && c.nearest.from <= c.nearest.to);
            prop_assert!(!words::account(&case, &c).is_empty());
        }
    }
}
