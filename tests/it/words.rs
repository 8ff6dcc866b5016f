//! Words are rules: an own rule base brings its own, and without any it still understands figures.

use std::path::Path;

use printseam::internals::claim::{Claim, read};
use printseam::internals::core::grid::Year;
use printseam::internals::piece::expert::Expert;
use printseam::internals::rulebase::source::SourceFile;

use crate::rules_corpus::read_rules;

/// The small rule base of the tests with these words; `None` = without a file of words.
fn own(words: Option<&str>) -> Expert {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/rules/ok/base");
    let mut files = read_rules(&root);
    files.extend(words.map(|text| SourceFile {
        name: "words.ron".to_owned(),
        text: text.to_owned(),
    }));
    Expert::load(&files, Year(2026)).unwrap_or_else(|p| panic!("{}", p[0]))
}

fn kinds<'a>(expert: &'a Expert, claim: &Claim) -> Vec<&'a str> {
    let id = |k: &printseam::internals::core::grid::KindId| {
        expert.base.kinds[usize::from(k.0)].id.as_str()
    };
    claim.kinds.iter().map(id).collect()
}

#[test]
fn without_words_figures_and_the_names_of_kinds_are_understood() {
    let expert = own(None);
    let claim = read(&expert, "Flow-Blue, 1840-60").unwrap();
    assert_eq!(kinds(&expert, &claim), ["flow"]);
    assert_eq!((claim.from, claim.to), (Some(1840), Some(1860)));
    assert_eq!(read(&expert, "painted 1880s").unwrap().to, Some(1889));
    for shipped_only in ["Victorian", "transferware", "antique", "nineteenth century"] {
        assert!(read(&expert, shipped_only).is_err(), "{shipped_only}");
    }
}

#[test]
fn own_words_are_understood() {
    let expert = own(Some(
        r#"( format: 1,
            dates: (before: ["vor"], about: ["um"]),
            periods: [(because: "invented", source: ["invented"],
                       names: [(words: ["the mayor's time"], from: 1851, to: 1874)])],
            kinds: [
                (words: ["bedruckt"], kinds: ["flow", "printed"]),
                (words: ["brown"], then: ["ware"], kinds: ["@print"]),
                (words: ["früh bedruckt"], kinds: ["printed"], to: 1850, because: "invented", source: ["invented"]),
            ],
            places: [(words: ["dortig"], place: "there")],
            passed_over: (tickets: ["ungefähr"]),
        )"#,
    ));
    let claim = read(&expert, "Bedruckt, ungefahr um 1870, dortig").unwrap();
    // In the order the file names them, not the order of the kinds.
    assert_eq!(kinds(&expert, &claim), ["flow", "printed"]);
    assert_eq!((claim.from, claim.to), (Some(1865), Some(1875)));
    assert_eq!(claim.place.map(|p| p.0), Some(1));
    assert!(
        claim.not_understood.is_empty(),
        "{:?}",
        claim.not_understood
    );
    let mayoral = read(&expert, "The mayors time").unwrap();
    assert_eq!((mayoral.from, mayoral.to), (Some(1851), Some(1874)));
    assert_eq!(mayoral.periods[0].1.origin.as_deref(), Some("invented"));
    assert_eq!(read(&expert, "vor 1850").unwrap().to, Some(1849));
    assert_eq!(read(&expert, "früh bedruckt").unwrap().to, Some(1850));
    let brown = read(&expert, "brown ware, brown").unwrap();
    assert_eq!(kinds(&expert, &brown), ["printed", "flow"]);
    assert_eq!(brown.not_understood, ["brown"]);
}
