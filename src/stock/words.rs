//! What is said of entries: lines of a list, the page of one, totals, and judging again.

use std::fmt::Write;

use super::again::{Again, Difference};
use super::columns;
use super::entry::{Entry, KeptDecision, KeptVerdict, Stage};
use super::find::Listing;
use super::line::Line;
use super::store::Held;
use super::totals::{Sums, Totals};
use crate::buy::{Currency, Money};
use crate::piece::expert::Expert;
use crate::rulebase::RuleBase;
use crate::say::names::capital;
use crate::say::odds::odds;
use crate::say::{headline, plain};

/// A kind by its name, or by its id where the rules no longer have it.
fn kind(base: &RuleBase, id: &str) -> String {
    let known = base
        .kind_id(id)
        .map(|k| base.kinds[usize::from(k.0)].name.clone());
    known.unwrap_or_else(|| id.to_owned())
}

fn years(from: i16, to: i16) -> String {
    match from == to {
        true => from.to_string(),
        false => format!("{from} to {to}"),
    }
}

/// "flow blue, about 19 in 20, about 1890 to 1921".
pub fn verdict(base: &RuleBase, verdict: &KeptVerdict) -> String {
    let (kind, p) = (kind(base, &verdict.kind), verdict.kind_p);
    // An imported verdict need not tell how sure it was.
    let sure = if p > 0.0 {
        format!(", {}", odds(p))
    } else {
        String::new()
    };
    format!("{kind}{sure}, about {}", years(verdict.from, verdict.to))
}

/// What the piece is called: its title, or what it was taken for.
pub fn name(base: &RuleBase, title: &str, kind_id: &str) -> String {
    match (title, kind_id) {
        ("", "") => "not judged".to_owned(),
        ("", id) => kind(base, id),
        (title, _) => title.to_owned(),
    }
}

/// One line of a list.
pub fn line(base: &RuleBase, line: &Line) -> String {
    let money = |minor| Money {
        minor,
        currency: line.currency,
    };
    let mut out = format!("{}  {}", line.id, name(base, &line.title, &line.kind));
    if line.quantity > 1 {
        let _ = write!(out, " ({} pieces)", line.quantity);
    }
    if let Some((from, to)) = line.years {
        let _ = write!(out, ", about {}", years(from, to));
    }
    if let Some(paid) = line.paid {
        let _ = write!(out, "; paid {}", money(paid));
    }
    match (line.sold_on, line.sold_for) {
        (Some(on), Some(price)) => {
            let _ = write!(out, "; sold {on} for {}", money(price));
        }
        _ => {
            if let Some(asking) = line.asking {
                let _ = write!(out, "; asking {}", money(asking));
            }
        }
    }
    if !line.channel.is_empty() {
        let _ = write!(out, " ({})", line.channel);
    }
    if line.stage == Stage::Draft {
        out += "; looked at, not bought";
    }
    out
}

/// "buy: 14.00 USD is the most to pay".
pub fn decision(decision: &KeptDecision, currency: Currency) -> String {
    let most = Money {
        minor: decision.most_to_pay,
        currency,
    };
    match decision.advice.as_str() {
        "buy" => format!("buy: {most} is the most to pay"),
        "offer" => format!("offer up to {most}"),
        "leave" if decision.most_to_pay == 0 => "leave it".to_owned(),
        "leave" => format!("leave it: {most} is the most to pay"),
        _ => format!("look again first: as it stands {most} is the most to pay"),
    }
}

/// A list with what it adds up to.
pub fn listing(base: &RuleBase, listing: &Listing) -> Vec<String> {
    if listing.found == 0 {
        return vec!["Nothing found.".to_owned()];
    }
    let mut out = Vec::new();
    if listing.nearly {
        out.push("Nothing has these words as typed; these nearly do:".to_owned());
    }
    out.extend(listing.lines.iter().map(|l| line(base, l)));
    let shown = listing.lines.len();
    if shown < listing.found {
        out.push(format!("… {} more", listing.found - shown));
    }
    out.push(String::new());
    out.extend(totals(&listing.totals));
    out
}

/// What lines add up to.
pub fn totals(totals: &Totals) -> Vec<String> {
    let mut out = vec![format!(
        "{} held, {} sold.",
        pieces(totals.held),
        totals.sold
    )];
    for (currency, sums) in &totals.by_currency {
        out.extend(sums_lines(*currency, sums));
    }
    out
}

/// "3.00 USD more", "3.00 USD less".
fn more_or_less(gain: Money) -> String {
    let size = Money {
        minor: gain.minor.abs(),
        ..gain
    };
    format!("{size} {}", if gain.minor < 0 { "less" } else { "more" })
}

fn pieces(count: u64) -> String {
    match count {
        1 => "1 piece".to_owned(),
        n => format!("{n} pieces"),
    }
}

fn sums_lines(currency: Currency, sums: &Sums) -> Vec<String> {
    let money = |minor| Money { minor, currency };
    let mut first = format!(
        "Paid {} in all, {} of it for what is still held",
        money(sums.paid),
        money(sums.held)
    );
    if sums.asked > 0 {
        let _ = write!(first, " (asking {})", money(sums.asked));
    }
    first.push('.');
    if !sums.channels.is_empty() {
        let _ = write!(
            first,
            " Sold for {}: {} than was paid for it, before fees and postage.",
            money(sums.taken),
            more_or_less(money(sums.gained))
        );
        if sums.unpaid > 0 {
            let _ = write!(
                first,
                " For {} of the sales it is not known what was paid.",
                sums.unpaid
            );
        }
    }
    let channels = sums.channels.iter().map(|(name, channel)| {
        let name = if name.is_empty() {
            "no channel named"
        } else {
            name
        };
        let days = match channel.median_days() {
            Some(0) => ", half of them on the same day".to_owned(),
            Some(1) => ", half of them within a day".to_owned(),
            Some(days) => format!(", half of them within {days} days"),
            None => String::new(),
        };
        let sales = if channel.sales == 1 { "sale" } else { "sales" };
        format!(
            "  {name}: {} {sales} for {}, gain {}{days}",
            channel.sales,
            money(channel.taken),
            money(channel.gained)
        )
    });
    std::iter::once(first).chain(channels).collect()
}

