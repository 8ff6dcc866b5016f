//! An entry as named texts, one a column, and back: what tables and objects are made of.
//!
//! Nothing is lost either way: `read` of what `write` gives is the same entry (of cleaned ones).

use super::entry::{Entry, KeptDecision, KeptFinding, KeptSighting, KeptVerdict, Sale, TurnedOut};
use super::id::EntryId;
use crate::buy::{Currency, Money};
use crate::core::observation::Origin;
use crate::piece::notation::printable;
use crate::registry::calendar::Date;

/// What a column's text stands for in an object.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    Text,
    Number,
    /// `yes` or empty.
    Flag,
    /// Parts with this between them.
    List(&'static str),
}

const FINDINGS: &str = "; ";
const LINES: &str = "\n";
const WORDS: &str = ",";

/// All columns in the order of export.
pub const COLUMNS: [(&str, Shape); 37] = [
    ("id", Shape::Text),
    ("added", Shape::Text),
    ("title", Shape::Text),
    ("draft", Shape::Flag),
    ("quantity", Shape::Number),
    ("setting", Shape::Text),
    ("notes", Shape::Text),
    ("mark", Shape::Text),
    ("mark_complete", Shape::Flag),
    ("findings", Shape::List(FINDINGS)),
    ("kind", Shape::Text),
    ("kind_p", Shape::Number),
    ("from", Shape::Number),
    ("to", Shape::Number),
    ("median", Shape::Number),
    ("bought_at", Shape::Text),
    ("bought_on", Shape::Text),
    ("paid", Shape::Text),
    ("currency", Shape::Text),
    ("condition", Shape::List(WORDS)),
    ("asking", Shape::Text),
    ("advice", Shape::Text),
    ("most_to_pay", Shape::Text),
    ("channel", Shape::Text),
    ("sold_on", Shape::Text),
    ("sold_for", Shape::Text),
    ("sold_channel", Shape::Text),
    ("days_to_sell", Shape::Number),
    ("remark", Shape::Text),
    ("photos", Shape::List(LINES)),
    ("turned_out_kind", Shape::Text),
    ("turned_out_from", Shape::Number),
    ("turned_out_to", Shape::Number),
    ("turned_out_by", Shape::Text),
    ("history", Shape::List(LINES)),
    ("stage", Shape::Text),
    ("rules", Shape::Text),
];

/// What can be decided of a piece, as `shelf --json` names it.
pub const ADVICE: [&str; 4] = ["buy", "offer", "leave", "look-again"];

/// Columns that follow from others: written for the reader, passed over when read.
pub const DERIVED: [&str; 2] = ["days_to_sell", "stage"];

/// The text of one column; empty where nothing is kept.
pub fn write(entry: &Entry, column: &str) -> String {
    let verdict = entry.verdict.as_ref();
    let sale = entry.sale.as_ref();
    let decision = entry.decision.as_ref();
    let turned = entry.turned_out.as_ref();
    let date = |d: Option<Date>| d.map_or(String::new(), |d| d.to_string());
    let amount = |a: Option<i64>| a.map_or(String::new(), |a| entry.money(a).amount());
    let number = |n: Option<i64>| n.map_or(String::new(), |n| n.to_string());
    let flag = |yes: bool| if yes { "yes".to_owned() } else { String::new() };
    match column {
        "id" => entry.id.to_string(),
        "added" => date(entry.added),
        "title" => entry.title.clone(),
        "draft" => flag(entry.draft),
        "quantity" => entry.count().to_string(),
        "setting" => entry.sighting.setting.clone(),
        "notes" => entry.sighting.notes.clone(),
        "mark" => entry.sighting.mark.clone(),
        "mark_complete" => flag(entry.sighting.mark_complete),
        "findings" => findings(&entry.sighting.findings).join(FINDINGS),
        "kind" => verdict.map_or(String::new(), |v| v.kind.clone()),
        "kind_p" => verdict.map_or(String::new(), |v| v.kind_p.to_string()),
        "from" => number(verdict.map(|v| v.from.into())),
        "to" => number(verdict.map(|v| v.to.into())),
        "median" => number(verdict.map(|v| v.median.into())),
        "bought_at" => entry.place.clone(),
        "bought_on" => date(entry.bought_on),
        "paid" => amount(entry.paid),
        "currency" => entry.currency.to_string(),
        "condition" => entry.condition.join(WORDS),
        "asking" => amount(entry.asking),
        "advice" => decision.map_or(String::new(), |d| d.advice.clone()),
        "most_to_pay" => amount(decision.map(|d| d.most_to_pay)),
        "channel" => entry.channel.clone(),
        "sold_on" => date(sale.map(|s| s.on)),
        "sold_for" => amount(sale.map(|s| s.price)),
        "sold_channel" => sale.map_or(String::new(), |s| s.channel.clone()),
        "days_to_sell" => number(entry.days_to_sell().map(i64::from)),
        "remark" => entry.remark.clone(),
        "photos" => entry.photos.join(LINES),
        "turned_out_kind" => turned.map_or(String::new(), |t| t.kind.clone()),
        "turned_out_from" => number(turned.and_then(|t| t.from).map(i64::from)),
        "turned_out_to" => number(turned.and_then(|t| t.to).map(i64::from)),
        "turned_out_by" => turned.map_or(String::new(), |t| t.by.clone()),
        "history" => entry.history.join(LINES),
        "stage" => entry.stage().word().to_owned(),
        "rules" => verdict.map_or(String::new(), |v| v.rules.clone()),
        _ => String::new(),
    }
}

