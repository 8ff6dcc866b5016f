//! Wording of marks: what the examples of the trade must give, and laws for any text.

// A test stops at the first surprise.
#![allow(clippy::unwrap_used)]

use std::sync::LazyLock;

use printseam::internals::core::grid::ClueId;
use printseam::internals::core::observation::{Observed, Sure};
use printseam::internals::hearing::mark::{Phrasebook, Reading, Recognised};
use printseam::internals::piece::notation::seen_id;
use printseam::internals::piece::reading::notes;
use printseam::internals::registry::tables::{Registry, Standing};
use printseam::internals::rulebase::RuleBase;
use proptest::prelude::*;

static BASE: LazyLock<RuleBase> = LazyLock::new(|| RuleBase::shipped().unwrap());

/// The shipped phrase book and registry.
pub static BOOKS: LazyLock<(Phrasebook, Registry)> =
    LazyLock::new(|| (BASE.wording.clone(), BASE.registry.clone()));

pub fn read(text: &str) -> Reading {
    BOOKS.0.read(&BOOKS.1, text)
}

/// What a phrase says, as "clue" and "finding" or year.
fn said(says: Option<(ClueId, Observed)>) -> Option<(&'static str, String)> {
    let (clue, seen) = says?;
    Some((BASE.clue(clue).id.as_str(), seen_id(&BASE, clue, &seen)))
}

fn found<'a>(reading: &'a Reading, clue: &str) -> Vec<&'a Recognised> {
    let of_clue = |p: &&Recognised| said(p.says.clone()).is_some_and(|(of, _)| of == clue);
    reading.phrases.iter().filter(of_clue).collect()
}

/// The finding or year a phrase found says.
fn finding_of(phrase: &Recognised) -> Option<String> {
    said(phrase.says.clone()).map(|(_, finding)| finding)
}

/// The only finding of a clue, `-` for none, findings joined by `+` for several.
fn finding(text: &str, clue: &str) -> String {
    let reading = read(text);
    let all: Vec<String> = found(&reading, clue)
        .into_iter()
        .filter_map(finding_of)
        .collect();
    if all.is_empty() {
        "-".into()
    } else {
        all.join("+")
    }
}

#[test]
fn eighty_phrases_with_origin_and_reason() {
    let phrases = BOOKS.0.phrases();
    assert!(phrases.len() >= 80, "{}", phrases.len());
    for p in phrases {
        assert!(!p.origin.text.is_empty(), "{}", p.id);
        assert!(!p.because.is_empty(), "{}", p.id);
        if p.origin.standing == Standing::FromMemory {
            assert!(p.origin.text.contains("from memory"), "{}", p.id);
        }
    }
}

#[test]
fn examples() {
    for (text, clue, want) in [
        ("Made in England", "country-word", "made-in-england"),
        ("ENGLND", "country-word", "england"),
        ("MADE IN EN?LAN?", "country-word", "made-in-england"),
        ("MADE IN/ENGLAND", "country-word", "made-in-england"),
        ("STAFF0RDSHIRE", "country-word", "staffordshire"),
        ("SEMI PORCELAlN", "ware-word", "semi-porcelain"),
        ("[maker] & C° Ltd.", "company-word", "and-co+ltd"),
        ("[maker] & Co. Ld", "company-word", "and-co+ltd"),
        ("[maker] LTD.", "company-word", "ltd"),
        ("[maker] et Cie", "company-word", "and-co"),
        ("[maker] and Sons", "company-word", "and-sons"),
        ("gebr. [maker]", "company-word", "bros"),
        ("Rº 4471??", "registration", "rd-no"),
        ("RdNo331746", "registration", "rd-no"),
        ("Regd. No. 331,746", "registration", "rd-no"),
        ("déposé", "registration", "depose"),
        ("Ges. gesch.", "registration", "ges-gesch"),
        ("Pat. applied for", "registration", "us-patent"),
        ("DESIGN PATENTED JULY 5 1881", "registration", "us-patent"),
        ("Patented", "registration", "-"),
        ("Rd No / ENGLAND", "registration", "rd-no"),
        ("Rd No 99", "pattern-number", "-"),
        ("R.N. 331746", "registered", "1899"),
        (
            "detergent & dishwasher safe",
            "care-word",
            "dishwasher-safe",
        ),
        (
            "Regd. U.S. Pat. Off.",
            "trade-word",
            "registered-trade-mark",
        ),
        ("Coronation 1937", "event-year", "1937"),
        ("West Germany", "country-word", "west-germany"),
        ("GERMANY / U.S. ZONE", "country-word", "zone-germany"),
        ("Made in occupied Japan", "country-word", "occupied-japan"),
        ("Fine Bone China", "ware-word", "fine-bone-china"),
        ("BONE CHINA", "ware-word", "bone-china"),
        ("IRON STONE CHINA", "ware-word", "ironstone"),
        ("Porzellan", "ware-word", "porcelain"),
        ("Trade-Mark", "trade-word", "trade-mark"),
        (
            "REGISTERED TRADE MARK",
            "trade-word",
            "registered-trade-mark",
        ),
        ("(R)", "trade-word", "r-symbol"),
        ("acid resisting underglaze", "care-word", "acid-resisting"),
        ("acid resisting underglaze", "process-word", "underglaze"),
        ("dish-washer safe", "care-word", "dishwasher-safe"),
        ("DISHWASHER / SAFE", "care-word", "dishwasher-safe"),
        (
            "By Appointment to Her Majesty",
            "royal-word",
            "by-appointment",
        ),
        ("Eng[land]", "country-word", "england"),
        (
            "M A D E  I N  E N G L A N D",
            "country-word",
            "made-in-england",
        ),
        ("U. S. A.", "country-word", "usa"),
        ("Patt. No 2347", "pattern-number", "number"),
        ("6.81", "date-code", "month-year"),
        ("10/1888", "potted-year", "1888"),
        ("13.81", "date-code", "-"),
        ("fabriqué en Belgique", "country-word", "belgium"),
    ] {
        assert_eq!(finding(text, clue), want, "{text}");
    }
}

