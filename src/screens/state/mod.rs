//! What the screens know and what can be asked of them; nothing here draws.
//!
//! | file | what |
//! |---|---|
//! | `input` | keys and clicks in our own words; key strings for tests |
//! | `msg` | everything that can be asked of the screens |
//! | `shown` | where the last frame put things |
//! | `position` | a cursor in a list, the top of a long text, and how they move |
//! | `typed_line` | one line being typed |
//! | `keys` | a table of keys: what each means, and what the footer says of it |
//! | `place` | which screen, which clue, where the cursor is |
//! | `session` | the piece, the place, and the one stack that undo goes back on |
//! | `changes` | every change of what is known of the piece |
//! | `save` | a file the screens want written |
//! | `orders` | the letters of the screens that open nothing |

mod changes;
pub mod input;
pub mod keys;
pub mod msg;
pub(super) mod orders;
pub mod place;
pub(super) mod position;
pub mod save;
pub mod session;
pub mod shown;
pub(super) mod typed_line;
