//! What happens to entries: sold, taken back, priced, a price split over several. Each gives the
//! entry as it is afterwards, with a line of history, or a sentence why it can't be.

use super::entry::{Entry, Sale, Stage};
use super::id::EntryId;
use super::shares::shares;
use crate::buy::Money;
use crate::piece::notation::Refused;
use crate::registry::calendar::Date;

/// How the price of a box is split over the pieces in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Split {
    /// The same for every piece; an entry of six plates takes six shares.
    Evenly,
    /// In proportion to what is asked for each entry.
    ByAsking,
}

fn refused<T>(why: String) -> Result<T, Refused> {
    Err(Refused(why))
}

/// Sold, all of it.
///
/// # Errors
/// When it is sold already, a draft, not yet bought on that day, or the price is in another currency.
pub fn sell(entry: &Entry, on: Date, price: Money, channel: &str) -> Result<Entry, Refused> {
    match entry.stage() {
        Stage::Sold => {
            return refused(format!(
                "{} is sold already; printseam stock unsold {0} undoes that sale",
                entry.id
            ));
        }
        Stage::Draft => {
            return refused(format!(
                "{} was looked at and not bought; printseam stock edit {0} --bought takes it into the stock",
                entry.id
            ));
        }
        Stage::Held => {}
    }
    if let Some(bought) = entry.bought_on.filter(|bought| on < *bought) {
        return refused(format!("{} was bought on {bought}, after {on}", entry.id));
    }
    let mut sold = entry.clone();
    set_currency(&mut sold, price)?;
    let channel = match channel {
        "" => entry.channel.clone(),
        named => named.to_owned(),
    };
    sold.history.push(format!("{on} sold for {price}"));
    sold.sale = Some(Sale {
        on,
        price: price.minor,
        channel,
    });
    Ok(sold)
}

/// Some of several alike sold: what stays, and the sold ones as an entry of their own. What was
/// paid and is asked is split by number.
///
/// # Errors
/// As `sell`, and when there are not more than so many.
pub fn sell_some(
    entry: &Entry,
    count: u32,
    id: EntryId,
    sale: (Date, Money, &str),
) -> Result<(Entry, Entry), Refused> {
    let have = entry.count();
    if count == 0 || count >= have {
        return refused(match have {
            1 => format!("{} is one piece; sell it without a number", entry.id),
            _ => format!(
                "{} holds {have}; to sell some of them name a number from 1 to {}, to sell all none",
                entry.id,
                have - 1
            ),
        });
    }
    let (on, price, channel) = sale;
    let (mut stays, mut goes) = (entry.clone(), entry.clone());
    let weights = [u64::from(have - count), u64::from(count)];
    let part = |amount: Option<i64>, which: usize| amount.map(|a| shares(a, &weights)[which]);
    for (which, part_of) in [&mut stays, &mut goes].into_iter().enumerate() {
        part_of.paid = part(entry.paid, which);
        part_of.asking = part(entry.asking, which);
    }
    (stays.quantity, goes.quantity) = (have - count, count);
    stays
        .history
        .push(format!("{on} {count} of {have} sold, as {id}"));
    goes.history
        .push(format!("{on} {count} of {have} taken from {}", entry.id));
    goes.id = id;
    let goes = sell(&goes, on, price, channel)?;
    Ok((stays, goes))
}

/// The sale was written down by mistake.
///
/// # Errors
/// When it is not sold.
pub fn unsell(entry: &Entry, today: Date) -> Result<Entry, Refused> {
    let sale = sale_of(entry)?;
    let mut back = entry.clone();
    back.sale = None;
    let price = entry.money(sale.price);
    back.history
        .push(format!("{today} sale of {} for {price} undone", sale.on));
    Ok(back)
}

/// The buyer brought it back and has the money again.
///
/// # Errors
/// When it is not sold, or came back before it was sold.
pub fn take_back(entry: &Entry, on: Date) -> Result<Entry, Refused> {
    let sale = sale_of(entry)?;
    if on < sale.on {
        return refused(format!("{} was sold on {}, after {on}", entry.id, sale.on));
    }
    let mut back = entry.clone();
    back.sale = None;
    let price = entry.money(sale.price);
    back.history
        .push(format!("{on} returned; sold on {} for {price}", sale.on));
    Ok(back)
}

fn sale_of(entry: &Entry) -> Result<&Sale, Refused> {
    entry
        .sale
        .as_ref()
        .ok_or_else(|| Refused(format!("{} is not sold", entry.id)))
}

/// Another price is asked.
///
/// # Errors
/// When the price is in another currency.
pub fn ask_price(entry: &Entry, asking: Money, on: Date) -> Result<Entry, Refused> {
    let mut priced = entry.clone();
    set_currency(&mut priced, asking)?;
    let was = entry
        .asking
        .map_or("nothing".to_owned(), |a| entry.money(a).to_string());
    priced.asking = Some(asking.minor);
    if entry.asking != priced.asking {
        priced
            .history
            .push(format!("{on} asking {asking}, was {was}"));
    }
    Ok(priced)
}

