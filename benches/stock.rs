//! Speed of a stock book of 50,000 pieces. The aim is under 100 ms for each.
//!
//! `cargo bench --bench stock`; nothing here is a test.

use std::path::PathBuf;

use divan::{Bencher, black_box};
use printseam::Origin;
use printseam::internals::registry::calendar::Date;
use printseam::internals::stock::entry::{Entry, KeptFinding, KeptSighting, KeptVerdict, Sale};
use printseam::internals::stock::find::{Query, Sort};
use printseam::internals::stock::id::EntryId;
use printseam::internals::stock::sqlite::Sqlite;
use printseam::internals::stock::store::{Change, Store};

const PIECES: u64 = 50_000;

fn main() {
    divan::main();
    let _ = std::fs::remove_dir_all(folder());
}

fn folder() -> PathBuf {
    std::env::temp_dir().join(format!("printseam-bench-{}", std::process::id()))
}

/// A piece with about as much in it as a dealer writes down.
fn piece(n: u64) -> Entry {
    let pick = |of: &[&str], by: u64| of[((n / by) % of.len() as u64) as usize].to_owned();
    let kinds = [
        "flow-blue",
        "printed-blue",
        "decal",
        "painted-under",
        "revival-print",
    ];
    let finding = |said: &str| KeptFinding {
        said: said.to_owned(),
        origin: Origin::Hand,
    };
    let sold = n.is_multiple_of(3);
    Entry {
        // Spread by an odd factor, so that names don't come in order.
        id: EntryId::from_bits(n.wrapping_mul(0x9e37_79b9_7f4a_7c15)),
        added: Date::from_days(18_000 + (n / 30) as i32),
        title: format!(
            "{} {} {n}",
            pick(&["large", "small", "oval"], 1),
            pick(&["plate", "bowl", "cup", "jug"], 3)
        ),
        quantity: 1,
        sighting: KeptSighting {
            setting: "thrift-shelf".to_owned(),
            mark: pick(&["", "MADE IN ENGLAND", "IRONSTONE"], 7),
            mark_complete: false,
            notes: pick(
                &[
                    "dark blue willow, crazed",
                    "pink roses, gilt edge",
                    "brown castle",
                ],
                11,
            ),
            findings: [
                "edge=clouded",
                "print-colour=blue?",
                "subject=willow",
                "rim=scalloped",
            ]
            .map(finding)
            .to_vec(),
        },
        verdict: Some(KeptVerdict {
            kind: pick(&kinds, 5),
            kind_p: 0.8,
            from: 1840,
            to: 1890,
            median: 1865,
            rules: "0123456789abcdef".to_owned(),
        }),
        paid: Some((n % 5_000) as i64),
        asking: Some((n % 9_000) as i64),
        channel: pick(&["stall", "online"], 2),
        sale: sold.then(|| Sale {
            on: Date::from_days(18_040 + (n / 30) as i32).unwrap_or(Date::first_of(2026)),
            price: (n % 8_000) as i64,
            channel: String::new(),
        }),
        remark: "bought with the others from the same house".to_owned(),
        ..Entry::default()
    }
}

/// The book, made once.
fn book() -> PathBuf {
    static MADE: std::sync::OnceLock<PathBuf> = std::sync::OnceLock::new();
    let made = MADE.get_or_init(|| {
        let _ = std::fs::create_dir_all(folder());
        let path = folder().join("stock.db");
        let mut book = Sqlite::open(&path).unwrap_or_else(|e| panic!("{e}"));
        let all = (0..PIECES).map(|n| Change::New(piece(n))).collect();
        book.write(all).unwrap_or_else(|e| panic!("{e}"));
        path
    });
    made.clone()
}

#[divan::bench]
fn open(bencher: Bencher) {
    let path = book();
    bencher.bench(|| Sqlite::open(black_box(&path)).is_ok());
}

fn listing(bencher: Bencher, query: &Query) {
    let mut book = Sqlite::open(&book()).unwrap_or_else(|e| panic!("{e}"));
    bencher.bench_local(|| book.list(black_box(query)).map(|l| l.found));
}

#[divan::bench]
fn list_first_page(bencher: Bencher) {
    listing(
        bencher,
        &Query {
            take: 50,
            ..Query::default()
        },
    );
}

#[divan::bench]
fn list_dearest(bencher: Bencher) {
    let query = Query {
        sort: Sort::Paid,
        descending: true,
        take: 50,
        ..Query::default()
    };
    listing(bencher, &query);
}

#[divan::bench(args = ["willow", "wilow crazd", "nothing like it"])]
fn search(bencher: Bencher, words: &str) {
    let query = Query {
        words: words.to_owned(),
        take: 50,
        ..Query::default()
    };
    listing(bencher, &query);
}