#[test]
fn longest_phrase_wins() {
    let reading = read("Made in England");
    assert_eq!(reading.phrases.len(), 1);
    assert_eq!(reading.phrases[0].span, (0, 15));
    assert!(reading.unread.is_empty());
}

#[test]
fn how_sure_follows_the_faults() {
    let sure = |text: &str| read(text).phrases[0].sure;
    assert_eq!(sure("england"), Sure::Sure);
    assert_eq!(sure("ENGLND"), Sure::Unsure);
    assert_eq!(sure("MADE IN EN?LAN?"), Sure::Unsure);
    assert_eq!(sure("EN?LAN?"), Sure::Guess);
    assert_eq!(sure("ENGLAND?"), Sure::Unsure);
}

#[test]
fn founding_years_are_not_making_years() {
    for text in [
        "Established 1790",
        "since 1790",
        "est. 1790",
        "ESTD/1790",
        "gegründet 1790",
        "Est?blished 17?0",
    ] {
        assert_eq!(finding(text, "old-date"), "founding-date", "{text}");
        assert_eq!(finding(text, "printed-year"), "-", "{text}");
        assert!(read(text).unread.is_empty(), "{text}");
    }
    let reading = read("1790");
    assert_eq!(reading.phrases[0].phrase, "bare-year");
    assert_eq!(reading.phrases[0].says, None);
    assert_eq!(finding("established by hand", "old-date"), "-");
}

#[test]
fn printed_years() {
    for (text, want) in [
        ("© 1978", "1978"),
        ("(c) 1978 [maker]", "1978"),
        ("© [maker] 1978", "1978"),
        ("copyright 1902", "1902"),
        ("Copr. 1902", "1902"),
        ("Patented Dec. 3, 1907", "1907"),
        ("© 1978 [maker] since 1790", "1978"),
        ("est. 1790 © 1978", "1978"),
        ("© 19?8", "-"),
    ] {
        assert_eq!(finding(text, "printed-year"), want, "{text}");
    }
    assert_eq!(finding("© 1978", "trade-word"), "copyright-symbol");
}

#[test]
fn a_blanked_maker_is_a_name() {
    let reading = read("[maker] / HANLEY / ENGLAND");
    assert_eq!(reading.unread.len(), 1);
    assert_eq!(reading.unread[0].text, "[maker]");
    assert!(reading.unread[0].name);
    let all = reading.findings();
    let company = all.iter().map(|f| said(Some((f.clue, f.seen.clone()))));
    let company: Vec<_> = company
        .flatten()
        .filter(|f| f.0 == "company-word")
        .collect();
    assert_eq!(company, [("company-word", "name".to_owned())]);
}

#[test]
fn what_is_not_known_is_handed_back() {
    let reading = read("ZZYX ORPIMENT / England");
    assert_eq!(reading.phrases.len(), 1);
    assert_eq!(reading.unread[0].text, "ZZYX ORPIMENT");
    assert_eq!(reading.unread[0].span, (0, 13));
}

