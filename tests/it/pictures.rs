//! The eras picture: no label lies on another one, on a line or in a frame, whatever the piece.

use printseam::internals::claim::{challenge, read};
use printseam::internals::piece::Piece;
use printseam::internals::report::guide::Guide;
use printseam::internals::report::svg;

use crate::shipped::{EXPERT, case_of, museum_pieces};

/// Height of the letters, as the picture's style has it.
const LETTERS: f64 = 11.0;

#[derive(Clone, Copy, Debug)]
struct Extent {
    left: f64,
    top: f64,
    right: f64,
    bottom: f64,
}

impl Extent {
    fn meets(&self, other: &Extent) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }
}

/// Advance widths of DejaVu Sans by character, in thousandths of the letters' height: a wide face, here
/// measured for each letter (from memory) where the program only bounds groups of them.
fn advance(c: char) -> f64 {
    let thousandths = match c {
        'i' | 'j' | 'l' | '\'' => 278,
        'I' => 295,
        ' ' | '.' | ',' => 318,
        ':' | ';' | '/' | '|' => 337,
        'f' => 352,
        '-' => 361,
        't' | '(' | ')' => 392,
        '!' => 401,
        'r' => 411,
        's' => 521,
        'z' => 525,
        'c' => 550,
        'k' | 'v' | 'x' | 'y' => 592,
        'a' | 'e' | 'o' => 615,
        'b' | 'd' | 'g' | 'h' | 'n' | 'p' | 'q' | 'u' | '0'..='9' => 636,
        'w' => 818,
        'm' => 974,
        'A'..='L' | 'N'..='V' | 'X'..='Z' => 787,
        'M' => 863,
        'W' => 989,
        '…' | '—' => 1000,
        _ => 1000,
    };
    f64::from(thousandths) / 1000.0
}

fn number(node: roxmltree::Node, name: &str) -> f64 {
    node.attribute(name).unwrap().parse().unwrap()
}

/// Boxes of all labels, from ascent to descent.
fn labels(picture: &roxmltree::Document) -> Vec<(String, Extent)> {
    let texts = picture.descendants().filter(|n| n.has_tag_name("text"));
    texts
        .map(|node| {
            let text = node.text().unwrap().to_owned();
            let width = LETTERS * text.chars().map(advance).sum::<f64>();
            let (x, y) = (number(node, "x"), number(node, "y"));
            let left = match node.attribute("text-anchor") {
                Some("middle") => x - width / 2.0,
                Some("end") => x - width,
                _ => x,
            };
            let label = Extent {
                left,
                top: y - 0.93 * LETTERS,
                right: left + width,
                bottom: y + 0.24 * LETTERS,
            };
            (text, label)
        })
        .collect()
}

/// Boxes of all that is drawn: each stretch of a path, each frame.
fn shapes(picture: &roxmltree::Document) -> Vec<(String, Extent)> {
    let mut out = Vec::new();
    for node in picture.descendants() {
        let class = node.attribute("class").unwrap_or_default().to_owned();
        if node.has_tag_name("rect") {
            let (x, y) = (number(node, "x"), number(node, "y"));
            let frame = Extent {
                left: x,
                top: y,
                right: x + number(node, "width"),
                bottom: y + number(node, "height"),
            };
            out.push((class, frame));
        } else if node.has_tag_name("path") {
            let stretches = node.attribute("d").unwrap().split('M').skip(1);
            out.extend(stretches.map(|s| (class.clone(), extent(s))));
        }
    }
    out
}

/// Extent of "x yLx yVy…Z".
fn extent(path: &str) -> Extent {
    let (mut xs, mut ys) = (Vec::new(), Vec::new());
    for part in path.trim_end_matches('Z').split('L') {
        let (first, down) = part.split_once('V').unwrap_or((part, ""));
        let mut numbers = first.split_whitespace().map(|n| n.parse::<f64>().unwrap());
        xs.extend(numbers.next());
        ys.extend(numbers);
        ys.extend(down.parse::<f64>().ok());
    }
    let least = |of: &[f64]| of.iter().copied().fold(f64::INFINITY, f64::min);
    let most = |of: &[f64]| of.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    assert!(!xs.is_empty() && !ys.is_empty(), "{path}");
    Extent {
        left: least(&xs) - 0.5,
        top: least(&ys),
        right: most(&xs) + 0.5,
        bottom: most(&ys),
    }
}

