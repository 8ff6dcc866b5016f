//! What opens over a screen, each in a file of its own: its state, keys, update and view.
//!
//! | file | what |
//! |---|---|
//! | `popup` | what a popup is, and the effects it answers with |
//! | `jump` | any clue, by station, found by typing |
//! | `notes` | a line of notes turned into findings |
//! | `mark` | what stands on the back turned into findings |
//! | `diamond` | a registration diamond with its corners to type into; opened from the mark |
//! | `ticket` | somebody's date or kind put to the findings |
//! | `trial` | one finding flipped: before and after side by side |
//! | `setting` | where the piece was found |
//! | `words` | trade words explained |
//! | `show` | pictures of the findings of the question |
//! | `why` | why this question |
//! | `help` | keys and signs |
//! | `leave` | a last question before findings are lost |

pub mod diamond;
pub mod help;
pub mod jump;
pub mod leave;
pub mod mark;
pub mod notes;
pub mod popup;
pub mod setting;
pub mod show;
pub mod ticket;
pub mod trial;
pub mod why;
pub mod words;

use super::state::orders::{self, Order};
use popup::Opening;

/// A letter of the screens.
pub(super) enum Letter {
    Order(Order),
    Opens(Opening),
}

/// All letters of the screens, in the order of the footer: a popup joins here.
pub(super) static LETTERS: &[Letter] = &[
    Letter::Order(orders::UNDO),
    Letter::Order(orders::CANT_TELL),
    Letter::Opens(why::OPENING),
    Letter::Opens(show::OPENING),
    Letter::Order(orders::SURENESS),
    Letter::Order(orders::FORGET),
    Letter::Order(orders::BACK),
    Letter::Opens(jump::OPENING),
    Letter::Order(orders::VERDICT),
    Letter::Opens(notes::OPENING),
    Letter::Opens(mark::OPENING),
    Letter::Opens(trial::OPENING),
    Letter::Opens(ticket::OPENING),
    Letter::Opens(words::OPENING),
    Letter::Opens(setting::OPENING),
    Letter::Order(orders::NEW_PIECE),
    Letter::Opens(help::OPENING),
    Letter::Opens(leave::OPENING),
];
