//! Wording of marks: what the examples of the trade must give, and laws for any text.

// A test stops at the first surprise.
#![allow(clippy::unwrap_used)]

use std::sync::{Arc, LazyLock};

use printseam::internals::core::grid::{ClueId, KindId, PlaceId, Year};
use printseam::internals::core::observation::{Observed, Sure};
use printseam::internals::hearing::mark::{Phrasebook, Reading, Recognised};
use printseam::internals::piece::Piece;
use printseam::internals::piece::expert::Expert;
use printseam::internals::piece::notation::{finding_id, parse, seen_id};
use printseam::internals::piece::reading::notes;
use printseam::internals::registry::tables::{Registry, Standing};
use printseam::internals::rulebase::RuleBase;
use printseam::internals::rulebase::source::SourceFile;
use proptest::prelude::*;

use crate::shipped::EXPERT;

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

/// What a whole mark says of how the firm is named.
fn firm(expert: &Expert, mark: &str) -> Option<String> {
    let clue = expert.base.clue_id("company-word").unwrap();
    let heard = printseam::internals::piece::reading::mark(expert, mark, true);
    let entry = heard.entries.into_iter().find(|e| e.clue == clue)?;
    Some(finding_id(&expert.base, &entry))
}

#[test]
fn what_can_not_be_read_may_be_the_firms_name() {
    let firm = |mark| firm(&EXPERT, mark);
    assert_eq!(firm("ENGLAND").as_deref(), Some("none"));
    assert_eq!(firm("ENGLAND / 1234").as_deref(), Some("none"));
    assert_eq!(firm("[maker] / ENGLAND").as_deref(), Some("name"));
    for open in [
        "QXVRTZ / ENGLAND",
        "[name] / ENGLAND",
        "[illegible] ENGLAND",
    ] {
        assert_eq!(firm(open), None, "{open}");
    }
}

#[test]
fn a_name_left_out_is_a_name_and_only_a_makers_is_a_firms() {
    for (text, firm) in [("[maker]", true), ("[name]", false), ("[Firm] Ltd", true)] {
        let reading = read(text);
        assert!(reading.unread[0].name, "{text}");
        assert_eq!(reading.named.is_some(), firm, "{text}");
    }
    // Other brackets are an editor's.
    assert!(read("[England]").unread.is_empty());
}

#[test]
fn pictures_told_in_words_are_shapes_of_the_mark() {
    for (text, want) in [
        ("crown over ENGLAND", "crown"),
        ("shield", "other"),
        ("impressed anchor", "anchor"),
        ("lion, ENGLAND", "lion"),
        ("lion and unicorn", "-"),
        ("eagle / WARRANTED", "eagle"),
        ("scrolled frame", "cartouche"),
    ] {
        assert_eq!(finding(text, "mark-shape"), want, "{text}");
    }
}

/// The shipped rules with the invented makers of the demo.
static WITH_MAKERS: LazyLock<Arc<Expert>> = LazyLock::new(|| {
    let text = include_str!("../../demo/makers.csv").to_owned();
    let mut files = printseam::internals::rulebase::shipped::files();
    files.push(SourceFile {
        name: "overlay/makers.csv".to_owned(),
        text,
    });
    Arc::new(Expert::load(&files, Year(2026)).unwrap())
});

#[test]
fn a_users_own_makers_are_read_in_marks() {
    let expert = &*WITH_MAKERS;
    let read = |text| expert.base.wording.read(&expert.base.registry, text);
    // A letter misread, a variant, a firm's word and a crown within the name.
    for (text, maker) in [
        (
            "QUILLFEATHER & DAUGHTERS / ENGLAND",
            "quillfeather-and-daughters",
        ),
        ("UNDEREDGE POTTERV COMPANY", "underedge-pottery-company"),
        ("U. P. Co.", "underedge-pottery-company"),
        ("Kittlewick Crown Works", "kittlewick-crown-works"),
    ] {
        let reading = read(text);
        let found = reading.phrases.iter().find(|p| p.phrase == maker);
        let found = found.unwrap_or_else(|| panic!("{text}: {reading:?}"));
        assert!(
            !found.origin.is_empty() && found.because.contains("your own list"),
            "{text}"
        );
        assert!(reading.unread.is_empty(), "{text}: {:?}", reading.unread);
        assert!(
            reading.phrases.iter().all(|p| p.phrase != "crown"),
            "{text}"
        );
        assert!(firm(expert, text).is_some_and(|f| f != "none"), "{text}");
    }
    let found = read("Quillfeather").phrases.remove(0);
    assert_eq!((found.from, found.to), (Some(1891), Some(1926)));
    assert!(found.origin.contains("page 12"), "{}", found.origin);
}

/// A maker's years are a floor and a ceiling, and its place counts, whatever else stands in the list.
#[test]
fn a_makers_years_bound_the_piece() {
    let expert = WITH_MAKERS.clone();
    let clue = expert.base.clue_id("listed-maker").unwrap();
    let setting = expert.base.neutral();
    let bare = Piece::unseen(expert.clone(), setting);
    let grid = &expert.engine().model.grid;
    let of_britain = |_: KindId, place: PlaceId| expert.base.places[place].id == "britain";
    // The odds of the maker's years, of what was made in Britain.
    let odds = |piece: &Piece| {
        let years = piece.judgement().posterior.years_where(grid, of_britain);
        let worked = |at: &usize| (1891..=1926).contains(&grid.year(*at).0);
        let within: f64 = (0..years.len()).filter(worked).map(|at| years[at]).sum();
        within / (years.iter().sum::<f64>() - within)
    };
    let heard = printseam::internals::piece::reading::mark(&expert, "Quillfeather", false);
    let entry = heard.entries.iter().find(|e| e.clue == clue).unwrap();
    let before = bare.with(parse(&expert.base, "mark-way=printed").unwrap());
    let with = before.with(entry.clone());
    // One in fifty is misread, and nothing else in the list matters.
    let gain = odds(&with) / odds(&before);
    assert!((gain - 50.0).abs() < 1e-6, "{gain}");
    let britain = |piece: &Piece| {
        let places = &piece.judgement().places;
        places
            .iter()
            .find(|(l, _)| expert.base.places[*l].id == "britain")
            .unwrap()
            .1
    };
    // Fifty times as likely in its years and its place as anywhere else.
    let worked = |at: &usize| (1891..=1926).contains(&grid.year(*at).0);
    let years = before.judgement().posterior.years_where(grid, of_britain);
    let own: f64 = (0..years.len()).filter(worked).map(|at| years[at]).sum();
    let expected = (britain(&before) + 49.0 * own) / (1.0 + 49.0 * own);
    assert!(
        (britain(&with) - expected).abs() < 1e-6,
        "{} {expected}",
        britain(&with)
    );
    assert!(britain(&with) > britain(&before));
    assert_eq!(with.explanation().earliest.year, Year(1891));
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
