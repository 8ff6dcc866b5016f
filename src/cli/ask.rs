//! `ask`: the consultation line by line.
//!
//! It opens with the first glance: any numbers on one line, or an empty line. Then answers: a number
//! or a finding's id (with `?` or `??`), a year at dated clues, `x` can't tell, `back`, `why`,
//! `jump CLUE`, `CLUE=FINDING`, `notes TEXT`, `mark TEXT`, `verdict` or `v`, `help`, `done` or `q`; an
//! empty line repeats the question. As soon as there is a mark its words are asked for, all at once.
//! The end of the input ends it too.

use crate::say;
use crate::say::headline;
use crate::say::look;
use std::io::{BufRead, Write};

use anyhow::{Result, bail};

use super::args::AskArgs;
use super::ask_at_once as at_once;
use super::outcome::{Outcome, expert, in_country, setting};
use crate::core::grid::{ClueId, FindingId};
use crate::core::observation::Observation;
use crate::hearing::one_per_clue::counts_over;
use crate::piece::intake::{Told, intake};
use crate::piece::kit::next_without;
use crate::piece::notation::Refused;
use crate::piece::typed_mark::{unread, words_to_type};
use crate::piece::{Piece, notation};
use crate::report;
use crate::rulebase::definitions::Tool;
use crate::rulebase::ids::SettingId;
use crate::rulebase::problem::near;
use crate::setup::Setup;
use crate::setup::read::{MOST_BYTES, not_read};

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
    let mut glancing = !expert.base.glance.is_empty();
    let missing: Vec<Tool> = args.without.iter().map(|tool| tool.rule()).collect();
    // Somebody wants the words of the mark asked one by one.
    let mut word_by_word = false;
    // The JSON must be all there is on the output.
    let mut sink = std::io::sink();
    loop {
        let talk: &mut dyn Write = if args.json { &mut sink } else { out };
        let asked = match jumped {
            _ if glancing => Asked::Glance,
            Some(clue) => Asked::Clue(clue),
            None if !word_by_word && !words_to_type(&expert, piece.evidence()).is_empty() => {
                Asked::Mark
            }
            None => match next_without(&piece, &missing) {
                Some(look) => Asked::Clue(look.clue),
                None => Asked::Nothing,
            },
        };
        match asked {
            // A screen reader would read the whole list of findings once more.
            Asked::Clue(clue) if again => reminder(&piece, clue, talk)?,
            Asked::Clue(clue) => question(&piece, clue, talk)?,
            Asked::Nothing => stopped(&piece, talk)?,
            Asked::Glance | Asked::Mark if again => {}
            Asked::Glance => at_once::first_glance(&piece, talk)?,
            Asked::Mark => writeln!(talk, "\n{}", at_once::TYPE_MARK)?,
        }
        // Whoever listens must have the question before the answer is waited for.
        talk.flush()?;
        line.clear();
        let read = input.read_line(&mut line);
        if read.map_err(not_read)? == 0 {
            break;
        }
        let typed = line.trim();
        again = false;
        match asked {
            Asked::Glance => match at_once::ticks(&piece, typed) {
                Ok(seen) => {
                    glancing = false;
                    at_once::take(&mut piece, &mut earlier, seen, talk)?;
                    continue;
                }
                Err(Refused(message)) if at_once::all_numbers(typed) => {
                    writeln!(talk, "{message}")?;
                    again = true;
                    continue;
                }
                // What is no list of numbers is meant for the questions.
                Err(_) => glancing = matches!(typed, "help" | "h" | "?"),
            },
            Asked::Mark if !is_command(typed) => {
                match typed {
                    "" => word_by_word = true,
                    "x" => {
                        let unread = unread(&expert, piece.evidence());
                        at_once::take(&mut piece, &mut earlier, unread, talk)?;
                    }
                    words => at_once::take_mark(&mut piece, &mut earlier, words, talk)?,
                }
                continue;
            }
            Asked::Mark | Asked::Clue(_) | Asked::Nothing => {}
        }
        if asked == Asked::Glance && matches!(typed, "" | "x") {
            continue;
        }
        match hear(&mut piece, &mut earlier, asked.clue(), typed, talk)? {
            Heard::Again => again = !typed.is_empty() && asked != Asked::Glance,
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

/// True for what is meant for the program and can't be the words of a mark.
fn is_command(line: &str) -> bool {
    let first = line.split(' ').next().unwrap_or_default();
    matches!(
        line,
        "done" | "quit" | "q" | "back" | "verdict" | "v" | "why" | "help" | "h" | "?"
    ) || matches!(first, "jump" | "mark" | "notes")
        || line.contains('=')
}

/// What is asked now.
#[derive(Clone, Copy, PartialEq)]
enum Asked {
    Glance,
    Mark,
    Clue(ClueId),
    /// It is time to stop.
    Nothing,
}

impl Asked {
    fn clue(self) -> Option<ClueId> {
        match self {
            Asked::Clue(clue) => Some(clue),
            Asked::Glance | Asked::Mark | Asked::Nothing => None,
        }
    }
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
    if let Some(("mark", words)) = line.split_once(' ') {
        at_once::take_mark(piece, earlier, words.trim(), out)?;
        return Ok(Heard::Next);
    }
    if let Some(("notes", notes)) = line.split_once(' ') {
        let told = Told {
            notes,
            ..Told::default()
        };
        return take_in(piece, earlier, &told, out);
    }
    match line {
        "" => return Ok(Heard::Again),
        "done" | "quit" | "q" => return Ok(Heard::Done),
        "?" | "help" | "h" => {
            for line in HELP {
                writeln!(out, "  {line}")?;
            }
            return Ok(Heard::Again);
        }
        "notes" | "mark" => {
            writeln!(
                out,
                "write what you see after it, such as: notes dark blue willow; mark MADE IN ENGLAND"
            )?;
            return Ok(Heard::Again);
        }
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
        "verdict" | "v" => {
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

/// What can be written, a line each.
const HELP: [&str; 10] = [
    "a number or the finding's name: what you see; ? after it: unsure, ??: a guess",
    "x: you looked and can't tell",
    "why: what this question would tell",
    "back: take back the last answer",
    "jump CLUE: ask another question; CLUE=FINDING: answer it at once",
    "notes TEXT: a line in trade words, such as dark blue willow, no mark",
    "mark TEXT: what can be read on the back; ? for a letter you can't read",
    "verdict, or v: the answer so far",
    "an empty line: the question again; help, or ?: this",
    "done, or q: the verdict, and the end",
];

/// Notes or a mark: what was heard in them, and what does not count, is told.
fn take_in(
    piece: &mut Piece,
    earlier: &mut Vec<Piece>,
    told: &Told,
    out: &mut dyn Write,
) -> Result<Heard> {
    let expert = piece.expert().clone();
    let taken = match intake(&expert, told) {
        Ok(taken) => taken,
        Err(refused) => {
            writeln!(out, "{refused}")?;
            return Ok(Heard::Again);
        }
    };
    for line in say::taken::lines(&expert, &taken) {
        writeln!(out, "  {line}")?;
    }
    // What was answered outright counts over notes and marks, as everywhere.
    let mut counting = Vec::new();
    for new in taken.evidence.observations() {
        match piece.evidence().of(new.clue) {
            Some(old) if !counts_over(new, old) => {
                if !old.says_as(new) {
                    writeln!(out, "  {}", say::taken::overridden(&expert, new, old))?;
                }
            }
            old => {
                if let Some(old) = old.filter(|old| !old.says_as(new)) {
                    writeln!(out, "  {}", say::taken::overridden(&expert, old, new))?;
                }
                counting.push(new.clone());
            }
        }
    }
    let after = piece.with_all(counting);
    if after.same_as(piece) {
        return Ok(Heard::Again);
    }
    earlier.push(std::mem::replace(piece, after));
    writeln!(out, "  {}", headline::headline(piece))?;
    Ok(Heard::Next)
}

/// A number, a finding's id or a year, with `?` or `??`; `x` can't tell.
pub(super) fn answer(piece: &Piece, clue: ClueId, line: &str) -> Result<Observation, Refused> {
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
        "  (number, ? unsure, x can't tell, why, back, jump CLUE, help, verdict, done)"
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
