//! Money in, money out, money held; by channel, with days to sell.

use std::collections::BTreeMap;

use super::entry::Stage;
use super::line::Line;
use crate::buy::Currency;

/// What lines add up to, a currency each: amounts of two are never added. Drafts don't count.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Totals {
    /// Pieces held and sold, whatever the currency.
    pub held: u64,
    pub sold: u64,
    pub by_currency: BTreeMap<Currency, Sums>,
}

/// Minor units of one currency.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sums {
    /// Paid for everything.
    pub paid: i64,
    /// Taken for what was sold, before fees and postage.
    pub taken: i64,
    /// Paid for what is still held.
    pub held: i64,
    /// Asked for what is still held.
    pub asked: i64,
    /// Taken less paid, of what was sold and has both.
    pub gained: i64,
    /// Sold, and not known what was paid.
    pub unpaid: u64,
    pub channels: BTreeMap<String, Channel>,
}

/// What was sold in one channel.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Channel {
    pub sales: u64,
    pub taken: i64,
    pub gained: i64,
    /// Days from buying to selling, in order.
    pub days: Vec<u32>,
}

impl Channel {
    /// The middle sale's days; of an even number the lower of the two in the middle.
    pub fn median_days(&self) -> Option<u32> {
        self.days.get(self.days.len().checked_sub(1)? / 2).copied()
    }
}

impl Totals {
    pub fn of(lines: &[Line]) -> Totals {
        let mut totals = Totals::default();
        for line in lines {
            match line.stage {
                Stage::Draft => continue,
                Stage::Held => totals.held += u64::from(line.quantity),
                Stage::Sold => totals.sold += u64::from(line.quantity),
            }
            totals
                .by_currency
                .entry(line.currency)
                .or_default()
                .add(line);
        }
        for channel in totals
            .by_currency
            .values_mut()
            .flat_map(|s| s.channels.values_mut())
        {
            channel.days.sort_unstable();
        }
        totals
    }
}

impl Sums {
    fn add(&mut self, line: &Line) {
        let paid = line.paid.unwrap_or(0);
        self.paid += paid;
        let Some(price) = line.sold_for else {
            self.held += paid;
            self.asked += line.asking.unwrap_or(0);
            return;
        };
        let channel = self.channels.entry(line.channel.clone()).or_default();
        self.taken += price;
        channel.taken += price;
        channel.sales += 1;
        channel.days.extend(line.days_to_sell());
        match line.paid {
            Some(paid) => {
                self.gained += price - paid;
                channel.gained += price - paid;
            }
            None => self.unpaid += 1,
        }
    }
}
