//! The advice on a piece on the shelf as text and JSON.

use std::fmt::Write;

use serde_json::{Value, json};

use crate::buy::{Money, ShelfAnswer};
use crate::piece::Piece;
use crate::say::shelf as words;

/// Line by line.
pub fn text(piece: &Piece, answer: &ShelfAnswer) -> String {
    let expert = piece.expert();
    let mut out = String::new();
    let _ = writeln!(out, "{}\n", words::advice(expert, &answer.gist));
    for channel in &answer.channels {
        let _ = writeln!(out, "  {}", words::channel(channel));
    }
    let _ = writeln!(out);
    for reason in words::reasons(expert, answer) {
        let _ = writeln!(out, "  - {reason}");
    }
    let _ = writeln!(out, "\n! {}", words::GUIDANCE);
    out
}

/// `shelf --json`; amounts in minor units.
pub fn json(piece: &Piece, answer: &ShelfAnswer) -> Value {
    let (expert, gist) = (piece.expert(), &answer.gist);
    let money = |m: &Money| json!({"minor": m.minor, "currency": m.currency.code()});
    let channels = answer.channels.iter().map(|c| {
        json!({"id": c.id, "name": c.name, "expected_net": c.expected_net.minor,
               "loss_chance": super::json::round(c.loss_chance), "most_to_pay": c.most_to_pay.minor,
               "weeks_to_sell": super::json::round(c.weeks_to_sell),
               "price": {"low": c.low.minor, "typical": c.typical.minor, "high": c.high.minor}})
    });
    let look = gist.look.as_ref().map(|l| {
        json!({"clue": expert.base.clue(l.clue).id, "worth": l.worth.minor, "cost": l.cost.minor,
               "seconds": super::json::round(l.seconds)})
    });
    json!({
        "format": 1,
        "advice": words::advice_id(gist.advice),
        "asking": money(&gist.asking),
        "most_to_pay": money(&gist.most_to_pay),
        "channels": channels.collect::<Vec<_>>(),
        "best_channel": answer.best_channel().id,
        "own_sales": answer.own_sales,
        "own_share": super::json::round(answer.own_share),
        "reasons": words::reasons(expert, answer),
        "look": look,
        "words": words::advice(expert, &answer.gist),
        "guidance": words::GUIDANCE,
    })
}
