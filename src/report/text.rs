//! The verdict, a mark and a registration as plain text.

use std::fmt::Write;

use crate::core::observation::Observation;
use crate::hearing::mark::Reading;
use crate::hearing::opinion::Opinion;
use crate::piece::Piece;
use crate::piece::notation::{printable, write};
use crate::registry::decoded::Decoded;
use crate::rulebase::RuleBase;
use crate::say::band::{self, years};
use crate::say::{
    account, at_odds, caution, headline, leaning, names, odds, opinion, origin, plain,
};
use crate::say::{rarity, registration, scales, weight};

/// The verdict for a picker: the plain answer, the kinds, and what each finding did.
pub fn verdict(piece: &Piece) -> String {
    verdict_beside(piece, None)
}

/// The same with an opinion set beside the answer.
pub fn verdict_beside(piece: &Piece, opinion: Option<&Opinion>) -> String {
    let expert = piece.expert();
    let mut out = String::new();
    let mut line = |text: String| {
        let _ = writeln!(out, "{text}");
    };
    plain::lines(piece).into_iter().for_each(&mut line);
    let beside = opinion.map_or(Vec::new(), |o| opinion::lines(piece, o));
    beside.into_iter().for_each(&mut line);
    line(String::new());
    for (kind, p) in plain::kinds(piece) {
        line(format!(
            "  {:<17} {}",
            odds::odds(*p),
            names::kind_name(expert, *kind)
        ));
    }
    line(plain::place_and_rarity(piece));
    let steps = &piece.explanation().steps;
    if !steps.is_empty() {
        line("\nWhat each finding does:".to_owned());
    }
    for step in steps {
        line(format!("  - {}", plain::finding(piece, step)));
    }
    let odd = piece.at_odds();
    if !odd.is_empty() {
        line("\nWhat does not fit:".to_owned());
    }
    for odd in odd {
        line(format!("  - {}", at_odds::plain(expert, odd)));
    }
    warnings(piece, &mut line);
    out
}

fn warnings(piece: &Piece, line: &mut impl FnMut(String)) {
    line(String::new());
    for caution in caution::cautions(piece.expert(), piece.evidence()) {
        line(format!("! {caution}"));
    }
}

/// The whole verdict: the plain answer, then everything with its figures, scales and sources.
pub fn details(piece: &Piece) -> String {
    details_beside(piece, None)
}

/// The same with an opinion set beside the answer.
pub fn details_beside(piece: &Piece, opinion: Option<&Opinion>) -> String {
    let expert = piece.expert();
    let base = &expert.base;
    let judgement = piece.judgement();
    let explained = piece.explanation();
    let mut out = String::new();
    let mut line = |text: String| {
        let _ = writeln!(out, "{text}");
    };
    plain::lines(piece).into_iter().for_each(&mut line);
    let beside = opinion.map_or(Vec::new(), |o| opinion::lines(piece, o));
    beside.into_iter().for_each(&mut line);
    line(String::new());
    line(headline::headline(piece));
    line(scales::NAMED.to_owned());
    line(String::new());
    for (k, p) in plain::kinds(piece) {
        let kind = &base.kinds[*k];
        let aat = kind.aat.as_ref();
        let aat = aat.map_or(String::new(), |id| format!(" (AAT {id})"));
        line(format!("  {:>9}  {}{aat}", scales::percent(*p), kind.name));
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
        let sources = origin::sources_of(expert, &step.observation);
        line(format!("     Source: {sources}"));
    }
    parts(&mut line, &whole.ahead());
    if let Some(stop) = &whole.stop {
        line(format!("\n{stop}"));
    }
    warnings(piece, &mut line);
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
        let but = registration::but(decoded);
        let _ = writeln!(out, "  {but}: {problem}");
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
