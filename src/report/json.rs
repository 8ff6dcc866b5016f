//! The JSON contract: one object a command, stable names, finite numbers.

use serde_json::{Value, json};

use crate::claim::{Claim, challenge};
use crate::core::explanation::{End, Step};
use crate::core::observation::{Observation, Observed, Sure};
use crate::hearing::mark::Reading;
use crate::hearing::opinion::Opinion;
use crate::piece::Piece;
use crate::piece::intake::Taken;
use crate::piece::notation::{finding_id, seen_id};
use crate::piece::setting_effect::trusted;
use crate::registry::decoded::Decoded;
use crate::registry::tables::Layout;
use crate::rulebase::RuleBase;
use crate::say::taken as say_taken;
use crate::say::{
    at_odds, caution, headline, look, plain, registration, setting_effect, turning, weight,
};

/// Six decimals: more would be noise, and text stays stable.
pub(super) fn round(x: f64) -> f64 {
    (x * 1e6).round() / 1e6
}

fn sure_word(sure: Sure) -> &'static str {
    match sure {
        Sure::Sure => "sure",
        Sure::Unsure => "unsure",
        Sure::Guess => "guess",
    }
}

/// `judge --json`.
pub fn verdict(piece: &Piece) -> Value {
    let expert = piece.expert();
    let base = &expert.base;
    let judgement = piece.judgement();
    let account = piece.explanation();
    let clue_id = |c: crate::core::grid::ClueId| base.clue(c).id.clone();
    let named = |entry: &Observation| (clue_id(entry.clue), finding_id(base, entry));
    let kinds: Vec<Value> = judgement
        .kinds
        .iter()
        .map(|(k, p)| {
            let kind = &base.kinds[usize::from(k.0)];
            json!({"id": kind.id, "name": kind.name, "p": round(*p), "aat": kind.aat})
        })
        .collect();
    let places: Vec<Value> = judgement
        .places
        .iter()
        .map(|(l, p)| {
            let place = &base.places[usize::from(l.0)];
            json!({"id": place.id, "name": place.name, "p": round(*p)})
        })
        .collect();
    let band = |b: &crate::core::interval::Band| json!({"share": b.share, "from": b.from.0, "to": b.to.0, "edtf": b.edtf()});
    let end =
        |e: &End| json!({"year": e.year.0, "because": e.because.map(clue_id), "hard": e.hard});
    let because: Vec<Value> = account.steps.iter().map(|s| step(piece, s)).collect();
    let at_odds: Vec<Value> = piece
        .at_odds()
        .iter()
        .map(|o| {
            let (clue, finding) = named(&o.observation);
            let against: Vec<String> = o.against.iter().map(|c| clue_id(*c)).collect();
            json!({"clue": clue, "finding": finding, "p": round(o.p), "against": against,
                   "words": at_odds::at_odds(expert, o)})
        })
        .collect();
    let next: Vec<Value> = piece
        .advice()
        .looks
        .iter()
        .take(8)
        .map(|l| {
            json!({"clue": clue_id(l.clue), "bits": round(l.bits), "seconds": round(l.seconds),
                   "bits_per_second": round(l.bits_per_second())})
        })
        .collect();
    let turning: Vec<Value> = piece
        .turning_points()
        .iter()
        .map(|t| {
            let changes: Vec<Value> = t
                .changes
                .iter()
                .map(|c| {
                    let (clue, finding) = named(c);
                    json!({"clue": clue, "finding": finding})
                })
                .collect();
            json!({"changes": changes, "kind": base.kinds[usize::from(t.kind.0)].id,
                   "median": t.median.0, "words": turning::turn(expert, t)})
        })
        .collect();
    let bits = rarity_bits(piece);
    let mut words = headline::headline(piece);
    if piece.evidence().says_nothing() {
        words = format!(
            "{} {words}",
            headline::nothing_seen(expert, piece.setting())
        );
    }
    json!({
        "format": 1,
        "setting": base.settings[piece.setting()].id,
        "kinds": kinds,
        "places": places,
        "band": band(&judgement.band()),
        "bands": judgement.bands.iter().map(band).collect::<Vec<_>>(),
        "median": judgement.median.0,
        "earliest": end(&account.earliest),
        "latest": end(&account.latest),
        "rarity": {"score": piece.rarity().score.round(),
                   "of_its_kind": piece.rarity_of_its_kind().round(), "bits": bits},
        "because": because,
        "at_odds": at_odds,
        "next": next,
        "stop": piece.advice().stop.map(look::stop),
        "turning_points": turning,
        "cautions": caution::cautions(expert, piece.evidence()),
        "plain": plain::answer(piece),
        "setting_adds": setting_effect::setting_effect(piece),
        "setting_moves": setting_effect::years_effect(piece),
        "setting_trusted": round(trusted(piece)),
        "words": words,
        "empty": piece.evidence().says_nothing(),
    })
}

/// The verdict with what was made of all that was told, as `judge --json` gives it.
pub fn judged(piece: &Piece, taken: &Taken) -> Value {
    let mut value = verdict(piece);
    for (name, part) in told(piece, taken) {
        value[name] = part;
    }
    value
}

