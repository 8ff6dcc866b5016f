//! Everything that can be asked of the screens.

use crate::core::grid::ClueId;

/// A key or a click in terms of what it asks for. Whatever has the keys takes of these what it
/// can use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Msg {
    /// Moves in whatever list or text is on top.
    Up,
    Down,
    /// Changes what the cursor is on, or goes to the corner on that side.
    Left,
    Right,
    PageUp,
    PageDown,
    First,
    Last,
    /// Puts the cursor on an item of the list on top.
    Cursor(usize),
    /// Chooses an item of the list on top.
    Choose(usize),
    /// Chooses what the cursor is on, or accepts what was typed.
    Take,
    Type(char),
    Erase,
    /// The next field of a form; from the mark, the diamond.
    Next,
    /// A field of the form on top.
    Field(usize),
    /// Begins with the setting under the cursor.
    Start,
    Undo,
    CantTell,
    Forget,
    /// Sure, unsure or a guess, for the next answer.
    Sureness,
    /// Which tools are at hand.
    Kit,
    /// Makes the best look left although it is worth little.
    GoOn,
    GoTo(ClueId),
    /// Opens the popup of this letter.
    Open(char),
    /// Explains one word of the glossary.
    Word(usize),
    Verdict,
    /// Back to the questions.
    Look,
    NewPiece,
    /// Closes the popup on top.
    Close,
    /// Leaves at once.
    Leave,
    /// Puts the program aside until the shell brings it back.
    Aside,
    /// A click that hits nothing.
    Nothing,
}
