//! The parts of the text report that are shown only when asked for.

use super::counts::CountFit;
use super::doubt::DoubtFit;
use super::economy::{Economy, Line, Order};
use super::figures::{score, share, signed, years};
use super::fit::{Fit, LEAST_CASES};
use super::left_out::ClueRow;
use super::measures::Measures;
use super::proof::Report;
use super::setting_moves::{SettingMoves, WELL_DESCRIBED};
use crate::core::observation::Observed;
use crate::piece::expert::Expert;
use crate::rulebase::ids::SettingId;

/// Findings with fewer cases are left out of the text (JSON has them all).
const LEAST_ROWS: usize = 4;

/// The order's name, the same in text and JSON.
pub(super) fn order_name(order: Order) -> &'static str {
    match order {
        Order::Engine => "engine",
        Order::Checklist => "checklist",
        Order::Random => "random",
    }
}

/// The finding of a row, or "year".
pub(super) fn finding_name<'a>(expert: &'a Expert, row: &ClueRow) -> &'a str {
    match row.seen {
        Some(Observed::Finding(f)) => &expert.base.finding(row.clue, f).id,
        _ => "year",
    }
}

pub(super) fn by_clue(expert: &Expert, report: &Report) -> String {
    let rows = &report.proof.by_clue;
    let shown: Vec<&ClueRow> = rows.iter().filter(|r| r.cases >= LEAST_ROWS).collect();
    let mut out = format!(
        "\nBy clue: each finding left out in turn; bias = mean of median − midpoint\n\
         {:<36} {:>5} {:>9} {:>7} {:>8} {:>8}\n",
        "", "cases", "bias w/o", "with", "ln date", "ln kind"
    );
    for row in &shown {
        let clue = &expert.base.clue(row.clue).id;
        out += &format!(
            "{:<36} {:>5} {:>9} {:>7} {:>8} {:>8}\n",
            format!("{clue}={}", finding_name(expert, row)),
            row.cases,
            signed(row.bias_without),
            signed(row.bias_with),
            gain(row.date_gain()),
            gain(row.kind_gain()),
        );
    }
    out + &format!(
        "ln date and ln kind: what the finding adds. {} findings with fewer than {LEAST_ROWS} cases are not shown.\n",
        rows.len() - shown.len()
    )
}

fn gain(x: Option<f64>) -> String {
    x.map_or("–".to_owned(), |x| format!("{x:+.3}"))
}

pub(super) fn economy(economy: &Economy) -> String {
    let mut out = format!(
        "\nHow many looks settle the answer ({} cases; only what the record answers is asked)\n\
         {:<12} {:>18} {:>18} {:>18} {:>16}\n",
        economy.cases, "order", "first near, mean", "settled, mean", "settled, median", "all, mean"
    );
    for line in &economy.lines {
        let Line {
            order,
            mean_first_near: first,
            mean_settled: settled,
            median_settled: middle,
            mean_all: all,
        } = line;
        out += &format!("{:<12}", order_name(*order));
        for (cost, width) in [(first, 19), (settled, 19), (middle, 19), (all, 17)] {
            out += &format!(
                "{:>width$}",
                format!("{:.1} looks {:.0} s", cost.looks, cost.seconds)
            );
        }
        out += "\n";
    }
    out
}

/// Column names of a table of tries.
fn tries_head() -> String {
    format!(
        "{:>8} {:>6} {:>6} {:>6} {:>6} {:>6} {:>6} {:>8} {:>8}\n",
        "score", "50 %", "80 %", "95 %", "error", "bias", "width", "ln date", "ln kind"
    )
}

/// One row of it.
fn tries_line(m: &Measures, objective: Option<f64>) -> String {
    format!(
        "{:>8} {:>6} {:>6} {:>6} {:>6} {:>6} {:>6} {:>8} {:>8}\n",
        score(objective),
        share(m.coverage[0]),
        share(m.coverage[1]),
        share(m.coverage[2]),
        years(m.median_error),
        signed(m.bias),
        years(m.width),
        score(m.log_date),
        score(m.log_kind)
    )
}

pub(super) fn counts(expert: &Expert, found: &CountFit) -> String {
    let mut out = format!(
        "\nWhat counting known pieces would be worth on collections that were not counted\n\
         {:<16}{}{:<16}{}",
        "pieces  years",
        tries_head(),
        "as drawn",
        tries_line(&found.drawn.0, found.drawn.1)
    );
    for (strength, smoothing, m, objective) in &found.tried {
        out += &format!(
            "{strength:<7.0}{smoothing:>6.0}   {}",
            tries_line(m, *objective)
        );
    }
    let chosen = &found.chosen;
    out += &format!(
        "{:<16}{}",
        "chosen clues",
        tries_line(&chosen.held_out.0, chosen.held_out.1)
    );
    out += "Chosen on all, with the sums of ln P of date and kind that each gains by itself on collections left out:\n";
    for (id, gain) in &chosen.choice.clues {
        let clue = &expert.base.clue(*id).id;
        out += &format!(
            "  {clue:<18}{:>5}{:>+9.3}{:>+9.3}\n",
            gain.cases, gain.date, gain.kind
        );
    }
    for (fold, (drawn, held_out)) in chosen.folds.iter().enumerate() {
        let (strength, smoothing) = chosen.without[fold].how;
        out += &format!(
            "  without fold {}: {} clues, {strength:.0} pieces, {smoothing:.0} years; {} as drawn, {} counted\n",
            fold + 1,
            chosen.without[fold].clues.len(),
            score(*drawn),
            score(*held_out)
        );
    }
    out
}

