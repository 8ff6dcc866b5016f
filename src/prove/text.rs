//! The main report as plain text, under 80 columns.

use super::calibration::Held;
use super::drawn::{DRAWS, Drawn};
use super::figures::{score, share, signed, years};
use super::left_out::Worst;
use super::measures::Measures;
use super::proof::Report;
use super::text_parts;
use crate::piece::expert::Expert;
use crate::say::names;
use crate::say::observation;
use crate::say::scales::percent;

/// The whole report.
pub fn text(expert: &Expert, report: &Report) -> String {
    let proof = &report.proof;
    let mut out = format!(
        "{} cases; {} count for dating (catalogued span of at most {} years), {} for kind\n\n",
        proof.all.cases,
        proof.all.dated,
        super::cases::WIDEST_SPAN,
        proof.all.kinded
    );
    let without = report.cases.iter().filter(|c| !c.within).count();
    if without > 0 {
        let grid = &expert.engine().model.grid;
        out += &format!(
            "{without} lie outside the years judged, {} to {}, and don't count for dating\n\n",
            grid.first().0,
            grid.last().0
        );
    }
    let counted = expert.base.counted.pieces.len();
    if counted > 0 {
        out += &format!(
            "The rules have counted {counted} known pieces (counted.ron). If those judged here are among them, the figures flatter:\n\
             counted.ron says what was scored on collections left out, --counts scores it again.\n\n"
        );
    }
    out += &whole(report);
    out += &groups(expert, report);
    out += &calibration(report);
    out += &reliability(report);
    out += &format!("\nThe worst {}\n", proof.worst.len());
    for worst in &proof.worst {
        out += &wrapped(&reason(expert, report, worst));
    }
    if report.show_by_clue {
        out += &text_parts::by_clue(expert, report);
    }
    if let Some(economy) = &report.economy {
        out += &text_parts::economy(economy);
    }
    if let Some(doubt) = &report.doubt {
        out += &text_parts::doubt(&doubt.0);
        out += &text_parts::moves(expert, &doubt.1);
    }
    if let Some(found) = &report.counts {
        out += &text_parts::counts(expert, found);
    }
    if let Some(fit) = &report.fit {
        out += &text_parts::fit(fit);
    }
    out
}

fn whole(report: &Report) -> String {
    let proof = &report.proof;
    side_by_side([
        ("rule base", &proof.all),
        ("all δ = 0", &proof.independent),
        ("nothing seen", &proof.nothing_seen),
    ])
}

/// Measures in columns under their names.
pub(super) fn side_by_side<const N: usize>(columns: [(&str, &Measures); N]) -> String {
    type Pick = fn(&Measures) -> String;
    let rows: [(&str, Pick); 12] = [
        ("midpoint in the 50 % band", |m| share(m.coverage[0])),
        ("midpoint in the 80 % band", |m| share(m.coverage[1])),
        ("midpoint in the 95 % band", |m| share(m.coverage[2])),
        ("|median − midpoint|, median", |m| years(m.median_error)),
        ("|median − midpoint|, mean", |m| years(m.mean_error)),
        ("median − midpoint, mean", |m| signed(m.bias)),
        ("80 % band width, median", |m| years(m.width)),
        ("ln P(span ± 5 years), mean", |m| score(m.log_date)),
        ("kind right at first place", |m| share(m.kind_right)),
        ("ln P(kind), mean", |m| score(m.log_kind)),
        ("place right at first place", |m| share(m.place_right)),
        ("cases", |m| m.cases.to_string()),
    ];
    let line = |name: &str, cells: [String; N]| {
        let cells: String = cells.iter().map(|c| format!(" {c:>14}")).collect();
        format!("{name:<30}{cells}\n")
    };
    let mut out = line("", columns.map(|(name, _)| name.to_owned()));
    for (name, pick) in rows {
        out += &line(name, columns.map(|(_, measures)| pick(measures)));
    }
    out
}

/// The column names of the tables by kind and by half century.
const HEAD: &str = "  cases dated  50 %  80 %  95 %  error  bias width  ln date  kind  ln kind";

fn groups(expert: &Expert, report: &Report) -> String {
    let mut out = format!("\nBy kind{:<11}{HEAD}\n", "");
    for (kind, measures) in &report.proof.by_kind {
        out += &line(&expert.base.kinds[usize::from(kind.0)].id, measures);
    }
    out += &format!("\nBy half century{:<3}{HEAD}\n", "");
    for (start, measures) in &report.proof.by_half_century {
        out += &line(&format!("{start} to {}", start + 49), measures);
    }
    out
}

