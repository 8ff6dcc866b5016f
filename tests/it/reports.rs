//! Takeaway reports: read back by independent parsers; every text escaped; nothing left out.

use std::collections::BTreeSet;
use std::sync::{Arc, LazyLock};

use html5ever::tendril::TendrilSink;
use html5ever::{ParseOpts, parse_document};
use markup5ever_rcdom::{Handle, NodeData, RcDom};
use printseam::internals::claim::{challenge, read};
use printseam::internals::piece::Piece;
use printseam::internals::piece::expert::Expert;
use printseam::internals::piece::notation::parse;
use printseam::internals::piece::trial::{Change, WhatIf, changed};
use printseam::internals::report::sheet::Sheet;
use printseam::internals::report::{html, markdown};
use printseam::internals::say::{account, trial};

use crate::shipped::case_of;

static EXPERT: LazyLock<Arc<Expert>> = LazyLock::new(crate::shipped::expert);

const CLOUDED: &[&str] = &[
    "line-make=engraved",
    "repeats=identical",
    "feel=smooth",
    "print-colour=blue",
    "edge=clouded",
    "country-word=england",
];

/// An invented piece with every sort of remark in its report.
fn case() -> Piece {
    case_of(&EXPERT, "antiques-fair", CLOUDED)
}

fn sheet(title: &str, guess: &str) -> Sheet {
    let case = case();
    let challenged = challenge(&case, read(&EXPERT, guess).unwrap());
    Sheet::new(&case, title, Some((&case, &challenged)))
}

/// Element names with their attributes, and all text, in order.
fn walk(node: &Handle, elements: &mut Vec<(String, Vec<(String, String)>)>, text: &mut String) {
    match &node.data {
        NodeData::Element { name, attrs, .. } => {
            let attrs = attrs.borrow();
            let own = attrs
                .iter()
                .map(|a| (a.name.local.to_string(), a.value.to_string()));
            elements.push((name.local.to_string(), own.collect()));
        }
        NodeData::Text { contents } => text.push_str(&contents.borrow()),
        _ => {}
    }
    for child in node.children.borrow().iter() {
        walk(child, elements, text);
    }
}

pub struct Page {
    pub elements: Vec<(String, Vec<(String, String)>)>,
    pub text: String,
    pub problems: Vec<String>,
}

pub fn parsed(page: &str) -> Page {
    let dom = parse_document(RcDom::default(), ParseOpts::default()).one(page);
    let (mut elements, mut text) = (Vec::new(), String::new());
    walk(&dom.document, &mut elements, &mut text);
    let problems = dom
        .errors
        .borrow()
        .iter()
        .map(ToString::to_string)
        .collect();
    Page {
        elements,
        text,
        problems,
    }
}

impl Page {
    pub fn values(&self, attribute: &str) -> Vec<&str> {
        self.elements
            .iter()
            .flat_map(|(_, attrs)| attrs)
            .filter(|(name, _)| name == attribute)
            .map(|(_, value)| value.as_str())
            .collect()
    }
}

/// Parses without a complaint, leads nowhere else, asks for nothing from elsewhere.
pub fn self_contained(page: &Page) {
    assert!(page.problems.is_empty(), "{:?}", page.problems);
    let ids = page.values("id");
    let unique: BTreeSet<&str> = ids.iter().copied().collect();
    assert_eq!(ids.len(), unique.len(), "{ids:?}");
    // Pictures are held by the page itself.
    let within = |href: &&str| href.starts_with("data:image/png;base64,");
    for href in page.values("href").into_iter().filter(|h| !within(h)) {
        let target = href
            .strip_prefix('#')
            .unwrap_or_else(|| panic!("leads out: {href}"));
        assert!(unique.contains(target), "{href} leads nowhere");
    }
    assert!(page.values("src").is_empty());
    for banned in ["script", "link", "img", "iframe", "object"] {
        assert!(
            page.elements.iter().all(|(name, _)| name != banned),
            "{banned}"
        );
    }
}

