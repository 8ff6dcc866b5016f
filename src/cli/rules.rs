//! `rules`: check, list, show, sources.

use std::io::Write;

use anyhow::{Result, bail};

use super::args::{NewRule, RulesArgs, RulesCommand};
use super::faults::Faults;
use super::outcome::{Outcome, expert};
use super::rules_author;
use crate::piece::notation::printable;
use crate::rulebase::RuleBase;
use crate::rulebase::counted::of_case;
use crate::rulebase::definitions::Frequency;
use crate::rulebase::ids::{ClueId, SourceId};
use crate::rulebase::ladder::LADDER;
use crate::rulebase::origins::origins;
use crate::rulebase::problem::near;
use crate::setup::Setup;
use crate::setup::rules::read_rules;

/// Carries out a `rules` command.
pub(super) fn run(setup: &Setup, args: &RulesArgs, out: &mut dyn Write) -> Result<Outcome> {
    match &args.what {
        RulesCommand::Check { dir } => check(setup, dir.as_deref(), out),
        RulesCommand::List => list(&expert(setup)?.base, out),
        RulesCommand::Show { id } => show(&expert(setup)?.base, id, out),
        RulesCommand::Sources => sources(&expert(setup)?.base, out),
        RulesCommand::New(NewRule::Clue(args)) => rules_author::new_clue(args, out),
        RulesCommand::Compare(args) => rules_author::compare(setup, args, out),
    }
}

fn check(setup: &Setup, dir: Option<&std::path::Path>, out: &mut dyn Write) -> Result<Outcome> {
    let files = match dir {
        Some(dir) => read_rules(dir)?,
        None => setup.files()?,
    };
    match RuleBase::load(&files) {
        Ok(base) => {
            let findings: usize = base.clues.iter().map(|c| c.findings.len()).sum();
            writeln!(
                out,
                "{} files, {} kinds, {} clues, {findings} findings, {} phrases: no problem",
                files.len(),
                base.kinds.len(),
                base.clues.len(),
                base.wording.phrases().len()
            )?;
            Ok(Outcome::Yes)
        }
        Err(problems) => {
            writeln!(out, "{}", Faults::of_rules(&problems))?;
            let files = match problems.len() {
                1 => "1 problem".to_owned(),
                n => format!("{n} problems"),
            };
            writeln!(out, "{files}")?;
            Ok(Outcome::No)
        }
    }
}

fn list(base: &RuleBase, out: &mut dyn Write) -> Result<Outcome> {
    for clue in &base.clues {
        let answers = match clue.dated {
            Some(_) => "a year".to_owned(),
            None => format!("{} findings", clue.findings.len()),
        };
        let station = format!("{:?}", clue.station).to_lowercase();
        writeln!(
            out,
            "{:<16} {station:<6} {answers:<12} {}",
            clue.id, clue.question
        )?;
        writeln!(out, "{:<16} because: {}", "", clue.because)?;
        writeln!(
            out,
            "{:<16} origin: {}",
            "",
            origin_line(base, &clue.sources)
        )?;
    }
    let findings: usize = base.clues.iter().map(|c| c.findings.len()).sum();
    writeln!(out, "{} clues, {findings} findings", base.clues.len())?;
    Ok(Outcome::Yes)
}

fn origin_line(base: &RuleBase, sources: &[SourceId]) -> String {
    let lines: Vec<String> = sources.iter().map(|s| base.sources[*s].line()).collect();
    lines.join("; ")
}

fn show(base: &RuleBase, id: &str, out: &mut dyn Write) -> Result<Outcome> {
    if let Some(clue) = base.clue_id(id) {
        show_clue(base, clue, out)?;
    } else if let Some(kind) = base.kinds.iter().find(|k| k.id == id) {
        writeln!(out, "kind {}: {}\n{}", kind.id, kind.name, kind.about)?;
        if let Some(aat) = &kind.aat {
            writeln!(out, "Art & Architecture Thesaurus: {aat}")?;
        }
        for made in &kind.made {
            writeln!(
                out,
                "  made in {}: {}{}",
                base.places[made.place].name,
                ladder(made.weight),
                points(made.curve.points())
            )?;
        }
        writeln!(
            out,
            "because: {}\norigin: {}",
            kind.because,
            origin_line(base, &kind.sources)
        )?;
    } else if let Some(s) = base.settings.iter().find(|s| s.id == id) {
        writeln!(
            out,
            "setting {}: {}\n{}\n  turns up{}",
            s.id,
            s.name,
            s.about,
            points(s.curve.points())
        )?;
        writeln!(
            out,
            "  years may be off by {} years as a whole; of {} in 100 it tells nothing",
            s.spread,
            (100.0 * s.doubt).round()
        )?;
        for factor in &s.factors {
            writeln!(out, "  factor {}", case_line(base, factor))?;
        }
        writeln!(
            out,
            "because: {}\norigin: {}",
            s.because,
            origin_line(base, &s.sources)
        )?;
    } else if let Some(c) = base.countries.iter().find(|c| c.id == id) {
        writeln!(out, "country {}: {}\n{}", c.id, c.name, c.about)?;
        for factor in &c.factors {
            writeln!(out, "  factor {}", case_line(base, factor))?;
        }
        writeln!(
            out,
            "because: {}\norigin: {}",
            c.because,
            origin_line(base, &c.sources)
        )?;
    } else if let Some(f) = base.families.iter().find(|f| f.id == id) {
        writeln!(out, "family {}: {}\n  delta {}", f.id, f.about, f.delta)?;
        writeln!(
            out,
            "because: {}\norigin: {}",
            f.because,
            origin_line(base, &f.sources)
        )?;
    } else {
        let known = base.clues.iter().map(|c| c.id.as_str());
        let known = known.chain(base.kinds.iter().map(|k| k.id.as_str()));
        let known = known.chain(base.settings.iter().map(|s| s.id.as_str()));
        let known = known.chain(base.countries.iter().map(|c| c.id.as_str()));
        let close = near(
            id,
            known.chain(base.families.iter().map(|f| f.id.as_str())),
            3,
        );
        let help = if close.is_empty() {
            "rules list shows all clues".to_owned()
        } else {
            format!("nearest: {}", close.join(", "))
        };
        bail!(
            "no clue, kind, setting or family '{}'; {help}",
            printable(id)
        );
    }
    Ok(Outcome::Yes)
}

