//! Drills on a whole piece: a hidden one that is asked look by look, and one in the pupil's own
//! hands, of which the program keeps its answer to itself until a guess is made.

use std::io::BufRead;

use anyhow::Result;

use super::ask::answer;
use super::drill_talk::{Ended, Talk};
use crate::claim::read;
use crate::core::grid::ClueId;
use crate::learn::asked::{Asking, Guess};
use crate::piece::Piece;
use crate::piece::notation;
use crate::rulebase::ids::SettingId;
use crate::rulebase::problem::near;
use crate::say::asked as say;

/// Ask a hidden piece, or one that somebody has written down.
pub(super) fn ask<I: BufRead>(talk: &mut Talk<I>, mut asking: Asking) -> Result<Ended> {
    let expert = talk.expert.clone();
    for line in say::from_where(&asking) {
        talk.say(&line)?;
    }
    talk.say(
        "Name a look, such as line-make; looks lists them; say when you know what it is; q ends.",
    )?;
    loop {
        let Some(line) = talk.hear()? else {
            return Ok(Ended::Quit);
        };
        match line.as_str() {
            "" | "looks" => {
                let ids = asking.choices();
                let mut ids: Vec<ClueId> = ids.iter().map(|l| l.clue).collect();
                ids.sort_unstable();
                let names: Vec<&str> = ids
                    .iter()
                    .map(|c| expert.base.clue(*c).id.as_str())
                    .collect();
                talk.say(&format!("  {}", names.join(", ")))?;
            }
            "say" => break,
            name => look(talk, &mut asking, name)?,
        }
    }
    let Some(guess) = guess(talk, asking.piece())? else {
        return Ok(Ended::Quit);
    };
    for line in say::asked(&asking, &guess) {
        talk.say(&line)?;
    }
    asking.keep(&guess, &mut talk.learner);
    talk.keep()?;
    Ok(Ended::Done)
}

/// Looks at a hidden piece.
fn look<I: BufRead>(talk: &mut Talk<I>, asking: &mut Asking, name: &str) -> Result<()> {
    let expert = talk.expert.clone();
    let Some(clue) = expert.base.clue_id(name) else {
        let close = near(name, expert.base.clues.iter().map(|c| c.id.as_str()), 3);
        let help = match close.is_empty() {
            true => "looks lists them".to_owned(),
            false => format!("nearest: {}", close.join(", ")),
        };
        return talk.say(&format!(
            "unknown look '{}'; {help}",
            notation::printable(name)
        ));
    };
    let shown = asking.look(clue);
    let line = say::look(&expert, clue, shown.as_ref());
    talk.say(&format!("  {line}"))
}

/// The pupil's guess: a kind, years, how sure. `None` at the end of the input.
fn guess<I: BufRead>(talk: &mut Talk<I>, piece: &Piece) -> Result<Option<Guess>> {
    let expert = piece.expert().clone();
    talk.say(say::WHAT_IS_IT)?;
    talk.say("  (as flow blue, 1840-1870)")?;
    let claim = loop {
        let Some(line) = talk.hear()? else {
            return Ok(None);
        };
        match read(&expert, &line) {
            Ok(claim) if !claim.kinds.is_empty() => break claim,
            _ => {
                talk.say("Name a kind, such as flow blue, painted or decal, and years if you can.")?
            }
        }
    };
    talk.say(say::HOW_SURE)?;
    let percent = loop {
        let Some(line) = talk.hear()? else {
            return Ok(None);
        };
        match line.trim_end_matches(['%', ' ']).parse::<u8>() {
            Ok(percent) if percent <= 100 => break percent,
            _ => talk.say("Write a number from 0 to 100.")?,
        }
    };
    let guess = Guess {
        kind: claim.kinds[0],
        percent,
        years: say::years_of(&expert, &claim),
    };
    talk.say(&say::understood(&expert, &guess))?;
    Ok(Some(guess))
}

/// A piece in the pupil's own hands: the program asks, and keeps its answer to itself.
pub(super) fn own<I: BufRead>(talk: &mut Talk<I>, place: SettingId) -> Result<Ended> {
    let expert = talk.expert.clone();
    let mut piece = Piece::unseen(expert.clone(), place);
    talk.say(
        "Your own piece. Answer with a number, x for can't tell; say when you know what it is.",
    )?;
    while let Some(next) = piece.advice().next() {
        let rules = expert.base.clue(next.clue);
        talk.say(&format!("\n{}", rules.question))?;
        talk.say(&format!("  {}", rules.look))?;
        for (i, finding) in rules.findings.iter().enumerate() {
            talk.say(&format!("  {:>2} {}", i + 1, finding.words))?;
        }
        let Some(line) = talk.hear()? else {
            return Ok(Ended::Quit);
        };
        if line == "say" {
            break;
        }
        match answer(&piece, next.clue, &line) {
            Ok(observation) => piece = piece.with(observation),
            Err(_) => {
                talk.say("Write a number of the list, a year where one is asked, x, say or q.")?
            }
        }
    }
    let Some(guess) = guess(talk, &piece)? else {
        return Ok(Ended::Quit);
    };
    talk.say("")?;
    for line in say::own(&piece, &guess) {
        talk.say(&line)?;
    }
    Ok(Ended::Done)
}