#[test]
fn registered_marks_are_decoded_in_the_text() {
    let reading = read("ENGLAND / Rd No 123456 / [maker]");
    assert_eq!(reading.registered.len(), 1);
    assert_eq!(reading.registered[0].years(), Some((1889, 1889)));
    assert_eq!(
        finding_of(found(&reading, "registered")[0]).as_deref(),
        Some("1889")
    );
    assert_eq!(found(&reading, "registered")[0].sure, Sure::Sure);

    let partial = read("Rd 331???");
    assert_eq!(partial.registered[0].years(), Some((1898, 1899)));
    assert_eq!(found(&partial, "registered")[0].sure, Sure::Unsure);

    for text in [
        "A,12,3,W / STONE CHINA",
        "diamond A 12 3 W, Stone China",
        "IV A, 12, 3, W",
    ] {
        let reading = read(text);
        assert_eq!(reading.registered.len(), 1, "{text}");
        assert_eq!(
            reading.registered[0].dates[0].from.to_string(),
            "1845-03-12"
        );
        assert_eq!(
            finding_of(found(&reading, "registration")[0]).as_deref(),
            Some("diamond")
        );
        assert_eq!(
            finding_of(found(&reading, "registered")[0]).as_deref(),
            Some("1845")
        );
    }
    assert_eq!(read("red, blue, green, gold").registered.len(), 0);
    let last = read("registration diamond 12, S, W, 3 class IV");
    assert_eq!(last.registered[0].class.as_deref(), Some("IV"));
    assert!(last.unread.is_empty());
    let wrong = read("diamond: A,31,3,H");
    assert!(wrong.registered[0].impossible());
    assert_eq!(
        finding_of(found(&wrong, "registration")[0]).as_deref(),
        Some("diamond")
    );
    assert!(found(&wrong, "registered").is_empty());
    assert!(read("diamond W,G,3,4").registered[0].impossible());
}

#[test]
fn the_youngest_word_speaks_for_a_clue() {
    let all = read("STAFFORDSHIRE / MADE IN ENGLAND").findings();
    let country = all.iter().map(|f| said(Some((f.clue, f.seen.clone()))));
    let country: Vec<_> = country
        .flatten()
        .filter(|f| f.0 == "country-word")
        .collect();
    assert_eq!(country, [("country-word", "made-in-england".to_owned())]);
}

#[test]
fn the_statute_sets_the_floor_of_country_names() {
    let reading = read("England");
    assert_eq!(reading.phrases[0].usual_from, Some(1891));
    assert!(reading.phrases[0].because.contains("1 March 1891"));
    assert!(reading.phrases[0].origin.contains("1 October 1890"));
}

fn check(text: &str) {
    let reading = read(text);
    let spans = reading.phrases.iter().map(|p| (p.span, &p.text));
    let rest = reading.unread.iter().map(|u| (u.span, &u.text));
    for ((from, to), shown) in spans.chain(rest) {
        assert_eq!(text.get(from..to), Some(shown.as_str()), "{text:?}");
        assert!(from < to);
    }
    let notes = notes(&crate::shipped::EXPERT, text);
    for unread in notes.unread {
        assert_eq!(
            text.get(unread.span.0..unread.span.1),
            Some(unread.text.as_str())
        );
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_text_breaks_it(text in any::<String>()) {
        check(&text);
    }

    #[test]
    fn no_mark_like_text_breaks_it(text in "([A-Za-z]{1,9}|[0-9?]{1,7}|Rd No|©|est|diamond|Rº|&|�\\?|\\[maker\\]|[IVX]{1,4}|[,./?\\-\\[\\]' ]| |É|ß){0,30}") {
        check(&text);
    }
}

#[test]
fn odd_texts() {
    for text in [
        "",
        " ",
        "?",
        "????????????????",
        "[",
        "[maker",
        "[]",
        ",,,,",
        "?,?,?,?",
        "Rd No",
        "Rd No ??????",
        "diamond",
        "est.",
        "©",
        "\u{0}\u{1b}[31m",
        "İ",
        "ﬁne bone china",
        "1e999",
        "Rd No 99999999999999999999",
        "/\n/\n",
        "�?�",
    ] {
        check(text);
    }
}

#[test]
fn a_word_that_looks_like_another_is_read_as_what_it_is() {
    for (text, clue, want) in [
        ("MADE IN U.S.S.R.", "country-word", "ussr"),
        ("MADE IN U.S.A.", "country-word", "made-in-usa"),
        ("WARRANTED 22 CARAT GOLD", "process-word", "gold-carat"),
        ("WARRANTED 22 CARAT GOLD", "ware-word", "-"),
        ("WARRANTED", "ware-word", "warranted"),
        ("LEADLESS GLAZE", "care-word", "leadless"),
        ("LEAD FREE", "care-word", "lead-free"),
        ("STONEWARE", "ware-word", "stoneware"),
        ("STONE CHINA", "ware-word", "stone-china"),
        ("BAVARIA", "country-word", "bavaria-alone"),
        ("BAVARIA GERMANY", "country-word", "bavaria-germany"),
        ("BAVARIA W. GERMANY", "country-word", "west-germany"),
        ("EIRE", "country-word", "ireland"),
        ("DECORATED IN HONG KONG", "country-word", "hong-kong"),
        ("CRAZE PROOF", "care-word", "craze-proof"),
        ("FINE CHINA", "ware-word", "fine-china"),
        ("FINE BONE CHINA", "ware-word", "fine-bone-china"),
    ] {
        assert_eq!(finding(text, clue), want, "{text}");
    }
}
