//! Trade words: each explained once, found in sentences, and nothing lost in the cutting.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use printseam::internals::rulebase::RuleBase;
use printseam::internals::say::glossary::{fragments, line, used};
use proptest::prelude::*;

static BASE: LazyLock<&RuleBase> = LazyLock::new(|| &crate::shipped::EXPERT.base);

#[test]
fn every_word_is_explained_once_with_reason_and_origin() {
    let base = &*BASE;
    assert!(base.glossary.len() >= 60, "{}", base.glossary.len());
    let mut owners: BTreeMap<String, &str> = BTreeMap::new();
    for term in &base.glossary {
        assert!(
            term.text.len() > 15 && term.because.len() > 15,
            "{}",
            term.id
        );
        assert!(!term.sources.is_empty(), "{}", term.id);
        for word in term.written() {
            let before = owners.insert(word.to_lowercase(), &term.id);
            assert!(
                before.is_none(),
                "'{word}' is in {} and {before:?}",
                term.id
            );
        }
    }
    assert!(base.glossary.iter().any(|term| term.id == "stipple"));
}

#[test]
fn words_are_found_whole_longest_first_and_once() {
    let base = &*BASE;
    let found = |text: &str| -> Vec<(String, String)> {
        fragments(base, text)
            .into_iter()
            .filter_map(|p| p.term.map(|t| (p.text, base.glossary[t].id.clone())))
            .collect()
    };
    let is = |text: &str, wanted: &[(&str, &str)]| {
        let wanted: Vec<_> = wanted
            .iter()
            .map(|(a, b)| (a.to_string(), b.to_string()))
            .collect();
        assert_eq!(found(text), wanted, "{text}");
    };
    is(
        "Stilt marks on white granite.",
        &[
            ("Stilt marks", "stilt-marks"),
            ("white granite", "white-granite"),
        ],
    );
    is("A decal, and again a decal", &[("decal", "decal")]);
    // Not within a longer word.
    is("joinery and stippler", &[]);
    is("", &[]);
    let all = used(base, ["flow blue", "a decal over a decal", "nothing"]);
    assert_eq!(all.len(), 2);
    assert!(line(base, all[0]).starts_with("Flow blue: "));
}

#[test]
fn the_rules_speak_in_words_that_are_explained() {
    let base = &*BASE;
    let texts: Vec<&str> = base
        .clues
        .iter()
        .flat_map(|c| {
            c.findings
                .iter()
                .map(|f| f.because.as_str())
                .chain([c.because.as_str(), c.look.as_str()])
        })
        .collect();
    let used = used(base, texts).len();
    assert!(
        used * 2 > base.glossary.len(),
        "only {used} of {} entries are used",
        base.glossary.len()
    );
}

proptest! {
    #[test]
    fn the_pieces_are_the_sentence(text in "\\PC{0,40}|(flow blue|decal|é| |-|stilt marks|x|\\.){0,8}") {
        let base = &*BASE;
        let whole: String = fragments(base, &text).into_iter().map(|p| p.text).collect();
        prop_assert_eq!(whole, text);
    }
}