/// Everything kept of one entry.
pub fn page(base: &RuleBase, held: &Held) -> Vec<String> {
    let entry = &held.entry;
    let money = |minor| entry.money(minor).to_string();
    let mut out = vec![format!(
        "{}  {}",
        entry.id,
        capital(&name(
            base,
            &entry.title,
            entry.verdict.as_ref().map_or("", |v| &v.kind)
        ))
    )];
    let mut say = |label: &str, text: String| {
        if !text.is_empty() {
            out.push(format!("{label}: {}", text.replace('\n', " / ")));
        }
    };
    if let Some(on) = held.removed_on {
        say(
            "Removed",
            format!(
                "{on}; printseam stock remove {} --undo puts it back",
                entry.id
            ),
        );
    }
    let count = if entry.count() > 1 {
        format!(", {} pieces alike", entry.count())
    } else {
        String::new()
    };
    say("Stage", format!("{}{count}", entry.stage().word()));
    let judged = entry
        .verdict
        .as_ref()
        .map(|v| format!("{} (rules {})", verdict(base, v), v.rules));
    say("Judged", judged.unwrap_or_default());
    say(
        "Decided",
        entry
            .decision
            .as_ref()
            .map_or(String::new(), |d| decision(d, entry.currency)),
    );
    say("Turned out", turned_out(base, entry));
    say(
        "Seen",
        columns::findings(&entry.sighting.findings).join("; "),
    );
    say("Notes", entry.sighting.notes.clone());
    say("Mark", entry.sighting.mark.clone());
    say("Found in", entry.sighting.setting.clone());
    say("Condition", entry.condition.join(", "));
    let date = |d: Option<_>| {
        d.map_or(String::new(), |d: crate::registry::calendar::Date| {
            d.to_string()
        })
    };
    say("Bought at", entry.place.clone());
    say("Bought on", date(entry.bought_on));
    say("Paid", entry.paid.map_or(String::new(), money));
    say("Asking", entry.asking.map_or(String::new(), money));
    say("Offered", entry.channel.clone());
    if let Some(sale) = &entry.sale {
        let gain = entry
            .profit()
            .map(|g| format!(", {} than was paid", more_or_less(entry.money(g))));
        let place = if sale.channel.is_empty() {
            String::new()
        } else {
            format!(", {}", sale.channel)
        };
        say(
            "Sold",
            format!(
                "{} for {}{place}{}",
                sale.on,
                money(sale.price),
                gain.unwrap_or_default()
            ),
        );
    }
    say("Remark", entry.remark.clone());
    for photo in &entry.photos {
        say("Photo", photo.clone());
    }
    say("Added", date(entry.added));
    for line in &entry.history {
        say("History", line.clone());
    }
    out
}

fn turned_out(base: &RuleBase, entry: &Entry) -> String {
    let Some(turned) = &entry.turned_out else {
        return String::new();
    };
    let mut parts = Vec::new();
    if !turned.kind.is_empty() {
        parts.push(kind(base, &turned.kind));
    }
    parts.extend(match (turned.from, turned.to) {
        (Some(from), Some(to)) => Some(years(from, to)),
        (Some(year), None) | (None, Some(year)) => Some(year.to_string()),
        (None, None) => None,
    });
    if !turned.by.is_empty() {
        parts.push(format!("by {}", turned.by));
    }
    parts.join(", ")
}

/// What changed since the piece was judged, and why.
pub fn again(expert: &Expert, again: &Again) -> Vec<String> {
    let base = &expert.base;
    let mut out = Vec::new();
    match &again.then {
        Some(then) => out.push(format!("Then: {}.", verdict(base, then))),
        None => out.push("Then: not judged.".to_owned()),
    }
    out.push(format!("Now:  {}.", verdict(base, &again.now)));
    out.push(match (again.answer_changed(), again.rules_changed()) {
        (false, false) => "Nothing has changed, and the rules are the same.".to_owned(),
        (false, true) => "The rules have changed; the answer is the same.".to_owned(),
        (true, false) => "The rules are the same; what was told is read otherwise:".to_owned(),
        (true, true) if again.differences.is_empty() => {
            "The findings are the same; the rules have changed and weigh them otherwise.".to_owned()
        }
        (true, true) => "The rules have changed, and so has what is heard:".to_owned(),
    });
    out.extend(again.differences.iter().map(difference));
    if again.answer_changed() {
        out.push(String::new());
        out.push("What each finding does now:".to_owned());
        let steps = again.piece.explanation().steps.iter();
        out.extend(steps.map(|step| format!("  - {}", plain::finding(&again.piece, step))));
    }
    if again.piece.evidence().says_nothing() {
        out.push(headline::nothing_seen(expert, again.piece.setting()));
    }
    out
}

fn difference(difference: &Difference) -> String {
    let one = |f| columns::findings(std::slice::from_ref(f)).concat();
    match difference {
        Difference::Heard(finding) => format!("  + {} is heard now", one(finding)),
        Difference::NotHeard(finding) => format!("  - {} is not heard any longer", one(finding)),
        Difference::NotKnown(finding, why) => format!("  ! {}: {why}", one(finding)),
    }
}
