//! What a message changes on a screen while nothing is open over it.

use super::state::msg::Msg;
use super::state::place::Screen;
use super::state::session::Session;
use crate::core::grid::FindingId;
use crate::core::observation::Observed;

/// Carries out what was asked; what is no business of the screens is passed over.
pub(super) fn update(session: &mut Session, msg: Msg) {
    match msg {
        Msg::Choose(i) => {
            session.step(Msg::Cursor(i));
            take(session);
        }
        Msg::Take => take(session),
        Msg::Type(c) => session.type_figure(c),
        Msg::Erase => session.erase_figure(),
        Msg::Start => session.start(),
        Msg::Undo => session.undo(),
        Msg::CantTell => session.answer(Observed::CantTell),
        Msg::Forget => session.forget(),
        Msg::Sureness => session.next_sureness(),
        Msg::Kit => session.next_kit(),
        Msg::GoOn => {
            if let Some(look) = session.piece().advice().looks.first().copied() {
                session.look(Some(look.clue));
            }
        }
        Msg::GoTo(clue) => session.look(Some(clue)),
        Msg::Verdict => session.judge(),
        Msg::Look => session.look(None),
        Msg::NewPiece => session.new_piece(),
        _ => session.step(msg),
    }
}

/// Chooses what the cursor is on, or accepts the year typed.
fn take(session: &mut Session) {
    match session.screen() {
        Screen::Welcome => session.start(),
        Screen::Look if session.clue().is_none() => session.judge(),
        Screen::Look if session.asks_year() => session.answer_year(),
        Screen::Look => {
            let cursor = session.place().cursor;
            if cursor < session.items() {
                session.answer(Observed::Finding(FindingId(cursor as u16)));
            }
        }
        Screen::Verdict => {}
    }
}
