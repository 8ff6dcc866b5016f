//! The keys of the screens: those of the screen itself, then the letters offered there.

use super::popups::popup::{Effect, Opening};
use super::popups::{LETTERS, Letter};
use super::state::keys::KeyTable;
use super::state::msg::Msg;
use super::state::place::Screen;
use super::state::session::Session;
use super::views::{look, verdict, welcome};

/// Every key that works while nothing is open.
pub(super) fn screen_keys(session: &Session) -> KeyTable {
    let mut keys = match session.screen() {
        Screen::Welcome => welcome::keys(session),
        Screen::Look => look::keys(session),
        Screen::Verdict => verdict::keys(),
    };
    let offered = LETTERS.iter().filter_map(|letter| match letter {
        Letter::Order(order) | Letter::Opens(Opening { order, .. }) => order.binding(session),
    });
    keys.bindings.extend(offered);
    if session.stays {
        keys.bindings.retain(|b| b.msg != Msg::Aside);
    }
    keys
}

/// What a letter opens, where it is offered.
pub(super) fn open(session: &Session, letter: char) -> Effect {
    let opening = LETTERS.iter().find_map(|l| match l {
        Letter::Opens(opening) if opening.order.msg == Msg::Open(letter) => Some(opening),
        _ => None,
    });
    match opening.filter(|o| o.order.binding(session).is_some()) {
        Some(opening) => (opening.open)(session, &screen_keys(session)),
        None => Effect::Stay,
    }
}
