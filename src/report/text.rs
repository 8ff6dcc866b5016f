//! The verdict, a mark and a registration as plain text.

use crate::say::band;
use crate::say::band::years;
use crate::say::caution;
use crate::say::headline;
use crate::say::leaning;
use crate::say::rarity;
use crate::say::registration;
use crate::say::weight;
use std::fmt::Write;

use crate::core::observation::Observation;
use crate::hearing::mark::Reading;
use crate::piece::Piece;
use crate::piece::notation::{printable, write};
use crate::registry::decoded::Decoded;
use crate::rulebase::RuleBase;
use crate::say::{account, scales};

/// Kinds shown at most, and the least probability worth a line.
const KINDS: (usize, f64) = (5, 0.01);

/// The whole verdict.
pub fn verdict(piece: &Piece) -> String {
    let expert = piece.expert();
    let base = &expert.base;
    let judgement = piece.judgement();
    let explained = piece.explanation();
    let mut out = String::new();
    let mut line = |text: String| {
        let _ = writeln!(out, "{text}");
    };
    if piece.evidence().says_nothing() {
        line(headline::nothing_seen(expert, piece.setting()));
    }
    line(headline::headline(piece));
    line(String::new());
    for (k, p) in judgement
        .kinds
        .iter()
        .filter(|(_, p)| *p >= KINDS.1)
        .take(KINDS.0)
    {
        line(format!(
            "  {:>9}  {}",
            scales::percent(*p),
            base.kinds[usize::from(k.0)].name
        ));
    }
    let (place, p) = judgement.places[0];
    line(format!(
        "Made in: {} ({}, {})",
        base.places[usize::from(place.0)].name,
        scales::chance(p),
        scales::percent(p)
    ));
    for band in judgement.bands {
        line(format!(
            "  {} band: {}  [{}]",
            scales::percent(band.share),
            years(band.from, band.to),
            band.edtf()
        ));
    }
    line(band::ends(expert, explained));
    line(rarity::rarity_line(piece));
    let whole = account::account(piece);
    let leanings = leaning::leanings_of(piece);
    parts(&mut line, &whole.sides());
    if !explained.steps.is_empty() {
        line(format!("\n{}:", account::IN_ORDER));
    }
    for (i, step) in explained.steps.iter().enumerate() {
        line(format!(
            "{:>3}. {} {}",
            i + 1,
            weight::step(piece, step),
            leaning::leaning_of(&leanings, &step.observation)
        ));
    }
    parts(&mut line, &whole.ahead());
    if let Some(stop) = &whole.stop {
        line(format!("\n{stop}"));
    }
    line(String::new());
    for caution in caution::cautions(expert, piece.evidence()) {
        line(format!("! {caution}"));
    }
    out
}

/// Lists under their headings.
fn parts(line: &mut impl FnMut(String), parts: &[(&str, &[String])]) {
    for (heading, sentences) in parts.iter().filter(|(_, s)| !s.is_empty()) {
        line(format!("\n{heading}:"));
        sentences.iter().for_each(|s| line(format!("  - {s}")));
    }
}

/// What a mark says, phrase by phrase.
pub fn mark(base: &RuleBase, reading: &Reading) -> String {
    let mut out = String::new();
    for p in &reading.phrases {
        let finding = p.says.as_ref().map_or(String::new(), |(clue, seen)| {
            let said = Observation::new(*clue, seen.clone()).sure(p.sure);
            format!(" -> {}", write(base, &said))
        });
        let _ = writeln!(out, "'{}'{finding}", printable(&p.text));
        let _ = writeln!(out, "    {} [{}]", p.because, p.origin);
    }
    for u in &reading.unread {
        let _ = writeln!(out, "'{}' not recognised", printable(&u.text));
    }
    for decoded in &reading.registered {
        let _ = writeln!(out, "Registration:");
        out += &registered(decoded);
    }
    if reading.phrases.is_empty() && reading.registered.is_empty() {
        let _ = writeln!(out, "Nothing in this mark is known to date a piece.");
    }
    out
}

/// What a diamond or a number says.
pub fn registered(decoded: &Decoded) -> String {
    let mut out = String::new();
    for date in &decoded.dates {
        let _ = writeln!(out, "  {}", registration::registered(date));
    }
    if let Some(problem) = registration::problem(decoded) {
        let _ = writeln!(out, "  not possible: {problem}");
    }
    for why in &decoded.why {
        let _ = writeln!(out, "  {}", registration::why(why));
    }
    let again = registration::look_again_all(decoded);
    if !again.is_empty() {
        let _ = writeln!(out, "  look again at: {}", again.join(", "));
    }
    let _ = writeln!(out, "  {}", registration::REGISTRATION_IS_A_FLOOR);
    let _ = writeln!(out, "  [{}]", decoded.origin);
    out
}
