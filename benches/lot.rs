//! Rows a second of `lot`, on one core: a table with a column for each clue and twelve findings a row.
//!
//! `cargo bench --bench lot`; nothing here is a test. Quick answers of one table are kept for the next
//! (`core/kept_powers.rs`), as in a long table: the figures are those of a lot under way.

use divan::Bencher;
use divan::counter::ItemsCount;
use printseam::internals::buy::{Money, PriceModel, Terms, gist};
use printseam::internals::lot::answers::Form;
use printseam::internals::lot::row::Decision;
use printseam::internals::lot::stream::{Lot, open, run};
use printseam::internals::piece::Piece;
use printseam::internals::registry::calendar::Date;
use printseam::internals::rulebase::ids::SettingId;

mod invented_rows;
mod shipped_rules;
use invented_rows::{Rows, table};
use shipped_rules::expert;

/// Rows of one table.
const ROWS: u64 = 1000;

fn main() {
    divan::main();
}

/// Tables of these rows by one thread, by the usual terms and without sales.
fn judged(bencher: Bencher, rows: Rows, count: u64, asking: bool) {
    let expert = expert();
    let Some(guesses) = &expert.base.prices else {
        panic!("no prices")
    };
    let terms = Terms::usual(guesses, None);
    let model = PriceModel::new(guesses, &terms, &[], Date::first_of(2026));
    let decide = |piece: &Piece, asked: &str, _: &str| {
        let asked = Money::read_in(asked, terms.currency).map_err(|e| e.to_string())?;
        let gist = gist(piece, guesses, &terms, &model, asked).ok_or("no channel")?;
        Ok(Decision {
            advice: format!("{:?}", gist.advice),
            most_to_pay: gist.most_to_pay.amount(),
        })
    };
    let lot = Lot {
        expert: &expert,
        setting: SettingId(0),
        decide: &decide,
        form: Form::Csv,
    };
    let text = table(&expert, rows, (0, count), asking);
    let pool = rayon::ThreadPoolBuilder::new().num_threads(1).build();
    let Ok(pool) = pool else { panic!("no thread") };
    let whole = || {
        let Ok(table) = open(&expert, text.as_bytes()) else {
            panic!("first line")
        };
        run(&lot, table, &mut std::io::sink(), &|_| ()).map(|done| done.problems)
    };
    let problems = pool.install(whole);
    assert!(matches!(problems, Ok(0)), "{problems:?}");
    bencher
        .counter(ItemsCount::new(count))
        .bench_local(|| pool.install(whole));
}

#[divan::bench(args = [Rows::Drawn, Rows::Random], sample_count = 5, sample_size = 1)]
fn judgement(bencher: Bencher, rows: Rows) {
    judged(bencher, rows, ROWS, false);
}

/// With what is asked for each piece, and so the advice on it.
#[divan::bench(args = [Rows::Drawn, Rows::Random], sample_count = 3, sample_size = 1)]
fn advice(bencher: Bencher, rows: Rows) {
    judged(bencher, rows, 50, true);
}