/// What lies on a label, or out of the picture.
fn collisions(picture: &str) -> Vec<String> {
    let picture = roxmltree::Document::parse(picture).unwrap();
    let view: Vec<f64> = picture
        .root_element()
        .attribute("viewBox")
        .unwrap()
        .split_whitespace()
        .map(|n| n.parse().unwrap())
        .collect();
    let (labels, shapes) = (labels(&picture), shapes(&picture));
    assert!(labels.len() > 3 && shapes.len() > 2);
    let mut out = Vec::new();
    for (i, (text, label)) in labels.iter().enumerate() {
        let inside = label.left >= 0.0
            && label.top >= 0.0
            && label.right <= view[2]
            && label.bottom <= view[3];
        if !inside {
            out.push(format!("'{text}' leaves the picture: {label:?}"));
        }
        for (other, its) in &labels[..i] {
            if label.meets(its) {
                out.push(format!("'{text}' on '{other}'"));
            }
        }
        for (class, its) in &shapes {
            if label.meets(its) {
                out.push(format!("{class} on '{text}'"));
            }
        }
    }
    out
}

fn with_guess(piece: &Piece, guess: &str) -> String {
    let guess = challenge(piece, read(&EXPERT, guess).unwrap());
    svg::eras(piece, Some(&guess))
}

#[test]
fn labels_are_free_of_everything_on_museum_pieces() {
    let guesses = [
        "flow blue, 1890s",
        "1750-1999",
        "Georgian Victorian Regency old willow WWWWWWW \
        WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW 藍藍藍藍藍藍藍藍藍藍藍藍藍藍藍藍",
    ];
    let pieces = museum_pieces().iter().step_by(7);
    assert!(pieces.len() > 20);
    for (i, piece) in pieces.enumerate() {
        for picture in [svg::eras(piece, None), with_guess(piece, guesses[i % 3])] {
            let found = collisions(&picture);
            assert!(found.is_empty(), "piece {i}: {found:#?}\n{picture}");
        }
    }
}

#[test]
fn every_finding_of_the_rules_has_a_label_that_fits() {
    let model = &EXPERT.engine().model;
    for (id, clue) in model.clue_ids().zip(&EXPERT.base.clues) {
        // What says nothing of kind or year has no years to draw.
        if model.clue(id).is_mute() {
            continue;
        }
        for finding in &clue.findings {
            let saw = format!("{}={}??", clue.id, finding.id);
            let piece = case_of(&EXPERT, "thrift-shelf", &[&saw]);
            let picture = svg::eras(&piece, None);
            let found = collisions(&picture);
            assert!(found.is_empty(), "{saw}: {found:#?}");
            // Nothing of it is cut.
            let parsed = roxmltree::Document::parse(&picture).unwrap();
            let lines: Vec<String> = labels(&parsed).into_iter().map(|(line, _)| line).collect();
            assert!(lines.join(" ").contains(&finding.words), "{saw}: {lines:?}");
        }
    }
}

#[test]
fn pictures_of_kinds_are_free_as_well() {
    let guide = Guide::new(&EXPERT);
    let kinds = &guide.chapters[0].entries;
    assert_eq!(kinds.len(), EXPERT.base.kinds.len());
    for picture in kinds.iter().map(|k| &k.picture).chain([&guide.picture]) {
        let found = collisions(picture);
        assert!(found.is_empty(), "{found:#?}");
    }
}

#[test]
fn the_test_of_labels_sees_a_collision() {
    let piece = case_of(
        &EXPERT,
        "thrift-shelf",
        &["edge=clouded", "print-colour=blue"],
    );
    let good = with_guess(&piece, "1750-1850");
    assert!(collisions(&good).is_empty());
    // A label on the next one; a frame through all; a word too long for the picture.
    let first = good.find("<text").unwrap();
    let text = &good[first..first + good[first..].find("</text>").unwrap() + 7];
    let twice = good.replacen(text, &format!("{text}{text}"), 1);
    let long = good.replacen("Edge:", &"Edge:".repeat(20), 1);
    let (head, frame) = good.split_once("class=\"guess\"").unwrap();
    let y = frame.split('"').nth(3).unwrap();
    let raised = frame.replacen(&format!("y=\"{y}\""), "y=\"1\"", 1);
    let through = format!("{head}class=\"guess\"{raised}");
    assert_ne!(through, good);
    for bad in [twice, long, through] {
        assert!(!collisions(&bad).is_empty(), "{bad}");
    }
}
