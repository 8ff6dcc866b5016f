//! Laws of the stock book: nothing is lost on the way through tables, objects and stores, and both
//! stores answer alike.

use printseam::internals::buy::Currency;
use printseam::internals::core::observation::Origin;
use printseam::internals::registry::calendar::Date;
use printseam::internals::stock::entry::{
    Entry, KeptDecision, KeptFinding, KeptSighting, KeptVerdict, Sale, TurnedOut,
};
use printseam::internals::stock::find::{Query, Sort};
use printseam::internals::stock::id::EntryId;
use printseam::internals::stock::memory::Memory;
use printseam::internals::stock::sqlite::Sqlite;
use printseam::internals::stock::store::{Ask, Change, Store};
use printseam::internals::stock::{objects, table};
use proptest::prelude::*;

use crate::commands::folder;

/// Texts with all that could go wrong in a table, an object or a terminal.
fn text() -> impl Strategy<Value = String> {
    let piece = prop::sample::select(vec![
        "=",
        "+",
        "-",
        "@",
        "'",
        "\"",
        ",",
        ";",
        "\n",
        "\r",
        "\t",
        "\u{1b}[2J",
        "\u{9b}",
        "é",
        "\u{feff}",
        "plate",
        " ",
        "|",
        "\\",
        "null",
        "1",
        "\u{1f}",
    ]);
    prop::collection::vec(piece, 0..5).prop_map(|parts| parts.concat())
}

fn day() -> impl Strategy<Value = Date> {
    (0_i32..60_000).prop_map(|days| Date::from_days(days).unwrap())
}

fn origin() -> impl Strategy<Value = Origin> {
    prop::sample::select(vec![
        Origin::Hand,
        Origin::Notes,
        Origin::Mark,
        Origin::Registration,
        Origin::File,
    ])
}

fn finding() -> impl Strategy<Value = KeptFinding> {
    let said = prop::sample::select(vec![
        "edge=clouded?",
        "print-colour=blue|black",
        "registered=1868",
    ]);
    (said, origin()).prop_map(|(said, origin)| KeptFinding {
        said: said.to_owned(),
        origin,
    })
}

fn verdict() -> impl Strategy<Value = KeptVerdict> {
    (0_u32..=1_000_000, 1750_i16..1900, 0_i16..100, text()).prop_map(|(p, from, more, rules)| {
        KeptVerdict {
            kind: "flow-blue".to_owned(),
            kind_p: f64::from(p) / 1e6,
            from,
            to: from + more,
            median: from + more / 2,
            rules,
        }
    })
}

fn sighting() -> impl Strategy<Value = KeptSighting> {
    (
        text(),
        text(),
        any::<bool>(),
        text(),
        prop::collection::vec(finding(), 0..3),
    )
        .prop_map(
            |(setting, mark, mark_complete, notes, findings)| KeptSighting {
                setting,
                mark,
                mark_complete,
                notes,
                findings,
            },
        )
}

type Rest = (
    Option<i64>,
    Option<i64>,
    Option<(Date, i64, String)>,
    Vec<String>,
    Option<(String, Option<i16>)>,
);

fn rest() -> impl Strategy<Value = Rest> {
    let amount = 0_i64..1_000_000;
    (
        prop::option::of(amount.clone()),
        prop::option::of(amount.clone()),
        prop::option::of((day(), amount, text())),
        prop::collection::vec(text(), 0..3),
        prop::option::of((text(), prop::option::of(1800_i16..1950))),
    )
}

