//! The field guide: whole, each entry with its origin, and searchable.

use std::collections::BTreeSet;
use std::sync::LazyLock;

use printseam::internals::picture;
use printseam::internals::report::guide::Guide;
use printseam::internals::report::{guide_text, html};
use printseam::internals::rulebase::definitions::Clue;

use crate::reports::{parsed, self_contained};
use crate::running::{run, text};
use crate::shipped::EXPERT;

static GUIDE: LazyLock<Guide> = LazyLock::new(|| Guide::new(&EXPERT));

#[test]
fn everything_the_rules_know_is_in_the_book_with_its_origin() {
    let base = &EXPERT.base;
    let page = parsed(&html::guide(&GUIDE).unwrap());
    self_contained(&page);
    let ids: BTreeSet<&str> = page.values("id").into_iter().collect();
    let entries: Vec<_> = GUIDE.chapters.iter().flat_map(|c| &c.entries).collect();
    let all = base.kinds.len() + base.clues.len() + base.glossary.len();
    assert_eq!(entries.len(), all);
    for kind in &base.kinds {
        assert!(
            ids.contains(format!("kind-{}", kind.id).as_str()),
            "{}",
            kind.id
        );
        assert!(page.text.contains(&kind.because), "{}", kind.id);
    }
    for clue in &base.clues {
        assert!(
            ids.contains(format!("look-{}", clue.id).as_str()),
            "{}",
            clue.id
        );
        assert!(page.text.contains(&clue.question) && page.text.contains(&clue.look));
        for finding in &clue.findings {
            assert!(
                page.text.contains(&finding.because),
                "{}={}",
                clue.id,
                finding.id
            );
        }
    }
    for term in &base.glossary {
        assert!(page.text.contains(&term.text), "{}", term.id);
    }
    for entry in entries {
        assert!(!entry.origin.is_empty(), "{}", entry.id);
        for finding in &entry.findings {
            assert!(
                !finding.origin.is_empty(),
                "{}: {}",
                entry.id,
                finding.words
            );
        }
    }
    let findings: usize = base.clues.iter().map(|c| c.findings.len()).sum();
    assert!(page.text.matches("Origin: ").count() >= all + findings);
    let pictures = page
        .elements
        .iter()
        .filter(|(name, _)| name == "svg")
        .count();
    let drawn = |c: &Clue| {
        let drawn = picture::findings(&c.id);
        let findings = c.findings.iter();
        findings.filter(|f| drawn.contains(&f.id.as_str())).count()
    };
    let drawn: usize = base.clues.iter().map(drawn).sum();
    assert!(drawn > 40, "{drawn}");
    assert_eq!(pictures, base.kinds.len() + 1 + drawn);
}

#[test]
fn the_name_typed_comes_first_and_any_word_finds() {
    let first = |typed: &str| GUIDE.find(typed).first().map(|e| e.id.clone());
    assert_eq!(first("edge").as_deref(), Some("look-edge"));
    assert_eq!(first("FLOW blue").as_deref(), Some("kind-flow-blue"));
    assert_eq!(
        first("transferware").as_deref(),
        Some("word-transfer-print")
    );
    assert!(first("xyzzyx").is_none());
    // A word of a finding only.
    let haze = GUIDE.find("haze");
    assert!(haze.iter().any(|e| e.id == "look-edge"), "{}", haze.len());
    let shown = guide_text::found(&GUIDE.find("edge"));
    let edge = &EXPERT.base.clues[usize::from(EXPERT.base.clue_id("edge").unwrap().0)];
    for finding in &edge.findings {
        assert!(shown.contains(&finding.because), "{shown}");
    }
    assert!(shown.contains("Origin: "));
    let contents = guide_text::contents(&GUIDE);
    assert!(GUIDE.chapters.iter().all(|c| contents.contains(&c.heading)));
}

#[test]
fn the_guide_on_the_command_line() {
    let shown = run(&["guide", "flow", "blue"], b"");
    assert!(shown.status.success());
    assert!(
        text(&shown.stdout).starts_with("Flow blue or flow mulberry\n"),
        "{}",
        text(&shown.stdout)
    );
    let nothing = run(&["guide", "xyzzyx"], b"");
    assert_eq!(nothing.status.code(), Some(1));
    assert!(text(&nothing.stdout).contains("Nothing about 'xyzzyx'"));
    let book = run(&["guide", "--html"], b"");
    assert!(text(&book.stdout).starts_with("<!DOCTYPE html>"));
}
