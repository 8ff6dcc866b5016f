//! A guess: how it stands, what opposing it, what would stand instead.

use super::band::years;
use super::claim_read::understood;
use super::look;
use super::names::{capital, clue_name, kind_name};
use super::observation::seen;
use super::scales::{chance, percent, support};
use super::weight::why;
use crate::claim::guess::Claim;
use crate::claim::judge::{Challenge, Granted};
use crate::claim::opposing::OpposingFinding;
use crate::claim::standing::{
    APART, AgainstDates, ClaimAnswer, DATES_POSSIBLE, GENERATION, Nearest,
};
use crate::core::grid::Year;
use crate::piece::Piece;
use crate::piece::expert::Expert;
use crate::rulebase::definitions::Setting;

/// From here on a chance is "about as likely as not" or better.
const EVEN: f64 = 0.33;

/// Findings against a guess shown at most (common practice, no source).
const OPPOSING: usize = 3;

/// The answer in the words of the contract.
pub fn answer_id(answer: ClaimAnswer) -> &'static str {
    match answer {
        ClaimAnswer::Supported => "supported",
        ClaimAnswer::Possible => "possible",
        ClaimAnswer::HardToSupport => "hard-to-support",
        ClaimAnswer::RuledOut => "ruled-out",
    }
}

fn answer(answer: ClaimAnswer) -> &'static str {
    match answer {
        ClaimAnswer::Supported => "Supported",
        ClaimAnswer::Possible => "Possible",
        ClaimAnswer::HardToSupport => "Hard to support",
        ClaimAnswer::RuledOut => "Ruled out",
    }
}

/// The answer and what it is owed to.
pub fn verdict(piece: &Piece, c: &Challenge) -> String {
    format!("{} {}", answered(piece.expert(), c), numbers(piece, c))
        .trim_end()
        .to_owned()
}

/// The answer in one sentence: "Ruled out by country word: Made in England."
pub fn answered(expert: &Expert, c: &Challenge) -> String {
    let said = answer(c.answer);
    if c.nothing_seen && c.answer == ClaimAnswer::Possible {
        return format!(
            "{said}: nothing has been looked at yet, so nothing speaks for or against it ({} before \
             any look).",
            percent(c.p)
        );
    }
    match c.opposing.first().or(c.own.first()) {
        Some(worst) if c.answer == ClaimAnswer::RuledOut => {
            let name = clue_name(expert, worst.observation.clue);
            format!("{said} by {name}: {}.", seen(expert, &worst.observation))
        }
        _ => format!("{said}."),
    }
}

/// The numbers behind the answer; empty when nothing has been seen.
pub fn numbers(piece: &Piece, c: &Challenge) -> String {
    if c.nothing_seen && c.answer == ClaimAnswer::Possible {
        return String::new();
    }
    let word = match chance_word(c) {
        Some(word) => format!(" ({word})"),
        None => String::new(),
    };
    let mut out = format!(
        "{} of the probability falls on {}{word}{}.",
        capital(&percent(c.p)),
        claimed(&c.claim),
        best(c),
    );
    if c.claim.dated() && usize::try_from(c.to.0 - c.from.0).is_ok_and(|n| n + 1 < GENERATION) {
        out += &format!(
            " Judged by the {GENERATION} years around it: what is seen dates a piece no closer."
        );
    }
    let hard = c.answer == ClaimAnswer::HardToSupport;
    if hard && let Some(reason) = c.despite_share {
        out += &format!(" {}", against_dates(reason));
    }
    if hard && c.weight > 0.0 && !setting(piece).neutral {
        out += " The findings alone lean towards it, but what turns up in this setting does not.";
    }
    if c.never_made {
        out += " As far as the rules know, nothing of that kind was made in those years.";
    }
    out
}

/// Why dates are hard to support whose share alone would let them stand.
fn against_dates(reason: AgainstDates) -> String {
    match reason {
        AgainstDates::WrongTicket => format!(
            "But the years {} to {} before and after are likelier on average: a ticket with these \
             dates is more probably wrong than right.",
            APART.0, APART.1
        ),
        AgainstDates::OtherDates => format!(
            "But whatever the kind, these dates are less than {} as likely as those that fit best.",
            percent(DATES_POSSIBLE)
        ),
    }
}

/// The word for the chance of the claim, unless it would gainsay the answer: the answer compares
/// the claim with the best one of its make, so a good narrow claim can be improbable by itself.
fn chance_word(c: &Challenge) -> Option<&'static str> {
    let fits = match c.answer {
        ClaimAnswer::Supported | ClaimAnswer::Possible => c.p >= EVEN,
        ClaimAnswer::HardToSupport | ClaimAnswer::RuledOut => c.p < EVEN,
    };
    fits.then(|| chance(c.p))
}

/// What the probability falls on.
fn claimed(claim: &Claim) -> &'static str {
    match (claim.kinds.len(), claim.dated()) {
        (0, _) => "exactly these years",
        (1, true) => "exactly this kind and these years",
        (_, true) => "exactly these kinds and years",
        (1, false) => "this kind",
        (_, false) => "these kinds",
    }
}

