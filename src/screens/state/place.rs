//! Where the person is.

use crate::core::grid::ClueId;
use crate::core::observation::Sure;

/// What fills the window.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Screen {
    Welcome,
    /// One question at a time, the verdict in sight.
    Look,
    /// The whole account.
    Verdict,
}

/// Where the person is on the screens that ask. Kept with the piece, so that undo comes back here.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Place {
    /// A clue gone to by hand; `None` = the best next look.
    pub gone_to: Option<ClueId>,
    /// How sure the next answer is.
    pub sure: Sure,
    /// Item of the screen's list the cursor is on.
    pub cursor: usize,
    /// Figures of a year being typed.
    pub year: String,
}
