//! `ask`: the consultation line by line.
//!
//! Answers: a number or a finding's id (with `?` or `??`), a year at dated clues, `x` can't tell,
//! `back`, `why`, `jump CLUE`, `CLUE=FINDING`, `verdict`, `done`; an empty line repeats the
//! question. The end of the input ends it too.

use crate::say::headline;
use crate::say::look;
use std::io::{BufRead, Write};

use anyhow::{Context, Result, bail};

use super::args::AskArgs;
use super::outcome::{Outcome, expert, in_country, setting};
use crate::core::grid::{ClueId, FindingId};
use crate::core::observation::Observation;
use crate::piece::notation::Refused;
use crate::piece::{Piece, notation};
use crate::report;
use crate::rulebase::ids::SettingId;
use crate::rulebase::problem::near;
use crate::setup::Setup;
use crate::setup::read::MOST_BYTES;

/// Asks until the input ends or `done`.
pub(super) fn run(
    setup: &Setup,
    args: &AskArgs,
    input: impl BufRead,
    out: &mut dyn Write,
) -> Result<Outcome> {
    let expert = expert(setup)?;
    let chosen = match &args.setting {
        Some(named) => setting(&expert, named)?,
        None => SettingId(0),
    };
    let chosen = in_country(&expert, chosen, args.country.as_deref())?;
    let mut piece = Piece::unseen(expert.clone(), chosen);
    let mut earlier: Vec<Piece> = Vec::new();
    let mut input = input.take(MOST_BYTES);
    let mut line = String::new();
    let mut jumped: Option<ClueId> = None;
    let mut again = false;
    // The JSON must be all there is on the output.
    let mut sink = std::io::sink();
    loop {
        let talk: &mut dyn Write = if args.json { &mut sink } else { out };
        let next = jumped.or_else(|| piece.advice().next().map(|l| l.clue));
        match next {
            // A screen reader would read the whole list of findings once more.
            Some(clue) if again => reminder(&piece, clue, talk)?,
            Some(clue) => question(&piece, clue, talk)?,
            None => stopped(&piece, talk)?,
        }
        // Whoever listens must have the question before the answer is waited for.
        talk.flush()?;
        line.clear();
        let read = input.read_line(&mut line);
        if read.context("standard input: not UTF-8 text")? == 0 {
            break;
        }
        again = false;
        match hear(&mut piece, &mut earlier, next, line.trim(), talk)? {
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
        writeln!(out, "{}", report::json::verdict(&piece))?;
    } else {
        writeln!(out)?;
        write!(out, "{}", report::text::verdict(&piece))?;
    }
    Ok(Outcome::Yes)
}

enum Heard {
    /// Ask the same again.
    Again,
    Next,
    Jump(ClueId),
    Done,
}

/// `earlier`: the piece as it was before each answer, to go back to.
fn hear(
    piece: &mut Piece,
    earlier: &mut Vec<Piece>,
    asked: Option<ClueId>,
    line: &str,
    out: &mut dyn Write,
) -> Result<Heard> {
    let expert = piece.expert().clone();
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
        writeln!(out, "unknown clue '{}'; {help}", notation::printable(name))?;
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
            match earlier.pop() {
                Some(before) => *piece = before,
                None => writeln!(out, "nothing to take back")?,
            }
            return Ok(Heard::Next);
        }
        "verdict" => {
            write!(out, "{}", report::text::verdict(piece))?;
            return Ok(Heard::Again);
        }
        "why" => {
            if let Some(clue) = asked {
                writeln!(out, "{}", look::why_asked(piece, clue))?;
            }
            return Ok(Heard::Again);
        }
        _ => {}
    }
    let entry = if line.contains('=') {
        notation::parse(base, line)
    } else {
        match asked {
            Some(clue) => answer(piece, clue, line),
            None => Err(Refused(
                "write CLUE=FINDING, jump CLUE, verdict or done".to_owned(),
            )),
        }
    };
    match entry {
        Ok(entry) => {
            let clue = entry.clue;
            let after = piece.with(entry);
            if !after.same_as(piece) {
                earlier.push(std::mem::replace(piece, after));
            }
            // A clue that was asked has been told so with its question.
            if asked != Some(clue) {
                tell_shut(piece, clue, out)?;
            }
            writeln!(out, "  {}", headline::headline(piece))?;
            Ok(Heard::Next)
        }
        Err(message) => {
            writeln!(out, "{message}")?;
            Ok(Heard::Again)
        }
    }
}

/// A number, a finding's id or a year, with `?` or `??`; `x` can't tell.
fn answer(piece: &Piece, clue: ClueId, line: &str) -> Result<Observation, Refused> {
    let base = &piece.expert().base;
    let (word, sure) = notation::split_sure(line);
    if word == "x" {
        return Ok(Observation::cant_tell(clue).sure(sure));
    }
    let rules = base.clue(clue);
    let numbered = word.parse::<u16>().ok().filter(|_| rules.dated.is_none());
    if let Some(n) = numbered {
        if n >= 1 && usize::from(n) <= rules.findings.len() {
            return Ok(Observation::finding(clue, FindingId(n - 1)).sure(sure));
        }
        return Err(Refused(format!(
            "{n} is none of 1 to {}",
            rules.findings.len()
        )));
    }
    notation::parse_said(base, clue, line)
}

fn question(piece: &Piece, clue: ClueId, out: &mut dyn Write) -> Result<()> {
    let rules = piece.expert().base.clue(clue);
    writeln!(out, "\n{}  [{}]", rules.question, rules.id)?;
    writeln!(out, "  {}", rules.look)?;
    if rules.dated.is_some() {
        writeln!(out, "  write the year")?;
    }
    tell_shut(piece, clue, out)?;
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
fn tell_shut(piece: &Piece, clue: ClueId, out: &mut dyn Write) -> Result<()> {
    if let Some(words) = look::gate_shut(piece.expert(), piece.evidence(), clue) {
        writeln!(out, "  {words}")?;
    }
    Ok(())
}

fn reminder(piece: &Piece, clue: ClueId, out: &mut dyn Write) -> Result<()> {
    let rules = piece.expert().base.clue(clue);
    writeln!(
        out,
        "{}  [{}]  (empty line: the findings again)",
        rules.question, rules.id
    )?;
    Ok(())
}

fn stopped(piece: &Piece, out: &mut dyn Write) -> Result<()> {
    if let Some(reason) = piece.advice().stop {
        writeln!(out, "\nNo further look needed: {}.", look::stop(reason))?;
        writeln!(out, "  (jump CLUE, CLUE=FINDING, back, verdict, done)")?;
    }
    Ok(())
}