/// One price paid for several entries together.
///
/// # Errors
/// Fewer than two entries, one named twice, another currency, or nothing asked to split by.
pub fn split_price(
    entries: &[Entry],
    paid: Money,
    how: Split,
    on: Date,
) -> Result<Vec<Entry>, Refused> {
    if entries.len() < 2 {
        return refused("name at least two pieces to split a price over".to_owned());
    }
    for (i, entry) in entries.iter().enumerate() {
        if entries[..i].iter().any(|e| e.id == entry.id) {
            return refused(format!("{} is named twice", entry.id));
        }
    }
    let weight = |entry: &Entry| match how {
        Split::Evenly => Ok(u64::from(entry.count())),
        Split::ByAsking => match entry.asking {
            Some(asking) if asking > 0 => Ok(asking.unsigned_abs()),
            _ => refused(format!(
                "nothing is asked for {}: set its price, or split evenly",
                entry.id
            )),
        },
    };
    let weights: Vec<u64> = entries.iter().map(weight).collect::<Result<_, _>>()?;
    let parts = shares(paid.minor, &weights);
    let of = |(entry, part): (&Entry, i64)| {
        let mut changed = entry.clone();
        changed.paid = None;
        set_currency(&mut changed, paid)?;
        changed.paid = Some(part);
        let share = changed.money(part);
        changed.history.push(format!(
            "{on} paid {share} of {paid} for {} together",
            entries.len()
        ));
        Ok(changed)
    };
    entries.iter().zip(parts).map(of).collect()
}

/// The currency of an amount given; it becomes the entry's where the entry has no amount yet.
///
/// # Errors
/// When the entry's amounts are in another.
pub fn set_currency(entry: &mut Entry, money: Money) -> Result<(), Refused> {
    let has_none = entry.paid.is_none() && entry.asking.is_none() && entry.sale.is_none();
    if has_none {
        entry.currency = money.currency;
    }
    same_currency(entry, money)
}

fn same_currency(entry: &Entry, money: Money) -> Result<(), Refused> {
    if entry.currency == money.currency {
        return Ok(());
    }
    refused(format!(
        "{money}: the amounts of this piece are in {}; change the amount into it first",
        entry.currency
    ))
}

#[cfg(test)]
mod tests {
    use super::{Split, sell, sell_some, split_price, take_back, unsell};
    use crate::buy::{Currency, Money};
    use crate::registry::calendar::Date;
    use crate::stock::entry::Entry;
    use crate::stock::id::EntryId;

    fn usd(minor: i64) -> Money {
        Money {
            minor,
            currency: Currency::default(),
        }
    }

    fn day(day: u8) -> Date {
        Date::new(2026, 11, day).unwrap()
    }

    fn six() -> Entry {
        Entry {
            id: EntryId::from_bits(1),
            quantity: 6,
            paid: Some(1000),
            asking: Some(4800),
            ..Entry::default()
        }
    }

    #[test]
    fn selling_some_splits_what_was_paid_and_loses_no_cent() {
        let (stays, goes) = sell_some(
            &six(),
            2,
            EntryId::from_bits(2),
            (day(3), usd(1500), "fair"),
        )
        .unwrap();
        assert_eq!((stays.quantity, goes.quantity), (4, 2));
        assert_eq!((stays.paid, goes.paid), (Some(667), Some(333)));
        assert_eq!((stays.asking, goes.asking), (Some(3200), Some(1600)));
        assert_eq!(goes.profit(), Some(1167));
        assert!(stays.sale.is_none());
        let of = |entry: &Entry, n| {
            let sale = (day(3), usd(1), "");
            let refused = sell_some(entry, n, EntryId::from_bits(2), sale);
            refused.unwrap_err().to_string()
        };
        assert!(of(&six(), 6).contains("from 1 to 5"));
        assert!(of(&six(), 0).contains("from 1 to 5"));
        let one = Entry::default();
        assert!(of(&one, 2).contains("is one piece"), "{}", of(&one, 2));
    }

    #[test]
    fn nothing_is_sold_before_it_was_bought() {
        let bought = Entry {
            bought_on: Some(day(4)),
            ..six()
        };
        let refused = sell(&bought, day(3), usd(1), "").unwrap_err();
        assert!(refused.to_string().contains("was bought on 2026-11-04"));
        assert!(sell(&bought, day(4), usd(1), "").is_ok());
    }

    #[test]
    fn a_sale_is_undone_or_taken_back_and_remembered() {
        let sold = sell(&six(), day(3), usd(5000), "").unwrap();
        assert!(sell(&sold, day(4), usd(1), "").is_err());
        assert!(take_back(&sold, day(2)).is_err());
        for back in [
            unsell(&sold, day(5)).unwrap(),
            take_back(&sold, day(5)).unwrap(),
        ] {
            assert_eq!(back.sale, None);
            assert_eq!(back.history.len(), 2);
            assert!(back.history[1].contains("50.00 USD"), "{}", back.history[1]);
        }
        assert!(unsell(&six(), day(5)).is_err());
        let pounds = Money::read("£3", Currency::default()).unwrap();
        assert!(sell(&six(), day(3), pounds, "").is_err());
    }

    #[test]
    fn a_box_is_split_by_number_or_by_what_is_asked() {
        let one = Entry {
            id: EntryId::from_bits(9),
            asking: Some(1200),
            ..Entry::default()
        };
        let paid = |how| {
            let split = split_price(&[six(), one.clone()], usd(3000), how, day(1)).unwrap();
            split.iter().filter_map(|e| e.paid).collect::<Vec<_>>()
        };
        assert_eq!(paid(Split::Evenly), [2571, 429]);
        assert_eq!(paid(Split::ByAsking), [2400, 600]);
        assert!(split_price(&[six(), six()], usd(1), Split::Evenly, day(1)).is_err());
        assert!(split_price(&[six()], usd(1), Split::Evenly, day(1)).is_err());
    }
}