fn entry() -> impl Strategy<Value = Entry> {
    let currency = prop::sample::select(vec!["USD", "JPY", "KWD"]);
    let times = (
        prop::option::of(day()),
        prop::option::of(day()),
        any::<bool>(),
        0_u32..5,
    );
    let told = (any::<u64>(), text(), text(), text(), text());
    (
        told,
        times,
        sighting(),
        prop::option::of(verdict()),
        rest(),
        currency,
    )
        .prop_map(
            |(
                (id, title, place, channel, remark),
                (added, bought_on, draft, quantity),
                sighting,
                verdict,
                rest,
                currency,
            )| {
                let (paid, asking, sale, lines, turned) = rest;
                let entry = Entry {
                    id: EntryId::from_bits(id),
                    added,
                    title,
                    draft,
                    quantity,
                    sighting,
                    verdict,
                    decision: asking.map(|most_to_pay| KeptDecision {
                        advice: "offer".to_owned(),
                        most_to_pay,
                    }),
                    photos: lines.clone(),
                    place,
                    bought_on,
                    currency: Currency::new(currency).unwrap(),
                    paid,
                    condition: vec!["chip".to_owned(), "hairline".to_owned()],
                    asking,
                    channel,
                    sale: sale.map(|(on, price, channel)| Sale { on, price, channel }),
                    remark,
                    turned_out: turned.map(|(by, from)| TurnedOut {
                        kind: "decal".to_owned(),
                        from,
                        to: from,
                        by,
                    }),
                    history: lines,
                };
                entry.cleaned()
            },
        )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn a_table_and_objects_give_back_what_was_put_in(entries in prop::collection::vec(entry(), 0..4)) {
        let usual = Currency::default();
        let (csv, json) = (table::write(&entries), objects::write(&entries));
        for rows in [table::read(csv.as_bytes(), usual), objects::read(json.as_bytes(), usual)] {
            let back: Vec<Entry> = rows.unwrap().into_iter().map(|r| r.entry.unwrap()).collect();
            prop_assert_eq!(&back, &entries);
            prop_assert_eq!(&table::write(&back), &csv);
            prop_assert_eq!(&objects::write(&back), &json);
        }
        // A spreadsheet finds no formula, a terminal no command.
        let mut reader = csv::Reader::from_reader(csv.as_bytes());
        for cell in reader.records().flat_map(|r| r.unwrap().iter().map(str::to_owned).collect::<Vec<_>>()) {
            prop_assert!(!cell.starts_with(['=', '+', '-', '@']), "{}", cell);
        }
        prop_assert!(!csv.chars().chain(json.chars()).any(|c| c.is_control() && c != '\n'));
    }

}

proptest! {
    // Every write waits for the disk.
    #![proptest_config(ProptestConfig::with_cases(16))]

    #[test]
    fn both_stores_answer_alike(entries in prop::collection::vec(entry(), 1..5), steps in prop::collection::vec((0_usize..6, any::<prop::sample::Index>(), any::<prop::sample::Index>()), 1..12)) {
        let path = folder("stock-alike").join("stock.db");
        let mut file = Sqlite::open(&path).unwrap();
        let mut memory = Memory::new();
        for (what, at, other) in steps {
            let held = memory.all().unwrap();
            let one = at.get(&entries).clone();
            let there = (!held.is_empty()).then(|| other.get(&held).clone());
            let change = match (what, there) {
                (0..=1, _) | (_, None) => vec![Change::New(one)],
                (2, Some(held)) => {
                    let changed = Entry { id: held.entry.id.clone(), ..one };
                    vec![Change::Replace(changed, held.revision)]
                }
                // A revision that is gone, after a change that could be made: neither is.
                (3, Some(held)) => vec![
                    Change::Remove(held.entry.id.clone(), held.revision, Date::first_of(2026)),
                    Change::PutBack(held.entry.id, held.revision),
                ],
                (4, Some(held)) => vec![Change::Remove(held.entry.id, held.revision, Date::first_of(2026))],
                (_, Some(held)) => vec![Change::PutBack(held.entry.id, held.revision)],
            };
            let write = Ask::Write(change);
            prop_assert_eq!(memory.answer(write.clone()), file.answer(write));
            for ask in [
                Ask::All,
                Ask::Find(entries[0].id.as_str()[..3].to_owned()),
                Ask::List(Query { words: "plate".to_owned(), ..Query::default() }),
                Ask::List(Query { sort: Sort::Paid, descending: true, take: 2, ..Query::default() }),
                Ask::List(Query { sort: Sort::Title, ..Query::default() }),
            ] {
                prop_assert_eq!(memory.answer(ask.clone()), file.answer(ask));
            }
        }
        // What a store says is what it holds when it is opened again.
        drop(file);
        let again = Sqlite::open(&path).unwrap().all();
        prop_assert_eq!(again, memory.all());
    }
}
