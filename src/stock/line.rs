//! What a list shows of an entry, and finds it by.

use super::entry::{Entry, KeptDecision, Stage};
use super::id::EntryId;
use crate::buy::Currency;
use crate::hearing::fold;
use crate::registry::calendar::Date;

/// A line of a list. Amounts are minor units of `currency`.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    pub id: EntryId,
    pub added: Option<Date>,
    pub title: String,
    pub stage: Stage,
    pub quantity: u32,
    /// Id of the kind; empty when it was not judged.
    pub kind: String,
    pub years: Option<(i16, i16)>,
    pub decision: Option<KeptDecision>,
    pub currency: Currency,
    pub paid: Option<i64>,
    pub asking: Option<i64>,
    /// Where it is offered, or was sold.
    pub channel: String,
    pub since: Option<Date>,
    pub sold_on: Option<Date>,
    pub sold_for: Option<i64>,
    /// Everything it is found by, folded: see `search_text`.
    pub search: String,
}

impl Line {
    pub fn of(entry: &Entry) -> Line {
        let sale = entry.sale.as_ref();
        let verdict = entry.verdict.as_ref();
        let sold_at = sale.map(|s| &s.channel).filter(|c| !c.is_empty());
        Line {
            id: entry.id.clone(),
            added: entry.added,
            title: entry.title.clone(),
            stage: entry.stage(),
            quantity: entry.count(),
            kind: verdict.map_or(String::new(), |v| v.kind.clone()),
            years: verdict.map(|v| (v.from, v.to)),
            decision: entry.decision.clone(),
            currency: entry.currency,
            paid: entry.paid,
            asking: entry.asking,
            channel: sold_at.unwrap_or(&entry.channel).clone(),
            since: entry.since(),
            sold_on: sale.map(|s| s.on),
            sold_for: sale.map(|s| s.price),
            search: search_text(entry),
        }
    }

    /// Days from buying to selling; none when sold before it was bought.
    pub fn days_to_sell(&self) -> Option<u32> {
        u32::try_from(self.sold_on?.days() - self.since?.days()).ok()
    }
}

/// Everything an entry is found by, as folded words.
pub fn search_text(entry: &Entry) -> String {
    let told = &entry.sighting;
    let verdict = entry.verdict.as_ref().map(|v| v.kind.as_str());
    let texts = [
        entry.id.as_str(),
        &entry.title,
        &told.notes,
        &told.mark,
        &entry.place,
        &entry.channel,
        &entry.remark,
        verdict.unwrap_or_default(),
    ];
    let findings = told
        .findings
        .iter()
        .filter_map(|f| Some(f.said.split_once('=')?.1));
    let all = texts
        .into_iter()
        .chain(findings)
        .chain(entry.condition.iter().map(String::as_str));
    let folded = all.flat_map(fold::plain);
    folded.collect::<Vec<_>>().join(" ")
}
