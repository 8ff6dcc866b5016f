//! The stock book on the screens, driven by the store in memory through messages.

use printseam::internals::buy::{Currency, Terms};
use printseam::internals::registry::calendar::Date;
use printseam::internals::screens::app::App;
use printseam::internals::screens::kit::theme::Theme;
use printseam::internals::screens::state::input::{Input, keys};
use printseam::internals::screens::state::place::Screen;
use printseam::internals::screens::state::session::AtHand;
use printseam::internals::stock::entry::{Entry, Sale, Stage};
use printseam::internals::stock::id::EntryId;
use printseam::internals::stock::memory::Memory;
use printseam::internals::stock::store::{Answer, Change, Store, Trouble};
use ratatui::buffer::Buffer;

use crate::screens::{SIZES, drawn, small, text, title};
use crate::shipped::EXPERT;

const BIG: (u16, u16) = (120, 40);

/// What `main` hands the screens, always the same.
pub fn at_hand() -> AtHand {
    AtHand {
        today: Date::new(2026, 11, 26).unwrap(),
        chance: || 77,
        seconds: || 0,
    }
}

/// Three invented entries.
pub fn book() -> Memory {
    let entry = |n: u64, title: &str, paid: i64| Entry {
        id: EntryId::from_bits(n),
        added: Date::new(2026, 11, n as u8),
        title: title.to_owned(),
        quantity: 1,
        paid: Some(paid),
        channel: "stall".to_owned(),
        ..Entry::default()
    };
    let mut sold = entry(2, "Pink cup", 400);
    sold.sale = Date::new(2026, 11, 20).map(|on| Sale {
        on,
        price: 900,
        channel: String::new(),
    });
    let mut book = Memory::new();
    let all = [
        entry(1, "Blue plate", 1200),
        sold,
        entry(3, "Blue bowl", 700),
    ];
    book.write(all.into_iter().map(Change::New).collect())
        .unwrap();
    book
}

/// An app with the book after some keys.
fn played(book: &mut Memory, pressed: &str, size: (u16, u16)) -> (App, String) {
    let mut app = App::new(small(), Theme::mono()).with_stock(at_hand());
    let shown = with_book(&mut app, book, pressed, size);
    (app, text(&shown))
}

/// Presses keys, each after a frame; every message is answered before the next frame.
pub fn with_book(app: &mut App, book: &mut impl Store, pressed: &str, size: (u16, u16)) -> Buffer {
    deliver(app, book);
    let mut buffer = drawn(app, size);
    for key in keys(pressed).unwrap() {
        app.press(key);
        deliver(app, book);
        buffer = drawn(app, size);
    }
    buffer
}

/// Every message that waits is answered.
pub fn deliver(app: &mut App, book: &mut impl Store) {
    app.deliver(&mut |ask| book.answer(ask));
}

#[test]
fn the_book_is_searched_narrowed_down_and_added_up() {
    let (_, all) = played(&mut book(), "o", BIG);
    for text in [
        "all, by added: 3 found",
        "Blue plate",
        "Pink cup",
        "2 pieces held, 1 sold.",
        "stall: 1 sale for 9.00 USD, gain 5.00 USD",
    ] {
        assert!(all.contains(text), "{text}\n{all}");
    }
    let (_, found) = played(&mut book(), "obleu", BIG);
    assert!(
        found.contains("2 found; nearly these words") && !found.contains("Pink"),
        "{found}"
    );
    let (_, sold) = played(&mut book(), "o<right><right>", BIG);
    assert!(
        sold.contains("sold, by added: 1 found") && sold.contains("Pink cup"),
        "{sold}"
    );
    // By title: the bowl before the plate.
    let (_, by_title) = played(&mut book(), "o<tab>", BIG);
    assert!(
        by_title.find("Blue bowl") < by_title.find("Blue plate"),
        "{by_title}"
    );
}

#[test]
fn one_piece_is_shown_and_two_are_laid_side_by_side() {
    let (_, one) = played(&mut book(), "o<enter>", BIG);
    assert!(
        one.contains("Paid: 7.00 USD") && one.contains("Added: 2026-11-03"),
        "{one}"
    );
    let (_, two) = played(&mut book(), "o<enter>c<down><enter>", BIG);
    let paid = two.lines().find(|l| l.contains("paid")).unwrap();
    assert!(
        paid.contains('≠') && paid.contains("7.00") && paid.contains("4.00"),
        "{two}"
    );
    let channel = two
        .lines()
        .find(|l| l.contains("channel") && !l.contains("sold"))
        .unwrap();
    assert!(!channel.contains('≠'), "{two}");
}

