//! The report as one JSON object.

use serde_json::{Value, json};

use super::calibration::Held;
use super::doubt::DoubtFit;
use super::economy::{Cost, Economy};
use super::fit::Fit;
use super::judge::Judged;
use super::measures::{BANDS, Measures};
use super::proof::Report;
use super::setting_moves::SettingMoves;
use super::text::reason;
use super::text_parts::{finding_name, order_name};
use crate::core::grid::KindId;
use crate::piece::expert::Expert;
use crate::piece::notation;
use crate::rulebase::ids::SettingId;

/// The whole report.
pub fn json(expert: &Expert, report: &Report) -> Value {
    let proof = &report.proof;
    let kind = |k: KindId| expert.base.kinds[usize::from(k.0)].id.as_str();
    let mut out = json!({
        "format": 1,
        "rules": expert.base.version,
        "all": measures(&proof.all),
        "nothing_seen": measures(&proof.nothing_seen),
        "independent": measures(&proof.independent),
        "by_kind": proof.by_kind.iter().map(|(k, m)| {
            json!({"kind": kind(*k), "measures": measures(m)})
        }).collect::<Vec<_>>(),
        "by_half_century": proof.by_half_century.iter().map(|(start, m)| {
            json!({"from": start, "to": start + 49, "measures": measures(m)})
        }).collect::<Vec<_>>(),
        "calibration": proof.calibration.iter().map(held).collect::<Vec<_>>(),
        "reliability": {
            "kinds": proof.reliability.kinds.iter().map(|b| json!({
                "from": b.from, "to": b.to, "cases": b.cases,
                "stated": b.stated, "observed": b.observed,
            })).collect::<Vec<_>>(),
            "kind_gap": proof.reliability.kind_gap,
            "bands": proof.reliability.bands.iter().map(|(stated, observed)| {
                json!({"stated": stated, "observed": observed})
            }).collect::<Vec<_>>(),
        },
        "worst": proof.worst.iter().map(|w| json!({
            "case": report.cases[w.case].id,
            "log_score": w.log,
            "nothing_seen": w.nothing_seen,
            "spoiled_by": w.blame.as_ref().map(|(seen, _)| notation::write(&expert.base, seen)),
            "words": reason(expert, report, w),
        })).collect::<Vec<_>>(),
        "cases": report.cases.iter().zip(&proof.judged).map(|(case, j)| {
            case_line(&case.id, j, &kind)
        }).collect::<Vec<_>>(),
    });
    if let Some(drawn) = &report.drawn {
        out["drawn"] = json!({
            "measures": measures(&drawn.all),
            "calibration": drawn.calibration.iter().map(held).collect::<Vec<_>>(),
        });
    }
    if report.show_by_clue {
        out["by_clue"] = by_clue(expert, report);
    }
    if let Some(found) = &report.economy {
        out["economy"] = economy(found);
    }
    if let Some((found, moves)) = &report.doubt {
        out["doubt"] = doubt(found);
        out["setting_moves"] = setting_moves(expert, moves);
    }
    if let Some(found) = &report.fit {
        out["fit"] = fit(found);
    }
    out
}

fn measures(m: &Measures) -> Value {
    json!({
        "cases": m.cases, "dated": m.dated, "kinded": m.kinded,
        "coverage": BANDS.iter().zip(m.coverage).map(|(share, c)| {
            json!({"share": share, "observed": c})
        }).collect::<Vec<_>>(),
        "median_error": m.median_error, "mean_error": m.mean_error, "bias": m.bias,
        "median_width": m.width, "log_date": m.log_date,
        "kind_right": m.kind_right, "log_kind": m.log_kind, "place_right": m.place_right,
    })
}

fn case_line<'a>(id: &str, j: &Judged, kind: &impl Fn(KindId) -> &'a str) -> Value {
    json!({
        "case": id, "kind": kind(j.leader), "p": j.p,
        "from": j.band.from.0, "to": j.band.to.0,
        "median": j.date.as_ref().map(|d| d.median.0),
        "error": j.date.as_ref().map(|d| d.error()),
        "log_date": j.date.as_ref().map(|d| d.log),
        "log_kind": j.kind.map(|k| k.log),
    })
}

fn by_clue(expert: &Expert, report: &Report) -> Value {
    let rows = report.proof.by_clue.iter().map(|r| {
        json!({
            "clue": expert.base.clue(r.clue).id, "finding": finding_name(expert, r),
            "cases": r.cases, "dated": r.dated, "kinded": r.kinded,
            "bias_without": r.bias_without, "bias_with": r.bias_with,
            "log_date_without": r.date_without, "log_date_with": r.date_with,
            "log_kind_without": r.kind_without, "log_kind_with": r.kind_with,
        })
    });
    Value::Array(rows.collect())
}

fn economy(found: &Economy) -> Value {
    let cost = |c: Cost| json!({"looks": c.looks, "seconds": c.seconds});
    json!({
        "cases": found.cases,
        "orders": found.lines.iter().map(|l| json!({
            "order": order_name(l.order),
            "mean_first_near": cost(l.mean_first_near),
            "mean_settled": cost(l.mean_settled),
            "median_settled": cost(l.median_settled),
            "mean_all": cost(l.mean_all),
        })).collect::<Vec<_>>(),
    })
}

fn doubt(found: &DoubtFit) -> Value {
    let of_pair = |(doubt, spread): (f64, f64)| json!({"doubt": doubt, "spread": spread});
    json!({
        "collections": found.collections,
        "chosen": of_pair(found.chosen),
        "folds": found.folds.iter().copied().map(of_pair).collect::<Vec<_>>(),
        "held_out": {"score": found.held_out.1, "measures": measures(&found.held_out.0)},
        "tried": found.tried.iter().map(|(doubt, spread, m, score)| json!({
            "doubt": doubt, "spread": spread, "score": score, "measures": measures(m),
        })).collect::<Vec<_>>(),
    })
}

fn setting_moves(expert: &Expert, found: &SettingMoves) -> Value {
    let id = |s: SettingId| expert.base.settings[s].id.as_str();
    json!({
        "pieces": found.pieces, "median": found.median,
        "pairs": found.pairs.iter().map(|(a, b, years)| json!({
            "settings": [id(*a), id(*b)], "median": years,
        })).collect::<Vec<_>>(),
    })
}

fn fit(found: &Fit) -> Value {
    json!({
        "held_out": found.held_out,
        "families": found.families.iter().map(|f| json!({
            "family": f.id, "cases": f.cases, "fitted": f.fitted,
            "before": f.before, "delta": f.after, "folds": f.folds,
        })).collect::<Vec<_>>(),
        "folds": found.folds.iter().map(|f| json!({
            "cases": f.cases, "held_out": f.held_out,
            "rule_base": f.rule_base, "independent": f.independent,
        })).collect::<Vec<_>>(),
        "effect": found.effect.iter().map(|(name, m, objective)| json!({
            "name": name, "score": objective, "measures": measures(m),
        })).collect::<Vec<_>>(),
    })
}

/// What the 80 % band held in one period.
fn held(held: &Held) -> Value {
    json!({
        "from": (held.from != i16::MIN).then_some(held.from), "to": held.to,
        "held": held.held, "cases": held.cases, "interval": [held.interval.0, held.interval.1],
        "bias": held.bias,
    })
}