fn show_clue(base: &RuleBase, id: ClueId, out: &mut dyn Write) -> Result<()> {
    let clue = base.clue(id);
    writeln!(out, "clue {}: {}", clue.id, clue.question)?;
    writeln!(out, "look: {}\ntells: {}", clue.look, clue.tells)?;
    let tools: Vec<String> = clue
        .tools
        .iter()
        .map(|t| format!("{t:?}").to_lowercase())
        .collect();
    writeln!(
        out,
        "{} seconds, tools: {}; misread {} of the time",
        clue.seconds,
        tools.join(", "),
        clue.slip
    )?;
    if let Some(family) = clue.family {
        writeln!(out, "family: {}", base.families[family].id)?;
    }
    for clause in &clue.gate {
        let names: Vec<&str> = clause
            .any_of
            .iter()
            .map(|f| base.finding(clause.clue, *f).id.as_str())
            .collect();
        writeln!(
            out,
            "asked only if {} = {}",
            base.clue(clause.clue).id,
            names.join(" or ")
        )?;
    }
    if let Some(kernel) = clue.dated {
        let kernel = &base.kernels[kernel];
        writeln!(
            out,
            "a year; {}:{}",
            kernel.about,
            points(kernel.lag.points())
        )?;
    }
    writeln!(
        out,
        "because: {}\norigin: {}",
        clue.because,
        origin_line(base, &clue.sources)
    )?;
    for change in base.changes_of(id) {
        writeln!(out, "changed by {}: {}", change.file, change.what)?;
        writeln!(
            out,
            "    because: {}\n    origin: {}",
            change.because,
            origin_line(base, &change.sources)
        )?;
    }
    for (at, finding) in clue.findings.iter().enumerate() {
        writeln!(out, "\n  {} = {}: {}", clue.id, finding.id, finding.words)?;
        writeln!(out, "    because: {}", finding.because)?;
        for (which, case) in finding.cases.iter().enumerate() {
            let (seen, of) = of_case(&base.counted, id, clue, at, which);
            // Pieces are shared out among kinds and places: told to the whole piece.
            let counted = match of.round() >= 1.0 {
                true => format!("; counted {:.0} of {:.0}", seen, of),
                false => String::new(),
            };
            writeln!(out, "    {}{counted}", case_line(base, case))?;
        }
        if !finding.sources.is_empty() {
            writeln!(out, "    origin: {}", origin_line(base, &finding.sources))?;
        }
    }
    Ok(())
}

fn case_line(base: &RuleBase, case: &Frequency) -> String {
    let kinds = case.kinds.as_ref();
    let kinds = kinds.map(|ids| ids.iter().map(|k| base.kinds[*k].id.as_str()).collect());
    let places = case.places.as_ref();
    let places = places.map(|ids| ids.iter().map(|l| base.places[*l].id.as_str()).collect());
    let names = |ids: Option<Vec<&str>>| ids.map_or("any".to_owned(), |ids| ids.join(" "));
    let (kinds, places) = (names(kinds), names(places));
    format!(
        "{} for {kinds} / {places}{}",
        ladder(case.weight),
        points(case.curve.points())
    )
}

/// A frequency as authors write it: the ladder's word with its figure, or the bare figure.
fn ladder(weight: f64) -> String {
    let step = LADDER.iter().find(|(_, w)| w.total_cmp(&weight).is_eq());
    step.map_or(weight.to_string(), |(word, w)| format!("{word} ({w})"))
}

/// A curve as " year:height …"; nothing for one that is 1 throughout.
fn points(points: &[(f64, f64)]) -> String {
    points.iter().map(|(x, h)| format!(" {x}:{h}")).collect()
}

fn sources(base: &RuleBase, out: &mut dyn Write) -> Result<Outcome> {
    let origins = origins(base);
    for (source, count) in base.sources.iter().zip(&origins.by_source) {
        writeln!(out, "{:<34} {count:>5}  {}", source.id, source.line())?;
    }
    writeln!(out, "{}", origins.words())?;
    Ok(Outcome::Yes)
}