#[test]
fn a_piece_is_kept_and_taken_up_again() {
    let mut book = book();
    let (app, _) = played(&mut book, "<enter><esc>01+<enter>", BIG);
    assert_eq!(title(&app), None);
    let id = EntryId::from_bits(77);
    let held = book.find(id.as_str()).unwrap();
    let entry = &held[0].entry;
    assert_eq!(entry.stage(), Stage::Draft);
    assert_eq!(entry.sighting.findings.len(), 1);
    let kept = app.piece().evidence().clone();
    // Another day: the newest line is the draft.
    let (app, _) = played(&mut book, "o<enter>t", BIG);
    assert_eq!(title(&app), None);
    assert_eq!(app.screen(), Screen::Look);
    assert_eq!(app.piece().evidence(), &kept);
    // What was begun of another piece is not said of this one.
    let begun = "<enter><esc>01slno mark<esc>";
    let (_, doubted) = played(&mut book, begun, BIG);
    assert!(doubted.contains("counts as unsure"), "{doubted}");
    let (_, sure) = played(&mut book, &format!("{begun}o<enter>t"), BIG);
    assert!(!sure.contains("counts as unsure"), "{sure}");
    let (_, line) = played(&mut book, &format!("{begun}o<enter>tl"), BIG);
    assert!(!line.contains("no mark_"), "{line}");
}

/// A list is asked for as soon as a text is pasted, and a price may be pasted too.
#[test]
fn text_is_pasted_into_the_book_and_the_price_paid() {
    let mut book = book();
    for (pressed, pasted, shown) in [
        ("o", "pink", "all, by added: 1 found"),
        ("<enter><esc>01+", "12.50", "Paid: 12.50_"),
    ] {
        let (mut app, _) = played(&mut book, pressed, BIG);
        app.handle(Input::Paste(pasted.to_owned()));
        deliver(&mut app, &mut book);
        let screen = text(&drawn(&mut app, BIG));
        assert!(screen.contains(shown), "{screen}");
    }
}

#[test]
fn a_piece_is_bought_for_what_is_typed() {
    let mut book = book();
    let (app, said) = played(&mut book, "<enter><esc>01+12.5x<enter>", BIG);
    assert_eq!(title(&app), Some("Into the stock book"));
    assert!(said.contains("is no amount"), "{said}");
    let (_, said) = played(&mut book, "<enter><esc>01+12.5<enter>", BIG);
    assert!(said.contains("Added: "), "{said}");
    let held = book.find(EntryId::from_bits(77).as_str()).unwrap();
    assert_eq!(held[0].entry.paid, Some(1250));
    assert_eq!(held[0].entry.stage(), Stage::Held);
}

#[test]
fn trouble_is_said_and_a_late_answer_is_dropped() {
    let mut app = App::new(small(), Theme::mono()).with_stock(at_hand());
    app.press(keys("o").unwrap()[0]);
    let (first, _) = app.messages().remove(0);
    app.press(keys("x").unwrap()[0]);
    let (second, _) = app.messages().remove(0);
    app.answered(first, Err(Trouble::Full("late.db".to_owned())));
    assert!(!text(&drawn(&mut app, BIG)).contains("late.db"));
    app.answered(second, Err(Trouble::Full("stock.db".to_owned())));
    assert!(text(&drawn(&mut app, BIG)).contains("stock.db: the disk is full"));
    // The answer to a book that was closed.
    app.press(keys("y").unwrap()[0]);
    let (third, _) = app.messages().remove(0);
    app.press(keys("<esc>").unwrap()[0]);
    app.answered(third, Ok(Answer::Written));
    assert_eq!(title(&app), None);
}

#[test]
fn the_book_fits_every_size() {
    for size in SIZES {
        for text in ["o", "o<enter>", "o<enter>c<down><enter>", "<enter><esc>01+"] {
            let (app, said) = played(&mut book(), text, size);
            assert!(
                title(&app).is_some() && said.contains("close"),
                "{size:?} {text}\n{said}"
            );
        }
    }
}

#[test]
fn without_a_book_no_key_leads_to_one() {
    let mut app = App::new(small(), Theme::mono());
    for key in keys("<enter><esc>01o+").unwrap() {
        app.press(key);
    }
    assert_eq!(title(&app), None);
    assert!(app.messages().is_empty());
}

#[test]
fn a_price_is_weighed_by_the_users_own_terms() {
    let said = |own: Option<Terms>| {
        let mut app = App::new(EXPERT.clone(), Theme::mono());
        app.set_terms(own);
        for key in keys("<enter><esc>vb12<enter>").unwrap() {
            app.press(key);
        }
        text(&drawn(&mut app, BIG))
    };
    let guesses = EXPERT.base.prices.clone().unwrap();
    let mut own = Terms::usual(&guesses, Currency::new("GBP"));
    own.channels.truncate(1);
    own.channels[0].name = "my barn".to_owned();
    let (usual, own) = (said(None), said(Some(own)));
    assert!(usual.contains("USD") && usual.contains("online"), "{usual}");
    assert!(own.contains("GBP") && own.contains("my barn"), "{own}");
    assert!(!own.contains("online"), "{own}");
}
