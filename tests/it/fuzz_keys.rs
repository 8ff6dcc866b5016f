//! Whatever is pressed, tapped or typed, at whatever window size: nothing panics, and undo always
//! leads back to a piece of which nothing has been seen.

use printseam::internals::screens::app::App;
use printseam::internals::screens::kit::theme::Theme;
use printseam::internals::screens::state::input::{Input, Key};
use proptest::prelude::*;

use crate::keys::MOVES;
use crate::screens::{frame, small};
use crate::shipped::expert;
use crate::stock_screens::{at_hand, book, deliver};

/// Keys people press, orders more often than letters.
fn key() -> impl Strategy<Value = Key> {
    let orders = "?xsujvlmwtgcknhofyepiabd+ /0123456789";
    let orders: Vec<Key> = orders.chars().map(Key::Char).collect();
    prop_oneof![
        4 => prop::sample::select(orders),
        3 => prop::sample::select(&MOVES[..]),
        1 => any::<char>().prop_map(Key::Char),
    ]
}

fn input() -> impl Strategy<Value = Input> {
    prop_oneof![
        6 => key().prop_map(Input::Key),
        1 => (0u16..140, 0u16..50).prop_map(|(x, y)| Input::Click { x, y }),
        1 => any::<bool>().prop_map(|down| Input::Wheel { down }),
        1 => ".{0,40}".prop_map(Input::Paste),
    ]
}

fn play(app: App, inputs: &[Input], sizes: &[(u16, u16)]) {
    let (mut app, mut book) = (app.with_stock(at_hand()), book());
    for (i, input) in inputs.iter().enumerate() {
        app.handle(input.clone());
        deliver(&mut app, &mut book);
        if app.done {
            return;
        }
        let (_, shown) = frame(&app, sizes[i % sizes.len()]);
        app.drawn(shown);
    }
    for _ in 0..10 {
        app.press(Key::Esc);
    }
    for _ in 0..inputs.len() {
        app.press(Key::Char('u'));
        // A question about leaving may be open.
        app.press(Key::Esc);
    }
    assert!(app.piece().evidence().is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_keys_bring_the_small_rules_down(
        inputs in prop::collection::vec(input(), 1..120),
        sizes in prop::collection::vec((0u16..140, 0u16..50), 1..6),
    ) {
        play(App::new(small(), Theme::mono()), &inputs, &sizes);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_keys_bring_the_shipped_rules_down(
        inputs in prop::collection::vec(input(), 1..60),
        sizes in prop::collection::vec((44u16..120, 20u16..40), 1..4),
    ) {
        play(App::new(expert(), Theme::mono()), &inputs, &sizes);
    }
}
