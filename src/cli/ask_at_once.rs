//! What `ask` is told at once: the ticks of the first glance, and the words of a mark.

use std::io::Write;

use anyhow::{Result, anyhow};

use crate::core::observation::Observation;
use crate::piece::intake::{Told, intake};
use crate::piece::notation::{Refused, printable};
use crate::piece::{Piece, glance};
use crate::say;
use crate::say::headline;
use crate::say::names::clue_name;
use crate::say::observation::seen;

/// Asks for the words of a mark.
pub(super) const TYPE_MARK: &str = "What stands in the mark?
  Write its words, ? for a letter you can't read, / for a new line.
  (x can't read it, an empty line: ask me word by word, verdict, done)";

/// The lines of the first glance.
pub(super) fn first_glance(piece: &Piece, out: &mut dyn Write) -> Result<()> {
    writeln!(
        out,
        "\nFirst glance: what strikes you at arm's length, front and back?"
    )?;
    for (i, line) in piece.expert().base.glance.iter().enumerate() {
        writeln!(out, "  {:>2} {}", i + 1, line.words)?;
    }
    writeln!(
        out,
        "  (any numbers on one line, 0 for none of it; an empty line skips to the questions)"
    )?;
    Ok(())
}

/// What the numbers of a line tick, with what no tick says.
///
/// # Errors
/// What is wrong with the line.
pub(super) fn ticks(piece: &Piece, line: &str) -> std::result::Result<Vec<Observation>, Refused> {
    let base = &piece.expert().base;
    let lines = base.glance.len();
    let mut ticked = vec![false; lines];
    if !all_numbers(line) {
        return Err(Refused(format!("numbers from 1 to {lines}, or 0")));
    }
    for word in words(line) {
        match word.parse::<usize>() {
            Ok(0) => {}
            Ok(n) if n <= lines => ticked[n - 1] = true,
            _ => return Err(Refused(format!("{word} is none of 0 to {lines}"))),
        }
    }
    Ok(glance::seen(base, &ticked, piece.evidence()))
}

/// True for a line of one number or more and nothing else.
pub(super) fn all_numbers(line: &str) -> bool {
    let figures = |word: &str| word.chars().all(|c| c.is_ascii_digit());
    words(line).next().is_some() && words(line).all(figures)
}

fn words(line: &str) -> impl Iterator<Item = &str> {
    line.split([' ', ',']).filter(|word| !word.is_empty())
}

/// Takes observations as one change.
pub(super) fn take(
    piece: &mut Piece,
    earlier: &mut Vec<Piece>,
    seen: Vec<Observation>,
    out: &mut dyn Write,
) -> Result<()> {
    let after = piece.with_all(seen);
    if !after.same_as(piece) {
        earlier.push(std::mem::replace(piece, after));
        writeln!(out, "  {}", headline::headline(piece))?;
    }
    Ok(())
}

/// Takes the words of a mark and says what they were heard as.
pub(super) fn take_mark(
    piece: &mut Piece,
    earlier: &mut Vec<Piece>,
    words: &str,
    out: &mut dyn Write,
) -> Result<()> {
    let expert = piece.expert().clone();
    let told = Told {
        mark: words,
        ..Told::default()
    };
    let taken = intake(&expert, &told).map_err(|e| anyhow!("{e}"))?;
    let heard = taken.evidence.observations().to_vec();
    if heard.is_empty() {
        writeln!(out, "  nothing in it was understood; x if it can't be read")?;
    }
    for observation in &heard {
        let name = clue_name(&expert, observation.clue);
        writeln!(out, "  {name}: {}", seen(&expert, observation))?;
        let before = piece.evidence().of(observation.clue);
        let before = before.filter(|b| !b.says_as(observation));
        if let Some(before) = before {
            let line = say::taken::overridden(&expert, before, observation);
            writeln!(out, "  {line}")?;
        }
    }
    for lost in taken.overridden() {
        if let Some(by) = &lost.overridden_by {
            let line = say::taken::overridden(&expert, &lost.observation, by);
            writeln!(out, "  {line}")?;
        }
    }
    if !heard.is_empty() {
        for words in say::taken::not_understood(&taken) {
            writeln!(out, "  Not understood: '{}'", printable(words))?;
        }
    }
    take(piece, earlier, heard, out)
}