/// How the claim stands beside the best of its make, and that narrow claims never have much.
fn best(c: &Challenge) -> String {
    let (of, fit) = match (c.claim.kinds.is_empty(), c.claim.dated()) {
        (_, false) => ("kind", "fits"),
        (true, true) => ("dates", "fit"),
        (false, true) => ("kind and dates", "fit"),
    };
    let beside = match c.share {
        share if share > 0.99 => format!("no other {of} {fit} better"),
        share => format!(
            "at its best it is {} as likely as the {of} that {fit} best",
            percent(share)
        ),
    };
    match c.claim.dated() && c.p < EVEN && chance_word(c).is_none() {
        true => format!(". So narrow a claim always has a small share; {beside}"),
        false => format!("; {beside}"),
    }
}

/// One finding against the claim; a contradiction is named outright.
pub fn opposing_finding(expert: &Expert, claim: &Claim, hurt: &OpposingFinding) -> String {
    let name = capital(&clue_name(expert, hurt.observation.clue));
    let what = seen(expert, &hurt.observation);
    let strength = match support(hurt.decibans) {
        "no support" => "hardly speaks against the claim".to_owned(),
        words => format!("{words} against the claim"),
    };
    let outright = match hurt.era {
        Some(era) => format!(" {}", contradiction(claim, &what, era)),
        None => String::new(),
    };
    format!(
        "{name}: {what} — {strength} ({:+.1} decibans).{outright} {}",
        hurt.decibans,
        why(expert, &hurt.observation)
    )
    .trim_end()
    .to_owned()
}

/// "'Georgian' and 'Made in England' do not go together: …"
fn contradiction(claim: &Claim, what: &str, (from, to): (Year, Year)) -> String {
    let when = match claim.periods.first() {
        Some((words, _)) => format!("'{words}'"),
        None => "the years claimed".to_owned(),
    };
    format!(
        "{} and '{what}' do not go together: it is seen from about {} to {}.",
        capital(&when),
        from.0,
        to.0
    )
}

/// What a guess takes for granted beside what was seen.
pub fn granted(expert: &Expert, g: &Granted) -> Option<String> {
    let clue = clue_name(expert, g.observation.clue);
    let claimed = seen(expert, &g.observation);
    match &g.seen {
        None => Some(format!(
            "The guess takes {clue} for granted ({claimed}); it has not been looked at."
        )),
        Some(have) if have.seen != g.observation.seen => Some(format!(
            "The guess says {clue}: {claimed}; on the piece it is: {}.",
            seen(expert, have)
        )),
        Some(_) => None,
    }
}

/// The nearest claim that stands.
pub fn nearest(expert: &Expert, nearest: &Nearest) -> String {
    let kind = if nearest.of_kind {
        format!("{}, ", kind_name(expert, nearest.kind))
    } else {
        String::new()
    };
    format!(
        "Nearest claim that the findings support: {kind}{} ({})",
        years(nearest.from, nearest.to),
        percent(nearest.p)
    )
}

/// Everything, line by line.
pub fn account(piece: &Piece, c: &Challenge) -> Vec<String> {
    let expert = piece.expert();
    let mut out = vec![heading(expert, c), verdict(piece, c)];
    out.extend(details(piece, c));
    out
}

/// What was understood of the guess.
pub fn heading(expert: &Expert, c: &Challenge) -> String {
    format!("Understood: {}", understood(expert, &c.claim))
}

fn setting(piece: &Piece) -> &Setting {
    &piece.expert().base.settings[piece.setting()]
}

/// Where the piece is taken to have turned up: it is half of the answer.
fn ground(piece: &Piece) -> String {
    let setting = setting(piece);
    format!("Where found: {} ({}).", setting.name, setting.about)
}

/// What speaks against the claim, what the findings allow, what would stand, what to look at.
pub fn details(piece: &Piece, c: &Challenge) -> Vec<String> {
    let expert = piece.expert();
    let mut out = Vec::new();
    out.extend(c.granted.iter().filter_map(|g| granted(expert, g)));
    let own = c.own.iter().take(1);
    out.extend(own.map(|h| {
        format!(
            "The guess contradicts itself. {}",
            opposing_finding(expert, &c.claim, h)
        )
    }));
    out.extend(
        c.opposing
            .iter()
            .take(OPPOSING)
            .map(|h| opposing_finding(expert, &c.claim, h)),
    );
    if let Some((place, p)) = c.place_p {
        let name = &expert.base.places[usize::from(place.0)].name;
        out.push(format!("Made in {name}: {} ({}).", chance(p), percent(p)));
    }
    out.push(ground(piece));
    if !c.nothing_seen {
        out.push(format!(
            "The findings allow {}.",
            years(c.earliest.year, c.latest.year)
        ));
    }
    if c.answer != ClaimAnswer::Supported && !c.nothing_seen {
        out.push(nearest(expert, &c.nearest));
    }
    if let Some(look) = &c.look {
        out.push(format!(
            "The look that would settle it: {}",
            look::look(expert, look)
        ));
    }
    out
}
