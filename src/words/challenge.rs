//! A guess: how it stands, what hurts it, what would stand instead.

use super::reasons::{capital, clue_name, kind_name, seen, why};
use super::scales::{chance, percent, support};
use super::understood::understood;
use crate::case::Case;
use crate::case::expert::Expert;
use crate::challenge::cells::LEAST_YEARS;
use crate::challenge::claim::Claim;
use crate::challenge::hurts::Hurt;
use crate::challenge::judge::{Challenge, Granted};
use crate::challenge::standing::{Answer, Nearest};
use crate::core::axes::Year;
use crate::rulebase::texts::Setting;

/// From here on a chance is "about as likely as not" or better.
const EVEN: f64 = 0.33;

/// Findings against a guess shown at most.
const HURTS: usize = 3;

/// The answer in the words of the contract.
pub fn answer_id(answer: Answer) -> &'static str {
    match answer {
        Answer::Supported => "supported",
        Answer::Possible => "possible",
        Answer::HardToSupport => "hard-to-support",
        Answer::RuledOut => "ruled-out",
    }
}

fn answer(answer: Answer) -> &'static str {
    match answer {
        Answer::Supported => "Supported",
        Answer::Possible => "Possible",
        Answer::HardToSupport => "Hard to support",
        Answer::RuledOut => "Ruled out",
    }
}

/// The answer and what it is owed to.
pub fn verdict(case: &Case, c: &Challenge) -> String {
    format!("{} {}", answered(case.expert(), c), weighed(case, c))
        .trim_end()
        .to_owned()
}

/// The answer in one sentence: "Ruled out by country word: Made in England."
pub fn answered(expert: &Expert, c: &Challenge) -> String {
    let said = answer(c.answer);
    if c.nothing_seen && c.answer == Answer::Possible {
        return format!(
            "{said}: nothing has been looked at yet, so nothing speaks for or against it ({} before \
             any look).",
            percent(c.p)
        );
    }
    match c.hurts.first().or(c.own.first()) {
        Some(worst) if c.answer == Answer::RuledOut => {
            let name = clue_name(expert, worst.entry.clue);
            format!("{said} by {name}: {}.", seen(expert, &worst.entry))
        }
        _ => format!("{said}."),
    }
}

/// The numbers behind the answer; empty when nothing has been seen.
pub fn weighed(case: &Case, c: &Challenge) -> String {
    if c.nothing_seen && c.answer == Answer::Possible {
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
    if c.widened {
        out += &format!(
            " Judged as {} to {}: what is seen dates a piece no closer than {LEAST_YEARS} years.",
            c.from.0, c.to.0
        );
    }
    let hard = c.answer == Answer::HardToSupport;
    if hard && c.weight > 0.0 && !setting(case).neutral {
        out += " The findings alone lean towards it, but what turns up in this setting does not.";
    }
    if let (true, Some(other)) = (hard, c.outdone) {
        out += &format!(
            " The same claim one to three generations earlier or later has {} on average.",
            percent(other)
        );
    }
    if c.never_made {
        out += " As far as the rules know, nothing of that kind was made in those years.";
    }
    out
}

/// The word for the chance of the claim, unless it would gainsay the answer: the answer compares
/// the claim with the best one of its make, so a good narrow claim can be improbable by itself.
fn chance_word(c: &Challenge) -> Option<&'static str> {
    let fits = match c.answer {
        Answer::Supported | Answer::Possible => c.p >= EVEN,
        Answer::HardToSupport | Answer::RuledOut => c.p < EVEN,
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

/// What the best claim of the same make has, and that narrow claims never have much.
fn best(c: &Challenge) -> String {
    let best = (c.p / c.share.max(f64::MIN_POSITIVE)).min(1.0);
    let top = c.share > 0.99;
    if !c.claim.dated() {
        return match top {
            true => "; no other kind has more".to_owned(),
            false => format!("; the likeliest kind has {}", percent(best)),
        };
    }
    let narrow = best < EVEN && chance_word(c).is_none();
    match (narrow, top) {
        (true, true) => {
            ". So narrow a claim always has a small share, and none with as many years \
            has more"
                .to_owned()
        }
        (true, false) => format!(
            ". So narrow a claim always has a small share: the best with as many years has {}",
            percent(best)
        ),
        (false, true) => "; no claim with as many years has more".to_owned(),
        (false, false) => format!("; the best claim with as many years has {}", percent(best)),
    }
}

/// One finding against the claim; a contradiction is named outright.
pub fn hurt(expert: &Expert, claim: &Claim, hurt: &Hurt) -> String {
    let name = capital(&clue_name(expert, hurt.entry.clue));
    let what = seen(expert, &hurt.entry);
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
        why(expert, &hurt.entry)
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
    let clue = clue_name(expert, g.entry.clue);
    let claimed = seen(expert, &g.entry);
    match g.seen {
        None => Some(format!(
            "The guess takes {clue} for granted ({claimed}); it has not been looked at."
        )),
        Some(have) if have.seen != g.entry.seen => Some(format!(
            "The guess says {clue}: {claimed}; on the piece it is: {}.",
            seen(expert, &have)
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
        "Nearest claim that the findings support: {kind}{} to {} ({})",
        nearest.from.0,
        nearest.to.0,
        percent(nearest.p)
    )
}

/// Everything, line by line.
pub fn account(case: &Case, c: &Challenge) -> Vec<String> {
    let expert = case.expert();
    let mut out = vec![heading(expert, c), verdict(case, c)];
    out.extend(details(case, c));
    out
}

/// What was understood of the guess.
pub fn heading(expert: &Expert, c: &Challenge) -> String {
    format!("Understood: {}", understood(expert, &c.claim))
}

fn setting(case: &Case) -> &Setting {
    &case.expert().base.settings[case.setting()]
}

/// Where the piece is taken to have turned up: it is half of the answer.
fn ground(case: &Case) -> String {
    let setting = setting(case);
    format!("Where found: {} ({}).", setting.name, setting.about)
}

/// What speaks against the claim, what the findings allow, what would stand, what to look at.
pub fn details(case: &Case, c: &Challenge) -> Vec<String> {
    let expert = case.expert();
    let mut out = Vec::new();
    out.extend(c.granted.iter().filter_map(|g| granted(expert, g)));
    let own = c.own.iter().take(1);
    out.extend(own.map(|h| {
        format!(
            "The guess contradicts itself. {}",
            hurt(expert, &c.claim, h)
        )
    }));
    out.extend(
        c.hurts
            .iter()
            .take(HURTS)
            .map(|h| hurt(expert, &c.claim, h)),
    );
    if let Some((place, p)) = c.place_p {
        let name = &expert.base.places[usize::from(place.0)].name;
        out.push(format!("Made in {name}: {} ({}).", chance(p), percent(p)));
    }
    out.push(ground(case));
    if !c.nothing_seen {
        out.push(format!(
            "The findings allow {} to {}.",
            c.earliest.year.0, c.latest.year.0
        ));
    }
    if c.answer != Answer::Supported && !c.nothing_seen {
        out.push(nearest(expert, &c.nearest));
    }
    if let Some(look) = &c.look {
        out.push(format!(
            "The look that would settle it: {}",
            super::reasons::look(expert, look)
        ));
    }
    out
}