/// Words for where a finding came from; what was said outright has none.
pub const ORIGINS: [(Origin, &str); 5] = [
    (Origin::Notes, "notes"),
    (Origin::Mark, "mark"),
    (Origin::Registration, "registration"),
    (Origin::Ticket, "ticket"),
    (Origin::File, "file"),
];

/// `edge=clouded?` or `country-word=england@mark`.
pub fn findings(list: &[KeptFinding]) -> Vec<String> {
    let one = |f: &KeptFinding| match ORIGINS.iter().find(|(o, _)| *o == f.origin) {
        Some((_, word)) => format!("{}@{word}", f.said),
        None => f.said.clone(),
    };
    list.iter().map(one).collect()
}

/// Reads an entry from its columns; all that is wrong with it at once. `usual`: the currency where
/// none is named.
///
/// # Errors
/// A sentence for each cell that can't be read.
pub fn read<'c>(cell: impl Fn(&str) -> &'c str, usual: Currency) -> Result<Entry, Vec<String>> {
    let mut cells = Cells {
        problems: Vec::new(),
    };
    let text = |name: &str| cell(name).trim().to_owned();
    let id = cells.id(cell("id"));
    let currency = cells.currency(cell("currency"), usual);
    let mut amount = |name: &str| cells.amount(name, cell(name), currency);
    let (paid, asking, price) = (amount("paid"), amount("asking"), amount("sold_for"));
    let most = amount("most_to_pay");
    let decision = cells.decision(cell("advice"), most);
    let sold_on = cells.date("sold_on", cell("sold_on"));
    let sale = match (sold_on, price) {
        (Some(on), Some(price)) => Some(Sale {
            on,
            price,
            channel: text("sold_channel"),
        }),
        (None, None) => None,
        _ => {
            let given = |name| !cell(name).trim().is_empty();
            if given("sold_on") != given("sold_for") {
                cells.say("sold_on and sold_for must be given together".to_owned());
            }
            None
        }
    };
    let entry = Entry {
        id,
        added: cells.date("added", cell("added")),
        title: text("title"),
        draft: cells.flag("draft", cell("draft")),
        quantity: cells.pieces("quantity", cell("quantity")),
        sighting: KeptSighting {
            setting: text("setting"),
            mark: text("mark"),
            mark_complete: cells.flag("mark_complete", cell("mark_complete")),
            notes: text("notes"),
            findings: cells.findings(cell("findings")),
        },
        verdict: cells.verdict(&cell),
        decision,
        photos: parts(cell("photos"), LINES),
        place: text("bought_at"),
        bought_on: cells.date("bought_on", cell("bought_on")),
        currency,
        paid,
        condition: parts(cell("condition"), WORDS),
        asking,
        channel: text("channel"),
        sale,
        remark: text("remark"),
        turned_out: cells.turned_out(&cell),
        history: parts(cell("history"), LINES),
    };
    match cells.problems.is_empty() {
        true => Ok(entry.cleaned()),
        false => Err(cells.problems),
    }
}

fn parts(cell: &str, between: &str) -> Vec<String> {
    let parts = cell.split(between.trim_end_matches(' ')).map(str::trim);
    parts.filter(|p| !p.is_empty()).map(str::to_owned).collect()
}

/// Reads cells and gathers what is wrong with them.
struct Cells {
    problems: Vec<String>,
}

impl Cells {
    fn say(&mut self, problem: String) {
        self.problems.push(problem);
    }

    fn id(&mut self, cell: &str) -> EntryId {
        let cell = cell.trim();
        if cell.is_empty() {
            return EntryId::default();
        }
        EntryId::read(cell).unwrap_or_else(|| {
            self.say(format!(
                "id '{}' is none of this program's; leave it empty for a new piece",
                printable(cell)
            ));
            EntryId::default()
        })
    }

    fn currency(&mut self, cell: &str, usual: Currency) -> Currency {
        if cell.trim().is_empty() {
            return usual;
        }
        Currency::new(cell.trim()).unwrap_or_else(|| {
            self.say(format!(
                "currency '{}' is no code of three letters, such as EUR",
                printable(cell)
            ));
            usual
        })
    }

