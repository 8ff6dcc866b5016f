//! One entry of the stock book: a piece, or several alike bought together.

use super::id::EntryId;
use crate::buy::{Currency, Money};
use crate::core::observation::Origin;
use crate::registry::calendar::Date;

/// Everything that is kept. Amounts are minor units of `currency` and count for all pieces of the
/// entry together. Texts are as told, but without control characters (see `clean`).
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Entry {
    pub id: EntryId,
    pub added: Option<Date>,
    pub title: String,
    /// Looked at and not bought: a consultation that can be taken up again.
    pub draft: bool,
    /// How many alike; 0 counts as 1.
    pub quantity: u32,
    pub sighting: KeptSighting,
    /// The verdict as it was when the piece was entered, or last judged again.
    pub verdict: Option<KeptVerdict>,
    /// What was decided of it then.
    pub decision: Option<KeptDecision>,
    /// Paths or addresses of pictures, as told.
    pub photos: Vec<String>,
    /// Where it was bought.
    pub place: String,
    pub bought_on: Option<Date>,
    pub currency: Currency,
    pub paid: Option<i64>,
    pub condition: Vec<String>,
    pub asking: Option<i64>,
    /// Where it is offered.
    pub channel: String,
    pub sale: Option<Sale>,
    pub remark: String,
    pub turned_out: Option<TurnedOut>,
    /// What was changed when, a line each, the oldest first.
    pub history: Vec<String>,
}

/// What was seen, so that it can be judged again. Ids are those of the rules it was judged by.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct KeptSighting {
    pub setting: String,
    pub mark: String,
    pub mark_complete: bool,
    pub notes: String,
    /// What counted.
    pub findings: Vec<KeptFinding>,
}

/// `clue=finding?` and where it came from.
#[derive(Clone, Debug, PartialEq)]
pub struct KeptFinding {
    pub said: String,
    pub origin: Origin,
}

/// The judgement in a few figures.
#[derive(Clone, Debug, PartialEq)]
pub struct KeptVerdict {
    /// Id of the leading kind.
    pub kind: String,
    /// Its probability, to six decimals.
    pub kind_p: f64,
    /// The 80 % band of the year of making.
    pub from: i16,
    pub to: i16,
    pub median: i16,
    /// Version of the rule base.
    pub rules: String,
}

/// What `shelf` said of it on the day, in minor units of the entry's currency.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeptDecision {
    /// `buy`, `offer`, `leave` or `look-again`.
    pub advice: String,
    pub most_to_pay: i64,
}

/// What it was sold for.
#[derive(Clone, Debug, PartialEq)]
pub struct Sale {
    pub on: Date,
    pub price: i64,
    pub channel: String,
}

/// What the piece turned out to be, from somebody who could know.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TurnedOut {
    /// Id of the kind; empty when nothing was said of it.
    pub kind: String,
    pub from: Option<i16>,
    pub to: Option<i16>,
    /// Who says so: a catalogue, a collector.
    pub by: String,
}

/// Where an entry stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stage {
    Draft,
    Held,
    Sold,
}

impl Stage {
    pub fn word(self) -> &'static str {
        match self {
            Stage::Draft => "looked at",
            Stage::Held => "held",
            Stage::Sold => "sold",
        }
    }
}

impl Entry {
    pub fn stage(&self) -> Stage {
        match (&self.sale, self.draft) {
            (Some(_), _) => Stage::Sold,
            (None, true) => Stage::Draft,
            (None, false) => Stage::Held,
        }
    }

    /// How many pieces.
    pub fn count(&self) -> u32 {
        self.quantity.max(1)
    }

    /// Minor units as money of this entry's currency.
    pub fn money(&self, minor: i64) -> Money {
        Money {
            minor,
            currency: self.currency,
        }
    }

    /// What it earned: sold for less what was paid. Fees and postage are not known here.
    pub fn profit(&self) -> Option<i64> {
        Some(self.sale.as_ref()?.price - self.paid?)
    }

    /// The day from which it has been offered.
    pub fn since(&self) -> Option<Date> {
        self.bought_on.or(self.added)
    }

    /// Days from buying to selling; none when sold before it was bought.
    pub fn days_to_sell(&self) -> Option<u32> {
        let days = self.sale.as_ref()?.on.days() - self.since()?.days();
        u32::try_from(days).ok()
    }

    /// The same with texts in which nothing can command a terminal or break a line of a list.
    pub fn cleaned(mut self) -> Entry {
        self.quantity = self.count();
        for text in [
            &mut self.sighting.mark,
            &mut self.sighting.notes,
            &mut self.remark,
        ] {
            *text = clean(text, true);
        }
        let verdict = self
            .verdict
            .iter_mut()
            .flat_map(|v| [&mut v.kind, &mut v.rules]);
        let turned = self
            .turned_out
            .iter_mut()
            .flat_map(|t| [&mut t.kind, &mut t.by]);
        let sale = self.sale.iter_mut().map(|s| &mut s.channel);
        let decision = self.decision.iter_mut().map(|d| &mut d.advice);
        let findings = self.sighting.findings.iter_mut().map(|f| &mut f.said);
        let single = [
            &mut self.title,
            &mut self.place,
            &mut self.channel,
            &mut self.sighting.setting,
        ];
        let lists = self
            .photos
            .iter_mut()
            .chain(&mut self.history)
            .chain(&mut self.condition);
        let rest = verdict
            .chain(turned)
            .chain(sale)
            .chain(decision)
            .chain(findings);
        for text in single.into_iter().chain(lists).chain(rest) {
            *text = clean(text, false);
        }
        for list in [&mut self.photos, &mut self.history, &mut self.condition] {
            list.retain(|text| !text.is_empty());
        }
        self
    }
}

/// Control characters become U+FFFD, line ends of any make one line feed (`lines`) or a blank; blanks
/// at the ends go.
fn clean(text: &str, lines: bool) -> String {
    let text = text.replace("\r\n", "\n").replace('\r', "\n");
    let instead = |c: char| match c {
        '\n' if lines => '\n',
        '\n' | '\t' => ' ',
        c if c.is_control() => '\u{fffd}',
        c => c,
    };
    text.chars()
        .map(instead)
        .collect::<String>()
        .trim()
        .to_owned()
}