/// What was made of all that was told: `heard`, `not_understood` and `opinion`.
///
/// The text of what was said outright is empty and is not listed. A span counts bytes within its own
/// line of notes or mark, end not within. What is heard and is no finding has no clue.
pub fn told(piece: &Piece, taken: &Taken) -> [(&'static str, Value); 3] {
    let expert = piece.expert();
    let base = &expert.base;
    let heard = taken.hearings.iter().filter(|h| !h.text.is_empty());
    let heard = heard.map(|h| {
        let lost_to = h.overridden_by.as_ref();
        let why = lost_to.map(|by| say_taken::overridden(expert, &h.observation, by));
        json!({"text": h.text, "span": h.span.map(|(a, b)| [a, b]), "clue": base.clue(h.observation.clue).id,
               "finding": finding_id(base, &h.observation),
               "was": base.clue(h.observation.clue).was_part_of(&h.observation.seen),
               "counted": lost_to.is_none(), "why": why})
    });
    let no_finding = taken.not_counted.iter().map(|n| {
        json!({"text": n.text, "span": [n.span.0, n.span.1], "clue": Value::Null,
               "finding": Value::Null, "counted": false, "why": say_taken::why_not(&n.why)})
    });
    let unread = taken.not_understood.iter();
    let unread = unread.map(|u| json!({"text": u.text, "span": [u.span.0, u.span.1]}));
    [
        ("heard", heard.chain(no_finding).collect()),
        ("not_understood", unread.collect()),
        (
            "opinion",
            taken
                .opinion
                .as_ref()
                .map_or(Value::Null, |o| opinion(piece, o)),
        ),
    ]
}

/// What the notes take the piece to be, put to it like any claim; `null` when only a kind is denied.
fn opinion(piece: &Piece, opinion: &Opinion) -> Value {
    if opinion.kinds.is_empty() && opinion.from.is_none() && opinion.to.is_none() {
        return Value::Null;
    }
    let base = &piece.expert().base;
    let Some(claim) = Claim::of_opinion(opinion, base.kinds.len()) else {
        return Value::Null;
    };
    let judged = challenge(piece, claim);
    let kind = opinion
        .kinds
        .first()
        .map(|k| &base.kinds[usize::from(k.0)].id);
    json!({"kind": kind, "from": opinion.from, "to": opinion.to, "p": round(judged.p),
           "look": judged.look.map(|l| &base.clue(l.clue).id)})
}

fn step(piece: &Piece, s: &Step) -> Value {
    let expert = piece.expert();
    let clue = expert.base.clue(s.observation.clue);
    let (finding, weights, sure) = match &s.observation.seen {
        Observed::Soft(soft) => {
            let all = clue.findings.iter().zip(soft.by_finding());
            let shares: Value = all.map(|(f, w)| (f.id.clone(), json!(round(*w)))).collect();
            (Value::Null, shares, "soft")
        }
        _ => (
            json!(finding_id(&expert.base, &s.observation)),
            Value::Null,
            sure_word(s.observation.sure),
        ),
    };
    let mut out = json!({
        "clue": clue.id,
        "finding": finding,
        "weights": weights,
        "sure": sure,
        "decibans": round(s.decibans),
        "leave_one_out": round(s.leave_one_out),
        "median_before": s.median_before.0,
        "median_after": s.median_after.0,
        "width_before": s.width_before,
        "width_after": s.width_after,
        "words": weight::step(piece, s),
    });
    let was = clue.was(&s.observation.seen);
    if !was.is_empty() {
        out["was"] = json!(was);
    }
    out
}

/// Kind and age first, then each feature that was seen.
fn rarity_bits(piece: &Piece) -> Vec<Value> {
    let rarity = piece.rarity();
    let market = &piece.expert().base.market;
    let mut out = vec![json!({"feature": "kind and age", "bits": round(rarity.kind_and_age)})];
    out.extend(
        market
            .iter()
            .zip(&rarity.traits)
            .filter_map(|(m, bits)| bits.map(|b| json!({"feature": m.name, "bits": round(b)}))),
    );
    out
}

/// `registered --json`.
pub fn registered(decoded: &Decoded) -> Value {
    let layout = decoded.layout.map(|l| match l {
        Layout::First => "first",
        Layout::Second => "second",
        Layout::Number => "number",
    });
    let dates: Vec<Value> = decoded
        .dates
        .iter()
        .map(|d| {
            let note = d.note.as_ref().map(registration::note);
            json!({"from": d.from.to_string(), "to": d.to.to_string(), "note": note})
        })
        .collect();
    json!({
        "format": 1,
        "layout": layout,
        "class": decoded.class,
        "dates": dates,
        "look_again": registration::look_again_all(decoded),
        "problem": registration::problem(decoded),
        "why": decoded.why.iter().map(registration::why).collect::<Vec<_>>(),
        "origin": decoded.origin,
    })
}

/// `mark --json`.
pub fn mark(base: &RuleBase, reading: &Reading) -> Value {
    let phrases: Vec<Value> = reading
        .phrases
        .iter()
        .map(|p| {
            let says = p.says.as_ref();
            let clue = says.map(|(clue, _)| &base.clue(*clue).id);
            let finding = says.map(|(clue, seen)| seen_id(base, *clue, seen));
            json!({"text": p.text, "span": [p.span.0, p.span.1], "phrase": p.phrase, "clue": clue,
                   "finding": finding, "sure": sure_word(p.sure), "from": p.from, "to": p.to,
                   "because": p.because, "origin": p.origin})
        })
        .collect();
    let unread: Vec<Value> = reading
        .unread
        .iter()
        .map(|u| json!({"text": u.text, "span": [u.span.0, u.span.1]}))
        .collect();
    json!({
        "format": 1,
        "phrases": phrases,
        "unread": unread,
        "registered": reading.registered.iter().map(registered).collect::<Vec<_>>(),
    })
}
