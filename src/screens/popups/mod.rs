//! What opens over a screen, each in a file of its own: its state, keys, update and view.
//!
//! | file | what |
//! |---|---|
//! | `popup` | what a popup is, and the effects it answers with |
//! | `glance` | what strikes the eye at arm's length, ticked |
//! | `jump` | any clue, by station, found by typing |
//! | `notes` | a line of notes turned into findings |
//! | `mark` | what stands on the back turned into findings |
//! | `diamond` | a registration diamond with its corners to type into; opened from the mark |
//! | `ticket` | somebody's date or kind put to the findings |
//! | `shelf` | a price asked: buy it or leave it |
//! | `trial` | one finding flipped: before and after side by side |
//! | `setting` | where the piece was found |
//! | `stock` | the stock book: found, narrowed down, looked at, two side by side |
//! | `into_stock` | the piece on the table into the stock book |
//! | `drill` | lessons and drills, over the whole window |
//! | `words` | trade words explained |
//! | `show` | pictures of the findings of the question |
//! | `why` | why this question |
//! | `help` | keys and signs |
//! | `find` | a finding of the open question, found by typing |
//! | `keep` | the piece in a file: what was seen, or a page |
//! | `ask_first` | a last question before findings are lost or put away |
//! | `remarks` | what a file was understood to say |

pub mod ask_first;
pub mod diamond;
pub mod drill;
pub mod find;
pub mod glance;
pub mod help;
pub mod into_stock;
pub mod jump;
pub mod keep;
pub mod mark;
pub mod notes;
pub mod popup;
pub mod remarks;
pub mod setting;
pub mod shelf;
pub mod show;
pub mod stock;
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
/// Where the footer has no room for all, the last ones stand in the help.
pub(super) static LETTERS: &[Letter] = &[
    Letter::Order(orders::CANT_TELL),
    Letter::Opens(find::OPENING),
    Letter::Order(orders::UNDO),
    Letter::Opens(why::OPENING),
    Letter::Opens(show::OPENING),
    Letter::Order(orders::SURENESS),
    Letter::Order(orders::FORGET),
    Letter::Order(orders::BACK),
    Letter::Opens(glance::OPENING),
    Letter::Order(orders::VERDICT),
    Letter::Opens(notes::OPENING),
    Letter::Opens(mark::OPENING),
    Letter::Opens(jump::OPENING),
    Letter::Opens(ticket::OPENING),
    Letter::Opens(trial::OPENING),
    Letter::Opens(shelf::OPENING),
    Letter::Opens(into_stock::OPENING),
    Letter::Opens(stock::OPENING),
    Letter::Opens(words::OPENING),
    Letter::Opens(setting::OPENING),
    Letter::Order(orders::KIT),
    Letter::Opens(keep::OPENING),
    Letter::Opens(ask_first::NEW_PIECE),
    Letter::Opens(drill::OPENING),
    Letter::Opens(ask_first::LEAVE),
    Letter::Opens(help::OPENING),
];
