//! What is drawn of a session: the screens, and the parts they and the popups are made of.
//!
//! | file | what |
//! |---|---|
//! | `header`, `footer` | the line above, what is said after a message, the keys below |
//! | `bars` | kinds and places |
//! | `timeline` | curve, band, guess and findings on one axis of years |
//! | `findings` | a clue's findings as a numbered list |
//! | `under_words` | the words of a line with what was heard in each |
//! | `decoded_mark` | what a mark says |
//! | `welcome`, `look`, `verdict` | the screens, with the keys of their own |

pub(super) mod bars;
pub(super) mod decoded_mark;
pub(super) mod findings;
pub(super) mod footer;
pub(super) mod header;
pub(super) mod look;
pub(super) mod timeline;
pub(super) mod under_words;
pub(super) mod verdict;
pub(super) mod welcome;
