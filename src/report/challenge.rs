//! A challenged guess as text and JSON.

use serde_json::{Value, json};

use crate::claim::Challenge;
use crate::claim::opposing::OpposingFinding;
use crate::core::explanation::End;
use crate::core::interval::Band;
use crate::piece::Piece;
use crate::piece::notation::finding_id;
use crate::say::claim as words;
use crate::say::claim_read::understood;

/// Line by line.
pub fn text(piece: &Piece, c: &Challenge) -> String {
    let mut out = lines(piece, c).join("\n");
    out.push('\n');
    out
}

/// The lines of the answer.
pub fn lines(piece: &Piece, c: &Challenge) -> Vec<String> {
    words::account(piece, c)
}

/// `challenge --json`.
pub fn json(piece: &Piece, c: &Challenge) -> Value {
    let expert = piece.expert();
    let base = &expert.base;
    let kind = |k: crate::core::grid::KindId| base.kinds[usize::from(k.0)].id.clone();
    let end = |e: &End| json!({"year": e.year.0, "because": e.because.map(|c| &base.clue(c).id)});
    let edtf = |from, to| {
        Band {
            share: c.p,
            from,
            to,
        }
        .edtf()
    };
    let hurt = |h: &OpposingFinding| {
        json!({"clue": base.clue(h.observation.clue).id, "finding": finding_id(base, &h.observation),
               "decibans": super::json::round(h.decibans),
               "contradicts": h.era.is_some(),
               "words": words::opposing_finding(expert, &c.claim, h)})
    };
    let granted: Vec<Value> = c
        .granted
        .iter()
        .map(|g| {
            json!({"clue": base.clue(g.observation.clue).id, "finding": finding_id(base, &g.observation),
                   "seen": g.seen.as_ref().map(|e| finding_id(base, e)),
                   "words": words::granted(expert, g)})
        })
        .collect();
    json!({
        "format": 1,
        "understood": {
            "kind": c.claim.kinds.first().filter(|_| c.claim.denied.is_empty()).map(|k| kind(*k)),
            "kinds": c.claim.kinds.iter().map(|k| kind(*k)).collect::<Vec<_>>(),
            "not": c.claim.denied.iter().map(|k| kind(*k)).collect::<Vec<_>>(),
            "from": c.claim.from,
            "to": c.claim.to,
            "about": c.claim.ends.about(),
            "judged": {"from": c.from.0, "to": c.to.0},
            "granted": granted,
            "not_understood": c.claim.not_understood,
            "words": understood(expert, &c.claim),
        },
        "setting": base.settings[piece.setting()].id,
        "answer": words::answer_id(c.answer),
        "p": super::json::round(c.p),
        "share_of_best": super::json::round(c.share),
        "weight": super::json::round(c.weight),
        "hurts": c.opposing.iter().map(hurt).collect::<Vec<_>>(),
        "own": c.own.iter().map(hurt).collect::<Vec<_>>(),
        "earliest": end(&c.earliest),
        "latest": end(&c.latest),
        "nearest": {"kind": c.nearest.of_kind.then(|| kind(c.nearest.kind)), "from": c.nearest.from.0, "to": c.nearest.to.0,
                    "p": super::json::round(c.nearest.p), "edtf": edtf(c.nearest.from, c.nearest.to)},
        "look": c.look.map(|l| &base.clue(l.clue).id),
        "words": words::verdict(piece, c),
    })
}