    fn amount(&mut self, column: &str, cell: &str, currency: Currency) -> Option<i64> {
        if cell.trim().is_empty() {
            return None;
        }
        match Money::read(cell, currency) {
            Ok(money) if money.currency == currency => Some(money.minor),
            Ok(money) => {
                self.say(format!(
                    "{column} {money}: the row's currency is {currency}"
                ));
                None
            }
            Err(why) => {
                self.say(format!("{column} {why}"));
                None
            }
        }
    }

    fn decision(&mut self, cell: &str, most_to_pay: Option<i64>) -> Option<KeptDecision> {
        let advice = cell.trim();
        match most_to_pay {
            None if advice.is_empty() => None,
            Some(most_to_pay) if ADVICE.contains(&advice) => Some(KeptDecision {
                advice: advice.to_owned(),
                most_to_pay,
            }),
            _ => {
                self.say(format!(
                    "advice '{}': one of {}, given together with most_to_pay",
                    printable(advice),
                    ADVICE.join(", ")
                ));
                None
            }
        }
    }

    fn date(&mut self, column: &str, cell: &str) -> Option<Date> {
        if cell.trim().is_empty() {
            return None;
        }
        let date = Date::from_iso(cell.trim());
        if date.is_none() {
            let shown = printable(cell);
            self.say(format!(
                "{column} '{shown}' is no day: write it as 2026-05-31"
            ));
        }
        date
    }

    /// How many alike: one where nothing is said.
    fn pieces(&mut self, column: &str, cell: &str) -> u32 {
        let number = self.number(column, cell).unwrap_or(1);
        if number == 0 {
            self.say(format!("{column} '0' is no piece: leave the row out"));
        }
        number
    }

    fn number<N: std::str::FromStr>(&mut self, column: &str, cell: &str) -> Option<N> {
        if cell.trim().is_empty() {
            return None;
        }
        let number = cell.trim().parse().ok();
        if number.is_none() {
            self.say(format!(
                "{column} '{}' is no number that fits",
                printable(cell)
            ));
        }
        number
    }

    fn flag(&mut self, column: &str, cell: &str) -> bool {
        match cell.trim().to_ascii_lowercase().as_str() {
            "yes" => true,
            "" | "no" => false,
            _ => {
                self.say(format!(
                    "{column} '{}' is neither yes nor no",
                    printable(cell)
                ));
                false
            }
        }
    }

    fn findings(&mut self, cell: &str) -> Vec<KeptFinding> {
        let mut found = Vec::new();
        for part in parts(cell, FINDINGS) {
            let (said, word) = part.rsplit_once('@').unwrap_or((part.as_str(), ""));
            let origin = match ORIGINS.iter().find(|(_, w)| *w == word) {
                Some((origin, _)) => *origin,
                None if word.is_empty() => Origin::Hand,
                None => {
                    self.say(format!(
                        "findings '{}': after @ stands where it came from: mark, notes, registration, ticket or file",
                        printable(&part)
                    ));
                    continue;
                }
            };
            if !said.contains('=') {
                self.say(format!(
                    "findings '{}': write CLUE=FINDING, parted by semicolons",
                    printable(&part)
                ));
                continue;
            }
            found.push(KeptFinding {
                said: said.to_owned(),
                origin,
            });
        }
        found
    }

    /// None where no kind stands: the piece has not been judged.
    fn verdict<'c>(&mut self, cell: &impl Fn(&str) -> &'c str) -> Option<KeptVerdict> {
        let kind = cell("kind").trim();
        if kind.is_empty() {
            return None;
        }
        let from = self.number("from", cell("from"));
        let to = self.number("to", cell("to"));
        if let (Some(from), Some(to)) = (from, to)
            && from > to
        {
            self.say(format!("from {from} comes after to {to}"));
        }
        let middle = || Some(i16::midpoint(from?, to?));
        let median = self.number("median", cell("median")).or_else(middle);
        let p = self.number("kind_p", cell("kind_p")).unwrap_or(0.0);
        if !(0.0..=1.0).contains(&p) {
            self.say(format!("kind_p {p} is not between 0 and 1"));
        }
        let (Some(from), Some(to), Some(median)) = (from, to, median) else {
            self.say(
                "a row with a kind needs from and to; empty all three to have it judged".into(),
            );
            return None;
        };
        Some(KeptVerdict {
            kind: kind.to_owned(),
            kind_p: p,
            from,
            to,
            median,
            rules: cell("rules").trim().to_owned(),
        })
    }

    fn turned_out<'c>(&mut self, cell: &impl Fn(&str) -> &'c str) -> Option<TurnedOut> {
        let turned = TurnedOut {
            kind: cell("turned_out_kind").trim().to_owned(),
            from: self.number("turned_out_from", cell("turned_out_from")),
            to: self.number("turned_out_to", cell("turned_out_to")),
            by: cell("turned_out_by").trim().to_owned(),
        };
        (turned != TurnedOut::default()).then_some(turned)
    }
}
