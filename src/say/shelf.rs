//! Buy it or leave it: the advice and its reasons.

use super::names::capital;
use super::odds::odds;
use crate::buy::shelf::{Allowed, ChannelOutlook, WorthLook};
use crate::buy::{Advice, Gist, Money, ShelfAnswer};
use crate::piece::expert::Expert;

/// Said once wherever money shows.
pub const GUIDANCE: &str = "Guidance, not an appraisal.";

/// The advice by its name in the JSON contract.
pub fn advice_id(advice: Advice) -> &'static str {
    match advice {
        Advice::Buy => "buy",
        Advice::Offer => "offer",
        Advice::Leave => "leave",
        Advice::LookAgain => "look-again",
    }
}

/// The advice in one sentence, or two when a look comes first.
pub fn advice(expert: &Expert, gist: &Gist) -> String {
    let (asking, most) = (gist.asking, gist.most_to_pay);
    match (gist.advice, &gist.look) {
        (Advice::LookAgain, Some(found)) => {
            format!("{} {}", look(expert, found), as_it_stands(gist))
        }
        (Advice::Buy, _) => {
            format!("Buy it: {asking} is asked, and up to {most} leaves your margin.")
        }
        (Advice::Offer, _) => {
            format!("Offer up to {most}: the {asking} that is asked would not leave your margin.")
        }
        (Advice::Leave | Advice::LookAgain, _) => leave(gist),
    }
}

fn leave(gist: &Gist) -> String {
    let (asking, most) = (gist.asking, gist.most_to_pay);
    match gist.worth_having {
        true => format!(
            "Leave it: {asking} is asked, and more than {most} would not leave your margin."
        ),
        false => "Leave it, even for nothing: selling it would cost more than your margin allows."
            .to_owned(),
    }
}

/// The look to make first, and why it pays.
fn look(expert: &Expert, look: &WorthLook) -> String {
    format!(
        "Look again before you decide: {} It takes about {:.0} seconds, {} of your time, and is worth about {}.",
        expert.base.clue(look.clue).question,
        look.seconds,
        look.cost,
        look.worth
    )
}

fn as_it_stands(gist: &Gist) -> String {
    let most = gist.most_to_pay;
    match gist.worth_having {
        true => format!("As it stands, {most} is the most to pay."),
        false => "As it stands, it is not worth having for nothing.".to_owned(),
    }
}

/// Why, a sentence each.
pub fn reasons(expert: &Expert, answer: &ShelfAnswer) -> Vec<String> {
    let best = answer.best_channel();
    let mut out = vec![
        price(best),
        net(best, answer.gist.asking),
        old(answer.over_hundred),
    ];
    out.extend(answer.defects.iter().map(|d| defect(expert, d)));
    if answer.condition_unseen {
        out.push(
            "Nothing was said of chips, cracks and stains: priced as such pieces usually come."
                .to_owned(),
        );
    }
    out.push(rests_on(answer));
    if answer.left_out > 0 {
        out.push(format!(
            "{} of your sales could not be counted: nothing seen of the piece, no price, or a currency whose rate is not known.",
            answer.left_out
        ));
    }
    if !answer.rate_known {
        out.push(format!(
            "No rate to {} is known: the starting guesses are taken one for one. Put your rate into the settings.",
            answer.gist.asking.currency
        ));
    }
    out
}

fn price(best: &ChannelOutlook) -> String {
    format!(
        "Best sold here: {}. Half of such sales bring more than {}, 8 in 10 between {} and {}; about {} to sell.",
        best.name,
        best.typical,
        best.low,
        best.high,
        weeks(best.weeks_to_sell)
    )
}

fn net(best: &ChannelOutlook, asking: Money) -> String {
    let left = match lost(best.expected_net) {
        None => format!("leaves {}", best.expected_net),
        Some(lost) => format!("loses {lost}"),
    };
    format!(
        "At {asking} it {left} on average when all is paid; chance of a loss: {}.",
        odds(best.loss_chance)
    )
}

/// How much is lost, if anything is.
fn lost(net: Money) -> Option<Money> {
    let lost = Money {
        minor: -net.minor,
        ..net
    };
    (lost.minor > 0).then_some(lost)
}

fn old(over_hundred: f64) -> String {
    format!(
        "Chance that it is over a hundred years old, which moves the price most: {}.",
        odds(over_hundred)
    )
}

fn defect(expert: &Expert, allowed: &Allowed) -> String {
    let guesses = expert.base.prices.as_ref();
    let name = guesses.map_or("a defect", |g| &g.defects[allowed.defect].factor.name);
    format!(
        "{}: counts as {:.0} in 100 of the price of a sound piece.",
        capital(name),
        100.0 * allowed.factor
    )
}

fn rests_on(answer: &ShelfAnswer) -> String {
    match answer.own_sales {
        0 => "Rests on starting guesses alone (common practice, no source): no sale of your own is recorded.".to_owned(),
        n => format!(
            "About {:.0} in 100 of what is known of this price comes from your own {n} {}, the rest from starting guesses (common practice, no source).",
            100.0 * answer.own_share,
            if n == 1 { "sale" } else { "sales" }
        ),
    }
}

/// One channel in a line: what it leaves, the risk, the most to pay and the wait.
pub fn channel(channel: &ChannelOutlook) -> String {
    let left = match lost(channel.expected_net) {
        None => format!("{} left", channel.expected_net),
        Some(lost) => format!("{lost} lost"),
    };
    format!(
        "{}: {left} on average; loss: {}; {} at most; {}",
        channel.name,
        odds(channel.loss_chance),
        channel.most_to_pay,
        weeks(channel.weeks_to_sell)
    )
}

fn weeks(weeks: f64) -> String {
    match weeks.round() {
        n if n <= 1.0 => "a week".to_owned(),
        n => format!("{n:.0} weeks"),
    }
}