#[test]
fn the_page_is_valid_and_self_contained() {
    let page = parsed(&html::page(&sheet("A dish", "Georgian")).unwrap());
    self_contained(&page);
    assert!(!page.values("href").is_empty());
    for needed in ["title", "main", "h1", "svg"] {
        assert_eq!(
            page.elements
                .iter()
                .filter(|(name, _)| name == needed)
                .count(),
            // The picture has a title of its own.
            if needed == "title" { 2 } else { 1 },
            "{needed}"
        );
    }
    assert!(page.values("lang") == ["en-GB"]);
}

/// Once, and not from a text of the piece: what is written over rests on it.
#[test]
fn a_page_says_once_that_this_program_wrote_it() {
    for title in ["A dish", html::MARKER, markdown::MARKER] {
        let sheet = sheet(title, "1880s");
        let once = |page: &str, marker: &str| page.lines().filter(|l| *l == marker).count();
        assert_eq!(once(&html::page(&sheet).unwrap(), html::MARKER), 1);
        assert_eq!(once(&markdown::page(&sheet), markdown::MARKER), 1);
    }
}

#[test]
fn the_test_of_pages_sees_a_bad_page() {
    let good = html::page(&sheet("A dish", "Georgian")).unwrap();
    for (from, to) in [("</ul>", ""), ("</svg>", ""), ("<!DOCTYPE html>", "")] {
        assert!(good.contains(from));
        assert!(
            !parsed(&good.replacen(from, to, 1)).problems.is_empty(),
            "without {from}"
        );
    }
}

#[test]
fn texts_are_data_not_markup() {
    let nasty = "\"><script>alert(1)</script> & {{ 7*7 }} ' \u{1b}[31m";
    let sheet = sheet(nasty, "Georgian <script>x</script> & \"flow\" \u{1b}[2J");
    let source = html::page(&sheet).unwrap();
    let page = parsed(&source);
    assert!(page.problems.is_empty(), "{:?}", page.problems);
    assert!(page.elements.iter().all(|(name, _)| name != "script"));
    assert!(page.text.contains("<script>alert(1)</script> & {{ 7*7 }}"));
    assert!(!source.contains('\u{1b}'));
    let md = markdown::page(&sheet);
    assert!(!md.contains("<script>") && !md.contains('\u{1b}'), "{md}");
    roxmltree::Document::parse(&sheet.picture).unwrap();
}

#[test]
fn a_page_begins_with_the_plain_answer() {
    let sheet = sheet("A dish", "1880s");
    let md = markdown::page(&sheet).replace('\\', "");
    let page = parsed(&html::page(&sheet).unwrap()).text;
    for text in [&md, &page] {
        let at = |what: &str| {
            text.find(what)
                .unwrap_or_else(|| panic!("lacks {what}: {text}"))
        };
        let details = at("Details");
        for line in &sheet.plain {
            assert!(at(&line.plain()) < details);
        }
        for figure in ["decibans", "EDTF", "AAT", " %"] {
            // The page's columns have no heading "EDTF"; where a word stands, it stands in the details.
            let first = text.find(figure);
            assert!(
                first.is_none_or(|first| first > details),
                "{figure} too early"
            );
        }
        let warned: Vec<usize> = sheet
            .cautions
            .iter()
            .map(|c| text.matches(c.as_str()).count())
            .collect();
        assert!(
            !warned.is_empty() && warned.iter().all(|n| *n == 1),
            "{warned:?}"
        );
    }
}

#[test]
fn the_picture_is_xml_with_a_row_a_finding() {
    let sheet = sheet("", "1880s");
    let picture = roxmltree::Document::parse(&sheet.picture).unwrap();
    let of_class = |class: &str| {
        picture
            .descendants()
            .filter(|n| n.attribute("class") == Some(class))
            .count()
    };
    assert_eq!(of_class("era"), CLOUDED.len());
    assert_eq!(
        (of_class("sum"), of_class("band"), of_class("guess")),
        (1, 1, 1)
    );
    let nan = picture.descendants().flat_map(|n| n.attributes());
    assert!(
        nan.into_iter()
            .all(|a| !a.value().contains("NaN") && !a.value().contains("inf"))
    );
    // Nothing seen, no guess: still a picture.
    let empty = Sheet::new(&case_of(&EXPERT, "dug-up", &[]), "", None);
    let picture = roxmltree::Document::parse(&empty.picture).unwrap();
    assert!(
        picture
            .descendants()
            .all(|n| n.attribute("class") != Some("guess"))
    );
    assert!(parsed(&html::page(&empty).unwrap()).problems.is_empty());
}

