//! Drills on a whole piece: a hidden one that is asked look by look, and one in the pupil's own
//! hands, of which the program keeps its answer to itself until a guess is made.

use std::io::BufRead;

use anyhow::{Result, anyhow};

use super::drill_talk::{Ended, Talk};
use crate::claim::read;
use crate::core::grid::{ClueId, FindingId, Year};
use crate::core::observation::Observation;
use crate::learn::asked::{Asking, Guess};
use crate::learn::hidden::Shown;
use crate::learn::scoring::points;
use crate::piece::Piece;
use crate::piece::notation;
use crate::rulebase::ids::SettingId;
use crate::rulebase::problem::near;
use crate::say::band::years;
use crate::say::drill::findings;
use crate::say::names::{capital, clue_name, kind_name};
use crate::say::observation::seen;
use crate::say::{headline, plain};

/// Ask a hidden piece.
pub(super) fn ask<I: BufRead>(talk: &mut Talk<I>, place: SettingId, seed: u64) -> Result<Ended> {
    let expert = talk.expert.clone();
    let mut asking = Asking::new(&expert, place, seed)
        .ok_or_else(|| anyhow!("the rules in use make no piece for this setting"))?;
    talk.say(&format!(
        "A hidden piece from this place: {}.",
        expert.base.settings[place].name
    ))?;
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
    let Some((guess, said)) = guess(talk, asking.piece())? else {
        return Ok(Ended::Quit);
    };
    let result = asking.result(&guess);
    let truth = asking.truth();
    let kind = kind_name(&expert, truth.kind).to_owned();
    let place = &expert.base.places[truth.place].name;
    talk.say(&format!(
        "{} It was {kind}, {place}, {}.",
        if result.right { "Right." } else { "No." },
        truth.year.0
    ))?;
    talk.say(&format!(
        "Kind: {:.0} points of 100 for {said} %; the program, {}, {:.0}.",
        result.points,
        headline_of(asking.piece()),
        result.engine_points
    ))?;
    if let Some(lost) = result.years_lost {
        talk.say(&format!(
            "Years lost: {lost:.0} (how wide, and ten for every year outside); the program {:.0}.",
            result.engine_years_lost
        ))?;
    }
    if let Some(share) = result.looking {
        talk.say(&format!(
            "Looking: {:.0} of 100 of what could be learned a second.",
            100.0 * share
        ))?;
        let best = asking.looks().iter().find(|l| l.chosen.clue != l.best.clue);
        if let Some(other) = best {
            let better = expert.base.clue(other.best.clue);
            talk.say(&format!(
                "Instead of {} the program would have looked here: {} {}",
                clue_name(&expert, other.chosen.clue),
                better.question,
                better.tells
            ))?;
        }
    }
    explain(talk, asking.piece())?;
    let names = [truth.kind, guess.kind].map(|k| expert.base.kinds[k].id.as_str());
    talk.learner.named("kind", names[0], names[1]);
    talk.learner.stated(Some(said), result.right);
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
    let name = capital(&clue_name(&expert, clue));
    match asking.look(clue) {
        Some(Shown::Seen(observation)) => {
            talk.say(&format!("  {name}: {}", seen(&expert, &observation)))
        }
        Some(Shown::Nothing | Shown::NotAsked) => talk.say(&format!("  {name}: nothing to read")),
        None => talk.say(&format!("  {name}: seen already, or it does not apply yet")),
    }
}

/// The pupil's guess: a kind, years, how sure. `None` at the end of the input.
fn guess<I: BufRead>(talk: &mut Talk<I>, piece: &Piece) -> Result<Option<(Guess, u8)>> {
    let expert = piece.expert().clone();
    talk.say("What is it, and from when to when, so that you would be right four times in five?")?;
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
    talk.say("How sure are you of the kind, in percent?")?;
    let percent = loop {
        let Some(line) = talk.hear()? else {
            return Ok(None);
        };
        match line.trim_end_matches(['%', ' ']).parse::<u8>() {
            Ok(percent) if percent <= 100 => break percent,
            _ => talk.say("Write a number from 0 to 100.")?,
        }
    };
    let grid = &expert.engine.model.grid;
    let ends = (
        claim.from.unwrap_or(grid.first().0),
        claim.to.unwrap_or(grid.last().0),
    );
    let guess = Guess {
        kind: claim.kinds[0],
        confidence: f64::from(percent) / 100.0,
        years: claim.dated().then_some((Year(ends.0), Year(ends.1))),
    };
    let dated = guess
        .years
        .map_or(String::new(), |(from, to)| format!(", {}", years(from, to)));
    talk.say(&format!(
        "Understood: {}{dated}.",
        kind_name(&expert, guess.kind)
    ))?;
    Ok(Some((guess, percent)))
}

fn headline_of(piece: &Piece) -> String {
    let (kind, p) = piece.judgement().leading();
    format!("{} {:.0} %", kind_name(piece.expert(), kind), 100.0 * p)
}

fn explain<I: BufRead>(talk: &mut Talk<I>, piece: &Piece) -> Result<()> {
    for line in findings(piece) {
        talk.say(&format!("  {line}"))?;
    }
    Ok(())
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
            Some(observation) => piece = piece.with(observation),
            None => {
                talk.say("Write a number of the list, a year where one is asked, x, say or q.")?
            }
        }
    }
    let Some((guess, percent)) = guess(talk, &piece)? else {
        return Ok(Ended::Quit);
    };
    talk.say("")?;
    for line in plain::lines(&piece) {
        talk.say(&line)?;
    }
    let judged = piece.judgement();
    let p = judged
        .kinds
        .iter()
        .find(|(k, _)| *k == guess.kind)
        .map_or(0.0, |(_, p)| *p);
    // Nobody knows the truth: the points are what the guess would win on average if the program's
    // chances are right.
    let confidence = f64::from(percent) / 100.0;
    let mean = p * points(confidence, true) + (1.0 - p) * points(confidence, false);
    talk.say(&format!(
        "You said {} and {percent} %; by what was seen it has {:.0} %: {mean:.0} points of 100 on average.",
        kind_name(&expert, guess.kind),
        100.0 * p
    ))?;
    explain(talk, &piece)?;
    if piece.evidence().says_nothing() {
        talk.say(&headline::nothing_seen(&expert, place))?;
    }
    Ok(Ended::Done)
}

/// A number of the list, a year, or `x`.
fn answer(piece: &Piece, clue: ClueId, line: &str) -> Option<Observation> {
    let rules = piece.expert().base.clue(clue);
    let (word, sure) = notation::split_sure(line);
    if word == "x" {
        return Some(Observation::cant_tell(clue));
    }
    match word.parse::<u16>().ok().filter(|_| rules.dated.is_none()) {
        Some(n) if n >= 1 && usize::from(n) <= rules.findings.len() => {
            Some(Observation::finding(clue, FindingId(n - 1)).sure(sure))
        }
        Some(_) => None,
        None => notation::parse_said(&piece.expert().base, clue, line).ok(),
    }
}