/// One row of measures; error is the median of |median − midpoint|.
pub(super) fn line(name: &str, m: &Measures) -> String {
    format!(
        "{name:<18}{:>7}{:>6}{:>6}{:>6}{:>6}{:>7}{:>6}{:>6}{:>9}{:>6}{:>9}\n",
        m.cases,
        m.dated,
        share(m.coverage[0]),
        share(m.coverage[1]),
        share(m.coverage[2]),
        years(m.median_error),
        signed(m.bias),
        years(m.width),
        score(m.log_date),
        share(m.kind_right),
        score(m.log_kind),
    )
}

fn calibration(report: &Report) -> String {
    let mut out =
        "\nThe 80 % band by period, with the binomial interval of its share at 95 %\n".to_owned();
    for held in &report.proof.calibration {
        let name = period(held);
        out += &format!(
            "  {name:<14} holds {:>3} of {:>3}, {:>4}; {:>3.0} to {:>3.0} %{}; bias {}\n",
            held.held,
            held.cases,
            share(Some(held.share())),
            100.0 * held.interval.0,
            100.0 * held.interval.1,
            if held.agrees() { "" } else { ", without 80" },
            signed(held.bias)
        );
    }
    if let Some(drawn) = &report.drawn {
        out += &expected(drawn);
    }
    out
}

/// What pieces drawn from the rules give for the same periods.
fn expected(drawn: &Drawn) -> String {
    let mut out = format!(
        "\nThe same of {} pieces drawn from the rules, {DRAWS} for each known one with its\n\
         clues seen: what is to be expected were every rule right\n",
        drawn.all.dated
    );
    for held in &drawn.calibration {
        let share = share(Some(held.share()));
        out += &format!(
            "  {:<14} holds {share:>4}; bias {}\n",
            period(held),
            signed(held.bias)
        );
    }
    out + &format!(
        "  all: error {}, band {}, width {}, ln P {}\n",
        years(drawn.all.median_error),
        share(drawn.all.coverage[1]),
        years(drawn.all.width),
        score(drawn.all.log_date)
    )
}

fn period(held: &Held) -> String {
    match (held.from, held.to) {
        (i16::MIN, Some(to)) => format!("before {}", to + 1),
        (from, Some(to)) => format!("{from} to {to}"),
        (from, None) => format!("from {from}"),
    }
}

fn reliability(report: &Report) -> String {
    let table = &report.proof.reliability;
    let mut out =
        "\nHow sure against how right\n  leading kind     cases  stated  right\n".to_owned();
    for bin in &table.kinds {
        out += &format!(
            "  {:>3.0} to {:>3.0} %    {:>6}  {:>6} {:>6}\n",
            100.0 * bin.from,
            100.0 * bin.to,
            bin.cases,
            share(bin.stated),
            share(bin.observed)
        );
    }
    out += &format!("  mean gap {}\n  band of years:", share(table.kind_gap));
    for (at, (stated, observed)) in table.bands.iter().enumerate() {
        let gap = if at % 6 == 0 { "\n   " } else { ";" };
        out += &format!("{gap} {:.0} % holds {}", 100.0 * stated, share(*observed));
    }
    out + "\n"
}

/// Why a case went wrong, in one sentence.
pub fn reason(expert: &Expert, report: &Report, worst: &Worst) -> String {
    let (case, judged) = (&report.cases[worst.case], &report.proof.judged[worst.case]);
    let name = |kind| names::kind_name(expert, kind);
    let catalogued = case
        .kind
        .map_or(String::new(), |k| format!("{}, ", name(k)));
    let because = match &worst.blame {
        Some((entry, without)) => format!(
            "{}: {} spoils it (without it {without:.1})",
            names::clue_name(expert, entry.clue),
            observation::seen(expert, entry)
        ),
        None if worst.nothing_seen - worst.log < 0.5 => {
            "no finding moved it away: the record says little, and such pieces are rare in the setting"
                .to_owned()
        }
        None => "no single finding is to blame: several pull the same way".to_owned(),
    };
    format!(
        "{}: catalogued {catalogued}{} to {}; judged {} ({}), {} to {}; log score {:.1}, \
         with nothing seen {:.1}; {because}",
        case.id,
        case.from.0,
        case.to.0,
        name(judged.leader),
        percent(judged.p),
        judged.band.from.0,
        judged.band.to.0,
        worst.log,
        worst.nothing_seen,
    )
}

/// A sentence broken into lines of at most 78 characters, the later ones set in.
fn wrapped(sentence: &str) -> String {
    let (mut out, mut line) = (String::new(), " ".to_owned());
    for word in sentence.split_whitespace() {
        if line.chars().count() + 1 + word.chars().count() > 78 {
            out += &(line + "\n");
            line = "   ".to_owned();
        }
        line += " ";
        line += word;
    }
    out + &line + "\n"
}
