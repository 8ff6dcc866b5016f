//! `ask`: the consultation line by line.
//!
//! Answers: a number or a finding's id (with `?` or `??`), a year at dated clues, `x` can't tell,
//! `back`, `why`, `jump CLUE`, `CLUE=FINDING`, `verdict`, `done`; an empty line repeats the
//! question. The end of the input ends it too.

use std::io::{BufRead, Write};

use anyhow::{Context, Result, bail};

use super::args::AskArgs;
use super::{Answer, expert, setting};
use crate::case::{Case, said};
use crate::core::axes::{ClueId, FindingId};
use crate::core::evidence::{Entry, Seen};
use crate::report;
use crate::rulebase::problem::near;
use crate::setup::{MOST_BYTES, Setup};
use crate::words::reasons;

/// Asks until the input ends or `done`.
pub fn run(
    setup: &Setup,
    args: &AskArgs,
    input: impl BufRead,
    out: &mut dyn Write,
) -> Result<Answer> {
    let expert = expert(setup)?;
    let chosen = match &args.setting {
        Some(named) => setting(&expert, named)?,
        None => 0,
    };
    let mut case = Case::new(expert.clone(), chosen);
    let mut input = input.take(MOST_BYTES);
    let mut line = String::new();
    let mut jumped: Option<ClueId> = None;
    let mut again = false;
    // The JSON must be all there is on the output.
    let mut sink = std::io::sink();
    loop {
        let talk: &mut dyn Write = if args.json { &mut sink } else { out };
        let next = jumped.or_else(|| case.verdict().next().map(|l| l.clue));
        match next {
            // A screen reader would read the whole list of findings once more.
            Some(clue) if again => reminder(&case, clue, talk)?,
            Some(clue) => question(&case, clue, talk)?,
            None => stopped(&case, talk)?,
        }
        // Whoever listens must have the question before the answer is waited for.
        talk.flush()?;
        line.clear();
        let read = input.read_line(&mut line);
        if read.context("standard input: not UTF-8 text")? == 0 {
            break;
        }
        again = false;
        match hear(&mut case, next, line.trim(), talk)? {
            Heard::Again => again = !line.trim().is_empty(),
            Heard::Next => jumped = None,
            Heard::Jump(clue) => jumped = Some(clue),
            Heard::Done => break,
        }
    }
    if input.limit() == 0 {
        bail!("standard input: too long; at most {MOST_BYTES} bytes are read");
    }
    if args.json {
        writeln!(out, "{}", report::json::verdict(&case))?;
    } else {
        writeln!(out)?;
        write!(out, "{}", report::text::verdict(&case))?;
    }
    Ok(Answer::Yes)
}

enum Heard {
    /// Ask the same again.
    Again,
    Next,
    Jump(ClueId),
    Done,
}

fn hear(case: &mut Case, asked: Option<ClueId>, line: &str, out: &mut dyn Write) -> Result<Heard> {
    let expert = case.expert().clone();
    let base = &expert.base;
    if let Some(("jump", name)) = line.split_once(' ') {
        let name = name.trim();
        if let Some(clue) = base.clue_id(name) {
            return Ok(Heard::Jump(clue));
        }
        let close = near(name, base.clues.iter().map(|c| c.id.as_str()), 3);
        let help = match close.as_slice() {
            [] => "printseam rules list shows all clues".to_owned(),
            _ => format!("nearest: {}", close.join(", ")),
        };
        writeln!(out, "unknown clue '{}'; {help}", said::printable(name))?;
        return Ok(Heard::Again);
    }
    match line {
        "" => return Ok(Heard::Again),
        "done" | "quit" => return Ok(Heard::Done),
        "jump" => {
            writeln!(out, "write jump and the clue, such as jump line-make")?;
            return Ok(Heard::Again);
        }
        "back" => {
            if !case.undo() {
                writeln!(out, "nothing to take back")?;
            }
            return Ok(Heard::Next);
        }
        "verdict" => {
            write!(out, "{}", report::text::verdict(case))?;
            return Ok(Heard::Again);
        }
        "why" => {
            if let Some(clue) = asked {
                writeln!(
                    out,
                    "{}",
                    reasons::why_asked(case.expert(), case.verdict(), clue)
                )?;
            }
            return Ok(Heard::Again);
        }
        _ => {}
    }
    let entry = if line.contains('=') {
        said::parse(base, line)
    } else {
        match asked {
            Some(clue) => answer(case, clue, line),
            None => Err("write CLUE=FINDING, jump CLUE, verdict or done".to_owned()),
        }
    };
    match entry {
        Ok(entry) => {
            case.say(entry);
            // A clue that was asked has been told so with its question.
            if asked != Some(entry.clue) {
                tell_shut(case, entry.clue, out)?;
            }
            writeln!(
                out,
                "  {}",
                reasons::headline(case.expert(), case.verdict())
            )?;
            Ok(Heard::Next)
        }
        Err(message) => {
            writeln!(out, "{message}")?;
            Ok(Heard::Again)
        }
    }
}

/// A number, a finding's id or a year, with `?` or `??`; `x` can't tell.
fn answer(case: &Case, clue: ClueId, line: &str) -> Result<Entry, String> {
    let base = &case.expert().base;
    let (word, sure) = said::split_sure(line);
    if word == "x" {
        let seen = Seen::CantTell;
        return Ok(Entry { clue, seen, sure });
    }
    let rules = base.clue(clue);
    let numbered = word.parse::<u16>().ok().filter(|_| rules.dated.is_none());
    if let Some(n) = numbered {
        if n >= 1 && usize::from(n) <= rules.findings.len() {
            let seen = Seen::Finding(FindingId(n - 1));
            return Ok(Entry { clue, seen, sure });
        }
        return Err(format!("{n} is none of 1 to {}", rules.findings.len()));
    }
    said::parse(base, &format!("{}={line}", rules.id))
}

fn question(case: &Case, clue: ClueId, out: &mut dyn Write) -> Result<()> {
    let rules = case.expert().base.clue(clue);
    writeln!(out, "\n{}  [{}]", rules.question, rules.id)?;
    writeln!(out, "  {}", rules.look)?;
    if rules.dated.is_some() {
        writeln!(out, "  write the year")?;
    }
    tell_shut(case, clue, out)?;
    for (i, finding) in rules.findings.iter().enumerate() {
        writeln!(out, "  {:>2} {}", i + 1, finding.words)?;
    }
    writeln!(
        out,
        "  (number, ? unsure, x can't tell, why, back, jump CLUE, verdict, done)"
    )?;
    Ok(())
}

/// An answer that won't count must not look like one that does.
fn tell_shut(case: &Case, clue: ClueId, out: &mut dyn Write) -> Result<()> {
    if let Some(words) = reasons::gate_shut(case.expert(), case.evidence(), clue) {
        writeln!(out, "  {words}")?;
    }
    Ok(())
}

fn reminder(case: &Case, clue: ClueId, out: &mut dyn Write) -> Result<()> {
    let rules = case.expert().base.clue(clue);
    writeln!(
        out,
        "{}  [{}]  (empty line: the findings again)",
        rules.question, rules.id
    )?;
    Ok(())
}

fn stopped(case: &Case, out: &mut dyn Write) -> Result<()> {
    if let Some(reason) = case.verdict().stop {
        writeln!(out, "\nNo further look needed: {}.", reasons::stop(reason))?;
        writeln!(out, "  (jump CLUE, CLUE=FINDING, back, verdict, done)")?;
    }
    Ok(())
}