pub(super) fn doubt(found: &DoubtFit) -> String {
    let mut out = format!(
        "\nHow far the setting may be wrong: doubt and spread by {}-fold cross-validation\n\
         across {} collections on ln P(span ± 5) + ln P(kind)\n{:<16}{}",
        found.folds.len(),
        found.collections,
        "doubt  spread",
        tries_head(),
    );
    for (doubt, spread, m, objective) in &found.tried {
        out += &format!("{doubt:<7.2}{spread:>6.0}   {}", tries_line(m, *objective));
    }
    out += &format!(
        "{:<16}{}",
        "held out",
        tries_line(&found.held_out.0, found.held_out.1)
    );
    let folds: Vec<String> = found
        .folds
        .iter()
        .map(|(doubt, spread)| format!("{doubt:.2} and {spread:.0} years"))
        .collect();
    out + &format!(
        "Chosen on all: {:.2} and {:.0} years; without each fold: {}.\n",
        found.chosen.0,
        found.chosen.1,
        folds.join(", ")
    )
}

pub(super) fn moves(expert: &Expert, found: &SettingMoves) -> String {
    let id = |s: SettingId| &expert.base.settings[s].id;
    let mut out = format!(
        "\nHow far the middle year moves from setting to setting, median of {} pieces with\n\
         {WELL_DESCRIBED} findings or more\n",
        found.pieces
    );
    for (a, b, moved) in &found.pairs {
        out += &format!("  {:<14} {:<14} {:>6}\n", id(*a), id(*b), years(*moved));
    }
    out + &format!("  {:<29} {:>6}\n", "all", years(found.median))
}

pub(super) fn fit(fit: &Fit) -> String {
    let mut out = format!(
        "\nDependence: δ by {}-fold cross-validation on ln P(span ± 5) + ln P(kind)\n\
         {:<22} {:>8} {:>6} {:>6} {:>6} {:>9} {:>9}\n",
        fit.folds.len(),
        "",
        "score",
        "50 %",
        "80 %",
        "95 %",
        "ln date",
        "ln kind"
    );
    for (name, m, objective) in &fit.effect {
        out += &format!(
            "{name:<22} {:>8} {:>6} {:>6} {:>6} {:>9} {:>9}\n",
            score(*objective),
            share(m.coverage[0]),
            share(m.coverage[1]),
            share(m.coverage[2]),
            score(m.log_date),
            score(m.log_kind)
        );
    }
    out += "The rule base's own δ may come from a fit on these very cases: what a fit is worth on \
            pieces\nnever seen is the line held out.\n";
    out += "\nfold  cases  held out  rule base  all δ = 0\n";
    for (at, fold) in fit.folds.iter().enumerate() {
        out += &format!(
            "{:>4} {:>6} {:>9} {:>10} {:>10}\n",
            at + 1,
            fold.cases,
            score(fold.held_out),
            score(fold.rule_base),
            score(fold.independent)
        );
    }
    out += &format!(
        "\n{:<14} {:>5}  δ before, fitted, in each fold\n",
        "family", "cases"
    );
    for family in &fit.families {
        let folds: Vec<String> = family.folds.iter().map(|d| format!("{d:.1}")).collect();
        let fitted = if family.fitted {
            format!("{:.1}   ({})", family.after, folds.join(" "))
        } else {
            format!("kept: fewer than {LEAST_CASES} cases")
        };
        out += &format!(
            "{:<14} {:>5}  {:.2}  {fitted}\n",
            family.id, family.cases, family.before
        );
    }
    out + "\nTo paste into families.ron:\n" + &paste(fit)
}

/// Lines for the rule base: the fitted families and what the fit is worth.
pub(super) fn paste(fit: &Fit) -> String {
    let cases: usize = fit.folds.iter().map(|f| f.cases).sum();
    let mut out = format!(
        "// δ fitted on {cases} known pieces by {}-fold cross-validation; held-out mean log score {}.\n",
        fit.folds.len(),
        score(fit.held_out)
    );
    for family in fit.families.iter().filter(|f| f.fitted) {
        out += &format!(
            "(id: \"{}\", delta: {:.1}, // {} cases bear on it\n",
            family.id, family.after, family.cases
        );
    }
    out
}