#[test]
fn every_finding_and_caution_is_in_every_form() {
    let sheet = sheet("Lot 12", "flow blue, 1890s");
    let page = parsed(&html::page(&sheet).unwrap()).text;
    let md = markdown::page(&sheet).replace('\\', "");
    assert_eq!(sheet.findings.len(), CLOUDED.len());
    let mut all: Vec<String> = sheet.findings.iter().map(|f| f.words.plain()).collect();
    let parts = sheet.parts.iter().map(|p| &p.lines);
    for part in parts.chain([&sheet.guess]) {
        all.extend(
            part.iter()
                .map(printseam::internals::report::linked::Linked::plain),
        );
    }
    let text = printseam::internals::report::text::details(&case());
    for part in &sheet.parts {
        assert!(text.contains(&format!("{}:", part.heading)) || part.lines.is_empty());
        for line in &part.lines {
            assert!(text.contains(&line.plain()), "text lacks: {}", line.plain());
        }
    }
    all.extend(sheet.cautions.clone());
    all.push(sheet.headline.clone());
    all.extend(sheet.bands.iter().map(|b| b.edtf.clone()));
    all.extend(sheet.glossary.iter().map(|t| t.text.clone()));
    assert!(all.len() > 20);
    for sentence in all {
        assert!(page.contains(&sentence), "HTML lacks: {sentence}");
        assert!(md.contains(&sentence), "Markdown lacks: {sentence}");
    }
    assert!(
        page.contains("300266671") && md.contains("300266671"),
        "AAT id of flow blue"
    );
}

#[test]
fn the_account_names_what_it_rests_on_and_what_would_change_it() {
    let account = account::account(&case());
    assert!(!account.rests_on.is_empty() && account.rests_on.len() <= 5);
    assert!(
        account.rests_on[0].starts_with("Edge:"),
        "{:?}",
        account.rests_on
    );
    assert!(!account.would_change.is_empty());
    assert!(!account.next.is_empty() || account.stop.is_some());
    // A finding against the leader is said to be.
    let odd = case().with(parse(&EXPERT.base, "body=tin-glazed").unwrap());
    let against = account::account(&odd).against.join("\n");
    assert!(against.contains("opaque white glaze"), "{against}");
}

#[test]
fn what_if_shows_both_sides_and_changes_nothing() {
    let case = case();
    let before = case.evidence().clone();
    let edge = EXPERT.base.clue_id("edge").unwrap();
    let say = [Change::Add(parse(&EXPERT.base, "edge=crisp").unwrap())];
    let after = changed(&case, &say);
    let tried = WhatIf::new(&case, &after);
    assert_eq!(*case.evidence(), before);
    assert!(tried.other_kind(), "{tried:?}");
    assert_eq!(tried.before.band, case.judgement().band());
    for side in [
        tried.kinds.iter().map(|k| k.before).sum::<f64>(),
        tried.kinds.iter().map(|k| k.after).sum(),
    ] {
        assert!((side - 1.0).abs() < 1e-9);
    }
    let lead = trial::lead(&EXPERT, &tried);
    assert!(lead.contains("would lead instead of"), "{lead}");
    let named = trial::named(&tried).map(|shift| shift.kind);
    assert!(named.take(2).any(|kind| kind == tried.after.leading));
    // Accepted, the case is what was shown.
    assert_eq!(after.judgement().band(), tried.after.band);
    assert_eq!(after.judgement().leading().0, tried.after.leading);
    let forgotten = WhatIf::new(&after, &changed(&after, &[Change::Forget(edge)]));
    assert_eq!(forgotten.before.band, tried.after.band);
    // The same finding again changes nothing.
    let same = WhatIf::new(&after, &changed(&after, &say));
    assert_eq!(same.before, same.after);
}
